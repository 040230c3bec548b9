//! What a wasm module is made of: bytes of code by crate, read from the module as cargo leaves
//! it, with the names of its functions.

use std::collections::BTreeMap;

use anyhow::{Context, Result};

/// Sections of a module (WebAssembly core specification, 5.5.2).
const CUSTOM: u8 = 0;
const IMPORT: u8 = 2;
const CODE: u8 = 10;
/// The part of the name section that names functions.
const FUNCTIONS: u8 = 1;
/// Lines that are printed.
const HEAVIEST: usize = 25;

/// The heaviest crates, our own by module: one line each.
pub fn by_crate(module: &[u8]) -> Result<String> {
    let found = read(module).context("this is no wasm module that can be weighed")?;
    let mut crates: BTreeMap<String, (usize, usize)> = BTreeMap::new();
    for (at, size) in found.sizes.iter().enumerate() {
        let name = found
            .names
            .get(&(found.imports + at))
            .map_or("?", String::as_str);
        let sum = crates.entry(home(name)).or_default();
        *sum = (sum.0 + size, sum.1 + 1);
    }
    let mut lines: Vec<_> = crates.into_iter().collect();
    lines.sort_by_key(|(_, (size, _))| std::cmp::Reverse(*size));
    let line = |(name, (size, count)): &(String, (usize, usize))| {
        format!("code: {name}: raw {size} in {count} functions\n")
    };
    Ok(lines.iter().take(HEAVIEST).map(line).collect())
}

/// Where a function is at home: its crate, and the module for our own and the standard ones.
/// Trait methods count where their type is; components of screens stand under `subsecond`.
fn home(symbol: &str) -> String {
    let path = format!("{:#}", rustc_demangle::demangle(symbol));
    let mut words = path
        .split(|c: char| !c.is_alphanumeric() && c != '_' && c != ':')
        .filter(|word| word.contains("::"));
    let mut parts = words
        .next()
        .unwrap_or(&path)
        .split("::")
        .filter(|part| !part.is_empty());
    let name = parts.next().unwrap_or("?");
    match (name, parts.next()) {
        ("rakeline" | "rakeline_core" | "core" | "alloc" | "std", Some(module)) => {
            format!("{name}::{module}")
        }
        _ if name.starts_with("__wbindgen_describe") => "wasm_bindgen (left out later)".to_owned(),
        _ => name.to_owned(),
    }
}

struct Found {
    imports: usize,
    sizes: Vec<usize>,
    names: BTreeMap<usize, String>,
}

fn read(module: &[u8]) -> Option<Found> {
    let mut found = Found {
        imports: 0,
        sizes: Vec::new(),
        names: BTreeMap::new(),
    };
    let mut rest = module.strip_prefix(b"\0asm\x01\0\0\0")?;
    while let Some((kind, after)) = rest.split_first() {
        let mut after = after;
        let section = bytes(&mut after)?;
        rest = after;
        match *kind {
            IMPORT => found.imports = functions_imported(section)?,
            CODE => {
                let mut code = section;
                for _ in 0..number(&mut code)? {
                    found.sizes.push(bytes(&mut code)?.len());
                }
            }
            CUSTOM => {
                let mut custom = section;
                if bytes(&mut custom)? == b"name" {
                    found.names = names(custom)?;
                }
            }
            _ => {}
        }
    }
    Some(found)
}

fn names(mut section: &[u8]) -> Option<BTreeMap<usize, String>> {
    let mut names = BTreeMap::new();
    while let Some((kind, after)) = section.split_first() {
        let mut after = after;
        let mut part = bytes(&mut after)?;
        section = after;
        if *kind == FUNCTIONS {
            for _ in 0..number(&mut part)? {
                let index = number(&mut part)?;
                let name = String::from_utf8_lossy(bytes(&mut part)?).into_owned();
                names.insert(index, name);
            }
        }
    }
    Some(names)
}

fn functions_imported(mut section: &[u8]) -> Option<usize> {
    let mut functions = 0;
    for _ in 0..number(&mut section)? {
        bytes(&mut section)?;
        bytes(&mut section)?;
        let (kind, after) = section.split_first()?;
        section = after;
        match kind {
            0 => {
                functions += 1;
                number(&mut section)?;
            }
            // A table has the type of its entries before its limits.
            1 | 2 => {
                section = section.get(usize::from(*kind == 1)..)?;
                let most = number(&mut section)? & 1 == 1;
                number(&mut section)?;
                if most {
                    number(&mut section)?;
                }
            }
            3 => section = section.get(2..)?,
            _ => return None,
        }
    }
    Some(functions)
}

/// An unsigned number in LEB128.
fn number(from: &mut &[u8]) -> Option<usize> {
    let mut value = 0;
    for shift in (0..35).step_by(7) {
        let (byte, after) = from.split_first()?;
        *from = after;
        value |= usize::from(byte & 0x7f) << shift;
        if byte & 0x80 == 0 {
            return Some(value);
        }
    }
    None
}

/// Bytes with their count before them.
fn bytes<'a>(from: &mut &'a [u8]) -> Option<&'a [u8]> {
    let length = number(from)?;
    let (bytes, after) = from.split_at_checked(length)?;
    *from = after;
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_module_is_weighed_by_the_names_of_its_functions() {
        let mut module = b"\0asm\x01\0\0\0".to_vec();
        // One imported function and one memory with both limits.
        let import = b"\x02\x01a\x01b\x00\x00\x01a\x01m\x02\x01\x01\x02";
        module.extend([IMPORT, import.len() as u8]);
        module.extend(import);
        module.extend([CODE, 8, 2, 2, 0, 0x0b, 3, 0, 1, 0x0b]);
        let first = b"_ZN13rakeline_core4json5parse17h0123456789abcdefE";
        let mut names = b"\x04name\x01".to_vec();
        let mut list = vec![2, 1, first.len() as u8];
        list.extend(first);
        list.extend([2, 1, b'x']);
        names.push(list.len() as u8);
        names.extend(list);
        module.extend([CUSTOM, names.len() as u8]);
        module.extend(names);
        assert_eq!(
            by_crate(&module).unwrap(),
            "code: x: raw 3 in 1 functions\ncode: rakeline_core::json: raw 2 in 1 functions\n"
        );
        assert!(by_crate(b"no module").is_err());
        assert!(by_crate(&module[..module.len() - 1]).is_err());
    }
}
