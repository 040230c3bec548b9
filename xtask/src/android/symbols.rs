//! The symbols of the platform that the library may use, with the level they
//! came with; the committed list holds those that it does use.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};

use super::Place;
use super::tools::program;
use crate::tools::must;

/// The lowest Android that the package runs on.
pub const LEAST_LEVEL: u32 = 28;

/// One symbol of a library.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Symbol {
    pub library: String,
    pub name: String,
    pub level: u32,
}

/// The committed list.
pub fn list(place: &Place) -> Result<Vec<Symbol>> {
    let path = place.host.join("platform-symbols.tsv");
    let text =
        fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
    read(&text)
}

fn read(text: &str) -> Result<Vec<Symbol>> {
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    lines
        .map(|line| {
            let parts: Vec<&str> = line.split('\t').collect();
            let [library, name, level] = parts[..] else {
                bail!("'{line}' is not library, symbol, level");
            };
            Ok(Symbol {
                library: library.to_owned(),
                name: name.to_owned(),
                level: level
                    .parse()
                    .with_context(|| format!("the level of {name}"))?,
            })
        })
        .collect()
}

/// Libraries with nothing in them but these names, to link against.
pub fn stand_ins(place: &Place, symbols: &[Symbol]) -> Result<PathBuf> {
    let folder = place.kept.join("stand-ins");
    fs::create_dir_all(&folder)?;
    let clang = program(&["clang-19"], "clang-19")?;
    program(&["ld.lld-19"], "lld-19")?;
    let mut by_library: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for library in ["libandroid", "libc", "libdl", "liblog", "libm"] {
        by_library.insert(library, BTreeSet::new());
    }
    for symbol in symbols {
        let names = by_library.entry(&symbol.library).or_default();
        names.insert(&symbol.name);
    }
    for (library, names) in by_library {
        let code: String = names
            .iter()
            .map(|name| format!("void {name}(void) {{}}\n"))
            .collect();
        compile(&clang, &folder, library, &code)?;
    }
    Ok(folder)
}

fn compile(clang: &Path, folder: &Path, library: &str, code: &str) -> Result<()> {
    let source = folder.join(format!("{library}.c"));
    let made = folder.join(format!("{library}.so"));
    if made.exists() && fs::read_to_string(&source).is_ok_and(|had| had == code) {
        return Ok(());
    }
    fs::write(&source, code)?;
    let mut command = Command::new(clang);
    command.args(["--target=aarch64-linux-android28", "-ffreestanding"]);
    command.args(["-fno-builtin", "-fPIC", "-shared", "-nostdlib", "-w"]);
    command.args(["-fuse-ld=lld-19", &format!("-Wl,-soname,{library}.so")]);
    command.arg("-o").arg(&made).arg(&source);
    must(&mut command, &format!("compiling the stand-in {library}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_read_line_by_line() {
        let found = read("# library\tsymbol\tlevel\nlibc\tmalloc\t21\n").unwrap();
        let wanted = Symbol {
            library: "libc".to_owned(),
            name: "malloc".to_owned(),
            level: 21,
        };
        assert_eq!(found, [wanted]);
        assert!(read("libc malloc 21\n").is_err());
        assert!(read("libc\tmalloc\tnew\n").is_err());
    }
}
