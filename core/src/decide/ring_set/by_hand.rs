//! A set that the fitter takes against the rule, with the reason kept.

use serde::{Deserialize, Serialize};

use super::candidates::Candidate;
use super::{RingChoice, RingSet, words};
use crate::kit::KitSheet;
use crate::text::{Message, msg};
use crate::units::Degrees;

/// A set taken by hand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ByHand {
    /// The set.
    pub set: RingSet,
    /// Why, in the fitter's words.
    pub reason: String,
    /// What it comes to.
    pub candidate: Candidate,
}

/// Why a set cannot be taken by hand.
#[derive(Clone, Debug, PartialEq)]
pub enum ByHandFault {
    /// A reason is wanted.
    NoReason,
    /// The sheet has no such ring or insert.
    NotOnTheSheet {
        /// The set as asked.
        set: RingSet,
    },
}

impl ByHandFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::NoReason => msg("ring-by-hand-no-reason"),
            Self::NotOnTheSheet { set } => {
                msg("ring-by-hand-not-on-sheet").message("set", words::name(set))
            }
        }
    }
}

/// Takes a set against the rule.
///
/// # Errors
/// Without a reason, or for a set that is not on the sheet.
pub fn choose_by_hand(
    sheet: &KitSheet,
    choice: &RingChoice,
    set: &RingSet,
    reason: &str,
) -> Result<ByHand, ByHandFault> {
    let reason = reason.trim();
    if reason.is_empty() {
        return Err(ByHandFault::NoReason);
    }
    let candidate = choice
        .candidate(sheet, set)
        .ok_or_else(|| ByHandFault::NotOnTheSheet { set: set.clone() })?;
    Ok(ByHand {
        set: set.clone(),
        reason: reason.to_owned(),
        candidate: *candidate,
    })
}

impl ByHand {
    /// What the fitter should know about it; empty when it is acceptable.
    #[must_use]
    pub fn cautions(&self, sheet: &KitSheet) -> Vec<Message> {
        if self.candidate.acceptable() {
            return Vec::new();
        }
        vec![self.candidate.why(sheet)]
    }
}

impl Candidate {
    /// Where the head points when its ring sits upside down. + up.
    #[must_use]
    pub fn aim_upside_down(&self, sheet: &KitSheet) -> Degrees {
        self.aim.value - self.set(sheet).lower_upside_down(sheet)
    }
}
