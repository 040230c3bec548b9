//! The fuse at the take-off: required.

use serde::{Deserialize, Serialize};

use super::Amperes;
use crate::kit::KitSheet;
use crate::text::{Message, msg};

/// Fuse at the take-off where the sheet gives none (our own figure).
pub const DEFAULT_FUSE: Amperes = Amperes(3.0);

/// Where a fuse rating comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RatingFrom {
    /// The kit sheet.
    Sheet,
    /// The sheet gives none: our stated default.
    Default,
}

/// The fuse at the take-off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fuse {
    /// Its rating.
    pub rating: Amperes,
    /// Where the rating comes from.
    pub from: RatingFrom,
}

/// The fuse that belongs at the take-off.
#[must_use]
pub fn fuse(sheet: &KitSheet) -> Fuse {
    let given = sheet.supply.as_ref().and_then(|s| s.fuse_amperes);
    match given {
        Some(amperes) => Fuse {
            rating: Amperes(amperes),
            from: RatingFrom::Sheet,
        },
        None => Fuse {
            rating: DEFAULT_FUSE,
            from: RatingFrom::Default,
        },
    }
}

/// The fitter's answer about the fuse.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum FuseAnswer {
    /// Fitted at the take-off, of that rating.
    FittedAtTakeOff(Amperes),
    /// Not fitted.
    NotFitted,
}

/// Why the supply is not done: the fuse cannot be skipped.
#[must_use]
pub fn fuse_missing(sheet: &KitSheet, answer: FuseAnswer) -> Option<Message> {
    let wanted = fuse(sheet);
    let told = |key: &'static str| msg(key).number("rating", wanted.rating.0, 1);
    match answer {
        FuseAnswer::NotFitted => Some(told("supply-fuse-required")),
        FuseAnswer::FittedAtTakeOff(fitted) if fitted.0.is_nan() || fitted.0 <= 0.0 => {
            Some(told("supply-fuse-required"))
        }
        FuseAnswer::FittedAtTakeOff(fitted) if fitted > wanted.rating => {
            Some(told("supply-fuse-too-large").number("fitted", fitted.0, 1))
        }
        FuseAnswer::FittedAtTakeOff(_) => None,
    }
}
