//! Reversal: turned end for end, half the difference is the tilt and half
//! the sum the instrument's error. Sources: surveying questions at
//! curioustab.com (66897, 47924); vial scale 1000 sin(angle) mm/m,
//! eichhorn-gme.com/en/info.html; the limit of reversal is computed.

use rakeline_core::estimate::ground::Ground;
use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::still::StillReading;
use rakeline_core::sample::{STANDARD_GRAVITY, Source, UpVector};
use rakeline_core::units::{Degrees, Millis};

fn reading(a: [f64; 3], source: Source) -> StillReading {
    let raw = matches!(source, Source::Acceleration { .. });
    StillReading {
        up: UpVector::of(a).unwrap(),
        u_noise: Degrees(0.0),
        u_rounding: Degrees(0.0),
        samples: 50,
        effective: 50.0,
        source,
        raw_mean: raw.then(|| a.map(|c| c * STANDARD_GRAVITY)),
        azimuth: None,
        at: Millis(0.0),
    }
}

const RAW: Source = Source::Acceleration { step: 0.0 };
const NORMALISED: Source = Source::Euler { step: Degrees(0.0) };

fn tilted(degrees: f64) -> [f64; 3] {
    let (s, c) = degrees.to_radians().sin_cos();
    [0.0, s, c]
}

#[test]
fn end_for_end_readings_give_the_tilt_without_the_error() {
    let pair = (
        reading(tilted(8.4), NORMALISED),
        reading(tilted(-6.2), NORMALISED),
    );
    let ground = Ground::board(&[pair], Seating::Assumed).unwrap();
    // 7.3 in degrees; the halves of sines differ from it by 0.002.
    assert!((ground.nose_up.value.0 - 7.3).abs() < 0.005, "{ground:?}");
    let error = (pair.0.up.euler().0 + pair.1.up.euler().0) * 0.5;
    assert!((error.0 - 1.1).abs() < 1e-9);
}

#[test]
fn reversal_leaves_the_offset_of_the_axis_that_is_not_reversed() {
    let (s, c) = 10f64.to_radians().sin_cos();
    let first = [0.0, s - 0.02, c + 0.04];
    let turned = [0.0, -s - 0.02, c + 0.04];
    let angle = |a: [f64; 3]| UpVector::of(a).unwrap().euler().0.0;
    assert!((angle(first) - 8.527).abs() < 0.001);
    assert!((angle(turned) + 10.700).abs() < 0.001);
    assert!(((angle(first) - angle(turned)) / 2.0 - 9.614).abs() < 0.001);
    // A normalised source keeps that limit, and its uncertainty holds it.
    let pair = (reading(first, NORMALISED), reading(turned, NORMALISED));
    let nose = Ground::board(&[pair], Seating::Assumed).unwrap().nose_up;
    assert!((nose.value.0 - 9.61).abs() < 0.01, "{nose:?}");
    assert!((nose.value.0 - 10.0).abs() < nose.expanded().0);
    // A raw source knows lengths: nothing is left.
    let pair = (reading(first, RAW), reading(turned, RAW));
    let nose = Ground::board(&[pair], Seating::Assumed).unwrap().nose_up;
    assert!((nose.value.0 - 10.0).abs() < 1e-9);
}

#[test]
fn a_vial_of_six_tenths_of_a_millimetre_a_metre() {
    assert!((Degrees::asin(0.6 / 1_000.0).0 - 0.0344).abs() < 0.000_05);
}
