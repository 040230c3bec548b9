//! The rules as whole numbers: bounds for each head, and tables that say
//! which whole millimetre is the next allowed one either way.

use super::{MarkOutTask, Rule};

/// A rule that holds as it is: loosened by nothing.
pub(super) const KEPT: f64 = 0.0;

/// A rule that does not hold at all: loosened without end.
pub(super) const DROPPED: f64 = f64::INFINITY;

/// Two measures nearer than this count as equal, in mm: half widths may be
/// decimals, and their sums are not exact in binary.
pub(super) const SAME: f64 = 1e-6;

/// Further than any place or gap, in mm; sums of two stay far inside `i32`.
pub(super) const FAR: i32 = 100_000;

/// Least and greatest place of each head.
pub(super) type Bounds = Vec<(i32, i32)>;

/// Where heads may go.
pub(super) struct Room {
    /// How many heads.
    pub heads: usize,
    /// Least and greatest spacing.
    pub spacing: (i32, i32),
    /// Bounds of the heads, one set for each way to give the old holes to
    /// heads; more than one only with old holes.
    pub cases: Vec<Bounds>,
    first: i32,
    up: Vec<i32>,
    down: Vec<i32>,
}

/// How far a rule is loosened, in mm: [`KEPT`] to [`DROPPED`].
pub(super) type Loosening<'a> = dyn Fn(Rule) -> f64 + 'a;

pub(super) fn floor(x: f64) -> i32 {
    (x + SAME).floor().clamp(f64::from(-FAR), f64::from(FAR)) as i32
}

pub(super) fn ceil(x: f64) -> i32 {
    (x - SAME).ceil().clamp(f64::from(-FAR), f64::from(FAR)) as i32
}

impl Room {
    /// The room of a checked task with its rules loosened.
    pub fn new(task: &MarkOutTask, loose: &Loosening) -> Self {
        let l = &task.limits;
        let greatest = match l.spacing_greatest {
            Some(s) => floor(s.0 + loose(Rule::SpacingGreatest)),
            None => FAR,
        };
        let (first, up, down) = tables(task, loose);
        Self {
            heads: task.heads,
            spacing: (
                ceil(l.spacing_least.0 - loose(Rule::SpacingLeast)).max(1),
                greatest,
            ),
            cases: cases(task, loose, &bounds(task, loose)),
            first,
            up,
            down,
        }
    }

    /// Outer head to outer head, at most.
    pub fn widest_room(&self) -> i32 {
        let width = |case: &Bounds| match (case.first(), case.last()) {
            (Some(left), Some(right)) => right.1 - left.0,
            _ => 0,
        };
        self.cases.iter().map(width).max().unwrap_or(0)
    }

    /// The least allowed place at or right of `x`.
    pub fn up(&self, x: i32) -> i32 {
        let k = x - self.first;
        if k < 0 {
            self.up.first().copied().unwrap_or(FAR)
        } else {
            self.up.get(k as usize).copied().unwrap_or(FAR)
        }
    }

    /// The greatest allowed place at or left of `x`.
    pub fn down(&self, x: i32) -> i32 {
        let k = x - self.first;
        if k < 0 {
            return -FAR;
        }
        match self.down.get(k as usize) {
            Some(&place) => place,
            None => self.down.last().copied().unwrap_or(-FAR),
        }
    }
}

fn tables(task: &MarkOutTask, loose: &Loosening) -> (i32, Vec<i32>, Vec<i32>) {
    let first = -floor(task.half_left.0);
    let last = floor(task.half_right.0);
    let len = (last - first + 1).max(0) as usize;
    let mut blocked = vec![false; len];
    for (k, area) in task.no_drill.iter().enumerate() {
        let cut = loose(Rule::NoDrill(k));
        let (from, to) = task.blocked(area);
        let from = floor(from + cut) + 1;
        let to = ceil(to - cut) - 1;
        for x in from.max(first)..=to.min(last) {
            blocked[(x - first) as usize] = true;
        }
    }
    let mut down = vec![-FAR; len];
    let mut seen = -FAR;
    for k in 0..len {
        if !blocked[k] {
            seen = first + k as i32;
        }
        down[k] = seen;
    }
    let mut up = vec![FAR; len];
    let mut seen = FAR;
    for k in (0..len).rev() {
        if !blocked[k] {
            seen = first + k as i32;
        }
        up[k] = seen;
    }
    (first, up, down)
}

/// Bounds from sides, inner limit, corner gaps and locks.
fn bounds(task: &MarkOutTask, loose: &Loosening) -> Bounds {
    let l = &task.limits;
    let n = task.heads;
    let mut bounds: Bounds = vec![(-floor(task.half_left.0), floor(task.half_right.0)); n];
    let mut within = |head: usize, lo: i32, hi: i32| {
        if let Some(b) = bounds.get_mut(head) {
            *b = (b.0.max(lo), b.1.min(hi));
        }
    };
    for head in 0..n / 2 {
        within(head, -FAR, -1);
        within(n - 1 - head, 1, FAR);
    }
    let inner = floor(l.inner.0 + loose(Rule::Inner));
    within(n / 2, -inner, inner);
    if n.is_multiple_of(2) {
        within(n / 2 - 1, -inner, inner);
    } else {
        let odd = floor(l.odd_head_within.0 + loose(Rule::OddHeadWithin));
        within(n / 2, -odd, odd);
    }
    let least = (l.corner_gap_least.0 - loose(Rule::CornerGapLeast)).max(0.0);
    within(0, -floor(task.half_left.0 - least), FAR);
    within(n - 1, -FAR, floor(task.half_right.0 - least));
    if n > 2 {
        let greatest = l.corner_gap_greatest.0 + loose(Rule::CornerGapGreatest);
        within(0, -FAR, -ceil(task.half_left.0 - greatest));
        within(n - 1, ceil(task.half_right.0 - greatest), FAR);
    }
    for (k, lock) in task.locks.iter().enumerate() {
        let by = loose(Rule::Locked(k));
        let at = lock.at.0.round();
        within(lock.head, ceil(at - by), floor(at + by));
    }
    bounds
}

/// Every way to give the old holes to heads, each hole to one of its own.
fn cases(task: &MarkOutTask, loose: &Loosening, bounds: &Bounds) -> Vec<Bounds> {
    let mut holes: Vec<(i32, i32)> = Vec::new();
    for (k, at) in task.old_holes.iter().enumerate() {
        let by = loose(Rule::OldHole(k));
        if by < DROPPED {
            let at = at.0.round();
            holes.push((ceil(at - by), floor(at + by)));
        }
    }
    holes.sort_unstable();
    let mut found = Vec::new();
    give(&holes, &mut Vec::new(), bounds, &mut found);
    found
}

fn give(holes: &[(i32, i32)], taken: &mut Vec<usize>, bounds: &Bounds, found: &mut Vec<Bounds>) {
    let Some(&hole) = holes.get(taken.len()) else {
        found.push(bounds.clone());
        return;
    };
    for head in 0..bounds.len() {
        let (lo, hi) = (bounds[head].0.max(hole.0), bounds[head].1.min(hole.1));
        // A hole wholly right of another goes to a head further right.
        let in_order = taken
            .iter()
            .zip(holes)
            .all(|(&other, before)| other != head && (before.1 >= hole.0 || other < head));
        if lo <= hi && in_order {
            let mut tighter = bounds.clone();
            tighter[head] = (lo, hi);
            taken.push(head);
            give(holes, taken, &tighter, found);
            taken.pop();
        }
    }
}
