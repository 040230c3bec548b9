//! Mark-out against `scipy.optimize.milp` (HiGHS), an independent solver;
//! its model is written from the rules alone in `markout_milp.py`.
#![cfg(test)]

use rakeline_core::decide::mark_out::{MarkOutTask, NoPlan, PlanKind, solve};
use rakeline_tests::markout::{Dice, large_task, plan_faults, values};
use rakeline_tests::oracle;

#[test]
fn fifty_larger_bumpers_get_the_values_of_scipy_milp() {
    let mut dice = Dice(66);
    let mut tasks: Vec<MarkOutTask> = Vec::new();
    while tasks.len() < 50 {
        let task = large_task(&mut dice, (4, 8), 8);
        if task.check().is_ok() {
            tasks.push(task);
        }
    }
    let answers = oracle::run("markout_milp.py", &serde_json::json!(tasks));
    let mut solved = 0;
    for (task, answer) in tasks.iter().zip(answers.as_array().unwrap()) {
        let want: Option<[[f64; 3]; 3]> = serde_json::from_value(answer["values"].clone()).unwrap();
        match (solve(task), want) {
            (Ok(plans), Some(best)) => {
                for (kind, want) in PlanKind::ALL.into_iter().zip(best) {
                    let plan = plans.get(kind);
                    assert_eq!(values(plan), want, "{kind:?} {task:?}");
                    assert_eq!(plan_faults(task, plan), "");
                }
                solved += 1;
            }
            (Err(NoPlan::Impossible { .. }), None) => {}
            (got, want) => panic!("{task:?}\n{got:?}\n{want:?}"),
        }
    }
    assert!(solved > 30, "{solved}");
}
