//! Sensor axes and signs.
//!
//! Sources: Android `SensorEvent` reference (flat on a table z = +9.81);
//! W3C Accelerometer and DeviceOrientation (flat, screen up = {0, 0, 9.8},
//! github.com/w3c/deviceorientation/issues/96); raw iOS CoreMotion in g with
//! the opposite sign (github.com/GenericJam/mob/pull/70).

use rakeline_core::estimate::rake::{Seat, Side, rake_against_gravity};
use rakeline_core::sample::{Convention, RawSample, STANDARD_GRAVITY, SampleGate, TiltSample};
use rakeline_core::units::Millis;

fn take(convention: Convention, xyz: [f64; 3]) -> TiltSample {
    let raw = RawSample::Acceleration {
        at: Millis(0.0),
        xyz,
        step: 0.0,
    };
    SampleGate::new(convention).accept(raw).unwrap()
}

#[test]
fn each_side_uppermost_reads_its_axis() {
    let cases = [
        ([0.0, 0.0, 9.81], [0.0, 0.0, 1.0]),
        ([0.0, 0.0, -9.81], [0.0, 0.0, -1.0]),
        ([0.0, 9.81, 0.0], [0.0, 1.0, 0.0]),
        ([9.81, 0.0, 0.0], [1.0, 0.0, 0.0]),
    ];
    for (read, up) in cases {
        assert_eq!(take(Convention::PointsUp, read).up.0, up);
    }
}

#[test]
fn an_upright_phone_leaned_back_by_twelve_degrees_faces_up_by_twelve() {
    // Computed with g = 9.81: y = 9.5956, z = 2.0396.
    let sample = take(Convention::PointsUp, [0.0, 9.5956, 2.0396]);
    let rake = rake_against_gravity(sample.up, Side::Back, Seat::default());
    assert!((rake.0 - 12.0).abs() < 0.001, "{rake:?}");
}

#[test]
fn core_motion_is_turned_round_and_converted_from_g() {
    let sample = take(Convention::PointsDown, [0.0, 0.0, -1.0]);
    assert_eq!(sample.raw.unwrap(), [0.0, 0.0, STANDARD_GRAVITY]);
    assert_eq!(sample.up.0[2], 1.0);
}
