//! Ground pick-up: how much more (or less) of the road a head hears when it
//! is tilted.
//!
//! The greatest, over all ranges r from the head's height H on and inside
//! the main lobe (x < 3.8317), of
//! 40 log10 |D| - 30 log10 r - 2 alpha r + 20 log10(H / r),
//! in the direction s_h = 0, s_v = sin(delta + aim), sin delta = H / r.
//! Only its change against aim 0 means something.

use super::air::Air;
use super::beam::{Beam, MAIN_LOBE_END};
use super::bessel::directivity;
use super::echo::DIRECTIVITY_LEAST;
use crate::units::{Decibels, Degrees, Millimetres};

/// Points of the first search over the angle down to the road.
const POINTS: u32 = 600;
/// Steps of the search that follows around the best of them.
const FINER: u32 = 60;

/// The greatest echo of the ground, dB of an own reference. `None` where no
/// part of the main lobe reaches the ground, or the height is none.
#[must_use]
pub fn ground_pickup(
    beam: &Beam,
    height: Millimetres,
    aim: Degrees,
    air: &Air,
) -> Option<Decibels> {
    let height = height.0 / 1e3;
    if !(height > 0.0 && height.is_finite() && aim.0.is_finite()) {
        return None;
    }
    let alpha = air.absorption(beam.hertz);
    let reach = air_reach(beam, air);
    let at = |delta: f64| echo(height, delta, delta + aim.0.to_radians(), alpha, reach);
    let right_angle = core::f64::consts::FRAC_PI_2;
    // Denser near the horizon, where ranges grow fast.
    let delta = |i: f64| right_angle * (i / f64::from(POINTS)).powi(2);
    let best = (1..=POINTS)
        .filter_map(|i| Some((f64::from(i), at(delta(f64::from(i)))?)))
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    let (mut low, mut high) = (
        (best.0 - 1.0).max(1e-6),
        (best.0 + 1.0).min(f64::from(POINTS)),
    );
    let mut greatest = best.1;
    for _ in 0..FINER {
        let (one, two) = (low + (high - low) * 0.382, low + (high - low) * 0.618);
        let level = |i: f64| at(delta(i)).unwrap_or(f64::NEG_INFINITY);
        let (first, second) = (level(one), level(two));
        greatest = greatest.max(first).max(second);
        if first < second {
            low = one;
        } else {
            high = two;
        }
    }
    Some(Decibels(greatest))
}

/// k a_v: x for a direction cosine of 1.
fn air_reach(beam: &Beam, air: &Air) -> f64 {
    beam.wave_number(air) * beam.upright
}

fn echo(height: f64, delta: f64, off_axis: f64, alpha: f64, reach: f64) -> Option<f64> {
    let x = reach * off_axis.sin();
    if x.abs() >= MAIN_LOBE_END || off_axis.cos() <= 0.0 {
        return None;
    }
    let r = height / delta.sin();
    let d = directivity(x * x).abs().max(DIRECTIVITY_LEAST);
    Some(40.0 * d.log10() - 30.0 * r.log10() - 2.0 * alpha * r + 20.0 * delta.sin().log10())
}

/// Ground pick-up against a head that points level, dB. `None` as
/// [`ground_pickup`].
#[must_use]
pub fn ground_pickup_change(
    beam: &Beam,
    height: Millimetres,
    aim: Degrees,
    air: &Air,
) -> Option<Decibels> {
    let tilted = ground_pickup(beam, height, aim, air)?;
    let level = ground_pickup(beam, height, Degrees(0.0), air)?;
    Some(tilted - level)
}
