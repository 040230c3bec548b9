//! What the linked library needs and gives.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result, bail};
use object::elf::{FileHeader64, PT_LOAD};
use object::read::elf::{Dyn, ElfFile64, FileHeader, ProgramHeader};
use object::{Endianness, Object, ObjectSymbol};

use super::symbols::{LEAST_LEVEL, list};
use super::tools::files;
use super::{Place, jvm, link};
use crate::tools::Tree;

/// Libraries that every Android has.
const MAY_NEED: [&str; 5] = [
    "libandroid.so",
    "libc.so",
    "libdl.so",
    "liblog.so",
    "libm.so",
];
/// Pages of new phones.
const PAGE: u64 = 16 * 1024;

/// What is read out of the file.
struct Found {
    needed: Vec<String>,
    pages: Vec<u64>,
    given: BTreeSet<String>,
    wanted: BTreeSet<String>,
}

fn read(bytes: &[u8]) -> Result<Found> {
    let file = ElfFile64::<Endianness>::parse(bytes).context("libmain.so is no ELF file")?;
    let header = FileHeader64::<Endianness>::parse(bytes)?;
    let endian = header.endian()?;
    let segments = header.program_headers(endian, bytes)?;
    let pages = segments
        .iter()
        .filter(|segment| segment.p_type(endian) == PT_LOAD)
        .map(|segment| segment.p_align(endian))
        .collect();
    let sections = header.sections(endian, bytes)?;
    let mut needed = Vec::new();
    if let Some((dynamic, strings)) = sections.dynamic(endian, bytes)? {
        let strings = sections.strings(endian, bytes, strings)?;
        for entry in dynamic {
            if entry.tag32(endian) == Some(object::elf::DT_NEEDED) {
                let name = entry
                    .string(endian, strings)
                    .context("a needed library without a name")?;
                needed.push(String::from_utf8_lossy(name).into_owned());
            }
        }
    }
    let (mut given, mut wanted) = (BTreeSet::new(), BTreeSet::new());
    for symbol in file.dynamic_symbols() {
        let name = symbol.name()?.to_owned();
        if symbol.is_undefined() {
            // What is weak may be missing: the code looks before it calls.
            if !symbol.is_weak() {
                wanted.insert(name);
            }
        } else {
            given.insert(name);
        }
    }
    wanted.remove("");
    Ok(Found {
        needed,
        pages,
        given,
        wanted,
    })
}

/// wry's Kotlin, as cargo unpacked it.
fn wry_kotlin(tree: &Tree) -> Result<PathBuf> {
    let asked = tree
        .cargo()
        .args(["metadata", "--format-version", "1", "--filter-platform"])
        .args([super::ARM, "--features", "rakeline/android"])
        .output()?;
    let data: serde_json::Value = serde_json::from_slice(&asked.stdout)?;
    let packages = data["packages"].as_array().into_iter().flatten();
    let wry = packages
        .filter(|package| package["name"] == "wry")
        .find_map(|package| package["manifest_path"].as_str());
    let manifest = PathBuf::from(wry.context("no wry among the packages")?);
    Ok(manifest.with_file_name("src/android/kotlin"))
}

/// The functions that a Kotlin source leaves to the library.
fn externals(source: &str) -> impl Iterator<Item = &str> {
    source
        .lines()
        .filter_map(|line| line.split_once("external fun "))
        .filter_map(|(_, rest)| rest.split('(').next())
}

/// The names by which a JVM looks for those of a class.
fn jni_names(source: &str, class: &str) -> Vec<String> {
    externals(source)
        .map(|name| format!("Java_dev_dioxus_main_{class}_{name}"))
        .collect()
}

/// Everything that must be so.
pub fn run(tree: &Tree, place: &Place) -> Result<String> {
    let path = link::library(tree);
    let bytes = fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
    let found = read(&bytes)?;
    for needed in &found.needed {
        if !MAY_NEED.contains(&needed.as_str()) {
            bail!("it needs {needed}, which phones may not have");
        }
    }
    if found.pages.is_empty() || found.pages.iter().any(|align| align % PAGE != 0) {
        bail!(
            "its segments are aligned to {:x?}, not to 16 KiB",
            found.pages
        );
    }
    let symbols = list(place)?;
    for wanted in &found.wanted {
        match symbols.iter().find(|symbol| symbol.name == *wanted) {
            None => bail!("it uses {wanted}, which is not in the list of the platform's symbols"),
            Some(symbol) if symbol.level > LEAST_LEVEL => bail!(
                "it uses {wanted}, which came with level {} and not by {LEAST_LEVEL}",
                symbol.level
            ),
            Some(_) => {}
        }
    }
    let idle = symbols
        .iter()
        .find(|symbol| !found.wanted.contains(&symbol.name));
    if let Some(symbol) = idle {
        bail!(
            "the list of the platform's symbols has {}, which is not used",
            symbol.name
        );
    }
    let mut externs = Vec::new();
    for file in files(&wry_kotlin(tree)?, &|name| name.ends_with(".kt"))? {
        let class = file.file_stem().and_then(|stem| stem.to_str());
        externs.extend(jni_names(
            &fs::read_to_string(&file)?,
            class.unwrap_or_default(),
        ));
    }
    let mut calls = BTreeSet::new();
    for file in files(&jvm::shipped_kotlin(tree, place)?, &|name| {
        name.ends_with(".kt")
    })? {
        calls.extend(externals(&fs::read_to_string(&file)?).map(str::to_owned));
    }
    if externs.is_empty() || calls.is_empty() {
        bail!("no function found that Kotlin calls: the sources read differently now");
    }
    let main = "main".to_owned();
    let missing: Vec<&String> = externs
        .iter()
        .chain(&calls)
        .chain([&main])
        .filter(|name| !found.given.contains(*name))
        .collect();
    if !missing.is_empty() {
        bail!("Kotlin calls what it does not give: {missing:?}");
    }
    Ok(format!(
        "{} symbols of {}; {} functions for JNI and {} for UniFFI",
        found.wanted.len(),
        found.needed.join(", "),
        externs.len(),
        calls.len()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn functions_that_kotlin_leaves_to_the_library_are_found() {
        let source = "class A {\n  private external fun create(a: B)\n  fun other() {}\n}";
        assert_eq!(jni_names(source, "A"), ["Java_dev_dioxus_main_A_create"]);
        let source = "    external fun ffi_rakeline_a(`b`: Int): C\n\
                      lib.ffi_rakeline_a(\n// external things";
        assert_eq!(externals(source).collect::<Vec<_>>(), ["ffi_rakeline_a"]);
    }
}
