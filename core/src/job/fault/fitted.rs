//! Where a fitted head points. Its own face cannot be read: a phone is never
//! rested on a head. The panel is read a hand's breadth to each side, the
//! mean is the face at the head, and the ring adds what it adds as it is
//! seen from the side.

use serde::{Deserialize, Serialize};

use crate::estimate::rake::{FaceReading, estimate_rake};
use crate::job::entry::{Facing, Field, read_degrees, read_typed_face};
use crate::job::measured::{around, phone_as_seated};
use crate::job::state::JobState;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millis, root_sum_of_squares};

/// Most that a ring adds, degrees (our own figure).
const RING_GREATEST: Degrees = Degrees(30.0);

/// How a ring is seen from the side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RingWay {
    /// Its thick edge is below: it lifts.
    Lifts,
    /// Its thick edge is above: it is upside down and lowers.
    Lowers,
}

/// On which side of a fitted head the panel is read, seen from behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BesideHead {
    /// A hand's breadth to the left.
    Left,
    /// A hand's breadth to the right.
    Right,
}

/// What the phone read beside a fitted head so far.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct ReadBeside {
    /// To the left.
    pub left: Option<FaceReading>,
    /// To the right.
    pub right: Option<FaceReading>,
}

impl ReadBeside {
    /// What was read on a side.
    #[must_use]
    pub fn on(&self, side: BesideHead) -> Option<&FaceReading> {
        match side {
            BesideHead::Left => self.left.as_ref(),
            BesideHead::Right => self.right.as_ref(),
        }
    }

    pub(super) fn on_mut(&mut self, side: BesideHead) -> &mut Option<FaceReading> {
        match side {
            BesideHead::Left => &mut self.left,
            BesideHead::Right => &mut self.right,
        }
    }
}

/// What was read beside a fitted head.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FittedAim {
    /// A hand's breadth to the left.
    pub left: FaceReading,
    /// A hand's breadth to the right.
    pub right: FaceReading,
    /// What the ring (and insert) adds, without its sign, with its standard
    /// uncertainty.
    pub ring: Estimate<Degrees>,
    /// How it is seen from the side.
    pub way: RingWay,
}

impl FittedAim {
    /// Whether a phone read any of it.
    pub(super) fn is_held(&self) -> bool {
        let mut readings = [&self.left, &self.right].into_iter();
        readings.any(|reading| matches!(reading, FaceReading::Held { .. }))
    }
}

/// Where a fitted head points, + up, with its standard uncertainty.
///
/// Aim = mean of the two face angles ± ring. Both readings share phone and
/// ground: their u goes in once, not averaged. Half the difference between
/// them, taken as rectangular, is what the face may do in between.
/// `None` when a reading gives no angle.
#[must_use]
pub fn fitted_aim(job: &JobState, spot: u8) -> Option<Estimate<Degrees>> {
    let fitted = job.fault.aims.get(&spot)?;
    let place = job.spots.get(usize::from(spot))?;
    let (phone, around) = (phone_as_seated(job), around(job, place));
    let face = |reading: FaceReading| estimate_rake(&[reading], &phone, &around);
    let (left, right) = (face(fitted.left)?.rake, face(fitted.right)?.rake);
    let mean = (left.value + right.value) * 0.5;
    let lift = match fitted.way {
        RingWay::Lifts => fitted.ring.value,
        RingWay::Lowers => -fitted.ring.value,
    };
    let between = (left.value - right.value).abs().0 / 2.0 / 3f64.sqrt();
    let u = root_sum_of_squares(&[left.u.0.max(right.u.0), between, fitted.ring.u.0]);
    Some(Estimate::new(mean + lift, Degrees(u)))
}

/// The panel beside a fitted head as the phone read it: the face angle, + up,
/// with its standard uncertainty. `None` where it was not read.
#[must_use]
pub fn beside_angle(job: &JobState, spot: u8, side: BesideHead) -> Option<Estimate<Degrees>> {
    let reading = *job.fault.beside.get(&spot)?.on(side)?;
    let place = job.spots.get(usize::from(spot))?;
    let rake = estimate_rake(&[reading], &phone_as_seated(job), &around(job, place))?;
    Some(rake.rake)
}

/// What is known beside a fitted head: both face angles, read with the phone
/// or else typed with the gauge's ±, and what the ring adds.
///
/// # Errors
/// What is missing or cannot be.
pub fn fitted_typed(job: &JobState, spot: u8, way: RingWay) -> Result<FittedAim, Message> {
    let read = job.fault.beside.get(&spot);
    let face = |field, side| {
        if let Some(reading) = read.and_then(|read| read.on(side)) {
            return Ok(*reading);
        }
        // A typed angle here carries its sign: down is -.
        let typed = job.typed(field);
        let gauge = job.typed(Field::GaugePlusMinus);
        let (angle, plus_minus) = read_typed_face(typed, Facing::Up, gauge)?;
        FaceReading::typed(angle, plus_minus, job.measuring.gauge, Millis(0.0))
    };
    let (left, right) = (
        face(Field::BesideLeft(spot), BesideHead::Left)?,
        face(Field::BesideRight(spot), BesideHead::Right)?,
    );
    let adds = read_degrees(job.typed(Field::RingAdds(spot)))?;
    if !(0.0..=RING_GREATEST.0).contains(&adds.0) {
        return Err(msg("fitted-ring-outside")
            .deg("typed", adds.0)
            .deg("greatest", RING_GREATEST.0));
    }
    let u = Degrees(job.kit.lift_tolerance.0 / 3f64.sqrt());
    Ok(FittedAim {
        left,
        right,
        ring: Estimate::new(adds, u),
        way,
    })
}
