//! Where the heads go.

use chrono::DateTime;
use rakeline_core::decide::mark_out::{self, Limits, NoDrill, NoDrillReason, NoPlan, solve};
use rakeline_core::job::{JobId, JobState, task_for};
use rakeline_core::units::{Millimetres, Offset};
use rakeline_words::say;

use crate::Fault;
use crate::fault::{lines, listed};
use crate::kit::sheet;

/// Limits of a mark-out: straight, millimetres.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct MarkOutLimits {
    /// The heads nearest the centre line sit within this of it.
    pub inner: f64,
    /// Outer head to outer edge, at least.
    pub corner_gap_least: f64,
    /// Outer head to outer edge, at most; for more than two heads.
    pub corner_gap_greatest: f64,
    /// Between neighbours, at least.
    pub spacing_least: f64,
    /// Between neighbours, at most, where the sheet gives it.
    pub spacing_greatest: Option<f64>,
    /// The middle one of an odd number sits within this of the centre line.
    pub odd_head_within: f64,
    /// From a hole's edge to a no-drill area, at least.
    pub clearance: f64,
}

/// A stretch where nothing may be drilled, offsets from the centre line.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct NoDrillArea {
    /// Left end.
    pub from: f64,
    /// Right end.
    pub to: f64,
    /// What is there.
    pub what: String,
}

/// What a mark-out is asked; all in millimetres, straight.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct MarkOutTask {
    /// How many heads, 2 to 8.
    pub heads: u32,
    /// Centre line to left outer edge.
    pub half_left: f64,
    /// Centre line to right outer edge.
    pub half_right: f64,
    /// Radius of the hole.
    pub hole_radius: f64,
    /// The limits.
    pub limits: MarkOutLimits,
    /// Where nothing may be drilled.
    pub no_drill: Vec<NoDrillArea>,
    /// Old holes to use again, offsets.
    pub old_holes: Vec<f64>,
}

impl MarkOutTask {
    fn task(&self) -> mark_out::MarkOutTask {
        let limits = &self.limits;
        mark_out::MarkOutTask {
            heads: self.heads as usize,
            half_left: Millimetres(self.half_left),
            half_right: Millimetres(self.half_right),
            hole_radius: Millimetres(self.hole_radius),
            limits: Limits {
                inner: Millimetres(limits.inner),
                corner_gap_least: Millimetres(limits.corner_gap_least),
                corner_gap_greatest: Millimetres(limits.corner_gap_greatest),
                spacing_least: Millimetres(limits.spacing_least),
                spacing_greatest: limits.spacing_greatest.map(Millimetres),
                odd_head_within: Millimetres(limits.odd_head_within),
                clearance: Millimetres(limits.clearance),
            },
            no_drill: self
                .no_drill
                .iter()
                .map(|area| NoDrill {
                    from: Offset(area.from),
                    to: Offset(area.to),
                    why: NoDrillReason::Other(area.what.clone()),
                })
                .collect(),
            locks: Vec::new(),
            old_holes: self.old_holes.iter().copied().map(Offset).collect(),
        }
    }
}

/// The three plans.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum PlanKind {
    /// Same both sides.
    Symmetric,
    /// Equal gaps.
    Even,
    /// As wide as it goes.
    Wide,
}

impl From<mark_out::PlanKind> for PlanKind {
    fn from(kind: mark_out::PlanKind) -> Self {
        match kind {
            mark_out::PlanKind::Symmetric => Self::Symmetric,
            mark_out::PlanKind::Even => Self::Even,
            mark_out::PlanKind::Wide => Self::Wide,
        }
    }
}

/// One plan, millimetres.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct MarkOutPlan {
    /// Which of the three.
    pub kind: PlanKind,
    /// Offsets, left to right, whole millimetres.
    pub marks: Vec<f64>,
    /// Spacings, left to right.
    pub gaps: Vec<f64>,
    /// Greatest difference of left and right: 0 is the same on both sides.
    pub asymmetry: f64,
    /// Greatest less least spacing: 0 is exactly even.
    pub spread: f64,
    /// Outer head to outer head.
    pub width: f64,
    /// The plan in words.
    pub explained: Vec<String>,
}

/// The plans of one task.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct MarkOutPlans {
    /// Same both sides.
    pub symmetric: MarkOutPlan,
    /// Equal gaps.
    pub even: MarkOutPlan,
    /// As wide as it goes.
    pub wide: MarkOutPlan,
    /// The one that is proposed; nothing where the fitter picks.
    pub proposed: Option<PlanKind>,
    /// Why.
    pub proposal: String,
}

fn plan(plan: &mark_out::Plan, task: &mark_out::MarkOutTask) -> MarkOutPlan {
    MarkOutPlan {
        kind: plan.kind.into(),
        marks: plan.marks.iter().map(|mark| mark.0).collect(),
        gaps: plan.gaps.iter().map(|gap| gap.0).collect(),
        asymmetry: plan.asymmetry.0,
        spread: plan.spread.0,
        width: plan.width.0,
        explained: listed(&plan.explain(task)),
    }
}

/// The task of a kit on a bumper of these half widths, without no-drill areas.
///
/// # Errors
/// [`Fault::Unreadable`] for a sheet that is none.
#[uniffi::export]
pub fn mark_out_task(kit: &str, half_left: f64, half_right: f64) -> Result<MarkOutTask, Fault> {
    let id = JobId(String::new());
    let job = JobState::start(id, sheet(kit)?, DateTime::UNIX_EPOCH.fixed_offset());
    let task = task_for(&job, Millimetres(half_left), Millimetres(half_right));
    let limits = task.limits;
    Ok(MarkOutTask {
        heads: u32::try_from(task.heads).unwrap_or(u32::MAX),
        half_left,
        half_right,
        hole_radius: task.hole_radius.0,
        limits: MarkOutLimits {
            inner: limits.inner.0,
            corner_gap_least: limits.corner_gap_least.0,
            corner_gap_greatest: limits.corner_gap_greatest.0,
            spacing_least: limits.spacing_least.0,
            spacing_greatest: limits.spacing_greatest.map(|greatest| greatest.0),
            odd_head_within: limits.odd_head_within.0,
            clearance: limits.clearance.0,
        },
        no_drill: Vec::new(),
        old_holes: Vec::new(),
    })
}

/// The three plans of a task, each the best there is in its own order.
///
/// # Errors
/// [`Fault::Invalid`] with every figure that is wrong, [`Fault::Impossible`]
/// with the rules that clash and what would help.
#[uniffi::export]
pub fn mark_out(task: &MarkOutTask) -> Result<MarkOutPlans, Fault> {
    let task = task.task();
    let plans = solve(&task).map_err(|none| {
        let words = lines(&none.messages(&task));
        match none {
            NoPlan::Invalid(_) => Fault::Invalid { words },
            NoPlan::Impossible { .. } => Fault::Impossible { words },
        }
    })?;
    Ok(MarkOutPlans {
        symmetric: plan(&plans.symmetric, &task),
        even: plan(&plans.even, &task),
        wide: plan(&plans.wide, &task),
        proposed: plans.proposed.map(PlanKind::from),
        proposal: say(&plans.proposal()),
    })
}
