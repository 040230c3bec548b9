//! What is wrong with a kit sheet, and where.

use crate::text::{Message, msg};

use super::draft::rule;
use super::rules::Unit;

/// One fault of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetFault {
    /// Where: `rings[2].lift`, counted from 0; empty for the whole document.
    pub at: String,
    /// What is wrong there.
    pub why: Why,
}

/// What is wrong at a place of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Why {
    /// The document is larger than a sheet may be.
    DocumentTooLarge {
        /// Its size in bytes.
        bytes: usize,
    },
    /// It is not JSON.
    NotJson {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// It is JSON, but says nowhere that it is a kit sheet.
    NotAKitSheet,
    /// A version that this app does not read.
    Version {
        /// The version as written.
        found: String,
    },
    /// The unit is not millimetres.
    Units {
        /// The unit as written.
        found: String,
    },
    /// A field that must be there is missing.
    Missing,
    /// A number is wanted.
    NotANumber,
    /// A number of inches stands where millimetres belong.
    Inches,
    /// A whole number is wanted.
    NotWhole,
    /// A text is wanted.
    NotText,
    /// The text is empty.
    Empty,
    /// The text is too long.
    TooLong {
        /// Characters at most.
        longest: usize,
    },
    /// `true` or `false` is wanted.
    NotASwitch,
    /// Another word is wanted.
    NotOneOf {
        /// The words allowed.
        allowed: &'static [&'static str],
    },
    /// A list is wanted.
    NotAList,
    /// A group of fields is wanted.
    NotAGroup,
    /// The list has too few entries.
    TooFew {
        /// Entries at least.
        least: usize,
    },
    /// The list has too many entries.
    TooMany {
        /// Entries at most.
        most: usize,
    },
    /// The number is below zero where only sizes make sense.
    Negative {
        /// The number as written.
        value: f64,
    },
    /// The number is too small.
    TooSmall {
        /// The number as written.
        value: f64,
        /// The least allowed.
        least: f64,
        /// Its unit.
        unit: Unit,
    },
    /// The number is too small, and would fit if it were inches.
    LooksLikeInches {
        /// The number as written.
        value: f64,
    },
    /// The number is too large.
    TooGreat {
        /// The number as written.
        value: f64,
        /// The greatest allowed.
        greatest: f64,
        /// Its unit.
        unit: Unit,
    },
    /// The same label, name or combination stands there already.
    Twice {
        /// What is there twice.
        value: String,
    },
    /// No ring has this name.
    UnknownRing {
        /// The name as written.
        name: String,
    },
    /// No insert has this name.
    UnknownInsert {
        /// The name as written.
        name: String,
    },
    /// The least is above the greatest.
    LeastAboveGreatest {
        /// The least as written.
        least: f64,
        /// The greatest as written.
        greatest: f64,
        /// Their unit.
        unit: Unit,
    },
    /// The target lies outside least and greatest.
    TargetOutside {
        /// The target as written.
        target: f64,
        /// The least.
        least: f64,
        /// The greatest.
        greatest: f64,
    },
    /// An insert that covers less than its own hole.
    CoversLessThanItsHole {
        /// What it covers, as written.
        covers: f64,
        /// Its hole.
        hole: f64,
    },
    /// A head that does not go into a hole of the sheet.
    HeadWiderThanHole {
        /// The head's diameter.
        head: f64,
        /// The hole.
        hole: f64,
    },
    /// A flange that would fall through a hole of the sheet.
    FlangeInHole {
        /// The flange's diameter.
        flange: f64,
        /// The hole.
        hole: f64,
    },
    /// A fuse that the kit's own current blows.
    FuseBelowCurrent {
        /// The fuse, in amperes.
        fuse: f64,
        /// The current, in amperes.
        current: f64,
    },
    /// Something else that does not fit.
    Other {
        /// The reader's own words.
        detail: String,
    },
}

impl SheetFault {
    pub(super) fn new(at: impl Into<String>, why: Why) -> Self {
        Self { at: at.into(), why }
    }

    /// What the fitter is told: where, what, what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        self.why.message().message("at", place(&self.at))
    }
}

/// A place in words: 'rings 3: adds'. Entries count from 1 on the screen.
pub(super) fn place(at: &str) -> Message {
    if rule(at).is_none() || at.is_empty() {
        return msg("kit-field-sheet");
    }
    let mut key = String::from("kit-field");
    let mut numbers = Vec::new();
    for part in at.split(['.', '[']) {
        match part.strip_suffix(']') {
            Some(number) => numbers.push(number.parse::<i64>().unwrap_or(0) + 1),
            None => {
                key.push('-');
                key.push_str(&part.replace('_', "-"));
            }
        }
    }
    let field = Message::from_data(key);
    match numbers.first() {
        Some(number) => msg("kit-at-entry")
            .message("field", field)
            .count("number", *number),
        None => field,
    }
}

fn bound(key: &'static str, value: f64, limit: f64, unit: Unit) -> Message {
    msg(key)
        .number("value", value, 2)
        .number("limit", limit, 2)
        .message("unit", msg(unit.key()))
}

impl Why {
    /// What is wrong and what to do, without the place.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::DocumentTooLarge { bytes } => msg("kit-fault-document-too-large")
                .count("kilobytes", i64::try_from(bytes / 1000).unwrap_or(i64::MAX)),
            Self::NotJson { line, column } => msg("kit-fault-not-json")
                .count("line", count(*line))
                .count("column", count(*column)),
            Self::NotAKitSheet => msg("kit-fault-not-a-kit-sheet"),
            Self::Version { found } => msg("kit-fault-version").text("found", found.clone()),
            Self::Units { found } => msg("kit-fault-units").text("found", found.clone()),
            Self::Missing => msg("kit-fault-missing"),
            Self::NotANumber => msg("kit-fault-not-a-number"),
            Self::Inches => msg("kit-fault-inches"),
            Self::NotWhole => msg("kit-fault-not-whole"),
            Self::NotText => msg("kit-fault-not-text"),
            Self::Empty => msg("kit-fault-empty"),
            Self::TooLong { longest } => {
                msg("kit-fault-too-long").count("longest", count(*longest))
            }
            Self::NotASwitch => msg("kit-fault-not-a-switch"),
            Self::NotOneOf { allowed } => {
                msg("kit-fault-not-one-of").text("allowed", allowed.join(", "))
            }
            Self::NotAList => msg("kit-fault-not-a-list"),
            Self::NotAGroup => msg("kit-fault-not-a-group"),
            Self::TooFew { least } => msg("kit-fault-too-few").count("least", count(*least)),
            Self::TooMany { most } => msg("kit-fault-too-many").count("most", count(*most)),
            Self::Negative { value } => msg("kit-fault-negative").number("value", *value, 2),
            Self::TooSmall { value, least, unit } => {
                bound("kit-fault-too-small", *value, *least, *unit)
            }
            Self::LooksLikeInches { value } => msg("kit-fault-looks-like-inches")
                .number("value", *value, 3)
                .number("millimetres", *value * MILLIMETRES_AN_INCH, 1),
            Self::TooGreat {
                value,
                greatest,
                unit,
            } => bound("kit-fault-too-great", *value, *greatest, *unit),
            Self::Twice { value } => msg("kit-fault-twice").text("value", value.clone()),
            Self::UnknownRing { name } => msg("kit-fault-unknown-ring").text("name", name.clone()),
            Self::UnknownInsert { name } => {
                msg("kit-fault-unknown-insert").text("name", name.clone())
            }
            Self::LeastAboveGreatest {
                least,
                greatest,
                unit,
            } => msg("kit-fault-least-above-greatest")
                .number("least", *least, 1)
                .number("greatest", *greatest, 1)
                .message("unit", msg(unit.key())),
            Self::TargetOutside {
                target,
                least,
                greatest,
            } => msg("kit-fault-target-outside")
                .deg("target", *target)
                .deg("least", *least)
                .deg("greatest", *greatest),
            Self::CoversLessThanItsHole { covers, hole } => msg("kit-fault-covers-less")
                .number("covers", *covers, 1)
                .number("hole", *hole, 1),
            Self::HeadWiderThanHole { head, hole } => msg("kit-fault-head-wider")
                .number("head", *head, 1)
                .number("hole", *hole, 1)
                .number("by", head - hole, 1),
            Self::FlangeInHole { flange, hole } => msg("kit-fault-flange-in-hole")
                .number("flange", *flange, 1)
                .number("hole", *hole, 1),
            Self::FuseBelowCurrent { fuse, current } => msg("kit-fault-fuse-below-current")
                .number("fuse", *fuse, 1)
                .number("current", *current, 1),
            Self::Other { detail } => msg("kit-fault-other").text("detail", detail.clone()),
        }
    }
}

/// Millimetres an inch (exact by definition, 1959).
pub(super) const MILLIMETRES_AN_INCH: f64 = 25.4;

fn count(n: usize) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}
