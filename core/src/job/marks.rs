//! From what was typed to the marks: the task for the mark-out and its plans.

use super::apply::Refusal;
use super::entry::{Field, read_half_width};
use super::state::JobState;
use crate::decide::mark_out::{
    Limits, MarkOutPlans, MarkOutTask, NoDrill, NoDrillReason, NoPlan, check_marks, solve,
};
use crate::kit::{KitSheet, MarkOutLimits};
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// Half widths that differ by more than this ask whether the centre line is
/// right, mm.
pub const CENTRE_LINE_DOUBT: Millimetres = Millimetres(20.0);

/// What stands in the two half-width fields.
#[derive(Clone, Debug, PartialEq)]
pub enum HalfWidths {
    /// At least one can't be used; a message for each that was typed wrong.
    Open {
        /// What is wrong on the left, if something was typed.
        left: Option<Message>,
        /// What is wrong on the right, if something was typed.
        right: Option<Message>,
    },
    /// Both can be used.
    Ready {
        /// Centre line to the left outer edge.
        left: Millimetres,
        /// Centre line to the right outer edge.
        right: Millimetres,
        /// A question when they differ much.
        doubt: Option<Message>,
    },
}

/// Reads both half widths as typed.
#[must_use]
pub fn half_widths(job: &JobState) -> HalfWidths {
    let read = |field| {
        let text = job.typed(field);
        if text.trim().is_empty() {
            Err(None)
        } else {
            read_half_width(text).map_err(Some)
        }
    };
    match (read(Field::HalfLeft), read(Field::HalfRight)) {
        (Ok(left), Ok(right)) => {
            let apart = (left - right).abs();
            let doubt = (apart > CENTRE_LINE_DOUBT).then(|| {
                msg("half-widths-differ")
                    .mm("by", apart.0)
                    .mm("shift", apart.0 / 2.0)
                    .message(
                        "side",
                        msg(if left > right {
                            "side-left"
                        } else {
                            "side-right"
                        }),
                    )
            });
            HalfWidths::Ready { left, right, doubt }
        }
        (left, right) => HalfWidths::Open {
            left: left.err().flatten(),
            right: right.err().flatten(),
        },
    }
}

/// The mark-out task of a kit on a bumper.
#[must_use]
pub fn task_for(kit: &KitSheet, half_left: Millimetres, half_right: Millimetres) -> MarkOutTask {
    MarkOutTask {
        heads: kit.head_count(),
        half_left,
        half_right,
        hole_radius: largest_hole(kit) * 0.5,
        limits: limits_of(&kit.mark_out),
        no_drill: Vec::new(),
        locks: Vec::new(),
        old_holes: Vec::new(),
    }
}

/// The kit sheet's limits as the mark-out takes them.
fn limits_of(sheet: &MarkOutLimits) -> Limits {
    Limits {
        inner: sheet.inner,
        corner_gap_least: sheet.corner_gap_least,
        corner_gap_greatest: sheet.corner_gap_greatest,
        spacing_least: sheet.spacing_least,
        spacing_greatest: sheet.spacing_greatest,
        odd_head_within: sheet.odd_head_within,
        clearance: sheet.clearance,
    }
}

/// The largest hole that any ring set of the kit may need: marks must leave
/// room for it, since the ring set is chosen after them.
/// The mark-out task of a job: its kit around its no-drill areas.
#[must_use]
pub fn task_of(job: &JobState, half_left: Millimetres, half_right: Millimetres) -> MarkOutTask {
    let areas = job.behind.no_drill.iter().map(|area| NoDrill {
        from: area.from,
        to: area.to,
        why: NoDrillReason::Behind(area.what.clone()),
    });
    MarkOutTask {
        no_drill: areas.collect(),
        ..task_for(&job.kit, half_left, half_right)
    }
}

fn largest_hole(kit: &KitSheet) -> Millimetres {
    let inserts = kit.inserts.iter().map(|insert| insert.hole);
    inserts.fold(kit.holes.head, |a, b| if b > a { b } else { a })
}

/// Whether the half widths were typed anew since the marks were planned.
#[must_use]
pub fn marks_are_stale(job: &JobState) -> bool {
    let Some(marks) = &job.marks else {
        return false;
    };
    match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => {
            left != marks.half_left || right != marks.half_right
        }
        HalfWidths::Open { .. } => true,
    }
}

/// What the marks of the job reach and which rule decides, in words.
#[must_use]
pub fn marks_explained(job: &JobState) -> Vec<Message> {
    let Some(marks) = &job.marks else {
        return Vec::new();
    };
    let task = task_of(job, marks.half_left, marks.half_right);
    match solve(&task) {
        Ok(plans) if plans.get(marks.kind).marks == marks.offsets => {
            plans.get(marks.kind).explain(&task)
        }
        _ => Vec::new(),
    }
}

/// The mark-out plans for what was typed; `None` until both half widths can
/// be used.
#[must_use]
pub fn plans(job: &JobState) -> Option<Result<MarkOutPlans, NoPlan>> {
    match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => Some(solve(&task_of(job, left, right))),
        HalfWidths::Open { .. } => None,
    }
}

/// Says which readings a change of the marks would void, if any.
#[must_use]
pub fn readings_lost(job: &JobState, offsets: &[Offset]) -> Option<Message> {
    let before = job.marks.as_ref()?;
    let labels: Vec<String> = job
        .spots
        .iter()
        .zip(before.offsets.iter().zip(offsets))
        .filter(|(spot, (old, new))| spot.is_read() && moved(**old, **new))
        .map(|(spot, _)| spot.label.clone())
        .collect();
    (!labels.is_empty()).then(|| {
        msg("readings-lost")
            .count("readings", i64::try_from(labels.len()).unwrap_or(i64::MAX))
            .text("labels", labels.join(", "))
    })
}

/// Whether a mark is in another place: marks are whole millimetres.
pub(super) fn moved(old: Offset, new: Offset) -> bool {
    (old - new).abs().0 > 0.5
}

/// Why there are no marks and what would help, for the half widths as typed.
#[must_use]
pub fn no_plan_messages(job: &JobState, none: &NoPlan) -> Vec<Message> {
    match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => none.messages(&task_of(job, left, right)),
        HalfWidths::Open { .. } => Vec::new(),
    }
}

/// Refuses marks that break a rule of the task.
pub(super) fn holds_the_rules(
    job: &JobState,
    half_left: Millimetres,
    half_right: Millimetres,
    offsets: &[Offset],
) -> Result<(), Refusal> {
    if offsets.len() != job.spots.len() {
        return Err(Refusal(
            msg("refused-mark-count")
                .count("marks", i64::try_from(offsets.len()).unwrap_or(i64::MAX))
                .count("heads", i64::try_from(job.spots.len()).unwrap_or(i64::MAX)),
        ));
    }
    let task = task_of(job, half_left, half_right);
    match check_marks(&task, offsets).first() {
        None => Ok(()),
        Some(broken) => Err(Refusal(broken.message(&task))),
    }
}
