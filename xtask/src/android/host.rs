//! The command `android-host`: our Kotlin, resources and bindings into the
//! Gradle project that `dx` wrote.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};

use super::Place;
use super::tools::files;
use crate::bindings;
use crate::options::Language;
use crate::tools::Tree;

fn copy(from: &Path, to: &Path) -> Result<usize> {
    let all = files(from, &|_| true)?;
    for path in &all {
        let beside = to.join(path.strip_prefix(from)?);
        if let Some(folder) = beside.parent() {
            fs::create_dir_all(folder)?;
        }
        fs::copy(path, &beside).with_context(|| format!("cannot write {}", beside.display()))?;
    }
    Ok(all.len())
}

/// Puts the host into a Gradle project with a built library.
pub fn put(tree: &Tree, project: &Path) -> Result<()> {
    let place = Place::of(tree);
    let main = project.join("app/src/main");
    let library = main.join("jniLibs/arm64-v8a/libmain.so");
    if !library.exists() {
        bail!(
            "{} is missing: build with dx first, and name the folder that holds its 'app'",
            library.display()
        );
    }
    let kotlin = main.join("kotlin");
    let sources = copy(&place.host.join("kotlin"), &kotlin)?;
    let resources = copy(&place.host.join("res"), &main.join("res"))?;
    bindings::generate(tree, &library, Language::Kotlin, &kotlin)?;
    println!("{sources} sources and {resources} resources; bindings written");
    Ok(())
}
