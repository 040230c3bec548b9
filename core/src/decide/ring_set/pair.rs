//! The second step: mirrored spots, left and right.

use serde::{Deserialize, Serialize};

use super::candidates::{Candidate, SLACK};
use super::{RingChoice, RingSet, words};
use crate::kit::KitSheet;
use crate::text::{Message, msg};

/// What a pair of mirrored spots comes to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Pair {
    /// Both chose the same.
    Same {
        /// The set of both.
        set: RingSet,
    },
    /// They differ, and one set is acceptable at both: take it at both.
    Take {
        /// The set for both.
        set: RingSet,
        /// What the left one would have got alone.
        left_alone: RingSet,
        /// What the right one would have got alone.
        right_alone: RingSet,
    },
    /// They differ, and neither set is acceptable at both.
    Differ {
        /// The left set.
        left: RingSet,
        /// The right set.
        right: RingSet,
    },
    /// One of the two spots has no set yet.
    NotYet,
}

impl Pair {
    /// What the fitter is told; says when the two differ.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Same { set } => msg("ring-pair-same").message("set", words::name(set)),
            Self::Take {
                set,
                left_alone,
                right_alone,
            } => msg("ring-pair-take")
                .message("set", words::name(set))
                .message("left", words::name(left_alone))
                .message("right", words::name(right_alone)),
            Self::Differ { left, right } => msg("ring-pair-differ")
                .message("left", words::name(left))
                .message("right", words::name(right)),
            Self::NotYet => msg("ring-pair-not-yet"),
        }
    }
}

/// Brings left and right together where one set is acceptable at both.
///
/// If both sets are, the one whose greater distance from the target is
/// smaller is taken, then the one with less lift. Both choices are of the
/// same sheet.
#[must_use]
pub fn pair(sheet: &KitSheet, left: &RingChoice, right: &RingChoice) -> Pair {
    let (Some(left_set), Some(right_set)) = (left.set(), right.set()) else {
        return Pair::NotYet;
    };
    if left_set == right_set {
        return Pair::Same {
            set: left_set.clone(),
        };
    }
    let at_both = |set: &RingSet| {
        let l = left.candidate(sheet, set).filter(|c| c.acceptable())?;
        let r = right.candidate(sheet, set).filter(|c| c.acceptable())?;
        let far = |c: &Candidate| (c.aim.value - sheet.aim.target).0.abs();
        Some((far(l).max(far(r)), l.lift.value.0))
    };
    let take = |set: &RingSet| Pair::Take {
        set: set.clone(),
        left_alone: left_set.clone(),
        right_alone: right_set.clone(),
    };
    match (at_both(left_set), at_both(right_set)) {
        (None, None) => Pair::Differ {
            left: left_set.clone(),
            right: right_set.clone(),
        },
        (Some(_), None) => take(left_set),
        (None, Some(_)) => take(right_set),
        (Some((far_l, lift_l)), Some((far_r, lift_r))) => {
            let right_is_nearer = far_r < far_l - SLACK;
            let equally_near = (far_r - far_l).abs() <= SLACK;
            if right_is_nearer || (equally_near && lift_r < lift_l) {
                take(right_set)
            } else {
                take(left_set)
            }
        }
    }
}
