//! Earlier jobs on an invented model, and many simulated models of which the
//! next vehicle is known.

mod full;
mod rest;

pub use full::{STAYS, full_job};

use chrono::{DateTime, Duration, FixedOffset};
use rakeline_core::again::{Lesson, SPREAD_SCALE, expected, lesson};
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::estimate::rake::{Against, FaceReading};
use rakeline_core::job::{
    self, Field, HalfWidths, JobEvent, JobId, JobState, Particular, Standing, StandingEvent, apply,
};
use rakeline_core::kit;
use rakeline_core::units::{Degrees, Millis};

use crate::markout::Dice;

/// The kit of these jobs.
const SHEET: &str = include_str!("../../../assets/kits/plain-four.json");

/// An earlier job.
#[derive(Clone, Debug)]
pub struct Earlier {
    /// Its number; the higher the later.
    pub number: u32,
    /// What the vehicle is called.
    pub vehicle: &'static str,
    /// Left half width as typed, mm.
    pub left: f64,
    /// Right half width as typed, mm.
    pub right: f64,
    /// Face angles as typed.
    pub faces: [f64; 4],
}

/// One job on the model of these tests.
pub const EARLIER: Earlier = Earlier {
    number: 1,
    vehicle: "Tarn Carrier van 2021",
    left: 871.0,
    right: 868.0,
    faces: [-5.5, -4.0, -4.1, -5.6],
};

fn start() -> Option<DateTime<FixedOffset>> {
    DateTime::parse_from_rfc3339("2026-02-02T08:00:00+01:00").ok()
}

/// That job, handed over. `None` if its figures broke a rule.
#[must_use]
pub fn done(earlier: &Earlier) -> Option<JobState> {
    let at = start()? + Duration::days(i64::from(earlier.number));
    let id = JobId(format!("e{}", earlier.number));
    let mut job = JobState::start(id, kit::parse(SHEET).ok()?, at);
    let event = |job: &JobState, event| apply(job, event, at).ok();
    for (which, text) in [
        (Particular::Vehicle, earlier.vehicle),
        (Particular::Customer, "Fell & Ghyll Deliveries"),
        (Particular::Plate, "FG 12 TARN"),
        (Particular::Fitter, "A. Beck"),
    ] {
        job = event(&job, JobEvent::ParticularTyped(which, text.to_owned()))?;
    }
    for (field, mm) in [
        (Field::HalfLeft, earlier.left),
        (Field::HalfRight, earlier.right),
    ] {
        job = event(&job, JobEvent::Typed(field, mm.to_string()))?;
    }
    let HalfWidths::Ready { left, right, .. } = job::half_widths(&job) else {
        return None;
    };
    let plans = job::plans(&job)?.ok()?;
    job = event(
        &job,
        JobEvent::MarksPlanned {
            half_left: left,
            half_right: right,
            kind: PlanKind::Symmetric,
            offsets: plans.get(PlanKind::Symmetric).marks.clone(),
        },
    )?;
    job = event(&job, JobEvent::TapeLaid)?;
    for (spot, face) in earlier.faces.into_iter().enumerate() {
        let reading =
            FaceReading::typed(Degrees(face), Degrees(0.3), Against::Level, Millis(0.0)).ok()?;
        job = event(&job, JobEvent::FaceRead { spot, reading })?;
    }
    let handed_over = StandingEvent::Chosen(Standing::Done);
    event(&job, JobEvent::Standing(handed_over))
}

/// What that job teaches.
#[must_use]
pub fn taught(earlier: &Earlier) -> Option<Lesson> {
    lesson(&done(earlier)?)
}

/// A value of the normal distribution (Box and Muller).
pub fn normal(dice: &mut Dice) -> f64 {
    let (a, b) = (unit(dice), unit(dice));
    (-2.0 * a.ln()).sqrt() * (core::f64::consts::TAU * b).cos()
}

/// Evenly between 0 and 1, ends left out.
pub fn unit(dice: &mut Dice) -> f64 {
    ((dice.bits() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
}

/// How many of so many models of `vehicles` vehicles have the next vehicle's
/// true face angle within the ± expected of it, percent.
///
/// A model's spread between vehicles is drawn evenly from 0.2 to 0.8
/// degrees, half of its square common to the whole bumper; each reading's
/// standard uncertainty from 0.15 to 0.5.
#[must_use]
pub fn coverage(models: usize, vehicles: usize, seed: u64) -> f64 {
    let mut dice = Dice(seed);
    let mut within = 0;
    for _ in 0..models {
        let tau = 0.2 + 0.6 * unit(&mut dice);
        let means: Vec<f64> = (0..4).map(|_| -12.0 + 14.0 * unit(&mut dice)).collect();
        let half = tau * 0.5f64.sqrt();
        let vehicle = |dice: &mut Dice| -> Vec<f64> {
            let common = half * normal(dice);
            let one = |mean: &f64, dice: &mut Dice| mean + common + half * normal(dice);
            means.iter().map(|mean| one(mean, dice)).collect()
        };
        let mut spots: Vec<Vec<(f64, f64)>> = vec![Vec::new(); 4];
        for _ in 0..vehicles {
            for (spot, truth) in spots.iter_mut().zip(vehicle(&mut dice)) {
                let u = 0.15 + 0.35 * unit(&mut dice);
                spot.push((truth + u * normal(&mut dice), u));
            }
        }
        let next = vehicle(&mut dice);
        let asked = dice.whole(0, 3) as usize;
        if let (Some(Some(expected)), Some(truth)) =
            (expected(&spots, SPREAD_SCALE).get(asked), next.get(asked))
            && (truth - expected.value).abs() <= 1.96 * expected.u
        {
            within += 1;
        }
    }
    f64::from(within) * 100.0 / models as f64
}
