//! The same list out of Python, by the module that `cargo xtask bindings
//! python` leaves.

use std::path::PathBuf;
use std::process::Command;

use crate::fixtures::root;
use crate::vectors::expected;

fn bindings() -> PathBuf {
    match std::env::var_os("RAKELINE_BINDINGS") {
        Some(folder) => folder.into(),
        None => root().join("target/python"),
    }
}

fn python(script: &str) -> String {
    let named = std::env::var_os("RAKELINE_PYTHON");
    let interpreter = named.unwrap_or_else(|| "python3".into());
    let output = Command::new(interpreter)
        .arg(root().join(script))
        .env("PYTHONPATH", bindings())
        .env("PYTHONDONTWRITEBYTECODE", "1")
        .current_dir(root())
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{script} failed (run cargo xtask bindings python):\n{}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn python_computes_what_rust_computes() {
    let said = python("tests/ffi/vectors.py");
    let rust = expected();
    for (python, rust) in said.lines().zip(rust.lines()) {
        assert_eq!(python, rust);
    }
    assert_eq!(said.lines().count(), rust.lines().count());
}

#[test]
fn the_script_of_the_readme_runs() {
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    let (_, rest) = readme.split_once("```python\n").unwrap();
    let (script, _) = rest.split_once("```").unwrap();
    let file = std::env::temp_dir().join(format!("rakeline-readme-{}.py", std::process::id()));
    std::fs::write(&file, script).unwrap();
    let said = python(file.to_str().unwrap());
    std::fs::remove_file(&file).unwrap();
    // A ring, four marks and a width between the outer two.
    assert_eq!(said.lines().count(), 3, "{said}");
    assert!(said.contains("mm ±"), "{said}");
}
