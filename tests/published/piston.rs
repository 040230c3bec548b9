//! Circular piston: D(x) = 2 J1(x) / x (formula in Springer, Handbook of
//! Acoustics chapter 10.1007/978-1-4615-2027-6_35; J1's zeros 3.83, 7.02,
//! 10.17, 13.32 on an array-antenna worksheet). Roots and levels are
//! computed from the formula; J1 itself against scipy.special.j1
//! (`tests/oracles/coverage.py`), to 1e-12 over 0 to 50.

use rakeline_core::decide::coverage::{MAIN_LOBE_END, ONE_WAY_EDGE, TWO_WAY_EDGE, directivity, j1};
use rakeline_tests::oracle;
use serde_json::json;

fn decibels(x: f64) -> f64 {
    20.0 * directivity(x * x).abs().log10()
}

#[test]
fn roots_and_levels() {
    let d = |x: f64| directivity(x * x);
    assert!((d(TWO_WAY_EDGE) - core::f64::consts::FRAC_1_SQRT_2).abs() < 1e-6);
    assert!((d(ONE_WAY_EDGE) - 0.5).abs() < 1e-6);
    for (x, level) in [
        (1.613_741, -3.0),
        (2.211_785, -6.0),
        (2.731_379, -10.0),
        (3.419_739, -20.0),
        (5.1356, -17.570),
        (8.4172, -23.811),
    ] {
        assert!((decibels(x) - level).abs() < 0.001, "{x} {}", decibels(x));
    }
    for zero in [3.831_706, 7.015_587, 10.173_468] {
        assert!(j1(zero).abs() < 1e-6, "{zero}");
    }
    assert!((MAIN_LOBE_END - 3.831_706).abs() < 1e-4);
}

#[test]
fn tabulated_values() {
    // At 2 as in several public unit tests; the others computed.
    for (x, value) in [
        (0.1, 0.049_937_526_036),
        (0.25, 0.124_025_977_323),
        (0.5, 0.242_268_457_675),
        (1.0, 0.440_050_585_745),
        (2.0, 0.576_724_807_757),
        (3.0, 0.339_058_958_526),
        (4.0, -0.066_043_328_024),
        (5.0, -0.327_579_137_591),
        (10.0, 0.043_472_746_169),
    ] {
        assert!((j1(x) - value).abs() < 1e-12, "{x} {}", j1(x));
    }
}

#[test]
fn it_agrees_with_scipy_over_nought_to_fifty() {
    let x: Vec<f64> = (0..=20_000).map(|i| f64::from(i) * 0.0025).collect();
    let told = oracle::run("coverage.py", &json!({ "j1": x }));
    for (i, x) in x.iter().enumerate() {
        let off = j1(*x) - told["j1"][i].as_f64().unwrap();
        assert!(off.abs() < 1e-12, "{x} {off}");
        let off = directivity(x * x) - told["directivity"][i].as_f64().unwrap();
        assert!(off.abs() < 1e-12, "{x} {off}");
    }
}
