//! Python as a second opinion: scripts in `tests/oracles` read one JSON
//! value on standard input and print one.

use std::io::Write;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use serde_json::Value;

/// Runs `tests/oracles/<script>` with the interpreter in `RAKELINE_PYTHON`,
/// else that of `target/venv`.
///
/// # Errors
/// What went wrong, with the script's own words.
pub fn run(script: &str, input: &Value) -> Result<Value, String> {
    let tests = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let python = std::env::var_os("RAKELINE_PYTHON")
        .map_or_else(|| tests.join("../target/venv/bin/python"), PathBuf::from);
    let mut child = Command::new(&python)
        .arg(tests.join("oracles").join(script))
        .env("OPENBLAS_NUM_THREADS", "1")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .map_err(|fault| format!("{}: {fault}; run `cargo xtask venv`", python.display()))?;
    let text = input.to_string();
    let writer = child
        .stdin
        .take()
        .map(|mut stdin| std::thread::spawn(move || stdin.write_all(text.as_bytes())));
    let output = child
        .wait_with_output()
        .map_err(|fault| fault.to_string())?;
    if let Some(writer) = writer {
        let _ = writer.join();
    }
    if !output.status.success() {
        return Err(String::from_utf8_lossy(&output.stderr).into_owned());
    }
    serde_json::from_slice(&output.stdout).map_err(|fault| format!("{script}: {fault}"))
}
