//! Walk test and function check of a job: the gate, the taps, what a new
//! obstacle learn voids.
//!
//! A test is whole once every point has a tap; until then it is half done,
//! kept as it is, and says so. It is never completed by guess.

mod object;
mod predicted;
mod times;
mod told;

pub use object::{no_longer_seen, object_asked, typed_object};
pub use predicted::{AgainstPrediction, PointCompared, against_prediction};
pub use times::{WalkTime, starts_late_by, time_limit, times_said};
pub use told::{
    Half, Misplug, SharesSaid, head_check_lines, head_troubles, misplugged, point_words,
    share_limit, share_words, swapped_words, swapped_words_of, walk_area, walk_cautions, walk_half,
    walk_headline, walk_points,
};

use chrono::{DateTime, FixedOffset, TimeDelta};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, no_such_spot};
use super::ignores::{Ignores, ignores};
use super::learned::{self, Object};
use super::state::JobState;
use crate::decide::walk_test::{Sounded, WalkPoint};
use crate::text::msg;
use crate::units::{Millimetres, Offset};

/// Most tests that a job keeps besides the current one.
pub const EARLIER_GREATEST: usize = 12;

/// How long a heeded gate holds: after it the vehicle may have been moved
/// (our own figure).
pub const GATE_HOLDS: TimeDelta = TimeDelta::hours(2);

/// How many points.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WalkKind {
    /// Three across, three deep.
    Nine,
    /// A point in every square of 0.1 m.
    Grid,
}

/// One tap.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tap {
    /// Which point of the test, from 0.
    pub point: u16,
    /// What sounded.
    pub sounded: Sounded,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// Why a test does not count any more.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VoidWhy {
    /// The control box learned what to ignore after it.
    NewLearn,
    /// A mark moved.
    MarkMoved,
    /// It was started anew.
    StartedAnew,
}

/// That a test does not count any more.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Voided {
    /// Since when.
    pub at: DateTime<FixedOffset>,
    /// Why.
    pub why: VoidWhy,
}

/// A walk test.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WalkTest {
    /// When it was started.
    pub at: DateTime<FixedOffset>,
    /// How many points.
    pub kind: WalkKind,
    /// The points in the order in which they are walked.
    pub points: Vec<WalkPoint>,
    /// Taps, oldest first, at most one a point.
    pub taps: Vec<Tap>,
    /// Why it does not count, if so.
    #[serde(default)]
    pub void: Option<Voided>,
}

impl WalkTest {
    /// What sounded at a point; `None` until it is tapped.
    #[must_use]
    pub fn at_point(&self, point: usize) -> Option<Sounded> {
        let tap = self.taps.iter().find(|tap| usize::from(tap.point) == point);
        tap.map(|tap| tap.sounded)
    }

    /// The first point without a tap.
    #[must_use]
    pub fn next_point(&self) -> Option<usize> {
        (0..self.points.len()).find(|point| self.at_point(*point).is_none())
    }

    /// Whether every point has a tap.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        self.next_point().is_none()
    }
}

/// What the control box learned to ignore.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LearnedObject {
    /// What it is.
    pub what: Object,
    /// Its middle, across.
    pub across: Offset,
    /// Half its width.
    pub half_width: Millimetres,
    /// How far it reaches behind the bumper's rearmost point.
    pub reaches: Millimetres,
    /// When it was learned.
    pub at: DateTime<FixedOffset>,
}

/// Which head answered when one was approached.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Answered {
    /// The display shows this head.
    Shown(u8),
    /// It sounds; the kit does not show which head.
    Sounds,
    /// Nothing.
    Nothing,
}

/// A head approached on its own.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeadAnswer {
    /// The head that was approached.
    pub spot: u8,
    /// What answered.
    pub answered: Answered,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// Walk test and function check.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct WalkState {
    /// When the gate was heeded, 'All of this is so'.
    pub gate: Option<DateTime<FixedOffset>>,
    /// The test that counts, or is under way.
    pub test: Option<WalkTest>,
    /// Tests that do not count any more, oldest first.
    pub earlier: Vec<WalkTest>,
    /// Heads approached one by one, at most one answer a head.
    pub heads: Vec<HeadAnswer>,
    /// What the control box learned to ignore, if anything.
    pub learned: Option<LearnedObject>,
}

/// Something that happened in walk test or function check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum WalkEvent {
    /// The gate was heeded, all of it.
    GateHeeded,
    /// A test was started; one before it does not count any more.
    Started(WalkKind),
    /// What sounded at a point. A second tap there takes the place of the first.
    Sounded {
        /// Which point, from 0.
        point: u16,
        /// What sounded.
        sounded: Sounded,
    },
    /// A head was approached on its own.
    HeadAnswered {
        /// Which.
        spot: u8,
        /// What answered.
        answered: Answered,
    },
    /// The function check begins again.
    HeadsAnew,
    /// The control box learned to ignore what is typed.
    ObjectLearned,
    /// What it learned was cleared.
    LearnCleared,
}

pub(super) fn apply(
    next: &mut JobState,
    event: WalkEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    match event {
        WalkEvent::GateHeeded => next.walk.gate = Some(at),
        WalkEvent::Started(kind) => {
            gate_heeded(next, at)?;
            let points = walk_points(next, kind).map_err(Refusal)?;
            void(&mut next.walk, VoidWhy::StartedAnew, at);
            next.walk.test = Some(WalkTest {
                at,
                kind,
                points,
                taps: Vec::new(),
                void: None,
            });
        }
        WalkEvent::Sounded { point, sounded } => {
            gate_heeded(next, at)?;
            let Some(test) = &mut next.walk.test else {
                return Err(Refusal(msg("refused-walk-not-started")));
            };
            if usize::from(point) >= test.points.len() {
                return Err(Refusal(msg("refused-no-such-point")));
            }
            test.taps.retain(|tap| tap.point != point);
            test.taps.push(Tap { point, sounded, at });
        }
        WalkEvent::HeadAnswered { spot, answered } => {
            gate_heeded(next, at)?;
            let shown = match answered {
                Answered::Shown(shown) => shown,
                Answered::Sounds | Answered::Nothing => spot,
            };
            for named in [spot, shown].map(usize::from) {
                if named >= next.spots.len() {
                    return Err(no_such_spot(next, named));
                }
            }
            next.walk.heads.retain(|head| head.spot != spot);
            next.walk.heads.push(HeadAnswer { spot, answered, at });
        }
        WalkEvent::HeadsAnew => next.walk.heads.clear(),
        WalkEvent::ObjectLearned => {
            let object = typed_object(next, at).map_err(Refusal)?;
            object_said(next, object, at);
        }
        WalkEvent::LearnCleared => learned::cleared(next, at),
    }
    Ok(())
}

/// Whether the gate was heeded, and lately.
#[must_use]
pub fn walk_gate_open(job: &JobState, at: DateTime<FixedOffset>) -> bool {
    let gate = job.walk.gate.as_ref();
    gate.is_some_and(|heeded| at.signed_duration_since(heeded) <= GATE_HOLDS)
}

fn gate_heeded(job: &JobState, at: DateTime<FixedOffset>) -> Result<(), Refusal> {
    if walk_gate_open(job, at) {
        Ok(())
    } else {
        Err(Refusal(msg("refused-walk-gate")))
    }
}

/// What was learned is said: earlier walk tests do not count any more. Where no
/// run of this job taught it, it was learned just now, and the gate is to be
/// heeded again before the next one.
fn object_said(next: &mut JobState, object: LearnedObject, at: DateTime<FixedOffset>) {
    let anew = matches!(ignores(next), Ignores::Nothing | Ignores::Cleared);
    next.walk.learned = Some(object);
    void(&mut next.walk, VoidWhy::NewLearn, at);
    if anew {
        next.walk.gate = None;
    }
}

/// The control box changed what it ignores: a test before does not count any
/// more, its gate is to be heeded again, and where the changed thing is has to
/// be said anew.
pub(super) fn box_changed(walk: &mut WalkState, at: DateTime<FixedOffset>) {
    if walk.test.is_some() {
        void(walk, VoidWhy::NewLearn, at);
        walk.gate = None;
    }
    walk.learned = None;
}

/// A moved mark: what was walked was another system.
pub(super) fn void_moved(walk: &mut WalkState, at: DateTime<FixedOffset>) {
    void(walk, VoidWhy::MarkMoved, at);
    walk.heads.clear();
}

/// Puts the current test aside; one without a tap leaves nothing.
fn void(walk: &mut WalkState, why: VoidWhy, at: DateTime<FixedOffset>) {
    let Some(mut test) = walk.test.take() else {
        return;
    };
    if test.taps.is_empty() {
        return;
    }
    test.void = Some(Voided { at, why });
    walk.earlier.push(test);
    if walk.earlier.len() > EARLIER_GREATEST {
        walk.earlier.remove(0);
    }
}

#[cfg(test)]
mod tests;
