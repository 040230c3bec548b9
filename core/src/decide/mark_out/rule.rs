//! The hard rules by name, and what is said about one at a head.

use serde::{Deserialize, Serialize};

use super::MarkOutTask;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// A hard rule of the mark-out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// As many marks as heads.
    HeadCount,
    /// A place is a figure.
    Figure,
    /// Half the heads on each side of the centre line.
    Sides,
    /// The heads nearest the centre line are within the inner limit.
    Inner,
    /// Outer head to outer edge, at least.
    CornerGapLeast,
    /// Outer head to outer edge, at most.
    CornerGapGreatest,
    /// Between neighbours, at least. At a head: to its right neighbour.
    SpacingLeast,
    /// Between neighbours, at most. At a head: to its right neighbour.
    SpacingGreatest,
    /// The middle one of an odd number is near the centre line.
    OddHeadWithin,
    /// Clear of the no-drill area with this index.
    NoDrill(usize),
    /// The lock with this index.
    Locked(usize),
    /// The old hole with this index is used.
    OldHole(usize),
}

impl Rule {
    /// The rule in words, with its limit.
    #[must_use]
    pub fn message(self, task: &MarkOutTask) -> Message {
        let l = &task.limits;
        match self {
            Self::HeadCount => msg("mark-out-rule-head-count").count("heads", task.heads as i64),
            Self::Figure => msg("mark-out-rule-figure"),
            Self::Sides => msg("mark-out-rule-sides"),
            Self::Inner => msg("mark-out-rule-inner").mm("limit", l.inner.0),
            Self::CornerGapLeast => {
                msg("mark-out-rule-corner-gap-least").mm("limit", l.corner_gap_least.0)
            }
            Self::CornerGapGreatest => {
                msg("mark-out-rule-corner-gap-greatest").mm("limit", l.corner_gap_greatest.0)
            }
            Self::SpacingLeast => msg("mark-out-rule-spacing-least").mm("limit", l.spacing_least.0),
            Self::SpacingGreatest => {
                let limit = l.spacing_greatest.unwrap_or_default();
                msg("mark-out-rule-spacing-greatest").mm("limit", limit.0)
            }
            Self::OddHeadWithin => {
                msg("mark-out-rule-odd-head-within").mm("limit", l.odd_head_within.0)
            }
            Self::NoDrill(k) => match task.no_drill.get(k) {
                Some(area) => msg("mark-out-rule-no-drill")
                    .message("why", area.why.message())
                    .mm("from", area.from.0)
                    .mm("to", area.to.0),
                None => msg("mark-out-rule-no-drill-gone"),
            },
            Self::Locked(k) => match task.locks.get(k) {
                Some(lock) => msg("mark-out-rule-locked")
                    .count("head", lock.head as i64 + 1)
                    .mm("at", lock.at.0),
                None => msg("mark-out-rule-locked-gone"),
            },
            Self::OldHole(k) => match task.old_holes.get(k) {
                Some(at) => msg("mark-out-rule-old-hole").mm("at", at.0),
                None => msg("mark-out-rule-old-hole-gone"),
            },
        }
    }

    /// What changing the rule by `by` means, as something to do.
    #[must_use]
    pub fn loosened_message(self, task: &MarkOutTask, by: Millimetres) -> Message {
        let key = match self {
            Self::Inner | Self::CornerGapGreatest | Self::SpacingGreatest | Self::OddHeadWithin => {
                "mark-out-loosen-raise"
            }
            Self::CornerGapLeast | Self::SpacingLeast => "mark-out-loosen-lower",
            Self::NoDrill(_) => "mark-out-loosen-no-drill",
            Self::Locked(_) => "mark-out-loosen-locked",
            Self::OldHole(_) => "mark-out-loosen-old-hole",
            Self::HeadCount | Self::Figure | Self::Sides => "mark-out-loosen-cannot",
        };
        msg(key).message("rule", self.message(task)).mm("by", by.0)
    }
}

/// A rule that holds a head where it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Binding {
    /// Which rule.
    pub rule: Rule,
    /// At which head, counted from 0; for a spacing the left one of the two.
    pub head: usize,
    /// How far the head is from the limit; more than 0 where equal whole
    /// millimetres cannot come closer.
    pub room: Millimetres,
}

impl Binding {
    /// The binding in words.
    #[must_use]
    pub fn message(&self, task: &MarkOutTask) -> Message {
        let said = if self.room.0 < 1.0 {
            msg("mark-out-binds")
        } else {
            msg("mark-out-binds-nearly").mm("room", self.room.0.floor())
        };
        said.count("head", self.head as i64 + 1)
            .message("rule", self.rule.message(task))
    }
}

/// A rule that a mark breaks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct RuleBreak {
    /// Which rule.
    pub rule: Rule,
    /// At which head, counted from 0; for a spacing the left one of the two.
    pub head: usize,
    /// By how much, more than 0; 0 where the rule is no length.
    pub by: Millimetres,
}

impl RuleBreak {
    /// The break in words: which rule, at which head, by how much.
    #[must_use]
    pub fn message(&self, task: &MarkOutTask) -> Message {
        msg("mark-out-breaks")
            .count("head", self.head as i64 + 1)
            .message("rule", self.rule.message(task))
            .number("by", self.by.0, 1)
    }
}
