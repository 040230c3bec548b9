//! The steps of a job: what the survey answered, what is done, skipped with
//! its reason, or closed as usual.

use std::collections::BTreeMap;

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, cut};
use super::state::JobState;
use crate::steps::{Question, StepName, Truth};
use crate::text::msg;

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
    pub answers: BTreeMap<Question, Truth>,
    /// Steps that ended.
    pub ended: BTreeMap<StepName, Ended>,
    /// What was written down at a step, as typed.
    pub words: BTreeMap<StepName, String>,
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
    let steps = &mut next.steps;
    match event {
        StepsEvent::Answered(question, truth) => {
            steps.answers.insert(question, truth);
        }
        StepsEvent::Done(name) => {
            let how = HowEnded::Done;
            steps.ended.insert(name, Ended { how, at });
        }
        StepsEvent::DoneAsUsual(names) => {
            for name in names {
                let how = HowEnded::AsUsual;
                steps.ended.entry(name).or_insert(Ended { how, at });
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

/// Steps after a step back: what was written since stays.
pub(super) fn back(now: &StepsState, before: &StepsState) -> StepsState {
    StepsState {
        words: now.words.clone(),
        ..before.clone()
    }
}
