//! What a job knows for its mark-out beyond the two half widths: areas to
//! keep clear of, old holes, limits changed for this bumper, locked marks,
//! the height. And marks moved by hand.

use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::centre_line::CentreBy;
use super::check;
use super::entry::HALF_WIDTH_GREATEST;
use super::labels::labelled;
use super::limit::Limit;
use super::marks::{HalfWidths, half_widths, task_as_measured};
use super::row::{self, Row};
use super::state::{JobState, MarksFrom, Tape};
use super::taken::Taken;
use super::tape_limit::{self, TapeLimit};
use crate::decide::mark_out::{
    Lock, MOST_AREAS, NoDrill, Rule, RuleBreak, check_marks, too_many_areas,
};
use crate::order;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// Two breaks of a rule nearer than this count as equal, mm.
const SAME: f64 = 1e-6;

/// What the mark-out is asked besides the half widths.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct MarkOut {
    /// Areas where nothing may be drilled, as measured.
    pub no_drill: Vec<NoDrill>,
    /// Old holes that a head reuses.
    pub old_holes: Vec<Offset>,
    /// Limits changed for this job.
    pub limits: Table<Limit, Millimetres>,
    /// Spots whose marks stay when the rest is solved again.
    pub locked: Vec<usize>,
    /// Height of the row.
    pub row: Option<Row>,
    /// How the tape lies.
    pub taken: Taken,
    /// How the centre line was found; `None` until it was said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub centre: Option<CentreBy>,
    /// Limits of the check before drilling that were changed for this job.
    #[serde(skip_serializing_if = "Table::is_empty")]
    pub tape_limits: Table<TapeLimit, Millimetres>,
}

/// What happened to the mark-out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum MarkOutEvent {
    /// An area to keep clear of was added.
    NoDrillAdded(NoDrill),
    /// An area was taken away, by its place in the list.
    NoDrillTaken(usize),
    /// An old hole is to be used again.
    OldHoleAdded(Offset),
    /// It is not, by its place in the list.
    OldHoleTaken(usize),
    /// A limit was changed for this job.
    LimitChanged(Limit, Millimetres),
    /// All limits are the sheet's again.
    LimitsFromSheet,
    /// A mark was moved by hand.
    MarkMoved {
        /// Which spot, 0 for the leftmost.
        spot: usize,
        /// Where to.
        to: Offset,
    },
    /// A mark stays when the rest is solved.
    MarkLocked(usize),
    /// A mark may move again.
    MarkUnlocked(usize),
    /// The height of the row was typed; another measure from the line voids
    /// what belongs to the marks.
    RowTyped(Row),
    /// The height of the row is open again.
    RowCleared,
    /// It was said how the tape lies.
    TakenAs(Taken),
    /// It was said how the centre line was found.
    CentreFound(CentreBy),
    /// A limit of the check before drilling was changed for this job.
    TapeLimitChanged(TapeLimit, Millimetres),
    /// All limits of the check are the app's again.
    TapeLimitsFromApp,
}

/// Applies what happened to the mark-out.
pub(super) fn apply(next: &mut JobState, event: MarkOutEvent) -> Result<(), Refusal> {
    let known = task_faults(next);
    match event {
        MarkOutEvent::NoDrillAdded(area) => {
            next.mark_out.no_drill.push(area);
            if let Some(fault) = too_many_areas(next.mark_out.no_drill.len(), MOST_AREAS) {
                return Err(Refusal(fault));
            }
            still_a_task(next, &known)?;
        }
        MarkOutEvent::NoDrillTaken(index) => {
            take(&mut next.mark_out.no_drill, index)?;
        }
        MarkOutEvent::OldHoleAdded(at) => {
            next.mark_out.old_holes.push(at);
            still_a_task(next, &known)?;
        }
        MarkOutEvent::OldHoleTaken(index) => {
            take(&mut next.mark_out.old_holes, index)?;
        }
        MarkOutEvent::LimitChanged(limit, value) => {
            next.mark_out.limits.insert(limit, value);
            still_a_task(next, &known)?;
        }
        MarkOutEvent::LimitsFromSheet => next.mark_out.limits.clear(),
        MarkOutEvent::MarkMoved { spot, to } => move_mark(next, spot, to)?,
        MarkOutEvent::MarkLocked(spot) => {
            if !next.mark_out.locked.contains(&spot) {
                next.mark_out.locked.push(spot);
                order::sort_by_key(&mut next.mark_out.locked, |head| *head);
            }
        }
        MarkOutEvent::MarkUnlocked(spot) => next.mark_out.locked.retain(|other| *other != spot),
        MarkOutEvent::RowTyped(row) => row::typed(next, row)?,
        MarkOutEvent::RowCleared => row::cleared(next)?,
        MarkOutEvent::TakenAs(taken) => next.mark_out.taken = taken,
        MarkOutEvent::CentreFound(by) => next.mark_out.centre = Some(by),
        MarkOutEvent::TapeLimitChanged(limit, value) => {
            let value = tape_limit::in_range(value).map_err(Refusal)?;
            next.mark_out.tape_limits.insert(limit, value);
            check::judged_anew(next);
        }
        MarkOutEvent::TapeLimitsFromApp => {
            next.mark_out.tape_limits.clear();
            check::judged_anew(next);
        }
    }
    Ok(())
}

fn take<T>(list: &mut Vec<T>, index: usize) -> Result<(), Refusal> {
    if index < list.len() {
        list.remove(index);
        Ok(())
    } else {
        Err(Refusal(msg("refused-not-in-list")))
    }
}

/// What is wrong with the task, locks aside; the half widths are those that
/// were typed, else those of the marks, else as wide as bumpers are.
fn task_faults(job: &JobState) -> Vec<Message> {
    let (left, right) = match (half_widths(job), &job.marks) {
        (HalfWidths::Ready { left, right, .. }, _) => (left, right),
        (HalfWidths::Open { .. }, Some(marks)) => (marks.half_left, marks.half_right),
        (HalfWidths::Open { .. }, None) => (HALF_WIDTH_GREATEST, HALF_WIDTH_GREATEST),
    };
    let mut task = task_as_measured(job, left, right);
    task.locks.clear();
    task.check().err().unwrap_or_default()
}

/// A change must add no fault to the task; whether it has a plan is seen on
/// the screen.
fn still_a_task(next: &JobState, known: &[Message]) -> Result<(), Refusal> {
    let mut faults = task_faults(next).into_iter();
    match faults.find(|fault| !known.contains(fault)) {
        None => Ok(()),
        Some(fault) => Err(Refusal(labelled(next, fault))),
    }
}

fn move_mark(next: &mut JobState, spot: usize, to: Offset) -> Result<(), Refusal> {
    let offsets = moved_marks(next, spot, to)?;
    if let Some(broken) = worse(next, &offsets).into_iter().next() {
        return Err(Refusal(broken));
    }
    super::apply::void_moved(next, &offsets)?;
    if let Some(marks) = &mut next.marks {
        marks.offsets = offsets;
        marks.from = MarksFrom::Hand;
        marks.tape = Tape::NotYet;
    }
    Ok(())
}

/// The marks with one of them moved, in whole millimetres. A locked mark
/// stays.
fn moved_marks(job: &JobState, spot: usize, to: Offset) -> Result<Vec<Offset>, Refusal> {
    let marks = job
        .marks
        .as_ref()
        .ok_or_else(|| Refusal(msg("refused-no-marks")))?;
    let mut offsets = marks.offsets.clone();
    let place = offsets
        .get_mut(spot)
        .ok_or_else(|| super::apply::no_such_spot(job, spot))?;
    if job.mark_out.locked.contains(&spot) {
        let label = job.spots.get(spot).map_or("", |spot| &spot.label);
        return Err(Refusal(
            msg("refused-mark-locked").text("label", label.to_owned()),
        ));
    }
    *place = Offset(to.0.round());
    Ok(offsets)
}

/// Which rules a mark would break at a place that it does not break now, or
/// break by more, live while it is moved.
#[must_use]
pub fn would_break(job: &JobState, spot: usize, to: Offset) -> Vec<Message> {
    match moved_marks(job, spot, to) {
        Ok(offsets) => worse(job, &offsets),
        Err(refusal) => vec![refusal.0],
    }
}

/// The rules that the marks as they are break, since an area or a limit
/// changed after they were planned.
#[must_use]
pub fn marks_broken(job: &JobState) -> Vec<Message> {
    let broken = breaks_now(job);
    in_words(job, broken.iter())
}

/// As [`marks_broken`], without what stands between holes that are drilled:
/// it cannot change any more.
pub(super) fn broken_and_open(job: &JobState) -> Vec<Message> {
    let drilled = |head: usize| is_drilled(job, head);
    let open = |broken: &&RuleBreak| {
        let spacing = matches!(broken.rule, Rule::SpacingLeast | Rule::SpacingGreatest);
        !drilled(broken.head) || (spacing && !drilled(broken.head + 1))
    };
    let broken = breaks_now(job);
    in_words(job, broken.iter().filter(open))
}

/// What marks break that the marks as they are do not, or by more: so two
/// marks that break a rule can be mended one after the other.
fn worse(job: &JobState, offsets: &[Offset]) -> Vec<Message> {
    let before = breaks_now(job);
    let known = |broken: &&RuleBreak| {
        let same = |old: &&RuleBreak| old.rule == broken.rule && old.head == broken.head;
        let old = before.iter().find(same);
        old.is_none_or(|old| broken.by.0 > old.by.0 + SAME)
    };
    let broken = rule_breaks(job, offsets);
    in_words(job, broken.iter().filter(known))
}

fn breaks_now(job: &JobState) -> Vec<RuleBreak> {
    job.marks
        .as_ref()
        .map_or_else(Vec::new, |marks| rule_breaks(job, &marks.offsets))
}

fn in_words<'a>(job: &JobState, broken: impl Iterator<Item = &'a RuleBreak>) -> Vec<Message> {
    let Some(marks) = &job.marks else {
        return Vec::new();
    };
    let task = task_as_measured(job, marks.half_left, marks.half_right);
    broken
        .map(|broken| labelled(job, broken.message(&task)))
        .collect()
}

/// The rules that marks break, by hand locks aside.
fn rule_breaks(job: &JobState, offsets: &[Offset]) -> Vec<RuleBreak> {
    let Some(marks) = &job.marks else {
        return Vec::new();
    };
    let mut task = task_as_measured(job, marks.half_left, marks.half_right);
    task.locks.clear();
    check_marks(&task, offsets)
}

/// Whether the hole at the mark of this head is there.
pub(super) fn is_drilled(job: &JobState, head: usize) -> bool {
    u8::try_from(head).is_ok_and(|head| job.holes.drilled.contains_key(&head))
}

/// Marks of a job that stay where they are: locked by hand, or drilled.
pub(super) fn locks(job: &JobState) -> Vec<Lock> {
    let offsets = job.marks.iter().flat_map(|marks| &marks.offsets);
    let stays = |head: &usize| job.mark_out.locked.contains(head) || is_drilled(job, *head);
    offsets
        .enumerate()
        .filter(|(head, _)| stays(head))
        .map(|(head, at)| Lock { head, at: *at })
        .collect()
}

/// The areas that the other marks keep clear of: where a hole is drilled
/// already, an area says nothing of that place any more.
pub(super) fn around_drilled(
    job: &JobState,
    areas: &[NoDrill],
    clear: Millimetres,
) -> Vec<NoDrill> {
    let offsets = job.marks.iter().flat_map(|marks| &marks.offsets);
    let drilled = offsets
        .enumerate()
        .filter(|(head, _)| is_drilled(job, *head));
    drilled.fold(areas.to_vec(), |areas, (_, hole)| {
        let pieces = |area: &NoDrill| area.without(*hole, clear);
        areas.iter().flat_map(pieces).collect()
    })
}
