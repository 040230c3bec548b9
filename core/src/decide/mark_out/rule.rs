//! The hard rules by name, and what is said about one at a head.

use serde::{Deserialize, Serialize};

use super::MarkOutTask;
use super::marks::{check_marks, inner_heads};
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

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

    /// The heads that the rule speaks of, counted from 0.
    pub(super) fn heads(self, task: &MarkOutTask) -> Vec<usize> {
        let n = task.heads;
        match self {
            Self::Inner => inner_heads(n).collect(),
            Self::CornerGapLeast | Self::CornerGapGreatest => vec![0, n.saturating_sub(1)],
            Self::OddHeadWithin => vec![n / 2],
            Self::Locked(k) => task
                .locks
                .get(k)
                .map(|lock| lock.head)
                .into_iter()
                .collect(),
            _ => (0..n).collect(),
        }
    }

    /// The heads at which these marks do not keep the rule; where they keep
    /// it, all that it speaks of. Of a spacing both neighbours.
    pub(super) fn heads_at(self, task: &MarkOutTask, marks: &[Offset]) -> Vec<usize> {
        let spacing = matches!(self, Self::SpacingLeast | Self::SpacingGreatest);
        let mut heads = Vec::new();
        for broken in check_marks(task, marks) {
            if broken.rule != self {
                continue;
            }
            for head in broken.head..=broken.head + usize::from(spacing) {
                if !heads.contains(&head) {
                    heads.push(head);
                }
            }
        }
        if heads.is_empty() {
            self.heads(task)
        } else {
            heads
        }
    }

    /// What changing the rule by `by` at these heads means, as something to do.
    pub(super) fn loosened_message(
        self,
        task: &MarkOutTask,
        by: Millimetres,
        heads: &[usize],
    ) -> Message {
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
        msg(key)
            .message("rule", self.message(task))
            .mm("by", by.0)
            .message("at", at_heads(heads))
    }
}

/// Heads in words, 'at heads 2, 3': counted from 1.
pub(super) fn at_heads(heads: &[usize]) -> Message {
    let names = heads
        .iter()
        .map(|head| msg("mark-out-head").count("head", *head as i64 + 1))
        .collect();
    msg("mark-out-at-heads")
        .count("count", heads.len() as i64)
        .list("heads", names)
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
