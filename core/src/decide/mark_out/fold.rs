//! The left side folded over the right: places become distances from the
//! centre line, and all rules but one become differences.
//!
//! With distances `l_k`, `r_k` from the inner head outward, spacings on a
//! side are differences and symmetry is `|r_k - l_k| <= asym`. Only the gap
//! across the centre line is a sum; with one head fixed, the pivot (the inner
//! right head, or the middle one of an odd number), it is a bound like any
//! other. A system of differences and bounds with holes has a greatest
//! solution, which lowering the upper bounds until nothing changes finds; it
//! is greatest in every head at once, hence also the widest.

use super::room::{Bounds, FAR, Room};

/// Most heads on one side.
const SIDE: usize = 4;

/// Index of the left and the right side.
const LEFT: usize = 0;
const RIGHT: usize = 1;

/// Distances from the centre line, by side, from the inner head outward.
type Sides = [[i32; SIDE]; 2];

/// What a solution must keep besides the rules.
#[derive(Clone, Copy)]
pub(super) struct Within {
    /// Least and greatest spacing.
    pub spacing: (i32, i32),
    /// Greatest asymmetry.
    pub asym: i32,
    /// Least width.
    pub width: i32,
}

/// One case of a room, folded.
pub(super) struct Fold<'a> {
    room: &'a Room,
    side: usize,
    middle: Option<(i32, i32)>,
    lo: Sides,
    hi: Sides,
}

/// Bounds that hold whatever the pivot, and the pivots that are left.
pub(super) struct Narrowed {
    lo: Sides,
    hi: Sides,
    /// Least and greatest pivot.
    pub pivots: (i32, i32),
}

impl<'a> Fold<'a> {
    /// Folds one case of a room.
    pub fn new(room: &'a Room, bounds: &Bounds) -> Self {
        let n = room.heads;
        let side = n / 2;
        let (mut lo, mut hi) = ([[0; SIDE]; 2], [[0; SIDE]; 2]);
        for k in 0..side {
            let left = bounds[side - 1 - k];
            let right = bounds[n - side + k];
            (lo[LEFT][k], hi[LEFT][k]) = (-left.1, -left.0);
            (lo[RIGHT][k], hi[RIGHT][k]) = right;
        }
        let middle = (n % 2 == 1).then(|| bounds[side]);
        Self {
            room,
            side,
            middle,
            lo,
            hi,
        }
    }

    fn down(&self, side: usize, x: i32) -> i32 {
        if side == LEFT {
            -self.room.up(-x)
        } else {
            self.room.down(x)
        }
    }

    fn up(&self, side: usize, x: i32) -> i32 {
        if side == LEFT {
            -self.room.down(-x)
        } else {
            self.room.up(x)
        }
    }

    /// Bounds without the gap across the centre line, and which pivots they
    /// leave; `None` when they leave none.
    pub fn narrow(&self, w: &Within) -> Option<Narrowed> {
        let (g, h) = w.spacing;
        let (mut lo, mut hi) = (self.lo, self.hi);
        for s in [LEFT, RIGHT] {
            for k in 0..self.side {
                hi[s][k] = self.down(s, hi[s][k]);
                lo[s][k] = self.up(s, lo[s][k]);
            }
        }
        if !self.lower(w, &lo, &mut hi) {
            return None;
        }
        let outer = self.side - 1;
        for s in [LEFT, RIGHT] {
            lo[s][outer] = self.up(s, lo[s][outer].max(w.width - hi[1 - s][outer]));
        }
        if !self.raise(w, &mut lo, &hi) {
            return None;
        }
        let (l, r) = ((lo[LEFT][0], hi[LEFT][0]), (lo[RIGHT][0], hi[RIGHT][0]));
        let pivots = match self.middle {
            None => (r.0.max(g - l.1), r.1.min(h - l.0)),
            Some(m) => (
                m.0.max(r.0 - h).max(g - l.1).max(-(w.asym / 2)),
                m.1.min(r.1 - g).min(h - l.0).min(w.asym / 2),
            ),
        };
        (pivots.0 <= pivots.1).then_some(Narrowed { lo, hi, pivots })
    }

    /// The next pivot at or after `x` that may be used.
    pub fn next_pivot(&self, x: i32) -> i32 {
        self.room.up(x)
    }

    /// The widest marks with this pivot; `None` when there are none.
    pub fn widest(&self, w: &Within, n: &Narrowed, pivot: i32) -> Option<Vec<i32>> {
        let (g, h) = w.spacing;
        let (mut lo, mut hi) = (n.lo, n.hi);
        let mut hold = |s: usize, least: i32, greatest: i32| {
            lo[s][0] = lo[s][0].max(least);
            if hi[s][0] > greatest {
                hi[s][0] = self.down(s, greatest);
            }
        };
        hold(LEFT, g - pivot, h - pivot);
        match self.middle {
            None => hold(RIGHT, pivot, pivot),
            Some(_) => hold(RIGHT, pivot + g, pivot + h),
        }
        let outer = self.side - 1;
        if !self.lower(w, &lo, &mut hi) || hi[LEFT][outer] + hi[RIGHT][outer] < w.width {
            return None;
        }
        let left = hi[LEFT][..self.side].iter().rev().map(|x| -x);
        let middle = self.middle.map(|_| pivot);
        let right = hi[RIGHT][..self.side].iter().copied();
        Some(left.chain(middle).chain(right).collect())
    }

    /// Lowers the upper bounds to the greatest solution; `false` when a lower
    /// bound is passed.
    fn lower(&self, w: &Within, lo: &Sides, hi: &mut Sides) -> bool {
        let (g, h) = w.spacing;
        loop {
            let mut changed = false;
            let mut at_most = |hi: &mut Sides, s: usize, k: usize, x: i32| {
                if hi[s][k] > x {
                    hi[s][k] = self.down(s, x);
                    changed = true;
                }
            };
            for s in [LEFT, RIGHT] {
                for k in (1..self.side).rev() {
                    let x = hi[s][k] - g;
                    at_most(hi, s, k - 1, x);
                }
            }
            if w.asym < FAR {
                for k in 0..self.side {
                    let x = hi[RIGHT][k] + w.asym;
                    at_most(hi, LEFT, k, x);
                    let x = hi[LEFT][k] + w.asym;
                    at_most(hi, RIGHT, k, x);
                }
            }
            for s in [LEFT, RIGHT] {
                for k in 1..self.side {
                    let x = hi[s][k - 1] + h;
                    at_most(hi, s, k, x);
                }
                for k in 0..self.side {
                    if hi[s][k] < lo[s][k] {
                        return false;
                    }
                }
            }
            if !changed {
                return true;
            }
        }
    }

    /// Raises the lower bounds to the least solution; `false` when an upper
    /// bound is passed.
    fn raise(&self, w: &Within, lo: &mut Sides, hi: &Sides) -> bool {
        let (g, h) = w.spacing;
        loop {
            let mut changed = false;
            let mut at_least = |lo: &mut Sides, s: usize, k: usize, x: i32| {
                if lo[s][k] < x {
                    lo[s][k] = self.up(s, x);
                    changed = true;
                }
            };
            for s in [LEFT, RIGHT] {
                for k in 1..self.side {
                    let x = lo[s][k - 1] + g;
                    at_least(lo, s, k, x);
                }
            }
            if w.asym < FAR {
                for k in 0..self.side {
                    let x = lo[RIGHT][k] - w.asym;
                    at_least(lo, LEFT, k, x);
                    let x = lo[LEFT][k] - w.asym;
                    at_least(lo, RIGHT, k, x);
                }
            }
            for s in [LEFT, RIGHT] {
                for k in (1..self.side).rev() {
                    let x = lo[s][k] - h;
                    at_least(lo, s, k - 1, x);
                }
                for k in 0..self.side {
                    if lo[s][k] > hi[s][k] {
                        return false;
                    }
                }
            }
            if !changed {
                return true;
            }
        }
    }
}
