//! Mark-out cases for tests and benches: a tiny generator, invented random
//! tasks, and a brute force over all places.

use rakeline_core::decide::mark_out::{
    Limits, Lock, MarkOutTask, NoDrill, NoDrillReason, Plan, PlanKind, check_marks,
};
use rakeline_core::units::{Millimetres, Offset};

/// A small generator with a seed (SplitMix64; G. Steele, D. Lea, C. Flood,
/// "Fast Splittable Pseudorandom Number Generators", OOPSLA 2014).
pub struct Dice(pub u64);

impl Dice {
    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// A whole number from `least` to `greatest`, both included.
    pub fn whole(&mut self, least: i64, greatest: i64) -> i64 {
        let span = (greatest - least + 1).max(1) as u64;
        least + (self.bits() % span) as i64
    }

    /// True once in `times`.
    pub fn once_in(&mut self, times: i64) -> bool {
        self.whole(1, times) == 1
    }
}

fn mm(x: i64) -> Millimetres {
    Millimetres(x as f64)
}

fn at(x: i64) -> Offset {
    Offset(x as f64)
}

/// Areas that do not overlap, at most `most`, their ends within the edges.
fn areas(dice: &mut Dice, most: i64, left: i64, right: i64, longest: i64) -> Vec<NoDrill> {
    let mut found: Vec<NoDrill> = Vec::new();
    for _ in 0..dice.whole(0, most) {
        let from = dice.whole(-left, right - 1);
        let to = (from + dice.whole(1, longest)).min(right);
        let clear = |a: &NoDrill| a.to.0 <= from as f64 || a.from.0 >= to as f64;
        if found.iter().all(clear) {
            found.push(NoDrill {
                from: at(from),
                to: at(to),
                why: NoDrillReason::Wiring,
            });
        }
    }
    found
}

/// A small task, 2 to 4 heads on a bumper of a few dozen millimetres, for the
/// brute force; with locks, old holes, decimal half widths now and then.
pub fn small_task(dice: &mut Dice) -> MarkOutTask {
    let heads = dice.whole(2, 4) as usize;
    let widest = [0, 0, 40, 26, 20][heads];
    let left = dice.whole(8, widest);
    let right = if dice.once_in(3) {
        left
    } else {
        dice.whole(8, widest)
    };
    let least = dice.whole(0, 3);
    let spacing = dice.whole(1, 8);
    let no_drill = areas(dice, 4, left, right, 7);
    let locks = if dice.once_in(5) {
        let head = dice.whole(0, heads as i64 - 1) as usize;
        vec![Lock {
            head,
            at: at(dice.whole(-left, right)),
        }]
    } else {
        Vec::new()
    };
    let old_holes = if dice.once_in(5) {
        let holes = dice.whole(1, 2);
        (0..holes).map(|_| at(dice.whole(-left, right))).collect()
    } else {
        Vec::new()
    };
    let decimal = if dice.once_in(4) { 0.4 } else { 0.0 };
    MarkOutTask {
        heads,
        half_left: Millimetres(left as f64 + decimal),
        half_right: mm(right),
        hole_radius: Millimetres(if dice.once_in(4) { 0.5 } else { 0.0 }),
        limits: Limits {
            inner: mm(dice.whole(2, 12)),
            corner_gap_least: mm(least),
            corner_gap_greatest: mm(least + dice.whole(1, 14)),
            spacing_least: mm(spacing),
            spacing_greatest: dice.once_in(3).then(|| mm(spacing + dice.whole(0, 12))),
            odd_head_within: mm(dice.whole(0, 5)),
            clearance: Millimetres(if dice.once_in(4) { 0.3 } else { 0.0 }),
        },
        no_drill,
        locks,
        old_holes,
    }
}

/// A task of a bumper's size.
pub fn large_task(dice: &mut Dice, heads: (i64, i64), most_areas: i64) -> MarkOutTask {
    let heads = dice.whole(heads.0, heads.1) as usize;
    let left = dice.whole(700, 1150);
    let right = left + dice.whole(-20, 20);
    let no_drill = areas(dice, most_areas, left, right, 90);
    MarkOutTask {
        heads,
        half_left: mm(left),
        half_right: mm(right),
        hole_radius: Millimetres(9.5),
        limits: Limits {
            inner: mm(dice.whole(250, 350)),
            corner_gap_least: mm(dice.whole(150, 220)),
            corner_gap_greatest: mm(dice.whole(400, 500)),
            spacing_least: mm(dice.whole(100, 160)),
            spacing_greatest: dice.once_in(4).then(|| mm(dice.whole(500, 800))),
            odd_head_within: mm(dice.whole(0, 120)),
            clearance: mm(dice.whole(2, 8)),
        },
        no_drill,
        locks: Vec::new(),
        old_holes: Vec::new(),
    }
}

/// Eight heads, exactly `count` no-drill areas, both half widths `half`.
pub fn bench_task(dice: &mut Dice, half: i64, count: usize) -> MarkOutTask {
    let mut task = MarkOutTask {
        heads: 8,
        half_left: mm(half),
        half_right: mm(half),
        hole_radius: Millimetres(9.0),
        limits: Limits {
            inner: mm(300),
            corner_gap_least: mm(180),
            corner_gap_greatest: mm(450),
            spacing_least: mm(110),
            spacing_greatest: None,
            odd_head_within: mm(100),
            clearance: mm(3),
        },
        no_drill: Vec::new(),
        locks: Vec::new(),
        old_holes: Vec::new(),
    };
    while task.no_drill.len() < count {
        let from = dice.whole(-half, half - 50);
        let to = from + dice.whole(5, 50);
        let clear = |a: &NoDrill| a.to.0 <= from as f64 || a.from.0 >= to as f64;
        if task.no_drill.iter().all(clear) {
            task.no_drill.push(NoDrill {
                from: at(from),
                to: at(to),
                why: NoDrillReason::Wiring,
            });
        }
    }
    task
}

/// Objective values in the order in which a plan ranks them, each the
/// smaller the better (the width is negated).
pub fn ranked(kind: PlanKind, asym: f64, spread: f64, width: f64) -> [f64; 3] {
    match kind {
        PlanKind::Symmetric => [asym, spread, -width],
        PlanKind::Even => [spread, asym, -width],
        PlanKind::Wide => [-width, asym, spread],
    }
}

/// The objective values of a plan, ranked.
pub fn values(plan: &Plan) -> [f64; 3] {
    ranked(plan.kind, plan.asymmetry.0, plan.spread.0, plan.width.0)
}

/// Asymmetry, spread and width of marks, from their definitions.
pub fn measure(marks: &[i64]) -> (f64, f64, f64) {
    let n = marks.len();
    let asym = (0..n).map(|i| (marks[i] + marks[n - 1 - i]).abs()).max();
    let gaps: Vec<i64> = (1..n).map(|i| marks[i] - marks[i - 1]).collect();
    let spread = gaps.iter().max().copied().unwrap_or(0) - gaps.iter().min().copied().unwrap_or(0);
    let width = marks[n - 1] - marks[0];
    (asym.unwrap_or(0) as f64, spread as f64, width as f64)
}

/// The hard rules written out once more, as plainly as they are told; no
/// code of the library is used.
pub fn keeps_every_rule(task: &MarkOutTask, marks: &[i64]) -> bool {
    let l = &task.limits;
    let n = marks.len();
    let x: Vec<f64> = marks.iter().map(|&m| m as f64).collect();
    let near = 1e-6;
    let sides = (0..n / 2).all(|i| marks[i] < 0 && marks[n - 1 - i] > 0);
    let inner = if n.is_multiple_of(2) {
        x[n / 2 - 1].abs() <= l.inner.0 && x[n / 2].abs() <= l.inner.0
    } else {
        x[n / 2].abs() <= l.inner.0 && x[n / 2].abs() <= l.odd_head_within.0
    };
    let corners = [task.half_left.0 + x[0], task.half_right.0 - x[n - 1]];
    let corner = corners.iter().all(|&c| {
        c >= l.corner_gap_least.0 - near && (n == 2 || c <= l.corner_gap_greatest.0 + near)
    });
    let spacing = x.windows(2).all(|w| {
        let gap = w[1] - w[0];
        gap >= l.spacing_least.0 && l.spacing_greatest.is_none_or(|s| gap <= s.0)
    });
    let widen = task.hole_radius.0 + l.clearance.0;
    let clear = task.no_drill.iter().all(|a| {
        x.iter()
            .all(|&o| o <= a.from.0 - widen + near || o >= a.to.0 + widen - near)
    });
    let locked = task.locks.iter().all(|k| x[k.head] == k.at.0);
    // Each old hole has a head of its own.
    let mut holes: Vec<f64> = task.old_holes.iter().map(|h| h.0).collect();
    holes.sort_by(f64::total_cmp);
    let twice = holes.windows(2).any(|w| w[0] == w[1]);
    let used = !twice && holes.iter().all(|h| x.contains(h));
    sides && inner && corner && spacing && clear && locked && used
}

/// The best ranked values of each plan over all places, `None` when there is
/// no plan: every combination is tried.
pub fn brute_force(task: &MarkOutTask) -> Option<[[f64; 3]; 3]> {
    let first = -(task.half_left.0.floor() as i64);
    let last = task.half_right.0.floor() as i64;
    let mut best: Option<[[f64; 3]; 3]> = None;
    let mut marks = vec![first; task.heads];
    try_all(task, first, last, 0, &mut marks, &mut best);
    best
}

fn try_all(
    task: &MarkOutTask,
    first: i64,
    last: i64,
    head: usize,
    marks: &mut Vec<i64>,
    best: &mut Option<[[f64; 3]; 3]>,
) {
    if head == marks.len() {
        if keeps_every_rule(task, marks) {
            let (asym, spread, width) = measure(marks);
            let now = PlanKind::ALL.map(|k| ranked(k, asym, spread, width));
            let better = match *best {
                None => now,
                Some(old) => std::array::from_fn(|i| if now[i] < old[i] { now[i] } else { old[i] }),
            };
            *best = Some(better);
        }
        return;
    }
    for x in first..=last {
        marks[head] = x;
        try_all(task, x + 1, last, head + 1, marks, best);
    }
}

/// Whole marks of a plan.
pub fn whole_marks(plan: &Plan) -> Vec<i64> {
    plan.marks.iter().map(|o| o.0.round() as i64).collect()
}

/// What is wrong with a plan by its own figures, the plain rules and the
/// library's judge of marks; empty when nothing is.
pub fn plan_faults(task: &MarkOutTask, plan: &Plan) -> String {
    let marks = whole_marks(plan);
    let (asym, spread, width) = measure(&marks);
    let same = [asym, spread, width] == [plan.asymmetry.0, plan.spread.0, plan.width.0];
    let broken = check_marks(task, &plan.marks);
    if same && broken.is_empty() && keeps_every_rule(task, &marks) {
        String::new()
    } else {
        format!("{task:?}\n{plan:?}\n{broken:?}")
    }
}
