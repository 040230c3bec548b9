//! What the control box learned to ignore, as the walk test needs it: where it
//! is, and what is not seen beside it.

use chrono::{DateTime, FixedOffset};

use super::told::point_words;
use super::{LearnedObject, VoidWhy};
use crate::decide::walk_test::{PointBy, Sounded, WalkPoint};
use crate::job::coverage::fixed_object;
use crate::job::entry::{Field, HALF_WIDTH_GREATEST, read_length, read_offset};
use crate::job::ignores::{Ignores, ignores, last_object};
use crate::job::learned::Object;
use crate::job::state::JobState;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Farthest that a learned object may reach, mm (our own figure).
const REACH_GREATEST: Millimetres = Millimetres(1500.0);

/// What a run of this job left ignored, or perhaps, where the walk test does
/// not know yet where it is: its points at the object come first.
#[must_use]
pub fn object_asked(job: &JobState) -> Option<Object> {
    let ignored = matches!(
        ignores(job),
        Ignores::This(_) | Ignores::PerhapsThis(_) | Ignores::NotKnown
    );
    let asked = ignored && job.learned.running.is_none() && job.walk.learned.is_none();
    last_object(job).filter(|_| asked).cloned()
}

/// The learned object as typed.
///
/// # Errors
/// What is missing or no length.
pub fn typed_object(job: &JobState, at: DateTime<FixedOffset>) -> Result<LearnedObject, Message> {
    let what = match (job.typed(Field::ObjectWhat).trim(), ignores(job)) {
        ("", Ignores::Nothing | Ignores::Cleared) => return Err(msg("walk-object-no-name")),
        ("", _) => {
            let object = last_object(job).cloned();
            object.ok_or_else(|| msg("walk-object-no-name"))?
        }
        (typed, _) => Object::Other(typed.to_owned()),
    };
    // Where the fixed object is may be known from what the heads will see.
    let fixed = fixed_object(job).and_then(Result::ok);
    let across = match (job.typed(Field::ObjectAcross).trim(), &fixed) {
        ("", Some(fixed)) => fixed.at.across,
        ("", None) => read_offset("0")?,
        (typed, _) => read_offset(typed)?,
    };
    let reaches = match (job.typed(Field::ObjectReach).trim(), &fixed) {
        ("", Some(fixed)) => fixed.reach(),
        _ => length(job, Field::ObjectReach, REACH_GREATEST)?,
    };
    Ok(LearnedObject {
        what,
        across,
        half_width: length(job, Field::ObjectWidth, HALF_WIDTH_GREATEST * 2.0)? * 0.5,
        reaches,
        at,
    })
}

fn length(job: &JobState, field: Field, greatest: Millimetres) -> Result<Millimetres, Message> {
    let length = read_length(job.typed(field))?;
    if length.0 > 0.0 && length <= greatest {
        Ok(length)
    } else {
        Err(msg("entry-length-outside")
            .number("typed", length.0, 1)
            .mm("greatest", greatest.0))
    }
}

/// What the pole is not seen at any more, or not at all, since something was
/// learned: the customer is told, and it is kept.
#[must_use]
pub fn no_longer_seen(job: &JobState) -> Vec<Message> {
    let (Some(test), Some(object)) = (&job.walk.test, &job.walk.learned) else {
        return Vec::new();
    };
    let before = job.walk.earlier.iter().rev().find(|earlier| {
        let void = earlier.void.as_ref();
        void.is_some_and(|void| void.why == VoidWhy::NewLearn)
    });
    let was_seen = |point: &WalkPoint| {
        let before = before?;
        let index = before.points.iter().position(|other| other == point)?;
        before.at_point(index).map(Sounded::is_seen)
    };
    test.points
        .iter()
        .enumerate()
        .filter(|(index, _)| test.at_point(*index) == Some(Sounded::Nothing))
        .filter_map(|(_, point)| {
            let key = match (point.by, was_seen(point)) {
                (PointBy::Row, Some(true)) => "walk-no-longer-seen",
                (PointBy::Row, _) => return None,
                _ => "walk-not-seen-at-object",
            };
            Some(
                msg(key)
                    .message("what", object.what.name())
                    .message("point", point_words(point)),
            )
        })
        .collect()
}
