//! The whole chain at one vehicle: zeroing, board, four spots.
//!
//! # Definitions
//! The ground slopes uniformly to `slope` degrees each way. The board
//! carries the phone twice, its yaw normal with sd 1.5 degrees each time.
//! Four spots (true face angle uniform -20 to +10, corner angle uniform to
//! 60) are read three times each; the touch is off the mark by d, normal
//! and once per spot, on a face of radius 0.8 m. Still windows carry noise
//! of 0.03 degree in their mean. The corner angle is known with its stated
//! normal u. One spot per job counts.

use rakeline_core::estimate::contact::{Contact, Feet, Roundness};
use rakeline_core::estimate::ground::{Ground, up_of};
use rakeline_core::estimate::rake::{Around, FaceReading, Side, Turn};
use rakeline_core::estimate::rake::{RakeEstimate, estimate_rake, pooled_seating};
use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::still::StillReading;
use rakeline_core::estimate::zero::Phone;
use rakeline_core::units::{Degrees, Estimate};

use super::rng::Rng;
use super::{Setup, ZeroJob, on_face, on_table};

/// Noise of a still window's mean in degrees.
const NOISE: f64 = 0.03;
const SPOTS: usize = 4;
const READINGS: usize = 3;

/// What differs from case to case.
#[derive(Clone, Copy, Debug)]
pub struct Case {
    /// Phone and fitter.
    pub setup: Setup,
    /// Feet on the phone.
    pub feet: Feet,
    /// Ground slope, uniform to this, degrees.
    pub slope: f64,
    /// Standard uncertainty of the corner angle, degrees.
    pub turn: f64,
}

/// One job's first spot.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// True face angle against the ground.
    pub truth: f64,
    /// What the app says.
    pub estimate: RakeEstimate,
    /// The zeroing it came from.
    pub zero: ZeroJob,
    /// Seating pooled from the job's repeats.
    pub seating: Seating,
    /// Both readings of the board.
    pub board: (StillReading, StillReading),
    /// Readings at the spot.
    pub readings: Vec<StillReading>,
    /// Corner angle as known, degrees.
    pub turn: f64,
}

impl Outcome {
    /// The 95 % interval holds the truth.
    #[must_use]
    pub fn covers(&self) -> bool {
        let off = self.estimate.rake.value.0 - self.truth;
        off.abs() <= self.estimate.rake.expanded().0
    }
}

/// Runs one job; `None` when the app refuses it.
#[must_use]
pub fn run(rng: &mut Rng, case: &Case) -> Option<Outcome> {
    let setup = &case.setup;
    let job = ZeroJob::draw(rng, setup);
    let zeroing = job.zeroing(Seating::Assumed)?;
    let slope = [(); 2].map(|()| rng.uniform(-case.slope, case.slope));
    let up = up_of(Degrees(slope[0]), Degrees(slope[1]));
    let mut on_board = |turned: f64| {
        let normal = job.phone.land(rng, Side::Back, setup.repeat);
        let yaw = rng.normal(1.5);
        let up = on_table(normal, [up[0], up[1]], turned + yaw);
        job.phone.still(rng, up, NOISE)
    };
    let pair = (on_board(0.0), on_board(180.0));
    let contact = Contact {
        feet: case.feet,
        roundness: Roundness::Rounded,
    };
    let mut spots = Vec::new();
    for _ in 0..SPOTS {
        let (rake, turn) = (rng.uniform(-20.0, 10.0), rng.uniform(-60.0, 60.0));
        let off = rng.normal(contact.u().0);
        let elevation = against_gravity(rake + off, turn, up);
        let readings: Vec<_> = (0..READINGS)
            .map(|_| {
                let normal = job.phone.land(rng, Side::Back, setup.repeat);
                let up = on_face(normal, Side::Back, elevation, rng.normal(2.0));
                let still = job.phone.still(rng, up, NOISE);
                FaceReading::Held {
                    still,
                    side: Side::Back,
                }
            })
            .collect();
        spots.push((rake, turn, readings));
    }
    let seating = pooled_seating(spots.iter().map(|(_, _, readings)| readings.as_slice()));
    let phone = Phone::Zeroed(Box::new(zeroing)).seated(seating);
    let (truth, turn, readings) = spots.into_iter().next()?;
    let known = Estimate::new(Degrees(turn + rng.normal(case.turn)), Degrees(case.turn));
    let around = Around {
        ground: Ground::board(&[pair], seating).ok()?,
        contact,
        turn: Turn::Known(known),
        seating,
    };
    let estimate = estimate_rake(&readings, &phone, &around)?;
    let readings = readings.iter().filter_map(held).collect();
    Some(Outcome {
        truth,
        estimate,
        zero: job,
        seating,
        board: pair,
        readings,
        turn: known.value.0,
    })
}

fn held(reading: &FaceReading) -> Option<StillReading> {
    match reading {
        FaceReading::Held { still, .. } => Some(*still),
        FaceReading::Typed { .. } => None,
    }
}

/// Elevation against gravity of a face with this rake and turn in the
/// vehicle's frame.
#[must_use]
pub fn against_gravity(rake: f64, turn: f64, up: [f64; 3]) -> f64 {
    let (e, psi) = (Degrees(rake), Degrees(turn));
    let normal = [e.cos() * psi.sin(), -e.cos() * psi.cos(), e.sin()];
    Degrees::asin(super::dot(normal, up)).0
}
