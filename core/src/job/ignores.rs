//! What the control box ignores, as far as a job knows: what stands of its
//! runs, of what was cleared, and of the walk test after them.

use chrono::{DateTime, FixedOffset};

use super::learned::{Attempt, Object, ShiftTried, shift_tried};
use super::state::JobState;
use crate::learn::Standing;
use crate::moment;
use crate::text::{Message, msg};

/// What the box ignores, as far as this job knows.
#[derive(Clone, Debug, PartialEq)]
pub enum Ignores {
    /// Nothing was learned in this job.
    Nothing,
    /// This, and it is proved.
    This(Object),
    /// This, as counted by hand or by sound alone; not confirmed.
    PerhapsThis(Object),
    /// Not known: a run failed or was interrupted after it reached the box.
    NotKnown,
    /// Not known, but a whole walk test, begun then, shows what is seen since.
    Tested(DateTime<FixedOffset>),
    /// Nothing any more: it was cleared.
    Cleared,
}

/// What of all runs stands: the last one that reached the box, unless it was
/// cleared since.
#[must_use]
pub fn ignores(job: &JobState) -> Ignores {
    if job.learned.running.is_some() {
        return Ignores::NotKnown;
    }
    let last = last_reached(job);
    let cleared = job.learned.cleared;
    match (last, cleared) {
        (None, None) => Ignores::Nothing,
        (None, Some(_)) => since_cleared(job),
        (Some(attempt), Some(cleared)) if cleared >= ended(attempt) => since_cleared(job),
        (Some(attempt), _) => match attempt.proof.standing() {
            Standing::Ignores => Ignores::This(attempt.object.clone()),
            Standing::NotConfirmed => Ignores::PerhapsThis(attempt.object.clone()),
            Standing::NotKnown | Standing::Untouched => match tested(job) {
                Some(begun) => Ignores::Tested(begun),
                None => Ignores::NotKnown,
            },
        },
    }
}

/// What was said on the screen of the walk after a clearing is no run of this
/// job: it stands there.
fn since_cleared(job: &JobState) -> Ignores {
    match job.walk.learned {
        Some(_) => Ignores::Nothing,
        None => Ignores::Cleared,
    }
}

/// When the whole walk test was begun that came after the last run.
fn tested(job: &JobState) -> Option<DateTime<FixedOffset>> {
    let test = job.walk.test.as_ref().filter(|test| test.is_whole())?;
    let after = box_changed(job).is_none_or(|changed| test.at >= changed);
    after.then_some(test.at)
}

/// What the last run that reached the box was to make it ignore.
pub(super) fn last_object(job: &JobState) -> Option<&Object> {
    last_reached(job).map(|attempt| &attempt.object)
}

fn last_reached(job: &JobState) -> Option<&Attempt> {
    let mut reached = job.learned.attempts.iter().rev();
    reached.find(|attempt| attempt.proof.standing() != Standing::Untouched)
}

fn ended(attempt: &Attempt) -> DateTime<FixedOffset> {
    let length = chrono::TimeDelta::milliseconds(attempt.proof.length.0 as i64);
    let reckoned = || attempt.at.checked_add_signed(length).unwrap_or(attempt.at);
    attempt.ended.unwrap_or_else(reckoned)
}

/// When the box last changed what it ignores, as far as this job knows: what
/// was tested before holds no more.
#[must_use]
pub fn box_changed(job: &JobState) -> Option<DateTime<FixedOffset>> {
    let run = last_reached(job).map(ended);
    let running = job.learned.running.as_ref().map(|running| running.at);
    [run, running, job.learned.cleared]
        .into_iter()
        .flatten()
        .max()
}

impl Ignores {
    /// In one line.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Nothing => msg("learn-ignores-nothing"),
            Self::This(object) => msg("learn-ignores").message("object", object.name()),
            Self::PerhapsThis(object) => {
                msg("learn-ignores-perhaps").message("object", object.name())
            }
            Self::NotKnown => msg("learn-ignores-not-known"),
            Self::Tested(at) => {
                msg("learn-ignores-tested").text("when", moment::date_and_clock(at))
            }
            Self::Cleared => msg("learn-ignores-cleared"),
        }
    }

    /// What the customer has to know, in one line; `None` where there is nothing.
    #[must_use]
    pub fn for_customer(&self) -> Option<Message> {
        match self {
            Self::This(object) => Some(msg("learn-customer").message("object", object.name())),
            Self::PerhapsThis(object) => {
                Some(msg("learn-customer-perhaps").message("object", object.name()))
            }
            Self::NotKnown => Some(msg("learn-customer-not-known")),
            Self::Tested(at) => Some(msg("learn-customer-tested").text("when", moment::date(at))),
            Self::Nothing | Self::Cleared => None,
        }
    }
}

/// Whether nothing is left to do: learned, counted but not confirmed,
/// walk-tested, or the zone shift was enough.
#[must_use]
pub fn learn_done(job: &JobState) -> bool {
    match ignores(job) {
        Ignores::This(_) | Ignores::PerhapsThis(_) | Ignores::Tested(_) => true,
        Ignores::Nothing | Ignores::Cleared => shift_tried(job) == Some(ShiftTried::Enough),
        Ignores::NotKnown => false,
    }
}

/// Where the obstacle learn stands, in a few words.
#[must_use]
pub fn learn_headline(job: &JobState) -> Message {
    match (ignores(job), shift_tried(job)) {
        (Ignores::Nothing, Some(ShiftTried::Enough)) => msg("learn-shift-enough"),
        (ignores, _) => ignores.message(),
    }
}
