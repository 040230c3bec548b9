//! What the Android package weighs and how fast a batch comes over.

use std::collections::BTreeMap;
use std::fs;

use anyhow::{Context, Result, bail};
use object::elf::{FileHeader64, PT_LOAD};
use object::read::elf::{FileHeader, ProgramHeader};
use object::{Endianness, Object, ObjectSymbol, SymbolKind};

use super::{ARM, Place, jvm, link};
use crate::options::Effort;
use crate::tools::{Tree, must};

/// The library as it is shipped, at most so many bytes.
const SIZE_LIMIT: f64 = 16_000_000.0;
/// A batch of 1,000 readings across the boundary, at most so long.
const BATCH_LIMIT_MS: f64 = 1.0;
/// Crates that are printed.
const SHOWN: usize = 20;

fn bar(figure: &str, value: f64, limit: f64) -> String {
    let word = if value <= limit { "ok" } else { "short" };
    format!("bar {figure} {value} <= {limit} {word}")
}

/// Tells each bar as it is measured: the second takes many minutes more.
pub fn run(tree: &Tree, effort: Effort, told: &mut dyn FnMut(&str)) -> Result<()> {
    let place = Place::of(tree);
    link::run(tree, &place)?;
    jvm::compile(tree, &place)?;
    let runs = match effort {
        Effort::Full => 5,
        Effort::Quick => 1,
    };
    let mut took = Vec::new();
    for _ in 0..runs {
        let output = jvm::java(tree, &place, "bench")?.output()?;
        let said = String::from_utf8_lossy(&output.stdout);
        let figure = said.trim().strip_prefix("batch_of_1000_ms ");
        took.push(figure.context("the JVM told no figure")?.parse::<f64>()?);
    }
    took.sort_by(f64::total_cmp);
    told(&bar(
        "android_batch_ms",
        took[took.len() / 2],
        BATCH_LIMIT_MS,
    ));
    let mut build = link::cargo(tree, &place)?;
    build.args(["build", "-p", "rakeline", "--bin", "app"]);
    build.args(["--features", "android", "--target", ARM]);
    build.args(["--profile", "android"]);
    must(
        &mut build,
        "building the package's library as it is shipped",
    )?;
    let path = tree.target.join(ARM).join("android/app");
    let bytes = fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
    for (name, size) in by_crate(&bytes)?.into_iter().take(SHOWN) {
        println!("{:>9.1} kB  {name}", size as f64 / 1e3);
    }
    told(&bar(
        "android_libmain_bytes",
        loaded(&bytes)? as f64,
        SIZE_LIMIT,
    ));
    Ok(())
}

/// What a phone loads: the file without the names that Gradle strips.
fn loaded(bytes: &[u8]) -> Result<u64> {
    let header = FileHeader64::<Endianness>::parse(bytes)?;
    let endian = header.endian()?;
    let segments = header.program_headers(endian, bytes)?;
    let sum = segments
        .iter()
        .filter(|segment| segment.p_type(endian) == PT_LOAD)
        .map(|segment| segment.p_filesz(endian))
        .sum();
    if sum == 0 {
        bail!("nothing in it is loaded");
    }
    Ok(sum)
}

/// Code by the crate that its names come from, the largest first.
fn by_crate(bytes: &[u8]) -> Result<Vec<(String, u64)>> {
    let file = object::File::parse(bytes)?;
    let mut sizes: BTreeMap<String, u64> = BTreeMap::new();
    for symbol in file.symbols().filter(|s| s.kind() == SymbolKind::Text) {
        let name = rustc_demangle::demangle(symbol.name()?).to_string();
        *sizes.entry(crate_of(&name)).or_default() += symbol.size();
    }
    let mut sizes: Vec<_> = sizes.into_iter().collect();
    sizes.sort_by_key(|(_, size)| std::cmp::Reverse(*size));
    Ok(sizes)
}

/// The first path of a demangled name.
fn crate_of(name: &str) -> String {
    let start = name.trim_start_matches(['<', '&', '*']);
    let start = start.trim_start_matches("dyn ").trim_start_matches("mut ");
    let word: String = start
        .chars()
        .take_while(|c| c.is_alphanumeric() || *c == '_')
        .collect();
    if start[word.len()..].starts_with("::") || start[word.len()..].starts_with('[') {
        word
    } else {
        "(others)".to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_goes_to_its_crate() {
        assert_eq!(crate_of("rakeline_core::job::apply"), "rakeline_core");
        assert_eq!(crate_of("<alloc::vec::Vec<T> as Drop>::drop"), "alloc");
        assert_eq!(crate_of("<&mut std::io::Stdout as Write>::write"), "std");
        assert_eq!(crate_of("memcpy"), "(others)");
    }
}
