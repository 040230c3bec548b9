//! Mark-out: where the heads go.
//!
//! # Where to start
//! A [`MarkOutTask`] holds what was measured and which limits hold;
//! [`solve`] gives the three plans or says why there is none ([`NoPlan`]).
//! [`check_marks`] judges marks moved by hand, [`tape_check`] the marks read
//! back with a tape before drilling.
//!
//! # Conventions
//! All places are straight [`Offset`](crate::units::Offset)s in whole
//! millimetres, + to the right seen from behind. Heads are counted from 0,
//! left to right; messages count them from 1, a job says their labels instead.
//!
//! # The problem
//! Places `o_1 < ... < o_n`, left < 0 < right, under the hard rules of
//! [`Rule`]. With asymmetry = greatest `|o_i + o_(n+1-i)|`, spread = greatest
//! less least spacing and width = `o_n - o_1` each plan is the exact optimum
//! in its own order: [`PlanKind`].

mod chain;
mod check;
mod clash;
mod fold;
mod marks;
mod plan;
mod room;
mod rule;
#[cfg(test)]
mod samples;
mod search;
mod tape;
mod task;

pub use check::{
    GREATEST_HALF_WIDTH, HALVES_DIFFER_ASK, HEADS_GREATEST, HEADS_LEAST, MOST_AREAS, MOST_PIECES,
    too_many_areas,
};
pub use clash::{Clash, Enough, NoPlan, Relaxation};
pub use marks::{check_marks, moved_heads};
pub use plan::{MarkOutPlans, Plan, PlanKind, WIDER_THAT_ASKS};
pub use rule::{Binding, Rule, RuleBreak};
pub use tape::{
    MarkCheck, MarkVerdict, TapeCheck, TapeLimits, TapeReading, TapeVerdict, tape_check,
};
pub use task::{
    CORNER_GAP_GREATEST, Limits, Lock, MarkOutTask, NoDrill, NoDrillReason, SPACING_LEAST,
};

/// The three plans of a task.
///
/// # Guarantee
/// Each plan is a global optimum over all whole-millimetre places that keep
/// every rule, in its own order of objectives; among equals one fixed order
/// of search decides, so the same task always gives the same marks.
///
/// # Errors
/// [`NoPlan::Invalid`] with every fault of the input, or
/// [`NoPlan::Impossible`] with the rules that clash and what would help.
pub fn solve(task: &MarkOutTask) -> Result<MarkOutPlans, NoPlan> {
    task.check().map_err(NoPlan::Invalid)?;
    let room = room::Room::new(task, &|_| room::KEPT);
    match search::three(&room) {
        Some(found) => Ok(MarkOutPlans::new(task, &found)),
        None => Err(clash::explain(task)),
    }
}
