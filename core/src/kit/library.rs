//! The workshop's sheets: names, copies, files.

use super::rules::LONGEST_NAME;
use super::{KitSheet, SheetFault, parse};
use crate::json;

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
    // Under another name too: it got a number when it was brought in first.
    let same = |own: &&KitSheet| {
        let mut own = (*own).clone();
        own.name.clone_from(&sheet.name);
        own == sheet
    };
    let numbered = |own: &&KitSheet| is_numbered(&own.name, &sheet.name);
    if let Some(own) = library.iter().filter(numbered).find(same) {
        let name = own.name.clone();
        return Ok(Import::AlreadyThere { name });
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
    let numbered = |n: usize| {
        let number = format!(" ({n})");
        let room = LONGEST_NAME - number.chars().count();
        let name: String = wanted.trim().chars().take(room).collect();
        format!("{}{number}", name.trim_end())
    };
    // One of so many numbers is free: there are fewer sheets than numbers.
    (2..library.len() + 3)
        .map(numbered)
        .find(|name| !taken(name))
        .unwrap_or_else(|| numbered(library.len() + 3))
}

/// Whether a name is another one, or that with a number behind it.
fn is_numbered(name: &str, of: &str) -> bool {
    let Some(rest) = name.trim().strip_prefix(of.trim()) else {
        return false;
    };
    let number = rest
        .trim()
        .strip_prefix('(')
        .and_then(|r| r.strip_suffix(')'));
    rest.is_empty() || number.is_some_and(|n| n.chars().all(|c| c.is_ascii_digit()))
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

/// What a sheet is recognised by: another one hardly ever has the same.
#[must_use]
pub fn print_of(sheet: &KitSheet) -> u64 {
    json::write(sheet).map_or(0, |text| json::sum(&text))
}

/// Which of these jobs' sheets, by name and print, are this sheet as it
/// stands, and which were made from a sheet of this name that looked
/// different then.
#[must_use]
pub fn used_in<'a, Id>(
    sheet: &KitSheet,
    jobs: impl Iterator<Item = (Id, &'a str, u64)>,
) -> Vec<(Id, Use)> {
    let print = print_of(sheet);
    jobs.filter(|(_, name, _)| *name == sheet.name)
        .map(|(id, _, kept)| {
            let same = if kept == print {
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

#[cfg(test)]
mod tests {
    use super::*;

    const PLAIN: &str = include_str!("../../../assets/kits/plain-four.json");

    #[test]
    fn a_copy_gets_the_next_free_name() {
        let sheet = parse(PLAIN).unwrap();
        let first = copy(&sheet, std::slice::from_ref(&sheet));
        assert_eq!(first.name, format!("{} (2)", sheet.name));
        let second = copy(&sheet, &[sheet.clone(), first]);
        assert_eq!(second.name, format!("{} (3)", sheet.name));
    }

    #[test]
    fn the_same_file_twice_adds_nothing_and_another_sheet_never_replaces_one() {
        let sheet = parse(PLAIN).unwrap();
        assert_eq!(import(PLAIN, &[]), Ok(Import::New(sheet.clone())));
        let library = [sheet.clone()];
        let name = sheet.name.clone();
        assert_eq!(import(PLAIN, &library), Ok(Import::AlreadyThere { name }));
        let other = PLAIN.replace("\"inner\": 280", "\"inner\": 270");
        let Ok(Import::Renamed { sheet: new, was }) = import(&other, &library) else {
            panic!("renamed");
        };
        assert_eq!(was, sheet.name);
        assert_ne!(new.name, sheet.name);
        assert!(import("{}", &library).is_err());
    }

    #[test]
    fn a_file_that_came_in_under_a_number_is_known_again() {
        let library = [parse(PLAIN).unwrap()];
        let other = PLAIN.replace("\"inner\": 280", "\"inner\": 270");
        let Ok(Import::Renamed { sheet: new, .. }) = import(&other, &library) else {
            panic!("renamed");
        };
        let library = [library[0].clone(), new.clone()];
        let name = new.name.clone();
        assert_eq!(import(&other, &library), Ok(Import::AlreadyThere { name }));
        // The same figures under a name of its own are another kit.
        let own = PLAIN.replace(&library[0].name, "Another bench kit");
        assert!(matches!(import(&own, &library), Ok(Import::New(_))));
    }

    #[test]
    fn a_numbered_name_is_as_long_as_a_sheet_takes() {
        let mut sheet = parse(PLAIN).unwrap();
        sheet.name = "k".repeat(LONGEST_NAME);
        let second = copy(&sheet, std::slice::from_ref(&sheet));
        assert_eq!(second.name.chars().count(), LONGEST_NAME);
        assert!(second.name.ends_with(" (2)"));
        let text = json::write(&second).unwrap();
        assert_eq!(parse(&text), Ok(second));
    }

    #[test]
    fn a_file_name_has_letters_figures_and_dashes_only() {
        let mut sheet = parse(PLAIN).unwrap();
        assert_eq!(file_name(&sheet), "bench-kit-p4-invented.json");
        sheet.name = "../..".to_owned();
        assert_eq!(file_name(&sheet), "kit-sheet.json");
    }

    #[test]
    fn a_job_keeps_the_sheet_as_it_was() {
        let was = parse(PLAIN).unwrap();
        let mut now = was.clone();
        now.mark_out.inner.0 += 5.0;
        let jobs = [(1, now.clone()), (2, was)];
        let kept = jobs
            .iter()
            .map(|(id, sheet)| (*id, sheet.name.as_str(), print_of(sheet)));
        let found = used_in(&now, kept);
        assert_eq!(found, [(1, Use::AsItStands), (2, Use::AsItWas)]);
    }
}
