//! Euler, quaternion and raw input agree, against scipy's Rotation
//! (`tests/oracles/tilt_attitude.py`), all components to 1e-9, exactly
//! upright included.

use rakeline_core::sample::{Convention, RawSample, SampleGate, TiltSample, azimuth_change};
use rakeline_core::units::{Degrees, Millis};
use rakeline_tests::oracle;
use rakeline_tests::tilt_sim::rng::Rng;
use serde_json::{Value, json};

const ATTITUDES: usize = 400;

fn take(raw: RawSample) -> TiltSample {
    SampleGate::new(Convention::PointsUp).accept(raw).unwrap()
}

fn row<const N: usize>(value: &Value, i: usize) -> [f64; N] {
    let row: Vec<f64> = serde_json::from_value(value[i].clone()).unwrap();
    row.try_into().unwrap()
}

fn same(found: [f64; 3], wanted: [f64; 3]) {
    for (f, w) in found.iter().zip(wanted) {
        assert!((f - w).abs() < 1e-9, "{found:?} {wanted:?}");
    }
}

fn check(sample: &TiltSample, up: [f64; 3], normal: [f64; 3]) {
    same(sample.up.0, up);
    let flat = normal[0].hypot(normal[1]);
    match sample.azimuth {
        Some(azimuth) => {
            let wanted = Degrees(normal[1].atan2(normal[0]).to_degrees());
            let off = azimuth_change(wanted, azimuth).0.to_radians() * flat;
            assert!(off.abs() < 1e-9, "{azimuth:?} {wanted:?}");
        }
        None => assert!(flat < 0.1 + 1e-9),
    }
}

#[test]
fn euler_quaternion_and_raw_agree_with_scipy() {
    let mut rng = Rng::new(5);
    let mut euler: Vec<[f64; 3]> = (0..ATTITUDES)
        .map(|_| {
            [
                rng.uniform(0.0, 360.0),
                rng.uniform(-180.0, 180.0),
                rng.uniform(-90.0, 90.0),
            ]
        })
        .collect();
    // Exactly upright, upside down, flat, on the face.
    euler.extend([
        [33.0, 90.0, 0.0],
        [33.0, 90.0, 25.0],
        [200.0, -90.0, -10.0],
        [0.0, 0.0, 0.0],
        [10.0, 180.0, 0.0],
    ]);
    let quaternion: Vec<[f64; 4]> = (0..ATTITUDES)
        .map(|_| {
            let q = [(); 4].map(|()| rng.normal(1.0));
            let size = q.iter().map(|c| c * c).sum::<f64>().sqrt();
            q.map(|c| c / size)
        })
        .collect();
    let given = json!({ "euler": euler, "quaternion": quaternion });
    let told = oracle::run("tilt_attitude.py", &given);
    let (at, step) = (Millis(0.0), Degrees(0.0));
    for (i, &[alpha, beta, gamma]) in euler.iter().enumerate() {
        let told = &told["euler"];
        let (up, normal) = (row(&told["up"], i), row(&told["normal"], i));
        let alpha = Some(alpha);
        check(
            &take(RawSample::Euler {
                at,
                alpha,
                beta,
                gamma,
                step,
            }),
            up,
            normal,
        );
        let xyzw = row(&told["quaternion"], i);
        check(&take(RawSample::Quaternion { at, xyzw, step }), up, normal);
        let xyz = up.map(|c| 9.81 * c);
        same(
            take(RawSample::Acceleration { at, xyz, step: 0.0 }).up.0,
            up,
        );
    }
    for (i, &xyzw) in quaternion.iter().enumerate() {
        let told = &told["quaternion"];
        let (up, normal) = (row(&told["up"], i), row(&told["normal"], i));
        check(&take(RawSample::Quaternion { at, xyzw, step }), up, normal);
    }
}
