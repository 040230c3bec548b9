//! JCGM 100:2008 (GUM), annex H: H.1 end gauge and H.2 simultaneous
//! resistance and reactance, as in MSLNZ/GTC docs/API/GUM_H1.rst and
//! GUM_H2.rst; effective counts of correlated samples computed from
//! var = s²/n (1 + 2 sum (1 - k/n) rho^k).

use rakeline_core::estimate::propagate::{effective_dof, propagate};
use rakeline_core::estimate::stats::effective_count;
use rakeline_core::sample::Source;
use rakeline_core::units::root_sum_of_squares;

#[test]
fn h1_end_gauge() {
    let u = [25.0, 16.599, 6.7, 5.8, 3.9, 2.887];
    let dof = [18.0, 2.0, 8.0, 24.0, 5.0, 50.0];
    assert!((root_sum_of_squares(&u) - 31.66).abs() < 0.05);
    let parts: Vec<_> = u.into_iter().zip(dof).collect();
    assert!((effective_dof(&parts) - 16.75).abs() < 0.05);
}

#[test]
fn h2_resistance_reactance_impedance() {
    let x = [4.999, 19.661e-3, 1.044_46];
    let u = [3.2e-3, 9.5e-6, 7.5e-4];
    let r = [[1.0, -0.36, 0.86], [-0.36, 1.0, -0.65], [0.86, -0.65, 1.0]];
    let covariance = [0, 1, 2].map(|i| [0, 1, 2].map(|j| r[i][j] * u[i] * u[j]));
    let parts = |&[v, i, phi]: &[f64; 3]| Some([v / i * phi.cos(), v / i * phi.sin(), v / i]);
    let (value, out) = propagate(parts, &x, &covariance).unwrap();
    let sd = [0, 1, 2].map(|i: usize| out[i][i].sqrt());
    for (found, printed) in value.iter().zip([127.732, 219.85, 254.26]) {
        assert!((found - printed).abs() < 0.006, "{value:?}");
    }
    assert!((sd[0] - 0.070).abs() < 0.000_5, "{sd:?}");
    assert!((sd[1] - 0.2957).abs() < 0.000_5, "{sd:?}");
    assert!((sd[2] - 0.2366).abs() < 0.000_5, "{sd:?}");
    let r = |i: usize, j: usize| out[i][j] / sd[i] / sd[j];
    assert!((r(0, 1) + 0.59).abs() < 0.005);
    assert!((r(0, 2) + 0.49).abs() < 0.005);
    assert!((r(1, 2) - 0.99).abs() < 0.005);
}

#[test]
fn correlated_samples_count_less() {
    assert!((effective_count(10, 0.5) - 3.8456).abs() < 0.001);
    assert!((effective_count(100, 0.5) - 33.784).abs() < 0.001);
    assert!((effective_count(50, 0.9) - 3.2428).abs() < 0.001);
    assert!((effective_count(37, 0.0) - 37.0).abs() < 0.001);
}

#[test]
fn rounding_to_a_tenth_of_a_metre_per_second_squared() {
    // Step of the W3C specification: 0.584 degree near level, u 0.169.
    let source = Source::Acceleration { step: 0.1 };
    assert!((source.step_angle().0 - 0.584).abs() < 0.001);
    assert!((source.u_rounding().0 - 0.169).abs() < 0.001);
}
