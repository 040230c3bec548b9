//! The workspace and the tools around it: cargo, rustup, apt, programs in PATH.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};
use serde_json::Value;

/// The target of the web app.
pub const WASM: &str = "wasm32-unknown-unknown";

/// Where things lie, as cargo tells.
pub struct Tree {
    /// Folder of the workspace.
    pub root: PathBuf,
    /// Cargo's target folder.
    pub target: PathBuf,
    /// The bench targets of the tests package.
    pub benches: Vec<Bench>,
}

/// A bench target.
#[derive(Debug, PartialEq, Eq)]
pub struct Bench {
    /// Its name, which is its suite's.
    pub name: String,
    /// The features of the tests package that it needs, as cargo wants them, comma between.
    pub features: String,
}

impl Tree {
    /// Asks cargo.
    pub fn find() -> Result<Self> {
        let asked = cargo(Path::new(env!("CARGO_MANIFEST_DIR")))
            .args(["metadata", "--no-deps", "--format-version", "1"])
            .stderr(Stdio::inherit())
            .output()
            .context("cannot start cargo")?;
        if !asked.status.success() {
            bail!("cargo metadata failed; see the lines above");
        }
        Self::read(&asked.stdout)
    }

    fn read(metadata: &[u8]) -> Result<Self> {
        let data: Value =
            serde_json::from_slice(metadata).context("cargo metadata is unreadable")?;
        let folder = |key: &str| -> Result<PathBuf> {
            let word = data[key].as_str();
            Ok(word
                .with_context(|| format!("cargo metadata lacks {key}"))?
                .into())
        };
        let targets = list(&data["packages"])
            .filter(|package| package["name"] == "rakeline-tests")
            .flat_map(|package| list(&package["targets"]));
        let benches = targets
            .filter(|target| list(&target["kind"]).any(|kind| kind == "bench"))
            .filter_map(|target| {
                let features: Vec<&str> = list(&target["required-features"])
                    .filter_map(Value::as_str)
                    .collect();
                Some(Bench {
                    name: target["name"].as_str()?.to_owned(),
                    features: features.join(","),
                })
            })
            .collect();
        Ok(Self {
            root: folder("workspace_root")?,
            target: folder("target_directory")?,
            benches,
        })
    }

    /// Cargo, started in the workspace.
    pub fn cargo(&self) -> Command {
        cargo(&self.root)
    }
}

fn list(value: &Value) -> impl Iterator<Item = &Value> {
    value.as_array().into_iter().flatten()
}

/// The cargo that started us, without what it told us about our own package.
fn cargo(folder: &Path) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(folder);
    for (key, _) in std::env::vars_os() {
        let name = key.to_string_lossy();
        if name.starts_with("CARGO_PKG_") || name.starts_with("CARGO_MANIFEST_") {
            command.env_remove(&key);
        }
    }
    command
}

/// Runs a command with its output shown; `Err` says what failed.
pub fn must(command: &mut Command, what: &str) -> Result<()> {
    let status = command
        .status()
        .with_context(|| format!("{what}: cannot start {}", command.get_program().display()))?;
    if !status.success() {
        bail!("{what} failed; see the lines above");
    }
    Ok(())
}

/// Whether a command can be started and ends well; its output is dropped.
pub fn succeeds(command: &mut Command) -> bool {
    command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success())
}

/// First program of these names in PATH.
pub fn in_path(names: &[&str]) -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    find_program(&path, names)
}

fn find_program(path: &OsStr, names: &[&str]) -> Option<PathBuf> {
    names.iter().find_map(|name| {
        std::env::split_paths(path)
            .map(|folder| folder.join(name))
            .find(|file| file.is_file())
    })
}

/// Adds the wasm target when it is missing.
pub fn ensure_wasm_target(tree: &Tree) -> Result<()> {
    ensure_target(tree, WASM)
}

/// Adds a target when it is missing.
pub fn ensure_target(tree: &Tree, target: &str) -> Result<()> {
    let asked = Command::new("rustc")
        .args(["--print", "target-libdir", "--target", target])
        .current_dir(&tree.root)
        .output()
        .context("cannot start rustc")?;
    let folder = String::from_utf8_lossy(&asked.stdout);
    if asked.status.success() && Path::new(folder.trim()).is_dir() {
        return Ok(());
    }
    if in_path(&["rustup"]).is_none() {
        bail!(
            "the target {target} is missing and so is rustup: install rustup, or the target with your Rust"
        );
    }
    eprintln!("xtask: adding the target {target}");
    let mut add = Command::new("rustup");
    add.args(["target", "add", target]).current_dir(&tree.root);
    must(
        &mut add,
        &format!("rustup target add {target} (is there a network?)"),
    )
}

/// Installs a Debian package when that can be done without asking; `Ok(false)` when it cannot.
pub fn apt_install(package: &str) -> Result<bool> {
    let debian = Path::new("/etc/debian_version").exists() && in_path(&["apt-get"]).is_some();
    if !debian || !is_root() {
        return Ok(false);
    }
    eprintln!("xtask: installing {package} with apt-get");
    let apt = |args: &[&str]| {
        let mut command = Command::new("apt-get");
        command.args(args).env("DEBIAN_FRONTEND", "noninteractive");
        command.stdin(Stdio::null()).stdout(Stdio::null());
        command
    };
    let install = ["install", "-y", "--no-install-recommends", package];
    if !succeeds(&mut apt(&install)) {
        must(
            &mut apt(&["update", "-q"]),
            "apt-get update (is there a network?)",
        )?;
        must(&mut apt(&install), &format!("apt-get install {package}"))?;
    }
    Ok(true)
}

fn is_root() -> bool {
    let asked = Command::new("id").arg("-u").output();
    asked.is_ok_and(|asked| asked.stdout.trim_ascii() == b"0")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn benches_are_those_of_the_tests_package_only() {
        let metadata = br#"{"workspace_root": "/r", "target_directory": "/r/t", "packages": [
            {"name": "other", "targets": [{"name": "no", "kind": ["bench"]}]},
            {"name": "rakeline-tests", "targets": [
                {"name": "first", "kind": ["bench"], "required-features": ["shell", "browser"]},
                {"name": "tilt", "kind": ["bench"]}, {"name": "tidy", "kind": ["test"]}]}]}"#;
        let tree = Tree::read(metadata).unwrap();
        let found: Vec<_> = tree
            .benches
            .iter()
            .map(|bench| (&*bench.name, &*bench.features))
            .collect();
        assert_eq!(found, [("first", "shell,browser"), ("tilt", "")]);
        assert_eq!(tree.target, Path::new("/r/t"));
    }

    #[test]
    fn a_program_nowhere_in_path_is_not_found() {
        assert_eq!(find_program(OsStr::new("/nowhere"), &["sh"]), None);
    }
}
