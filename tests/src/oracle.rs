//! Python oracles: independent answers from scripts in `tests/oracles/`.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The workspace's root.
fn root() -> PathBuf {
    let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
    tests.parent().unwrap_or(tests).to_path_buf()
}

/// The interpreter: `RAKELINE_PYTHON`, else the one in `target/venv`.
fn interpreter() -> PathBuf {
    match std::env::var_os("RAKELINE_PYTHON") {
        Some(path) => PathBuf::from(path),
        None => root().join("target/venv/bin/python"),
    }
}

/// Runs `tests/oracles/<script>` with `input` as JSON on its standard input
/// and gives the JSON that it prints.
///
/// # Panics
/// When the interpreter is missing or the script fails: a test cannot go on
/// without its oracle.
#[must_use]
#[allow(clippy::panic, reason = "for tests only: they stop here")]
pub fn run(script: &str, input: &serde_json::Value) -> serde_json::Value {
    let python = interpreter();
    let path = root().join("tests/oracles").join(script);
    let child = Command::new(&python)
        .arg(&path)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let mut child = match child {
        Ok(child) => child,
        Err(e) => panic!(
            "{} does not start ({e}): run cargo xtask venv",
            python.display()
        ),
    };
    if let Some(mut stdin) = child.stdin.take()
        && let Err(e) = stdin.write_all(input.to_string().as_bytes())
    {
        panic!("{script} does not take its input: {e}");
    }
    let output = match child.wait_with_output() {
        Ok(output) => output,
        Err(e) => panic!("{script} does not end: {e}"),
    };
    let said = String::from_utf8_lossy(&output.stderr);
    if !output.status.success() {
        panic!("{script} failed (packages missing? run cargo xtask venv):\n{said}");
    }
    match serde_json::from_slice(&output.stdout) {
        Ok(value) => value,
        Err(e) => panic!("{script} printed no JSON: {e}\n{said}"),
    }
}
