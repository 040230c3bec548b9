//! From what was typed to the marks: the task for the mark-out and its plans.

use super::apply::Refusal;
use super::entry::Field;
use super::labels::labelled;
use super::limit::limits_of;
use super::mark_out::{around_drilled, broken_and_open, is_drilled, locks, marks_broken};
use super::state::{JobState, MarksFrom};
use super::taken::half_width;
use crate::decide::mark_out::{MarkOutPlans, MarkOutTask, NoPlan, Rule, check_marks, solve};
use crate::kit::KitSheet;
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
            half_width(job, field).map_err(Some)
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

/// The mark-out task of a job for these half widths; what is drilled stays.
#[must_use]
pub fn task_for(job: &JobState, half_left: Millimetres, half_right: Millimetres) -> MarkOutTask {
    let mut task = task_as_measured(job, half_left, half_right);
    let clear = task.hole_radius + task.limits.clearance;
    task.no_drill = around_drilled(job, &task.no_drill, clear);
    task
}

/// The same with every area as it was measured, whatever is drilled in it.
pub(super) fn task_as_measured(
    job: &JobState,
    half_left: Millimetres,
    half_right: Millimetres,
) -> MarkOutTask {
    MarkOutTask {
        heads: job.kit.head_count(),
        half_left,
        half_right,
        hole_radius: largest_hole(&job.kit) * 0.5,
        limits: limits_of(&job.kit.mark_out, &job.mark_out.limits),
        no_drill: job.mark_out.no_drill.clone(),
        locks: locks(job),
        old_holes: job.mark_out.old_holes.clone(),
    }
}

/// The task for what was typed; `None` until both half widths can be used.
#[must_use]
pub fn task_of(job: &JobState) -> Option<MarkOutTask> {
    match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => Some(task_for(job, left, right)),
        HalfWidths::Open { .. } => None,
    }
}

/// The largest hole that any ring set of the kit may need, in any material:
/// marks must leave room for it, since the ring set is chosen after them.
fn largest_hole(kit: &KitSheet) -> Millimetres {
    let inserts = kit.inserts.iter().map(|insert| insert.hole);
    let materials = kit.holes.by_material.iter().map(|hole| hole.diameter);
    inserts
        .chain(materials)
        .fold(kit.holes.head, |a, b| if b > a { b } else { a })
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

/// Why nothing may be drilled, agreed or found ready by the marks as they
/// are: the half widths changed since, or a rule is broken at a hole that is
/// not there yet.
#[must_use]
pub fn marks_fault(job: &JobState) -> Option<Message> {
    if marks_are_stale(job) {
        return Some(msg("marks-stale-first"));
    }
    let why = broken_and_open(job).into_iter().next()?;
    Some(msg("marks-broken-first").message("why", why))
}

/// What the marks of the job reach and which rule decides, in words.
#[must_use]
pub fn marks_explained(job: &JobState) -> Vec<Message> {
    let Some(marks) = &job.marks else {
        return Vec::new();
    };
    let kind = match marks.from {
        MarksFrom::Plan(kind) => kind,
        MarksFrom::Hand if marks_broken(job).is_empty() => return vec![msg("marks-by-hand")],
        MarksFrom::Hand => return vec![msg("marks-by-hand-broken")],
        MarksFrom::Before if marks_broken(job).is_empty() => return vec![msg("marks-as-before")],
        MarksFrom::Before => return vec![msg("marks-as-before-broken")],
    };
    let task = task_for(job, marks.half_left, marks.half_right);
    match solve(&task) {
        Ok(plans) if plans.get(kind).marks == marks.offsets => {
            let said = plans.get(kind).explain(&task).into_iter();
            said.map(|message| labelled(job, message)).collect()
        }
        _ => Vec::new(),
    }
}

/// The mark-out plans for what was typed; `None` until both half widths can
/// be used.
#[must_use]
pub fn plans(job: &JobState) -> Option<Result<MarkOutPlans, NoPlan>> {
    let task = task_of(job)?;
    Some(solve(&task).map_err(|none| without_drilled(job, &task, none)))
}

/// The same without the ways on which a mark with a hole would move.
fn without_drilled(job: &JobState, task: &MarkOutTask, mut none: NoPlan) -> NoPlan {
    let moves = |rule| match rule {
        Rule::Locked(k) => task
            .locks
            .get(k)
            .is_some_and(|lock| is_drilled(job, lock.head)),
        _ => false,
    };
    if let NoPlan::Impossible { ways, .. } = &mut none {
        ways.retain(|way| !moves(way.rule));
    }
    none
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
    task_of(job).map_or_else(Vec::new, |task| {
        let said = none.messages(&task).into_iter();
        said.map(|message| labelled(job, message)).collect()
    })
}

/// A place in words: '230 mm left'.
#[must_use]
pub fn offset_words(at: Offset) -> Message {
    if at.0 < -0.05 {
        msg("offset-left").mm("mm", -at.0)
    } else if at.0 > 0.05 {
        msg("offset-right").mm("mm", at.0)
    } else {
        msg("offset-centre")
    }
}

/// Where the mark of a spot belongs, in words.
#[must_use]
pub fn planned_place(job: &JobState, spot: usize) -> Message {
    job.marks
        .as_ref()
        .and_then(|marks| marks.offsets.get(spot))
        .map_or_else(|| msg("sheet-not-measured"), |at| offset_words(*at))
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
    let task = task_for(job, half_left, half_right);
    if let Err(faults) = task.check() {
        let fault = faults.into_iter().next();
        let fault = fault.unwrap_or_else(|| msg("refused-no-marks"));
        return Err(Refusal(labelled(job, fault)));
    }
    match check_marks(&task, offsets).first() {
        None => Ok(()),
        Some(broken) => Err(Refusal(labelled(job, broken.message(&task)))),
    }
}
