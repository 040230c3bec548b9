//! A random-effects mean with the spread between vehicles: against a worked
//! example that was published, and against scipy.
#![cfg(test)]

use rakeline_core::again::{SPREAD_SCALE, expected, paule_mandel};
use rakeline_tests::markout::Dice;
use rakeline_tests::oracle;
use serde_json::json;

/// R. N. Kacker, Combining information from interlaboratory evaluations
/// using a random effects model, Metrologia 41 (2004) 132, table 1; values
/// and variances as statsmodels 0.15.0 carries them in its tests
/// (`statsmodels/stats/tests/test_meta.py`, class TestMetaK1).
const KACKER: [(f64, f64); 9] = [
    (61.00, 0.2025),
    (61.40, 1.2100),
    (62.21, 0.0900),
    (62.30, 0.2025),
    (62.34, 0.3844),
    (62.60, 0.5625),
    (62.70, 0.0676),
    (62.84, 0.0225),
    (65.90, 1.8225),
];

fn kacker() -> Vec<(f64, f64)> {
    KACKER.iter().map(|(y, v)| (*y, v.sqrt())).collect()
}

#[test]
fn kackers_example_has_its_published_spread() {
    let pooled = paule_mandel(&kacker()).unwrap();
    // Table 1, first row, PM: 0.8399, to its printed places.
    assert!((pooled.between - 0.8399).abs() <= 6e-5, "{pooled:?}");
}

#[test]
fn kackers_example_has_the_documented_result_of_metafor() {
    // R metafor, rma(y, v, method = "PM"), as statsmodels 0.15.0 documents it
    // (`statsmodels/stats/tests/results/results_meta.py`, exk1_metafor).
    let pooled = paule_mandel(&kacker()).unwrap();
    assert!((pooled.mean - 62.407_619_911_328_6).abs() < 1e-9);
    assert!((pooled.u - 0.338_030_602_684_471).abs() < 1e-9);
    assert!((pooled.between.powi(2) - 0.705_395_309_224_248).abs() < 1e-9);
}

#[test]
fn forty_models_are_pooled_as_scipy_does() {
    let mut dice = Dice(411);
    let models: Vec<Vec<Vec<(f64, f64)>>> = (0..40)
        .map(|model| {
            let vehicles = 1 + model % 12;
            (0..4)
                .map(|_| {
                    let mean = dice.whole(-1200, 200) as f64 / 100.0;
                    let spread = dice.whole(0, 90);
                    (0..vehicles)
                        .map(|_| {
                            let off = dice.whole(-spread, spread) as f64 / 50.0;
                            (mean + off, dice.whole(12, 60) as f64 / 100.0)
                        })
                        .collect()
                })
                .collect()
        })
        .collect();
    let asked = json!({ "scale": SPREAD_SCALE, "models": models });
    let answers = oracle::run("again_pool.py", &asked);
    for (model, answer) in models.iter().zip(answers.as_array().unwrap()) {
        let found = expected(model, SPREAD_SCALE);
        for (at, spot) in model.iter().enumerate() {
            let want = |name: &str| answer[name][at].as_f64().unwrap();
            let pooled = paule_mandel(spot).unwrap();
            assert!((pooled.mean - want("mean")).abs() < 1e-7, "{spot:?}");
            assert!((pooled.between - want("between")).abs() < 1e-6, "{spot:?}");
            let next = found[at].unwrap();
            // The grid has 64 places over the spread.
            assert!((next.value - want("value")).abs() < 2e-3, "{spot:?}");
            assert!((next.u / want("u") - 1.0).abs() < 5e-3, "{spot:?} {next:?}");
        }
    }
}
