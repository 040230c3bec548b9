//! Compiles the package's library for phones and links it without an NDK.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};

use super::symbols::{list, stand_ins};
use super::tools::{ensure_target, program};
use super::{ARM, Place};
use crate::tools::{Tree, in_path, must};

/// The linked library.
pub fn library(tree: &Tree) -> PathBuf {
    tree.target.join(ARM).join("debug/app")
}

/// As `dx` links: a program whose `main` the activity's library finds.
const LINK_ARGS: [&str; 3] = ["-landroid", "-llog", "-Wl,--export-dynamic"];

/// Cargo for phones, linking through our stand-ins.
pub fn cargo(tree: &Tree, place: &Place) -> Result<Command> {
    ensure_target(tree, ARM)?;
    let libraries = stand_ins(place, &list(place)?)?;
    let unwinder = unwinder(tree, place)?;
    let linker = linker(place, &libraries, &unwinder)?;
    let mut cargo = tree.cargo();
    let flags: Vec<String> = LINK_ARGS
        .iter()
        .map(|arg| format!("\"-Clink-arg={arg}\""))
        .collect();
    cargo.arg("--config");
    cargo.arg(format!("target.{ARM}.rustflags=[{}]", flags.join(",")));
    cargo.env("CARGO_TARGET_AARCH64_LINUX_ANDROID_LINKER", linker);
    // What a debugger needs is not looked at here and costs most of the time.
    cargo.env("CARGO_PROFILE_DEV_DEBUG", "0");
    Ok(cargo)
}

fn linker(place: &Place, libraries: &Path, unwinder: &Path) -> Result<PathBuf> {
    let clang = program(&["clang-19"], "clang-19")?;
    let script = format!(
        "#!/bin/sh\nexec {} --target=aarch64-linux-android28 -fuse-ld=lld-19 -nostartfiles \
         -nodefaultlibs '-L{}' '-L{}' \"$@\" -Wl,-z,max-page-size=16384 -Wl,--no-undefined \
         -Wl,-z,now -Wl,-z,relro\n",
        clang.display(),
        libraries.display(),
        unwinder.display(),
    );
    // By its name rustc knows how to speak to it.
    let path = place.kept.join("phone-clang");
    if fs::read_to_string(&path).is_ok_and(|had| had == script) {
        return Ok(path);
    }
    fs::write(&path, script).with_context(|| format!("cannot write {}", path.display()))?;
    must(Command::new("chmod").arg("+x").arg(&path), "chmod")?;
    Ok(path)
}

/// Stands in for the NDK's unwinder.
fn unwinder(tree: &Tree, place: &Place) -> Result<PathBuf> {
    let target = place.kept.join("unwind");
    let mut cargo = tree.cargo();
    cargo.args(["build", "--quiet", "--target", ARM, "--target-dir"]);
    cargo.arg(&target).arg("--manifest-path");
    cargo.arg(place.host.join("unwind/Cargo.toml"));
    must(&mut cargo, "building the stand-in for the unwinder")?;
    Ok(target.join(ARM).join("debug"))
}

/// The linked library, compiled by the linter: a `cargo clippy` beside the build
/// would compile every dependency a second time.
pub fn run(tree: &Tree, place: &Place) -> Result<String> {
    if in_path(&["clippy-driver"]).is_none() {
        bail!("clippy-driver is missing: install the component clippy");
    }
    let mut build = cargo(tree, place)?;
    build.args(["build", "-p", "rakeline", "--bin", "app"]);
    build.args(["--features", "android", "--target", ARM]);
    build.env("RUSTC_WORKSPACE_WRAPPER", "clippy-driver");
    build.env("CLIPPY_ARGS", "-Dwarnings__CLIPPY_HACKERY__");
    must(&mut build, "building and linting for phones")?;
    let size = fs::metadata(library(tree))?.len();
    Ok(format!(
        "libmain.so, {:.1} MB unoptimised, clippy clean",
        size as f64 / 1e6
    ))
}
