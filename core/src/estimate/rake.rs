//! The face angle at a spot: from readings to an estimate against the
//! ground, with its budget.
//!
//! Rake is the elevation of the face's outward normal: + faces up, - faces
//! down. Turn is the azimuth of that normal against straight back, + to the
//! vehicle's right.

use serde::{Deserialize, Serialize};

use crate::estimate::budget::{Budget, Part};
use crate::estimate::contact::{Contact, Feet};
use crate::estimate::ground::{Ground, GroundHow, up_of};
use crate::estimate::repeats::{Repeats, judge_repeats};
use crate::estimate::seating::Seating;
use crate::estimate::stats::{few_factor, mean_and_spread};
use crate::estimate::still::StillReading;
use crate::estimate::zero::Phone;
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees, Estimate};

pub use crate::estimate::reading::{
    Against, FaceReading, GAUGE_PLUS_MINUS, MOST_PLUS_MINUS, MOST_RAKE, Seat, Side, plausible,
    rake_against_gravity,
};

/// Standard uncertainty of an unzeroed phone: offset ±60 mg and seat ±2
/// degrees, both rectangular.
pub const U_UNZEROED: Degrees = Degrees(2.3);
/// Where a face angle comes from: three kinds that are never mixed up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Origin {
    /// Held, by a phone that was zeroed.
    Zeroed {
        /// Name of the phone's profile.
        profile: String,
    },
    /// Held, by a phone as it came.
    Unzeroed,
    /// Typed from a gauge.
    Typed {
        /// The gauge's ± (95 %).
        plus_minus: Degrees,
        /// Reference of the gauge.
        against: Against,
    },
    /// Not read on this vehicle: measured on earlier ones of the model.
    Before {
        /// How many.
        vehicles: u16,
        /// Whether what read them had its own error found.
        zeroed: bool,
    },
}

/// The corner angle at a spot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Turn {
    /// Not known: taken as straight back, u 30 degrees.
    #[default]
    NotKnown,
    /// Typed or swept.
    Known(Estimate<Degrees>),
}

/// Standard uncertainty of a corner angle that nobody gave.
pub const U_TURN_NOT_KNOWN: Degrees = Degrees(30.0);

impl Turn {
    /// Value with its uncertainty.
    #[must_use]
    pub fn estimate(self) -> Estimate<Degrees> {
        match self {
            Self::NotKnown => Estimate::new(Degrees(0.0), U_TURN_NOT_KNOWN),
            Self::Known(turn) => turn,
        }
    }
}

/// What stands around the readings at a spot.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Around {
    /// How the ground lies.
    pub ground: Ground,
    /// How the phone touches.
    pub contact: Contact,
    /// The corner angle.
    pub turn: Turn,
    /// How well the phone sits from one reading to the next.
    pub seating: Seating,
}

/// The face angle at a spot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RakeEstimate {
    /// Against the ground, + faces up.
    pub rake: Estimate<Degrees>,
    /// Against gravity, as read.
    pub against_gravity: Degrees,
    /// The parts of its uncertainty.
    pub budget: Budget,
    /// Where it comes from.
    pub origin: Origin,
    /// Readings pooled.
    pub readings: usize,
}

impl RakeEstimate {
    /// What every result of an unzeroed phone says beside the angle.
    #[must_use]
    pub fn caveat(&self) -> Option<Message> {
        (self.origin == Origin::Unzeroed)
            .then(|| msg("face-unzeroed").deg("share", U_UNZEROED.0 * COVERAGE_95))
    }
}

/// Takes how the ground lies off a face angle against gravity:
/// m = A sin e + B cos e with A = U_up, B = -cos(turn) U_forward +
/// sin(turn) U_right, e = asin(m / sqrt(A² + B²)) - atan2(B, A).
#[must_use]
pub fn rake_on_ground(against_gravity: Degrees, turn: Degrees, up: [f64; 3]) -> Degrees {
    let [right, forward, a] = up;
    let b = -turn.cos() * forward + turn.sin() * right;
    let m = against_gravity.sin();
    Degrees::asin(m / a.hypot(b)) - Degrees(b.atan2(a).to_degrees())
}

/// The face angle from all readings at one spot. Typed and held readings
/// are not mixed: the typed ones count when there are any (the fitter typed
/// because the phone would not do).
///
/// `None` without a reading.
#[must_use]
pub fn estimate_rake(
    readings: &[FaceReading],
    phone: &Phone,
    around: &Around,
) -> Option<RakeEstimate> {
    estimate_typed(readings, around).or_else(|| estimate_held(readings, phone, around))
}

/// Seating pooled from the repeats of a job, each list the readings of one
/// spot; typed ones do not count.
#[must_use]
pub fn pooled_seating<'a>(spots: impl IntoIterator<Item = &'a [FaceReading]>) -> Seating {
    let angles = |readings: &[FaceReading]| {
        let plain = |reading: &FaceReading| match reading {
            FaceReading::Held { still, side } => {
                Some(rake_against_gravity(still.up, *side, Seat::default()))
            }
            FaceReading::Typed { .. } => None,
        };
        readings.iter().filter_map(plain).collect()
    };
    Seating::pooled(&spots.into_iter().map(angles).collect::<Vec<_>>())
}

fn estimate_held(readings: &[FaceReading], phone: &Phone, around: &Around) -> Option<RakeEstimate> {
    let held: Vec<_> = readings
        .iter()
        .filter_map(|reading| match reading {
            FaceReading::Held { still, side } => Some((still, *side)),
            FaceReading::Typed { .. } => None,
        })
        .collect();
    let zeroed = held_zeroed(&held, phone);
    let (values, u_zero, origin, shrink) = match zeroed {
        Some((values, u, profile)) => (
            values,
            u,
            Origin::Zeroed { profile },
            "budget-shrink-zeroing-again",
        ),
        None => {
            let plain = |&(still, side): &(&StillReading, Side)| {
                rake_against_gravity(still.up, side, Seat::default()).0
            };
            let values = held.iter().map(plain).collect();
            (
                values,
                U_UNZEROED,
                Origin::Unzeroed,
                "budget-shrink-zeroing",
            )
        }
    };
    let n = values.len();
    if n == 0 {
        return None;
    }
    let (mean, spread) = mean_and_spread(&values);
    let count = n as f64;
    let square = |f: fn(&StillReading) -> f64| -> f64 {
        held.iter().map(|(still, _)| f(still).powi(2)).sum()
    };
    let noise = square(|s| s.u_noise.0).sqrt() / count;
    // Repeats that contradict each other say more than the usual seating.
    let angles: Vec<Degrees> = values.iter().copied().map(Degrees).collect();
    let seating = match judge_repeats(&angles, around.seating) {
        Repeats::Agree => around.seating.u(),
        Repeats::Outliers { .. } | Repeats::Contradict(_) => {
            Degrees((spread * few_factor(count)).max(around.seating.u().0))
        }
    };
    // Rounding at the same attitude is the same each time: not averaged.
    let rounding = (square(|s| s.u_rounding.0) / count).sqrt();
    let budget = Budget::default()
        .with(Part::Noise, Degrees(noise), "budget-shrink-noise")
        .with(Part::Rounding, Degrees(rounding), "budget-shrink-rounding")
        .with(Part::Zeroing, u_zero, shrink)
        .with(
            Part::Seating,
            seating * (1.0 / count.sqrt()),
            "budget-shrink-seating",
        );
    Some(on_ground(Degrees(mean), budget, origin, n, around))
}

type ZeroedRakes = (Vec<f64>, Degrees, String);

/// All readings by the same zeroing; its error is common to them.
fn held_zeroed(held: &[(&StillReading, Side)], phone: &Phone) -> Option<ZeroedRakes> {
    let Phone::Zeroed(zeroing) = phone else {
        return None;
    };
    let rakes: Option<Vec<_>> = held
        .iter()
        .map(|(still, side)| zeroing.rake(still, *side))
        .collect();
    let rakes = rakes?;
    let values = rakes.iter().map(|r| r.value.0).collect();
    let u = rakes.iter().map(|r| r.u.0).fold(0.0, f64::max);
    Some((values, Degrees(u), zeroing.profile.name.clone()))
}

fn estimate_typed(readings: &[FaceReading], around: &Around) -> Option<RakeEstimate> {
    let (_, last, reference) = readings.iter().rev().find_map(|reading| match *reading {
        FaceReading::Typed {
            angle,
            plus_minus,
            against,
            ..
        } => Some((angle, plus_minus, against)),
        FaceReading::Held { .. } => None,
    })?;
    let values: Vec<f64> = readings
        .iter()
        .filter_map(|reading| match *reading {
            FaceReading::Typed { angle, against, .. } if against == reference => Some(angle.0),
            _ => None,
        })
        .collect();
    let (mean, _) = mean_and_spread(&values);
    let origin = Origin::Typed {
        plus_minus: last,
        against: reference,
    };
    let u = last * (1.0 / COVERAGE_95);
    let budget = Budget::default().with(Part::Gauge, u, "budget-shrink-gauge");
    let n = values.len();
    Some(match reference {
        Against::Level => on_ground(Degrees(mean), budget, origin, n, around),
        Against::Board => {
            let ground = Ground::gauge_on_board();
            let around = Around {
                ground,
                ..around.clone()
            };
            on_ground(Degrees(mean), budget, origin, n, &around)
        }
    })
}

/// Adds what the spot, the ground and the corner angle put in.
fn on_ground(
    mean: Degrees,
    budget: Budget,
    origin: Origin,
    readings: usize,
    around: &Around,
) -> RakeEstimate {
    let turn = around.turn.estimate();
    let ground = &around.ground;
    let value = rake_on_ground(mean, turn.value, ground.up());
    let contact = match around.contact.feet {
        Feet::On => "budget-shrink-contact-feet",
        Feet::None => "budget-shrink-contact",
    };
    let lies = match ground.how {
        GroundHow::LooksLevel | GroundHow::Sill => "budget-shrink-ground",
        GroundHow::Board | GroundHow::Bay { .. } | GroundHow::GaugeOnBoard => {
            "budget-shrink-ground-board"
        }
    };
    // A gauge's ± covers how it was held: contact is the phone's alone.
    let u_contact = match origin {
        Origin::Typed { .. } | Origin::Before { .. } => Degrees(0.0),
        Origin::Zeroed { .. } | Origin::Unzeroed => around.contact.u(),
    };
    let budget = budget
        .with(Part::Contact, u_contact, contact)
        .with(Part::Ground, u_ground(mean, turn.value, ground), lies)
        .with(Part::Turn, u_turn(mean, turn, ground), "budget-shrink-turn");
    RakeEstimate {
        rake: Estimate::new(value, budget.total()),
        against_gravity: mean,
        budget,
        origin,
        readings,
    }
}

/// Ground's part, both directions, by central differences over ±u.
fn u_ground(mean: Degrees, turn: Degrees, ground: &Ground) -> Degrees {
    let at = |nose: Degrees, right: Degrees| rake_on_ground(mean, turn, up_of(nose, right)).0;
    let (nose, right) = (ground.nose_up, ground.right_up);
    let by_nose = at(nose.value + nose.u, right.value) - at(nose.value - nose.u, right.value);
    let by_right = at(nose.value, right.value + right.u) - at(nose.value, right.value - right.u);
    Degrees((by_nose / 2.0).hypot(by_right / 2.0))
}

/// The corner angle's part: root mean square over a normal turn by three
/// points (0 and ±sqrt(3) u, weights 2/3 and 1/6), since the slope of the
/// formula vanishes where an unknown turn is taken as zero.
fn u_turn(mean: Degrees, turn: Estimate<Degrees>, ground: &Ground) -> Degrees {
    let at = |turn: Degrees| rake_on_ground(mean, turn, ground.up()).0;
    let step = turn.u * 3f64.sqrt();
    let here = at(turn.value);
    let above = at(turn.value + step) - here;
    let below = at(turn.value - step) - here;
    Degrees(((above * above + below * below) / 6.0).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::reading::tests::still;
    use crate::units::Millis;

    #[test]
    fn an_unzeroed_phone_says_that_zeroing_would_shrink_its_plus_minus() {
        let reading = FaceReading::held(still(-4.0), Side::Back).unwrap();
        let estimate = estimate_rake(&[reading], &Phone::Unzeroed, &Around::default()).unwrap();
        assert_eq!(estimate.origin, Origin::Unzeroed);
        assert!((estimate.rake.value.0 + 4.0).abs() < 1e-9);
        assert_eq!(estimate.budget.part(Part::Zeroing), U_UNZEROED);
        assert!((estimate.budget.part(Part::Ground).0 - 1.0).abs() < 1e-3);
        let most = estimate.budget.dominant().unwrap();
        assert_eq!(most.shrink, msg("budget-shrink-zeroing"));
        assert!((4.5..6.0).contains(&estimate.rake.expanded().0));
    }

    #[test]
    fn an_angle_typed_against_the_board_carries_its_own_plus_minus_only() {
        let typed = FaceReading::typed(Degrees(-6.0), Degrees(0.3), Against::Board, Millis(0.0));
        let estimate =
            estimate_rake(&[typed.unwrap()], &Phone::Unzeroed, &Around::default()).unwrap();
        assert!((estimate.rake.u.0 - 0.3 / 1.96).abs() < 1e-9);
        let typed = FaceReading::typed(Degrees(-6.0), Degrees(0.3), Against::Level, Millis(0.0));
        let estimate =
            estimate_rake(&[typed.unwrap()], &Phone::Unzeroed, &Around::default()).unwrap();
        assert!((estimate.budget.part(Part::Ground).0 - 1.0).abs() < 1e-3);
    }

    #[test]
    fn nose_up_makes_the_same_reading_face_up_more() {
        // A vertical face of a vehicle standing nose up leans down by as much.
        let rake = rake_on_ground(
            Degrees(-3.0),
            Degrees(0.0),
            up_of(Degrees(3.0), Degrees(0.0)),
        );
        assert!(rake.0.abs() < 1e-9);
    }

    #[test]
    fn every_result_of_an_unzeroed_phone_says_so() {
        let reading = FaceReading::held(still(-4.0), Side::Back).unwrap();
        let estimate = estimate_rake(&[reading], &Phone::Unzeroed, &Around::default()).unwrap();
        assert_eq!(estimate.caveat().unwrap().key, "face-unzeroed");
        let typed = FaceReading::typed(Degrees(-6.0), Degrees(0.3), Against::Level, Millis(0.0));
        let estimate =
            estimate_rake(&[typed.unwrap()], &Phone::Unzeroed, &Around::default()).unwrap();
        assert_eq!(estimate.caveat(), None);
    }

    #[test]
    fn contradicting_repeats_widen_the_interval_and_agreeing_ones_shrink_it() {
        let held = |rake: f64| FaceReading::held(still(rake), Side::Back).unwrap();
        let seating = |rakes: &[f64]| {
            let readings: Vec<_> = rakes.iter().map(|r| held(*r)).collect();
            let estimate = estimate_rake(&readings, &Phone::Unzeroed, &Around::default()).unwrap();
            estimate.budget.part(Part::Seating).0
        };
        assert!((seating(&[-4.0]) - 0.3).abs() < 1e-9);
        assert!((seating(&[-4.0, -4.1, -3.9]) - 0.3 / 3f64.sqrt()).abs() < 1e-9);
        assert!(seating(&[-4.0, -7.0]) > 3.0);
    }
}
