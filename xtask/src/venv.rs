//! Python with the pinned packages that the oracles of the tests need.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::dist::hash;
use crate::tools::{self, Tree};

/// Makes `target/venv` unless it holds these requirements already; gives its python.
pub fn ensure(tree: &Tree) -> Result<PathBuf> {
    let requirements = tree.root.join("tests/oracles/requirements.txt");
    let text = fs::read(&requirements)
        .with_context(|| format!("cannot read {}", requirements.display()))?;
    let folder = tree.target.join("venv");
    let python = folder.join("bin/python");
    let stamp = folder.join("requirements.stamp");
    let wanted = hash([text.as_slice()]);
    if python.exists() && fs::read_to_string(&stamp).is_ok_and(|had| had == wanted) {
        return Ok(python);
    }
    let base = base_python()?;
    eprintln!("xtask: making {} (Python for the tests)", folder.display());
    tools::must(
        Command::new(base)
            .args(["-m", "venv", "--clear"])
            .arg(&folder),
        "python3 -m venv",
    )?;
    let mut pip = Command::new(&python);
    pip.args([
        "-m",
        "pip",
        "install",
        "--quiet",
        "--disable-pip-version-check",
    ]);
    pip.args(["--only-binary", ":all:", "--requirement"])
        .arg(&requirements);
    tools::must(
        &mut pip,
        "pip install of tests/oracles/requirements.txt (is there a network?)",
    )?;
    fs::write(&stamp, wanted).with_context(|| format!("cannot write {}", stamp.display()))?;
    Ok(python)
}

/// A Python that can make virtual environments.
fn base_python() -> Result<&'static Path> {
    let candidates = [Path::new("python3"), Path::new("/usr/bin/python3")];
    let able = || candidates.into_iter().find(|python| can_make_venv(python));
    if let Some(python) = able() {
        return Ok(python);
    }
    if tools::apt_install("python3-venv")?
        && let Some(python) = able()
    {
        return Ok(python);
    }
    bail!(
        "Python cannot make a virtual environment: install python3 with venv (Debian: apt-get install python3-venv)"
    )
}

fn can_make_venv(python: &Path) -> bool {
    tools::succeeds(Command::new(python).args(["-c", "import venv, ensurepip"]))
}
