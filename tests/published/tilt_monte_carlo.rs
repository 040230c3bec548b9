//! Simulated phones and vehicles (noise model, priors and definitions:
//! `rakeline_tests::tilt_sim`), 300 jobs each, solved by the app and by
//! numpy and scipy (`tests/oracles/tilt_zero.py`, `tilt_shape.py`). The
//! bench `tilt` runs the same code on 5,000.

use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::shape::{Knot, PlanCurve};
use rakeline_core::estimate::zero::SourceKind;
use rakeline_core::units::{Degrees, Estimate, Millimetres};
use rakeline_tests::oracle;
use rakeline_tests::tilt_sim::chain::{Case, Outcome, run};
use rakeline_tests::tilt_sim::rng::Rng;
use rakeline_tests::tilt_sim::{Setup, ZeroJob, peer, quantile, rms};
use serde_json::json;

const JOBS: u64 = 300;

fn zeroings(setup: &Setup) -> peer::ZeroResult {
    let jobs: Vec<_> = (0..JOBS)
        .map(|seed| ZeroJob::draw(&mut Rng::new(seed), setup))
        .collect();
    peer::zeroings(setup, &jobs).unwrap()
}

fn agree(result: &peer::ZeroResult) {
    for (app, numpy) in result.app.iter().zip(&result.numpy) {
        assert!((app - numpy).abs() < 0.02, "{app} {numpy}");
    }
    assert!(result.scipy.len() >= 8);
    for (app, scipy) in result.app.iter().zip(&result.scipy) {
        assert!((app - scipy).abs() < 0.02, "{app} {scipy}");
    }
}

#[test]
fn zeroing_by_a_raw_source_agrees_with_numpy_and_keeps_near_the_bound() {
    let result = zeroings(&Setup::usual(SourceKind::Raw));
    agree(&result);
    let over = rms(&result.app) / rms(&result.bound);
    assert!((0.8..1.2).contains(&over), "{over}");
    assert!(quantile(&result.app, 0.95) < 0.37);
    assert!(quantile(&result.unzeroed, 0.95) > 2.5);
}

#[test]
fn zeroing_by_a_normalised_source_agrees_with_numpy_and_keeps_near_the_bound() {
    let result = zeroings(&Setup::usual(SourceKind::Normalised));
    agree(&result);
    let over = rms(&result.app) / rms(&result.bound);
    assert!((0.8..1.2).contains(&over), "{over}");
    assert!(quantile(&result.app, 0.95) < 0.63);
}

fn chain(case: &Case) -> Vec<Outcome> {
    let outcomes: Vec<_> = (0..JOBS)
        .filter_map(|seed| run(&mut Rng::new(50_000 + seed), case))
        .collect();
    assert!(
        outcomes.len() as u64 >= JOBS * 99 / 100,
        "jobs were refused"
    );
    let numpy = peer::chains(&outcomes).unwrap();
    for (outcome, numpy) in outcomes.iter().zip(numpy) {
        let app = outcome.estimate.rake.value.0;
        assert!((app - numpy).abs() < 0.02, "{app} {numpy}");
    }
    outcomes
}

fn covered(outcomes: &[Outcome]) -> f64 {
    outcomes.iter().filter(|o| o.covers()).count() as f64 / outcomes.len() as f64
}

fn case(kind: SourceKind) -> Case {
    Case {
        setup: Setup::usual(kind),
        feet: Feet::On,
        slope: 2.0,
        turn: 3.0,
    }
}

#[test]
fn the_whole_chain_holds_the_truth_in_its_interval() {
    let outcomes = chain(&case(SourceKind::Raw));
    // 300 jobs: two standard deviations of the share are 2.5 %.
    assert!(
        (0.92..=0.985).contains(&covered(&outcomes)),
        "{}",
        covered(&outcomes)
    );
    let half: Vec<_> = outcomes
        .iter()
        .map(|o| o.estimate.rake.expanded().0)
        .collect();
    assert!(quantile(&half, 0.5) < 0.72);
}

#[test]
fn the_whole_chain_holds_on_steep_ground_and_corners_hardly_known() {
    let outcomes = chain(&Case {
        slope: 6.0,
        turn: 10.0,
        ..case(SourceKind::Raw)
    });
    assert!(
        (0.92..=0.985).contains(&covered(&outcomes)),
        "{}",
        covered(&outcomes)
    );
}

#[test]
fn the_whole_chain_holds_with_a_source_that_rounds_and_reports_on_change() {
    let mut rounded = case(SourceKind::Normalised);
    rounded.setup.step = 0.1;
    let outcomes = chain(&rounded);
    assert!(
        (0.92..=0.99).contains(&covered(&outcomes)),
        "{}",
        covered(&outcomes)
    );
    let mut rounded = case(SourceKind::Raw);
    rounded.setup.step = 0.1;
    let outcomes = chain(&rounded);
    assert!(covered(&outcomes) > 0.92, "{}", covered(&outcomes));
}

#[test]
fn the_shape_from_above_is_that_of_scipy() {
    let along = [-870.0, -610.0, -220.0, 0.0, 240.0, 600.0, 850.0];
    let turn = [-55.0, -14.0, -4.0, 0.0, 3.0, 12.0, 48.0];
    let at = [-900.0, -700.0, -333.0, -1.0, 120.0, 480.0, 845.0, 900.0];
    let given = json!({ "along": along, "turn": turn, "at": at });
    let told = oracle::run("tilt_shape.py", &given);
    let knots = along.iter().zip(turn).map(|(s, t)| Knot {
        along: Millimetres(*s),
        turn: Estimate::new(Degrees(t), Degrees(1.0)),
    });
    let curve = PlanCurve::new(knots.collect()).unwrap();
    for (i, s) in at.into_iter().enumerate() {
        let (straight, forward) = curve.place(Millimetres(s));
        let told = |key: &str| told[key][i].as_f64().unwrap();
        assert!((straight.value.0 - told("straight")).abs() < 1e-4, "{s}");
        assert!((forward.value.0 - told("forward")).abs() < 1e-4, "{s}");
    }
}
