//! Limits of the mark-out that may be changed for one job.

use serde::{Deserialize, Serialize};

use super::state::JobState;
use crate::decide::mark_out::Limits;
use crate::kit::MarkOutLimits;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// A limit of the mark-out that the fitter may change for one job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Limit {
    /// The head or heads nearest the centre line sit within it.
    Inner,
    /// Least outer head to outer edge.
    CornerGapLeast,
    /// Greatest outer head to outer edge.
    CornerGapGreatest,
    /// Least between neighbours.
    SpacingLeast,
    /// Greatest between neighbours; a sheet may set none.
    SpacingGreatest,
    /// The middle one of an odd number sits within it.
    OddHeadWithin,
    /// Between a hole's edge and a no-drill area.
    Clearance,
}

impl Limit {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 7] = [
        Self::Inner,
        Self::CornerGapLeast,
        Self::CornerGapGreatest,
        Self::SpacingLeast,
        Self::SpacingGreatest,
        Self::OddHeadWithin,
        Self::Clearance,
    ];

    /// Its name on the screen.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Inner => "limit-inner",
            Self::CornerGapLeast => "limit-corner-gap-least",
            Self::CornerGapGreatest => "limit-corner-gap-greatest",
            Self::SpacingLeast => "limit-spacing-least",
            Self::SpacingGreatest => "limit-spacing-greatest",
            Self::OddHeadWithin => "limit-odd-head-within",
            Self::Clearance => "limit-clearance",
        })
    }

    fn get(self, limits: &Limits) -> Option<Millimetres> {
        match self {
            Self::Inner => Some(limits.inner),
            Self::CornerGapLeast => Some(limits.corner_gap_least),
            Self::CornerGapGreatest => Some(limits.corner_gap_greatest),
            Self::SpacingLeast => Some(limits.spacing_least),
            Self::SpacingGreatest => limits.spacing_greatest,
            Self::OddHeadWithin => Some(limits.odd_head_within),
            Self::Clearance => Some(limits.clearance),
        }
    }

    fn set(self, limits: &mut Limits, value: Millimetres) {
        match self {
            Self::Inner => limits.inner = value,
            Self::CornerGapLeast => limits.corner_gap_least = value,
            Self::CornerGapGreatest => limits.corner_gap_greatest = value,
            Self::SpacingLeast => limits.spacing_least = value,
            Self::SpacingGreatest => limits.spacing_greatest = Some(value),
            Self::OddHeadWithin => limits.odd_head_within = value,
            Self::Clearance => limits.clearance = value,
        }
    }
}

/// The sheet's limits with what this job changed.
pub(super) fn limits_of(sheet: &MarkOutLimits, changed: &Table<Limit, Millimetres>) -> Limits {
    let mut limits = Limits {
        inner: sheet.inner,
        corner_gap_least: sheet.corner_gap_least,
        corner_gap_greatest: sheet.corner_gap_greatest,
        spacing_least: sheet.spacing_least,
        spacing_greatest: sheet.spacing_greatest,
        odd_head_within: sheet.odd_head_within,
        clearance: sheet.clearance,
    };
    for (limit, value) in changed {
        limit.set(&mut limits, *value);
    }
    limits
}

/// The limits of a job that bear on its heads, in the order in which they
/// are shown.
#[must_use]
pub fn limits_shown(job: &JobState) -> Vec<Limit> {
    let odd = job.kit.head_count() % 2 == 1;
    let bears = |limit: &Limit| odd || *limit != Limit::OddHeadWithin;
    Limit::ALL.into_iter().filter(bears).collect()
}

/// A limit as it holds in this job; `None` where neither sheet nor job sets it.
#[must_use]
pub fn limit_value(job: &JobState, limit: Limit) -> Option<Millimetres> {
    limit.get(&limits_of(&job.kit.mark_out, &job.mark_out.limits))
}
