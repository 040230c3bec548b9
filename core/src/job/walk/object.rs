//! What the control box learned to ignore, as the walk test needs it: where it
//! is, and what is not seen beside it.

use chrono::{DateTime, FixedOffset};

use super::told::point_words;
use super::{LearnedObject, VoidWhy, WalkTest};
use crate::decide::walk_test::{PointBy, WalkPoint};
use crate::job::coverage::fixed_object;
use crate::job::entry::{Field, HALF_WIDTH_GREATEST, read_length, read_offset};
use crate::job::ignores::{Ignores, box_changed, ignores, last_object};
use crate::job::learned::Object;
use crate::job::state::JobState;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Farthest that a learned object may reach, mm (our own figure).
const REACH_GREATEST: Millimetres = Millimetres(1500.0);

/// Points nearer than this are one place, mm (our own figure).
const SAME_PLACE: f64 = 5.0;

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
/// learned: the customer is told, and it is kept. At every point the latest
/// tap counts, of whichever test: a test begun anew takes nothing back until
/// its own tap is there.
#[must_use]
pub fn no_longer_seen(job: &JobState) -> Vec<Message> {
    let (Some(_), Some(object)) = (&job.walk.test, &job.walk.learned) else {
        return Vec::new();
    };
    let learned = learned_at(job, object);
    let (since, before): (Vec<Tapped>, Vec<Tapped>) =
        taps(job, learned).into_iter().partition(|tap| tap.since);
    latest(&since)
        .into_iter()
        .filter(|tap| !tap.seen)
        .filter_map(|tap| {
            let was = before.iter().rev().find(|other| tap.is_where(other));
            let key = match (tap.point.by, was.map(|was| was.seen)) {
                (PointBy::Row, Some(true)) => "walk-no-longer-seen",
                (PointBy::Row, _) => return None,
                _ => "walk-not-seen-at-object",
            };
            Some(
                msg(key)
                    .message("what", object.what.name())
                    .message("point", point_words(&tap.point)),
            )
        })
        .collect()
}

/// A tap with the place it was made at.
struct Tapped {
    point: WalkPoint,
    seen: bool,
    /// Which test, in the order in which they were begun.
    test: usize,
    /// Whether that test came after the learn.
    since: bool,
}

impl Tapped {
    fn is_where(&self, other: &Self) -> bool {
        let off = |a: f64, b: f64| (a - b).abs();
        off(self.point.across.0, other.point.across.0) < SAME_PLACE
            && off(self.point.behind.0, other.point.behind.0) < SAME_PLACE
    }
}

/// When the box learned it: by a run of this job, else when it was said.
fn learned_at(job: &JobState, object: &LearnedObject) -> DateTime<FixedOffset> {
    let by_run = matches!(
        ignores(job),
        Ignores::This(_) | Ignores::PerhapsThis(_) | Ignores::NotKnown | Ignores::Tested(_)
    );
    box_changed(job).filter(|_| by_run).unwrap_or(object.at)
}

/// Every tap of this system, test by test, the oldest test first. What was
/// walked before a mark moved was another system. A learn puts the test under
/// way aside: the current one came after it.
fn taps(job: &JobState, learned: DateTime<FixedOffset>) -> Vec<Tapped> {
    let moved = |test: &WalkTest| {
        let void = test.void.as_ref();
        void.is_some_and(|void| void.why == VoidWhy::MarkMoved)
    };
    let earlier = &job.walk.earlier;
    let first = earlier.iter().rposition(moved).map_or(0, |last| last + 1);
    let tests = earlier.iter().skip(first).chain(&job.walk.test);
    let mut all = Vec::new();
    for (number, test) in tests.enumerate() {
        for (index, point) in test.points.iter().enumerate() {
            if let Some(sounded) = test.at_point(index) {
                all.push(Tapped {
                    point: *point,
                    seen: sounded.is_seen(),
                    test: number,
                    since: test.void.is_none() || test.at > learned,
                });
            }
        }
    }
    all
}

/// The latest tap at each place, as the points are walked.
fn latest(taps: &[Tapped]) -> Vec<&Tapped> {
    let is_latest = |tap: &&Tapped| {
        let newer = |other: &Tapped| other.test > tap.test && tap.is_where(other);
        !taps.iter().any(newer)
    };
    taps.iter().filter(is_latest).collect()
}
