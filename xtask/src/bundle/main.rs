//! The heavy step of a web build, a program of its own so that the other commands start fast:
//! `bundle bind MODULE.wasm DIST`, `bundle weigh DIST` and `bundle crates MODULE.wasm`.

mod crates;

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use anyhow::{Context, Result, bail};

fn main() -> ExitCode {
    let args: Vec<PathBuf> = std::env::args_os().skip(1).map(PathBuf::from).collect();
    let parts: Vec<&Path> = args.iter().map(PathBuf::as_path).collect();
    let done = match parts.as_slice() {
        [word, module, dist] if *word == Path::new("bind") => bind(module, dist),
        [word, dist] if *word == Path::new("weigh") => weigh(dist),
        [word, module] if *word == Path::new("crates") => weigh_crates(module),
        _ => Err(anyhow::anyhow!(
            "usage: bundle bind MODULE DIST | bundle weigh DIST | bundle crates MODULE"
        )),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(fault) => {
            eprintln!("bundle: {fault:#}");
            ExitCode::FAILURE
        }
    }
}

/// Writes `NAME.js`, `NAME_bg.wasm` and `snippets/` for the module `NAME.wasm`.
fn bind(module: &Path, dist: &Path) -> Result<()> {
    let name = module.file_stem().and_then(|name| name.to_str());
    let Some(name) = name.filter(|_| module.is_file()) else {
        bail!("{} is not there", module.display());
    };
    wasm_bindgen_cli_support::Bindgen::new()
        .input_path(module)
        .out_name(name)
        .web(true)?
        .omit_default_module_path(false)
        .typescript(false)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(dist)
}

/// Prints one line a file, raw and brotli bytes: what is loaded later, then what the first start
/// loads, then the sum of the latter.
fn weigh(dist: &Path) -> Result<()> {
    for later in ["worker_bg.wasm", "worker.js"] {
        if let Ok(bytes) = fs::read(dist.join(later)) {
            let small = compressed(&bytes)?;
            println!("later: {later}: raw {} brotli {small}", bytes.len());
        }
    }
    let mut files = vec![dist.join("app_bg.wasm"), dist.join("app.js")];
    add_files(&dist.join("snippets"), &mut files)?;
    let (mut raw_sum, mut small_sum) = (0, 0);
    for file in files {
        let bytes = fs::read(&file).with_context(|| format!("cannot read {}", file.display()))?;
        let small = compressed(&bytes)?;
        let name = file.strip_prefix(dist).unwrap_or(&file).display();
        println!("{name}: raw {} brotli {small}", bytes.len());
        raw_sum += bytes.len();
        small_sum += small;
    }
    println!("sum: raw {raw_sum} brotli {small_sum}");
    Ok(())
}

/// Prints what the code of a module is made of, before wasm-bindgen strips its names.
fn weigh_crates(module: &Path) -> Result<()> {
    let bytes = fs::read(module).with_context(|| format!("cannot read {}", module.display()))?;
    print!("{}", crates::by_crate(&bytes)?);
    Ok(())
}

fn add_files(folder: &Path, files: &mut Vec<PathBuf>) -> Result<()> {
    if !folder.is_dir() {
        return Ok(());
    }
    let mut entries = fs::read_dir(folder)?.collect::<Result<Vec<_>, _>>()?;
    entries.sort_by_key(fs::DirEntry::path);
    for entry in entries {
        if entry.path().is_dir() {
            add_files(&entry.path(), files)?;
        } else {
            files.push(entry.path());
        }
    }
    Ok(())
}

/// Size in bytes at the highest quality, as a server would keep it ready.
fn compressed(bytes: &[u8]) -> Result<usize> {
    let mut writer = brotli::CompressorWriter::new(Vec::new(), 1 << 16, 11, 22);
    writer.write_all(bytes)?;
    Ok(writer.into_inner().len())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pinned_wasm_bindgen_is_the_one_that_is_locked() {
        let lock = include_str!("../../../Cargo.lock");
        let version = |name: &str| {
            let at = lock.split_once(&format!("name = \"{name}\"\n")).unwrap().1;
            at.split('"').nth(1).unwrap()
        };
        assert_eq!(version("wasm-bindgen-cli-support"), version("wasm-bindgen"));
    }

    #[test]
    fn repeated_text_weighs_less_than_it_measures() {
        assert!(compressed(&[b'a'; 10_000]).unwrap() < 100);
    }
}
