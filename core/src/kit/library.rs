//! The workshop's sheets: names, copies, files.

use super::{KitSheet, SheetFault, parse};

/// What bringing in a file comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Import {
    /// A sheet that the library does not have.
    New(KitSheet),
    /// The library has this very sheet already.
    AlreadyThere {
        /// Its name.
        name: String,
    },
    /// Another sheet has this name; this one got a new name, none was changed.
    Renamed {
        /// The sheet under its new name.
        sheet: KitSheet,
        /// The name in the file.
        was: String,
    },
}

/// Reads a sheet from a file's text for a library; changes nothing there.
///
/// # Errors
/// Every fault of the file.
pub fn import(json: &str, library: &[KitSheet]) -> Result<Import, Vec<SheetFault>> {
    let mut sheet = parse(json)?;
    if library.contains(&sheet) {
        return Ok(Import::AlreadyThere { name: sheet.name });
    }
    let was = sheet.name.clone();
    sheet.name = free_name(&was, library);
    Ok(if sheet.name == was {
        Import::New(sheet)
    } else {
        Import::Renamed { sheet, was }
    })
}

/// A copy under a name that is free.
#[must_use]
pub fn copy(sheet: &KitSheet, library: &[KitSheet]) -> KitSheet {
    let mut copy = sheet.clone();
    copy.name = free_name(&sheet.name, library);
    copy
}

/// The name, or the name with the next free number behind it.
#[must_use]
pub fn free_name(wanted: &str, library: &[KitSheet]) -> String {
    let taken = |name: &str| library.iter().any(|s| s.name.trim() == name.trim());
    if !taken(wanted) {
        return wanted.to_owned();
    }
    let numbered = |n: usize| format!("{} ({n})", wanted.trim());
    // One of so many numbers is free: there are fewer sheets than numbers.
    (2..library.len() + 3)
        .map(numbered)
        .find(|name| !taken(name))
        .unwrap_or_else(|| numbered(library.len() + 3))
}

/// The name of the file that a sheet is exported to.
#[must_use]
pub fn file_name(sheet: &KitSheet) -> String {
    let mut name = String::new();
    for c in sheet.name.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            name.push(c);
        } else if !name.ends_with('-') && !name.is_empty() {
            name.push('-');
        }
    }
    let name = name.trim_end_matches('-');
    let name: String = name.chars().take(60).collect();
    if name.is_empty() {
        "kit-sheet.json".to_owned()
    } else {
        format!("{name}.json")
    }
}

/// Which of these jobs' sheets are this sheet as it stands, and which were
/// made from a sheet of this name that looked different then.
#[must_use]
pub fn used_in<'a, Id: Clone + 'a>(
    sheet: &KitSheet,
    jobs: impl Iterator<Item = (Id, &'a KitSheet)>,
) -> Vec<(Id, Use)> {
    jobs.filter(|(_, kept)| kept.name == sheet.name)
        .map(|(id, kept)| {
            let same = if kept == sheet {
                Use::AsItStands
            } else {
                Use::AsItWas
            };
            (id, same)
        })
        .collect()
}

/// How a job keeps a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// Just as it stands in the library.
    AsItStands,
    /// As it was when fitted; the library's was changed since.
    AsItWas,
}
