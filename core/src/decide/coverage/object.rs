//! A fixed object behind the vehicle: a tow ball or a spare wheel inside
//! the zone. Zone shift is tried first, obstacle learn second.

use serde::{Deserialize, Serialize};

use super::air::Air;
use super::echo::{BALL_RADIUS, Target};
use super::head::{HeadInPlace, HeadLevel, Place, predict};
use crate::kit::KitSheet;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// What it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ObjectKind {
    /// The ball of a tow bar.
    TowBall,
    /// A spare wheel on the back.
    SpareWheel,
}

/// A fixed object where it sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixedObject {
    /// Tow ball or spare wheel's tread.
    pub target: Target,
    /// Its middle.
    pub at: Place,
}

impl FixedObject {
    /// How far behind the rearmost point it reaches.
    #[must_use]
    pub fn reach(&self) -> Millimetres {
        let radius = match self.target {
            Target::SpareWheel { radius, .. } => radius,
            _ => Millimetres(BALL_RADIUS * 1e3),
        };
        self.at.behind + radius
    }
}

/// Which heads see it, and what to do about it, in order.
#[derive(Clone, Debug, PartialEq)]
pub struct Advice {
    /// What each head has to spare for it.
    pub levels: Vec<HeadLevel>,
    /// Labels of the heads that hear it.
    pub seen_by: Vec<String>,
    /// Labels of the heads that have it inside their too-close zone: they
    /// still ring, and what they say of it can't be told.
    pub too_close_for: Vec<String>,
    /// What to do, the first thing first, each with its reason.
    pub steps: Vec<Message>,
}

/// What to do about a fixed object.
#[must_use]
pub fn advise(heads: &[HeadInPlace], object: &FixedObject, air: &Air, kit: &KitSheet) -> Advice {
    let levels = predict(heads, &object.target, object.at, air);
    let labels = |which: &dyn Fn(&HeadLevel) -> bool| -> Vec<String> {
        let such = heads.iter().zip(&levels).filter(|(_, level)| which(level));
        such.map(|(head, _)| head.label.clone()).collect()
    };
    let seen_by = labels(&|level| level.seen() && !level.too_close);
    let too_close_for = labels(&|level| level.too_close);
    let steps = if seen_by.is_empty() && too_close_for.is_empty() {
        vec![msg("object-not-seen")]
    } else {
        vec![first_shift(object, kit), then_learn(kit)]
    };
    Advice {
        levels,
        seen_by,
        too_close_for,
        steps,
    }
}

/// A shift leaves the heads hearing everything beyond it; so it is first.
fn first_shift(object: &FixedObject, kit: &KitSheet) -> Message {
    let reach = object.reach();
    let shift = kit.control_box.as_ref().and_then(|b| b.zone_shift.as_ref());
    let Some(shift) = shift else {
        return msg("object-shift-not-given").mm("reach", reach.0);
    };
    let key = if shift.distance >= reach {
        "object-shift-first"
    } else {
        "object-shift-too-short"
    };
    msg(key)
        .mm("shift", shift.distance.0)
        .mm("reach", reach.0)
        .mm("by", (reach - shift.distance).abs().0)
}

fn then_learn(kit: &KitSheet) -> Message {
    msg(if kit.obstacle_learn.is_some() {
        "object-learn-second"
    } else {
        "object-learn-not-given"
    })
}
