//! Mark-out against a brute force over all whole-millimetre places.

use rakeline_core::decide::mark_out::{NoPlan, PlanKind, solve};
use rakeline_tests::markout::{Dice, brute_force, plan_faults, small_task, values};

#[test]
fn every_small_bumper_gets_the_optimum_of_the_brute_force() {
    let mut dice = Dice(6);
    let (mut solved, mut impossible) = (0, 0);
    while solved + impossible < 500 {
        let task = small_task(&mut dice);
        if task.check().is_err() {
            continue;
        }
        match (solve(&task), brute_force(&task)) {
            (Ok(plans), Some(best)) => {
                for (kind, want) in PlanKind::ALL.into_iter().zip(best) {
                    let plan = plans.get(kind);
                    assert_eq!(values(plan), want, "{kind:?} {task:?}");
                    assert_eq!(plan_faults(&task, plan), "");
                }
                solved += 1;
            }
            (Err(NoPlan::Impossible { .. }), None) => impossible += 1,
            (got, want) => panic!("{task:?}\n{got:?}\n{want:?}"),
        }
    }
    // Both outcomes are really met.
    assert!(solved > 150 && impossible > 50, "{solved} {impossible}");
}
