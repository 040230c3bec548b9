//! What a job knows for its mark-out beyond the two half widths: areas to
//! keep clear of, old holes, limits changed for this bumper, locked marks,
//! the height. And marks moved by hand.

use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::marks::task_for;
use super::state::{JobState, MarksFrom, Tape};
use super::taken::Taken;
use crate::decide::mark_out::{Limits, Lock, NoDrill, RuleBreak, check_marks};
use crate::kit::MarkOutLimits;
use crate::order;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

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
    /// Between a hole's edge and a no-drill area.
    Clearance,
}

impl Limit {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 5] = [
        Self::Inner,
        Self::CornerGapLeast,
        Self::CornerGapGreatest,
        Self::SpacingLeast,
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
            Self::Clearance => "limit-clearance",
        })
    }

    fn of(self, limits: &mut Limits) -> &mut Millimetres {
        match self {
            Self::Inner => &mut limits.inner,
            Self::CornerGapLeast => &mut limits.corner_gap_least,
            Self::CornerGapGreatest => &mut limits.corner_gap_greatest,
            Self::SpacingLeast => &mut limits.spacing_least,
            Self::Clearance => &mut limits.clearance,
        }
    }
}

/// Where the row of heads sits up and down: one measure from a line that
/// runs true across, never from the ground.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// From the line to the marks: + up, - down.
    pub from_line: Millimetres,
    /// Height of the marks above the ground, measured once for the sheet.
    pub above_ground: Option<Millimetres>,
}

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
    /// The height of the row was typed.
    RowTyped(Row),
    /// It was said how the tape lies.
    TakenAs(Taken),
}

/// Applies what happened to the mark-out.
pub(super) fn apply(next: &mut JobState, event: MarkOutEvent) -> Result<(), Refusal> {
    match event {
        MarkOutEvent::NoDrillAdded(area) => add_area(next, area)?,
        MarkOutEvent::NoDrillTaken(index) => {
            take(&mut next.mark_out.no_drill, index)?;
        }
        MarkOutEvent::OldHoleAdded(at) => {
            next.mark_out.old_holes.push(at);
            still_a_task(next)?;
        }
        MarkOutEvent::OldHoleTaken(index) => {
            take(&mut next.mark_out.old_holes, index)?;
        }
        MarkOutEvent::LimitChanged(limit, value) => {
            next.mark_out.limits.insert(limit, value);
            still_a_task(next)?;
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
        MarkOutEvent::RowTyped(row) => next.mark_out.row = Some(row),
        MarkOutEvent::TakenAs(taken) => next.mark_out.taken = taken,
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

fn add_area(next: &mut JobState, area: NoDrill) -> Result<(), Refusal> {
    next.mark_out.no_drill.push(area);
    still_a_task(next)
}

/// The task with the change must be sound; whether it has a plan is seen on
/// the screen. Before half widths are known nothing can be held against them.
fn still_a_task(next: &JobState) -> Result<(), Refusal> {
    let Some(marks) = &next.marks else {
        return Ok(());
    };
    let mut task = task_for(next, marks.half_left, marks.half_right);
    task.locks.clear();
    match task.check() {
        Ok(()) => Ok(()),
        Err(faults) => Err(Refusal(
            faults
                .into_iter()
                .next()
                .unwrap_or_else(|| msg("refused-not-in-list")),
        )),
    }
}

fn move_mark(next: &mut JobState, spot: usize, to: Offset) -> Result<(), Refusal> {
    let offsets = moved_marks(next, spot, to)?;
    if let Some(broken) = rule_breaks(next, &offsets).first() {
        return Err(Refusal(broken.clone()));
    }
    super::apply::void_moved(next, &offsets)?;
    if let Some(marks) = &mut next.marks {
        marks.offsets = offsets;
        marks.from = MarksFrom::Hand;
        marks.tape = Tape::NotYet;
    }
    Ok(())
}

/// The marks with one of them moved, in whole millimetres.
fn moved_marks(job: &JobState, spot: usize, to: Offset) -> Result<Vec<Offset>, Refusal> {
    let marks = job
        .marks
        .as_ref()
        .ok_or_else(|| Refusal(msg("refused-no-marks")))?;
    let mut offsets = marks.offsets.clone();
    let place = offsets
        .get_mut(spot)
        .ok_or_else(|| super::apply::no_such_spot(job, spot))?;
    *place = Offset(to.0.round());
    Ok(offsets)
}

/// Which rules a mark would break at a place, live while it is moved.
#[must_use]
pub fn would_break(job: &JobState, spot: usize, to: Offset) -> Vec<Message> {
    match moved_marks(job, spot, to) {
        Ok(offsets) => rule_breaks(job, &offsets),
        Err(refusal) => vec![refusal.0],
    }
}

/// The rules that the marks as they are break, since an area or a limit
/// changed after they were planned.
#[must_use]
pub fn marks_broken(job: &JobState) -> Vec<Message> {
    job.marks
        .as_ref()
        .map_or_else(Vec::new, |marks| rule_breaks(job, &marks.offsets))
}

/// The rules that marks break, by hand locks aside.
fn rule_breaks(job: &JobState, offsets: &[Offset]) -> Vec<Message> {
    let Some(marks) = &job.marks else {
        return Vec::new();
    };
    let mut task = task_for(job, marks.half_left, marks.half_right);
    task.locks.clear();
    let breaks: Vec<RuleBreak> = check_marks(&task, offsets);
    breaks.iter().map(|broken| broken.message(&task)).collect()
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
        *limit.of(&mut limits) = *value;
    }
    limits
}

/// A limit as it holds in this job.
#[must_use]
pub fn limit_value(job: &JobState, limit: Limit) -> Millimetres {
    *limit.of(&mut limits_of(&job.kit.mark_out, &job.mark_out.limits))
}

/// Locks of a job at the marks as they are.
pub(super) fn locks(job: &JobState) -> Vec<Lock> {
    let Some(marks) = &job.marks else {
        return Vec::new();
    };
    let at = |spot: &usize| {
        marks.offsets.get(*spot).map(|at| Lock {
            head: *spot,
            at: *at,
        })
    };
    job.mark_out.locked.iter().filter_map(at).collect()
}

/// What the height above ground says against the sheet; `None` where
/// nothing was measured, the sheet gives nothing, or it fits.
#[must_use]
pub fn height_fault(job: &JobState) -> Option<Message> {
    let height = job.mark_out.row?.above_ground?;
    let range = job.kit.height.as_ref()?;
    let fault = |key, by: Millimetres| {
        msg(key)
            .mm("height", height.0)
            .mm("by", by.0)
            .mm("least", range.least.0)
            .mm("greatest", range.greatest.0)
    };
    if height < range.least {
        Some(fault("row-too-low", range.least - height))
    } else if height > range.greatest {
        Some(fault("row-too-high", height - range.greatest))
    } else {
        None
    }
}
