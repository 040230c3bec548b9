//! The same jobs solved by numpy and scipy (`tests/oracles/tilt_zero.py`).

use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::still::StillReading;
use rakeline_core::estimate::zero::SourceKind;
use rakeline_core::estimate::zero::poses::Pose;
use rakeline_core::estimate::zero::solve::{
    PRIOR_HALF_TURN, PRIOR_OFFSET, PRIOR_SCALE, PRIOR_SEAT, PRIOR_SURFACE, U_LENGTH,
};
use rakeline_core::sample::STANDARD_GRAVITY;
use rakeline_core::units::Degrees;
use serde_json::{Value, json};

use super::chain::Outcome;
use super::{Setup, V, ZeroJob};
use crate::oracle;

/// Face angle at which zeroing is judged.
pub const RAKE: f64 = -20.0;

/// What zeroing reached over many jobs, each list one figure a job, in
/// degrees at [`RAKE`].
#[derive(Clone, Debug, Default)]
pub struct ZeroResult {
    /// Error of the app.
    pub app: Vec<f64>,
    /// Error without zeroing.
    pub unzeroed: Vec<f64>,
    /// Error of numpy's solution.
    pub numpy: Vec<f64>,
    /// Error of scipy's solution, first jobs.
    pub scipy: Vec<f64>,
    /// Standard deviation by the linearised bound.
    pub bound: Vec<f64>,
    /// The same for a chip whose lengths were exact.
    pub exact: Vec<f64>,
}

/// Zeroes many simulated phones, here and in Python.
///
/// # Errors
/// What went wrong in Python, or that the app refused a job.
pub fn zeroings(setup: &Setup, jobs: &[ZeroJob]) -> Result<ZeroResult, String> {
    // The seating is known to the solver here, as in the bound.
    let seating = Seating::Pooled {
        spread: Degrees(setup.repeat),
        dof: 100,
    };
    let mut result = ZeroResult::default();
    for job in jobs {
        let zeroing = job.zeroing(seating).ok_or("a zeroing was refused")?;
        let error = job.error(&zeroing, RAKE).ok_or("no face angle")?;
        result.app.push(error);
        result.unzeroed.push(job.error_unzeroed(RAKE));
    }
    let root3 = 3f64.sqrt();
    let told = oracle::run(
        "tilt_zero.py",
        &json!({
            "kind": kind_name(setup.kind),
            "seating": seating.u().0,
            "u_length": U_LENGTH,
            "prior": prior(),
            "truth": {
                "offset": setup.offset / root3, "scale": setup.scale,
                "seat": setup.seat / root3, "surface": 1.0, "half_turn": 2.5,
                "repeat": setup.repeat,
            },
            "rake": RAKE,
            "which": which(setup.poses),
            "jobs": jobs.iter().map(zero_json).collect::<Vec<_>>(),
        }),
    );
    result.numpy = list(&told["error"])?;
    result.scipy = list(&told["scipy"])?;
    result.bound = list(&told["bound"])?;
    result.exact = list(&told["exact"])?;
    Ok(result)
}

/// Face angles of whole-chain jobs by numpy, degrees.
///
/// # Errors
/// What went wrong in Python.
pub fn chains(outcomes: &[Outcome]) -> Result<Vec<f64>, String> {
    let Some(first) = outcomes.first() else {
        return Ok(Vec::new());
    };
    let jobs: Vec<Value> = outcomes.iter().map(chain_json).collect();
    // Rounding joins the seating of a direction and the length's own error.
    let rounding = first.readings.first().map_or(0.0, |r| r.u_rounding.0);
    let seating: Vec<f64> = outcomes
        .iter()
        .map(|o| o.seating.u().0.hypot(rounding))
        .collect();
    let told = oracle::run(
        "tilt_zero.py",
        &json!({
            "kind": kind_name(first.zero.phone.kind),
            "seating": seating,
            "u_length": U_LENGTH.hypot(rounding.to_radians()),
            "prior": prior(),
            "which": which(&Pose::ALL),
            "jobs": jobs,
        }),
    );
    list(&told["chain"])
}

fn prior() -> Value {
    json!({
        "offset": PRIOR_OFFSET, "scale": PRIOR_SCALE, "seat": PRIOR_SEAT.0,
        "surface": PRIOR_SURFACE.0, "half_turn": PRIOR_HALF_TURN.0,
    })
}

/// Places in the order of the guide.
fn which(poses: &[Pose]) -> Vec<Option<usize>> {
    let place = |pose| Pose::ALL.iter().position(|p| p == pose);
    poses.iter().map(place).collect()
}

fn kind_name(kind: SourceKind) -> &'static str {
    match kind {
        SourceKind::Raw => "raw",
        SourceKind::Normalised => "normalised",
    }
}

/// In g for a raw source, else the direction.
fn seen(still: &StillReading) -> V {
    still
        .raw_mean
        .map_or(still.up.0, |raw| raw.map(|c| c / STANDARD_GRAVITY))
}

fn zero_json(job: &ZeroJob) -> Value {
    let phone = &job.phone;
    json!({
        "poses": job.poses.iter().map(|p| seen(&p.still)).collect::<Vec<_>>(),
        "phone": {
            "offset": phone.offset, "scale": phone.scale,
            "back": [phone.back.x, phone.back.y],
            "screen": [phone.screen.x, phone.screen.y],
        },
    })
}

fn chain_json(outcome: &Outcome) -> Value {
    let mut job = zero_json(&outcome.zero);
    job["board"] = json!([seen(&outcome.board.0), seen(&outcome.board.1)]);
    let readings: Vec<V> = outcome.readings.iter().map(seen).collect();
    job["readings"] = json!(readings);
    job["turn"] = json!(outcome.turn);
    job
}

fn list(value: &Value) -> Result<Vec<f64>, String> {
    serde_json::from_value(value.clone()).map_err(|fault| fault.to_string())
}
