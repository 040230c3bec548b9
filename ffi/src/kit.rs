//! Kit sheets.

use rakeline_core::kit::{self, KitSheet};

use crate::Fault;
use crate::fault::lines;

/// What a kit sheet says, in short.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct KitFacts {
    /// The kit's name.
    pub name: String,
    /// Labels of its heads, left to right seen from behind.
    pub heads: Vec<String>,
    /// Names of its rings.
    pub rings: Vec<String>,
    /// Names of its inserts.
    pub inserts: Vec<String>,
}

/// A sheet out of its JSON, with every fault named at once.
pub(crate) fn sheet(json: &str) -> Result<KitSheet, Fault> {
    kit::parse(json).map_err(|faults| {
        let messages: Vec<_> = faults.iter().map(kit::SheetFault::message).collect();
        Fault::Unreadable {
            words: lines(&messages),
        }
    })
}

/// Reads a kit sheet (JSON, as the app exports it).
///
/// # Errors
/// [`Fault::Unreadable`] with everything that is wrong, a line each.
#[uniffi::export]
pub fn read_kit(json: &str) -> Result<KitFacts, Fault> {
    let sheet = sheet(json)?;
    Ok(KitFacts {
        name: sheet.name,
        heads: sheet.heads.labels,
        rings: sheet.rings.into_iter().map(|ring| ring.name).collect(),
        inserts: sheet.inserts.into_iter().map(|part| part.name).collect(),
    })
}
