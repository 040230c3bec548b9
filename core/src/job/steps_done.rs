//! The steps of a job: what the survey answered, what is done, skipped with
//! its reason, or closed as usual.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, cut};
use super::loom::fuse_fitted;
use super::state::JobState;
use super::step_path::paint_waits;
use super::waits::{heads_wait, wait_holds};
use crate::steps::{Question, StepName, Truth};
use crate::table::Table;
use crate::text::msg;

/// The step at which heads and rings are painted, by its name in the book.
pub const PAINT: &str = "paint";
/// The step of the supply, with the fuse at the take-off.
pub const SUPPLY: &str = "supply";
/// The step at which the near zone is moved out.
pub const ZONE_SHIFT: &str = "zone-shift";

/// The step at which the paint of heads and rings cures.
pub const CURED: &str = "paint-cured";
/// The step at which the primer on the holes' edges dries.
pub const PRIMER: &str = "primer-dry";
/// The step at which the heads go in.
pub const HEADS_IN: &str = "heads-in";

/// How a step ended.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum HowEnded {
    /// Done and ticked by itself.
    Done,
    /// Closed with its stage, 'Done as usual'.
    AsUsual,
    /// Skipped, and why.
    Skipped(String),
}

/// A step that ended.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ended {
    /// How.
    pub how: HowEnded,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// What is known of a job's steps.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct StepsState {
    /// The survey's answers.
    pub answers: Table<Question, Truth>,
    /// Steps that ended.
    pub ended: Table<StepName, Ended>,
    /// What was written down at a step, as typed.
    pub words: Table<StepName, String>,
}

/// Something about a step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum StepsEvent {
    /// A question of the survey was answered.
    Answered(Question, Truth),
    /// A step was done.
    Done(StepName),
    /// Steps of a stage were closed together, as usual.
    DoneAsUsual(Vec<StepName>),
    /// A step was skipped, and why.
    Skipped(StepName, String),
    /// A step is open again.
    Reopened(StepName),
    /// Something was written down at a step.
    Written(StepName, String),
}

pub(super) fn apply(
    next: &mut JobState,
    event: StepsEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    match &event {
        StepsEvent::Done(name) => may_end(next, name, at)?,
        StepsEvent::DoneAsUsual(names) => {
            names.iter().try_for_each(|name| may_end(next, name, at))?;
        }
        StepsEvent::Skipped(name, _) => fuse_first(next, name)?,
        StepsEvent::Answered(..) | StepsEvent::Reopened(_) | StepsEvent::Written(..) => {}
    }
    let steps = &mut next.steps;
    match event {
        StepsEvent::Answered(question, truth) => {
            steps.answers.insert(question, truth);
        }
        StepsEvent::Done(name) => {
            let how = HowEnded::Done;
            for wait in &mut next.waits {
                if wait.step == name && wait.ended.is_none() {
                    wait.ended = Some(at);
                }
            }
            steps.ended.insert(name, Ended { how, at });
        }
        StepsEvent::DoneAsUsual(names) => {
            for name in names {
                let how = HowEnded::AsUsual;
                if !steps.ended.contains_key(&name) {
                    steps.ended.insert(name, Ended { how, at });
                }
            }
        }
        StepsEvent::Skipped(name, why) => {
            let why = cut(why.trim().to_owned());
            if why.is_empty() {
                return Err(Refusal(msg("step-skip-no-reason")));
            }
            let how = HowEnded::Skipped(why);
            steps.ended.insert(name, Ended { how, at });
        }
        StepsEvent::Reopened(name) => {
            steps.ended.remove(&name);
        }
        StepsEvent::Written(name, words) => {
            let words = cut(words);
            if words.is_empty() {
                steps.words.remove(&name);
            } else {
                steps.words.insert(name, words);
            }
        }
    }
    Ok(())
}

/// Refuses to end what is not done: painting before the rings are settled,
/// the supply before its fuse is fitted, anything whose wait still runs, the
/// heads before their paint is cured and the primer dry.
fn may_end(job: &JobState, name: &StepName, at: DateTime<FixedOffset>) -> Result<(), Refusal> {
    if let Some(held) = wait_holds(job, name, at) {
        return Err(Refusal(held));
    }
    if name.0 == HEADS_IN
        && let Some(held) = heads_wait(job, at)
    {
        return Err(Refusal(held));
    }
    if name.0 == PAINT
        && let Some(why) = paint_waits(job)
    {
        return Err(Refusal(why));
    }
    fuse_first(job, name)
}

/// The fuse at the take-off cannot be left out, and so the supply is not
/// skipped without it.
fn fuse_first(job: &JobState, name: &StepName) -> Result<(), Refusal> {
    if name.0 == SUPPLY && !fuse_fitted(job) {
        return Err(Refusal(msg("step-fuse-not-skipped")));
    }
    Ok(())
}

/// Steps after a step back: what was written since stays.
pub(super) fn back(now: &StepsState, before: &StepsState) -> StepsState {
    StepsState {
        words: now.words.clone(),
        ..before.clone()
    }
}
