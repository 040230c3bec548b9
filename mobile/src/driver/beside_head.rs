//! Reading the panel beside a fitted head: to its left, then to its right.

use rakeline_core::estimate::rake::{FaceReading, Side};
use rakeline_core::estimate::still::StillReading;
use rakeline_core::job::{BesideHead, FaultEvent, JobEvent};
use rakeline_core::text::{Message, msg};

use super::held::{self, Target};
use super::intent::{Action, Now};
use super::phone;
use super::state::AppState;
use super::work::{self, Back};

/// Starts the sensor for one side of a head.
pub(super) fn start(app: &mut AppState, spot: u8, side: BesideHead) -> Vec<Action> {
    app.notice = None;
    let mut actions = held::start(app, Target::Beside(spot, side));
    actions.extend(phone::say(app, msg(words(side))));
    actions
}

/// A still window there.
pub(super) fn taken(
    app: &mut AppState,
    (spot, side): (u8, BesideHead),
    still: &StillReading,
    now: &Now,
) -> Result<Vec<Action>, Message> {
    let reading = FaceReading::held(*still, Side::Back)?;
    // What was read before the holes stays: here another phone is no reason
    // to read all marks again.
    phone::put_into_job(app, now).map_err(|_| msg("beside-other-phone"))?;
    let read = FaultEvent::BesideRead {
        spot,
        side,
        reading: Box::new(reading),
    };
    let mut actions = work::event(app, JobEvent::Fault(read), Back::Step, now);
    let beside = app.job().and_then(|job| job.fault.beside.get(&spot));
    let other = beside.is_some_and(|read| read.on(BesideHead::Right).is_none());
    if side == BesideHead::Left && other {
        held::aim(app, Target::Beside(spot, BesideHead::Right), Some(still));
        actions.extend(held::captured());
        actions.extend(phone::say(app, msg(words(BesideHead::Right))));
    } else {
        actions.extend(held::stop(app));
        actions.extend(held::done());
    }
    Ok(actions)
}

/// What is asked for a side.
#[must_use]
pub fn words(side: BesideHead) -> &'static str {
    match side {
        BesideHead::Left => "fitted-hold-left",
        BesideHead::Right => "fitted-hold-right",
    }
}
