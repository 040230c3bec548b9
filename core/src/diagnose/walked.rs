//! Evidence out of the walk test: where the pole was seen and where not.

use super::cause::Cause;
use super::evidence::Gathered;
use crate::decide::walk_test::{PointBy, Sounded};
use crate::job::{JobState, WalkTest};
use crate::text::msg;
use crate::units::Offset;

/// Within this of the centre line a point is in the middle, mm (our own figure).
const MIDDLE: f64 = 300.0;

/// Taps at some of the points.
#[derive(Default)]
struct Taps {
    seen: u32,
    unseen: u32,
}

impl Taps {
    fn of(test: &WalkTest, such: impl Fn(Offset, f64) -> bool) -> Self {
        let mut taps = Self::default();
        for (index, point) in test.points.iter().enumerate() {
            if point.by != PointBy::Row || !such(point.across, point.behind.0) {
                continue;
            }
            match test.at_point(index) {
                Some(Sounded::Nothing) => taps.unseen += 1,
                Some(_) => taps.seen += 1,
                None => {}
            }
        }
        taps
    }

    fn mostly_unseen(&self) -> bool {
        self.unseen > 0 && self.unseen >= self.seen
    }

    fn all_seen(&self) -> bool {
        self.seen > 1 && self.unseen == 0
    }
}

/// What the walk test says of a cause; `side` is where the head sits, for
/// causes at a head.
pub(super) fn at(job: &JobState, cause: Cause, side: Option<Offset>) -> Gathered {
    let mut all = Gathered::default();
    let Some(test) = job.walk.test.as_ref().filter(|test| !test.taps.is_empty()) else {
        if weights(cause) != [0; 4] {
            all.not_known(msg("unknown-walk"));
        }
        return all;
    };
    let [middle, far, near, seen] = weights(cause);
    let rows = || test.points.iter().filter(|p| p.by == PointBy::Row);
    let last = rows().map(|p| p.behind.0).fold(0.0, f64::max);
    let is_last = |behind: f64| behind > last - 1.0;
    let at_middle = Taps::of(test, |across, _| across.0.abs() < MIDDLE);
    let at_sides = Taps::of(test, |across, _| across.0.abs() >= MIDDLE);
    let at_far = Taps::of(test, |_, behind| is_last(behind));
    let before = Taps::of(test, |_, behind| !is_last(behind));
    let everywhere = Taps::of(test, |_, _| true);
    if at_middle.mostly_unseen() && !at_sides.mostly_unseen() {
        all.record(middle, msg("evidence-walk-middle"));
    } else if at_far.mostly_unseen() && !before.mostly_unseen() {
        all.record(far, msg("evidence-walk-far"));
    } else if everywhere.all_seen() && test.is_whole() {
        all.record(seen, msg("evidence-walk-all-seen"));
    }
    let near_taps = test.taps.iter().filter(|tap| tap.sounded == Sounded::Near);
    if test.taps.len() > 3 && near_taps.count() == test.taps.len() {
        all.record(near, msg("evidence-walk-all-near"));
    }
    if let Some(here) = side {
        one_side(test, cause, here, &mut all);
    }
    all
}

/// The pole is missed on the head's side and seen on the other.
fn one_side(test: &WalkTest, cause: Cause, here: Offset, all: &mut Gathered) {
    let points = match cause {
        Cause::Socket | Cause::LooseConnector | Cause::HeadBroken => 6,
        Cause::ThickPaint => 5,
        Cause::RingWrong | Cause::HeadUpsideDown | Cause::AimTooHigh | Cause::Water => 3,
        _ => return,
    };
    if here.0.abs() < 1.0 {
        return;
    }
    let same = |across: Offset| across.0.abs() >= MIDDLE && across.0 * here.0 > 0.0;
    let this = Taps::of(test, |across, _| same(across));
    let other = Taps::of(test, |across, _| across.0.abs() >= MIDDLE && !same(across));
    if this.mostly_unseen() && !other.mostly_unseen() {
        all.record(points, msg("evidence-walk-side"));
    }
}

/// Weights: the middle is missed, the last row is missed, all of it sounds
/// near, all of it is seen.
const fn weights(cause: Cause) -> [i16; 4] {
    match cause {
        Cause::AimBelowLevel => [2, 1, 2, 0],
        Cause::RingWrong => [3, 2, 2, -2],
        Cause::MetalWithoutInsert => [0, 3, 4, -2],
        Cause::TightFit => [0, 2, 4, -2],
        Cause::ThickPaint => [3, 6, 1, -5],
        Cause::HeadUpsideDown => [3, 2, 2, -2],
        Cause::ObjectInField => [0, -3, 4, 0],
        Cause::Load => [0, 0, 0, 0],
        Cause::Socket => [3, 1, 0, -4],
        Cause::SupplyDrop => [0, 4, 0, -2],
        Cause::PulsedFeed => [0, 3, 2, -2],
        Cause::LooseConnector => [2, 0, 0, -1],
        Cause::Water => [0, 0, 1, 0],
        Cause::LearnedWrong => [5, 0, 0, -6],
        Cause::HeightOutside => [2, 4, 1, -3],
        Cause::GapBetween => [8, 0, -4, -12],
        Cause::AimTooHigh => [4, 4, -4, -6],
        Cause::HeadBroken => [2, 1, 0, -5],
    }
}
