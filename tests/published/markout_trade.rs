//! Mark-out figures of the trade.
//!
//! Source: common practice, no source. The limits stand here only.
#![cfg(test)]

use rakeline_core::decide::mark_out::{
    Clash, Enough, Limits, MarkOutPlans, MarkOutTask, NoDrill, NoDrillReason, NoPlan, Plan,
    PlanKind, Rule, solve,
};
use rakeline_core::units::{Millimetres, Offset};

const fn mm(x: f64) -> Millimetres {
    Millimetres(x)
}

/// Common practice, no source.
const LIMITS: Limits = Limits {
    inner: mm(300.0),
    corner_gap_least: mm(200.0),
    corner_gap_greatest: mm(450.0),
    spacing_least: mm(150.0),
    spacing_greatest: None,
    odd_head_within: mm(50.0),
    clearance: mm(0.0),
};

fn task(heads: usize, left: f64, right: f64) -> MarkOutTask {
    MarkOutTask {
        heads,
        half_left: mm(left),
        half_right: mm(right),
        hole_radius: mm(0.0),
        limits: LIMITS,
        no_drill: Vec::new(),
        locks: Vec::new(),
        old_holes: Vec::new(),
    }
}

/// With one no-drill area, clearance included.
fn blocked(from: f64, to: f64) -> MarkOutTask {
    let mut task = task(4, 880.0, 880.0);
    task.no_drill.push(NoDrill {
        from: Offset(from),
        to: Offset(to),
        why: NoDrillReason::CrashBeamBracket,
    });
    task
}

fn plans(task: &MarkOutTask) -> MarkOutPlans {
    solve(task).unwrap_or_else(|no| panic!("{no:?}"))
}

fn marks(plan: &Plan) -> Vec<f64> {
    plan.marks.iter().map(|o| o.0).collect()
}

#[test]
fn four_heads_at_half_widths_of_880() {
    let p = plans(&task(4, 880.0, 880.0));
    assert_eq!(marks(&p.symmetric), [-678.0, -226.0, 226.0, 678.0]);
    assert_eq!(marks(&p.wide), [-680.0, -227.0, 227.0, 680.0]);
    assert_eq!(p.symmetric.spread, mm(0.0));
    assert_eq!(p.proposed, Some(PlanKind::Symmetric));
}

#[test]
fn all_three_plans_agree_at_950() {
    let p = plans(&task(4, 950.0, 950.0));
    for kind in PlanKind::ALL {
        assert_eq!(marks(p.get(kind)), [-750.0, -250.0, 250.0, 750.0]);
    }
}

#[test]
fn at_1150_nothing_is_proposed() {
    let p = plans(&task(4, 1150.0, 1150.0));
    assert_eq!(marks(&p.symmetric), [-900.0, -300.0, 300.0, 900.0]);
    assert_eq!(marks(&p.wide), [-950.0, -300.0, 300.0, 950.0]);
    assert_eq!(p.proposed, None);
}

#[test]
fn half_widths_of_880_and_850() {
    let p = plans(&task(4, 880.0, 850.0));
    assert_eq!(marks(&p.symmetric), [-648.0, -216.0, 216.0, 648.0]);
    let reached = [p.wide.width, p.wide.asymmetry, p.wide.spread];
    assert_eq!(reached, [mm(1330.0), mm(30.0), mm(1.0)]);
}

#[test]
fn a_bracket_from_200_to_250() {
    let p = plans(&blocked(200.0, 250.0));
    assert_eq!(marks(&p.symmetric), [-600.0, -200.0, 200.0, 600.0]);
    assert_eq!(marks(&p.wide), [-680.0, -250.0, 250.0, 680.0]);
    assert_eq!(p.proposed, None);
}

#[test]
fn a_bracket_from_100_to_350() {
    let p = plans(&blocked(100.0, 350.0));
    assert_eq!(marks(&p.symmetric), [-430.0, -100.0, 100.0, 430.0]);
    assert_eq!(marks(&p.even), [-560.0, -230.0, 100.0, 430.0]);
    assert_eq!(marks(&p.wide), [-680.0, -100.0, 100.0, 680.0]);
    assert_eq!(p.proposed, None);
}

#[test]
fn a_bracket_over_the_middle_clashes_with_the_inner_limit_by_20_mm() {
    let Err(NoPlan::Impossible { clash, ways }) = solve(&blocked(-320.0, 320.0)) else {
        panic!("there is no plan");
    };
    assert_eq!(
        clash,
        Clash {
            rules: vec![Rule::Inner, Rule::NoDrill(0)],
            least: Rule::Inner,
            by: mm(20.0),
            enough: Enough::Alone,
        }
    );
    let helps: Vec<(Rule, f64)> = ways.iter().map(|w| (w.rule, w.by.0)).collect();
    assert_eq!(helps, [(Rule::Inner, 20.0), (Rule::NoDrill(0), 20.0)]);
    assert_eq!(marks(&ways[0].plan), [-680.0, -320.0, 320.0, 680.0]);
    assert_eq!(marks(&ways[1].plan), [-680.0, -300.0, 300.0, 680.0]);
}

#[test]
fn two_three_six_and_eight_heads_at_880() {
    let symmetric = |heads| marks(&plans(&task(heads, 880.0, 880.0)).symmetric);
    assert_eq!(symmetric(2), [-300.0, 300.0]);
    assert_eq!(symmetric(3), [-680.0, 0.0, 680.0]);
    assert_eq!(symmetric(6), [-680.0, -408.0, -136.0, 136.0, 408.0, 680.0]);
    assert_eq!(
        symmetric(8),
        [-679.0, -485.0, -291.0, -97.0, 97.0, 291.0, 485.0, 679.0]
    );
}
