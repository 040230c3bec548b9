//! What must hold for every mark-out.
#![cfg(test)]

use rakeline_core::decide::mark_out::{
    Lock, MarkOutPlans, MarkOutTask, NoPlan, PlanKind, Rule, solve,
};
use rakeline_core::units::{Millimetres, Offset};
use rakeline_tests::markout::{Dice, large_task, plan_faults, small_task, values};

/// Checked random tasks, small and large in turn.
fn tasks(seed: u64, count: usize) -> Vec<MarkOutTask> {
    let mut dice = Dice(seed);
    let mut found = Vec::new();
    while found.len() < count {
        let task = if found.len() % 2 == 0 {
            small_task(&mut dice)
        } else {
            large_task(&mut dice, (2, 8), 6)
        };
        if task.check().is_ok() {
            found.push(task);
        }
    }
    found
}

fn all_values(plans: &MarkOutPlans) -> [[f64; 3]; 3] {
    PlanKind::ALL.map(|kind| values(plans.get(kind)))
}

#[test]
fn every_plan_keeps_every_rule() {
    for task in tasks(1, 300) {
        if let Ok(plans) = solve(&task) {
            for kind in PlanKind::ALL {
                assert_eq!(plan_faults(&task, plans.get(kind)), "");
            }
        }
    }
}

#[test]
fn a_mirrored_bumper_has_the_same_values() {
    for task in tasks(2, 200) {
        let mut mirrored = task.clone();
        (mirrored.half_left, mirrored.half_right) = (task.half_right, task.half_left);
        for area in &mut mirrored.no_drill {
            (area.from, area.to) = (Offset(-area.to.0), Offset(-area.from.0));
        }
        for lock in &mut mirrored.locks {
            *lock = Lock {
                head: task.heads - 1 - lock.head,
                at: Offset(-lock.at.0),
            };
        }
        for hole in &mut mirrored.old_holes {
            *hole = Offset(-hole.0);
        }
        match (solve(&task), solve(&mirrored)) {
            (Ok(a), Ok(b)) => assert_eq!(all_values(&a), all_values(&b), "{task:?}"),
            (
                Err(NoPlan::Impossible { clash: a, .. }),
                Err(NoPlan::Impossible { clash: b, .. }),
            ) => {
                assert_eq!(a.by, b.by, "{task:?}");
                assert_eq!(a.rules.len(), b.rules.len(), "{task:?}");
            }
            other => panic!("{task:?}\n{other:?}"),
        }
    }
}

#[test]
fn one_more_no_drill_area_never_improves_a_plan() {
    let mut compared = 0;
    for task in tasks(3, 200) {
        let mut without = task.clone();
        if without.no_drill.pop().is_none() {
            continue;
        }
        if let Ok(more) = solve(&task) {
            let fewer = all_values(&solve(&without).unwrap());
            for (more, fewer) in all_values(&more).iter().zip(fewer) {
                assert!(fewer <= *more, "{task:?}");
            }
            compared += 1;
        }
    }
    assert!(compared > 50);
}

#[test]
fn without_a_greatest_corner_gap_more_room_never_makes_a_plan_worse() {
    let mut compared = 0;
    for mut task in tasks(4, 200) {
        // As far as a limit goes: off.
        task.limits.corner_gap_greatest = Millimetres(3000.0);
        let mut roomier = task.clone();
        roomier.half_left.0 += 7.0;
        roomier.half_right.0 += 3.0;
        if let Ok(tight) = solve(&task) {
            let roomy = all_values(&solve(&roomier).unwrap());
            for (tight, roomy) in all_values(&tight).iter().zip(roomy) {
                assert!(roomy <= *tight, "{task:?}");
            }
            compared += 1;
        }
    }
    assert!(compared > 50);
}

/// The task with a lock or an old hole at another place.
fn moved(task: &MarkOutTask, rule: Rule, by: f64) -> MarkOutTask {
    let mut task = task.clone();
    match rule {
        Rule::Locked(k) => task.locks[k].at.0 += by,
        Rule::OldHole(k) => task.old_holes[k].0 += by,
        other => panic!("{other:?}"),
    }
    task
}

/// The task with one rule changed as a relaxation says.
fn changed(task: &MarkOutTask, rule: Rule, by: f64) -> MarkOutTask {
    let mut task = task.clone();
    let l = &mut task.limits;
    match rule {
        Rule::Inner => l.inner.0 += by,
        Rule::CornerGapLeast => l.corner_gap_least.0 = (l.corner_gap_least.0 - by).max(0.0),
        Rule::CornerGapGreatest => l.corner_gap_greatest.0 += by,
        Rule::SpacingLeast => l.spacing_least.0 = (l.spacing_least.0 - by).max(1.0),
        Rule::SpacingGreatest => l.spacing_greatest.as_mut().unwrap().0 += by,
        Rule::OddHeadWithin => l.odd_head_within.0 += by,
        Rule::NoDrill(k) => {
            let widen = task.hole_radius.0 + task.limits.clearance.0;
            let area = &mut task.no_drill[k];
            area.from.0 += by;
            area.to.0 -= by;
            // Widened to nothing: the area is gone.
            if area.to.0 - area.from.0 + 2.0 * widen <= 0.0 || area.to.0 <= area.from.0 {
                return shrunk(task, k, widen);
            }
        }
        other => panic!("{other:?}"),
    }
    task
}

/// The area `k` is shorter than its widening: written as a face angle area,
/// which is not widened, or left out.
fn shrunk(mut task: MarkOutTask, k: usize, widen: f64) -> MarkOutTask {
    let area = &mut task.no_drill[k];
    area.from.0 -= widen;
    area.to.0 += widen;
    area.why = rakeline_core::decide::mark_out::NoDrillReason::FaceAngle;
    if area.to.0 <= area.from.0 {
        task.no_drill.remove(k);
    }
    task
}

#[test]
fn every_single_way_out_is_the_least_change_that_makes_a_plan() {
    let mut tried = 0;
    for task in tasks(5, 400) {
        let Err(NoPlan::Impossible { clash, ways }) = solve(&task) else {
            continue;
        };
        assert!(!clash.rules.is_empty() && clash.by.0 >= 1.0, "{task:?}");
        for way in &ways {
            if let Rule::Locked(_) | Rule::OldHole(_) = way.rule {
                let moved = |by: f64| {
                    let [left, right] = [-by, by].map(|by| solve(&moved(&task, way.rule, by)));
                    left.is_ok() || right.is_ok()
                };
                assert!(moved(way.by.0), "{way:?} {task:?}");
                assert!(!moved(way.by.0 - 1.0), "{way:?} {task:?}");
                tried += 1;
                continue;
            }
            let enough = solve(&changed(&task, way.rule, way.by.0));
            let plan = enough.unwrap_or_else(|no| panic!("{way:?} {task:?} {no:?}"));
            assert_eq!(values(&plan.symmetric), values(&way.plan), "{task:?}");
            let short = solve(&changed(&task, way.rule, way.by.0 - 1.0));
            assert!(short.is_err(), "{way:?} {task:?}");
            tried += 1;
        }
    }
    assert!(tried > 50, "{tried}");
}

#[test]
fn the_clashing_set_is_impossible_and_no_smaller_one_is() {
    let mut tried = 0;
    for task in tasks(6, 300) {
        let Err(NoPlan::Impossible { clash, .. }) = solve(&task) else {
            continue;
        };
        assert!(solve(&only(&task, &clash.rules)).is_err(), "{task:?}");
        for left_out in &clash.rules {
            let rest: Vec<Rule> = clash
                .rules
                .iter()
                .copied()
                .filter(|r| r != left_out)
                .collect();
            assert!(solve(&only(&task, &rest)).is_ok(), "{clash:?} {task:?}");
        }
        if task.half_right.0 < 100.0 {
            for smaller in sets_of(clash.rules.len() - 1, &task.rules()) {
                assert!(
                    solve(&only(&task, &smaller)).is_ok(),
                    "{smaller:?} {task:?}"
                );
            }
        }
        tried += 1;
    }
    assert!(tried > 40, "{tried}");
}

/// Every set of `size` of these rules.
fn sets_of(size: usize, rules: &[Rule]) -> Vec<Vec<Rule>> {
    if size == 0 {
        return vec![Vec::new()];
    }
    let mut sets = Vec::new();
    for (k, &rule) in rules.iter().enumerate() {
        for mut set in sets_of(size - 1, &rules[k + 1..]) {
            set.push(rule);
            sets.push(set);
        }
    }
    sets
}

/// The task with only these rules.
fn only(task: &MarkOutTask, rules: &[Rule]) -> MarkOutTask {
    let far = Millimetres(3000.0);
    let mut only = task.clone();
    let l = &mut only.limits;
    let has = |r: Rule| rules.contains(&r);
    if !has(Rule::Inner) {
        l.inner = far;
    }
    if !has(Rule::CornerGapLeast) {
        l.corner_gap_least = Millimetres(0.0);
    }
    if !has(Rule::CornerGapGreatest) {
        l.corner_gap_greatest = far;
    }
    if !has(Rule::SpacingLeast) {
        l.spacing_least = Millimetres(1.0);
    }
    if !has(Rule::SpacingGreatest) {
        l.spacing_greatest = None;
    }
    if !has(Rule::OddHeadWithin) {
        l.odd_head_within = far;
    }
    let keep = |rule: fn(usize) -> Rule, k: usize| has(rule(k));
    let mut k = 0;
    only.no_drill.retain(|_| {
        k += 1;
        keep(Rule::NoDrill, k - 1)
    });
    let mut k = 0;
    only.locks.retain(|_| {
        k += 1;
        keep(Rule::Locked, k - 1)
    });
    let mut k = 0;
    only.old_holes.retain(|_| {
        k += 1;
        keep(Rule::OldHole, k - 1)
    });
    only
}

#[test]
fn locks_at_a_plan_s_own_marks_give_that_plan_again() {
    for task in tasks(7, 100) {
        let Ok(plans) = solve(&task) else { continue };
        for kind in PlanKind::ALL {
            let plan = plans.get(kind);
            let mut locked = task.clone();
            locked.locks = (0..task.heads)
                .step_by(2)
                .map(|head| Lock {
                    head,
                    at: plan.marks[head],
                })
                .collect();
            let again = solve(&locked).unwrap();
            assert_eq!(values(again.get(kind)), values(plan), "{task:?}");
        }
    }
}
