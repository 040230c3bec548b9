//! The command `bindings`: the core for other languages.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use crate::options::Language;
use crate::tools::{self, Tree};

/// Name of a dynamic library of ours on this system.
fn file_of(library: &str) -> String {
    let prefix = std::env::consts::DLL_PREFIX;
    let ending = std::env::consts::DLL_SUFFIX;
    format!("{prefix}{library}{ending}")
}

/// Builds the face and writes its side in a language into `target/python` or
/// `target/kotlin`; gives that folder.
pub fn write(tree: &Tree, language: Language) -> Result<PathBuf> {
    tools::must(
        tree.cargo().args(["build", "-p", "rakeline-ffi"]),
        "building the core for other languages",
    )?;
    let library = tree.target.join("debug").join(file_of("rakeline_ffi"));
    let folder = tree.target.join(language.name());
    generate(tree, &library, language, &folder)?;
    if language == Language::Python {
        let beside = folder.join(file_of("rakeline_ffi"));
        fs::copy(&library, &beside)
            .with_context(|| format!("cannot copy to {}", beside.display()))?;
    }
    Ok(folder)
}

/// Writes what a library exports for a language.
pub fn generate(tree: &Tree, library: &Path, language: Language, into: &Path) -> Result<()> {
    let bindgen = ["run", "--quiet", "-p", "xtask", "--features", "bindgen"];
    let mut cargo = tree.cargo();
    cargo.args(bindgen).args(["--bin", "bindgen", "--"]);
    cargo.args(["generate", "--no-format", "--library"]);
    cargo.arg(library).args(["--language", language.name()]);
    cargo.arg("--out-dir").arg(into);
    tools::must(&mut cargo, "writing the bindings")
}
