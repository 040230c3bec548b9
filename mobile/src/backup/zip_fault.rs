//! Why an archive is refused, in the fitter's words.

use rakeline_core::text::{Message, msg};

use super::limits::MOST_ENTRIES;

/// Why an archive is refused. Nothing of it is used then.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ZipFault {
    /// Not a zip at all.
    NotAZip,
    /// It ends too early.
    CutShort,
    /// A name that leads out of the archive's own folder, or is no plain name.
    Name(String),
    /// Two entries of one name.
    Twice(String),
    /// More entries than a backup has.
    TooMany,
    /// An entry larger than any of a backup.
    TooLarge(String),
    /// It unpacks to far more than it is, or than a phone can take.
    Bomb(String),
    /// Locked by the zip's own old lock, packed in a way that backups are
    /// not, or without its length.
    Method(String),
    /// Its bytes are not what it says.
    Damaged(String),
    /// Its directory and its entries differ.
    Directory,
}

impl ZipFault {
    /// What the fitter is told, with what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        let of = |key: &'static str, name: &String| msg(key).text("name", name.clone());
        match self {
            Self::NotAZip => msg("zip-not-a-zip"),
            Self::CutShort => msg("zip-cut-short"),
            Self::Name(name) => of("zip-bad-name", name),
            Self::Twice(name) => of("zip-twice", name),
            Self::TooMany => {
                msg("zip-too-many").count("most", i64::try_from(MOST_ENTRIES).unwrap_or(i64::MAX))
            }
            Self::TooLarge(name) => of("zip-too-large", name),
            Self::Bomb(name) => of("zip-bomb", name),
            Self::Method(name) => of("zip-method", name),
            Self::Damaged(name) => of("zip-damaged", name),
            Self::Directory => msg("zip-directory"),
        }
    }
}
