//! Where inside the ± of a face angle which set is right.

use super::candidates::{Bounds, SLACK, Usable, pick};

/// A stretch of face angles with the set that is right there, if any.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Window {
    pub from: f64,
    pub to: f64,
    /// Index into the usable combinations.
    pub right: Option<usize>,
}

/// Cuts `from..=to` into stretches with the same set right, in order.
///
/// The pick can change only where a combination comes into or goes out of
/// the aim limits, or where two of equal rank are equally near to the
/// target. From one such place to the next the pick is constant, so that a
/// look at the places and between them finds all; single points are listed
/// only where their set is right nowhere beside them.
pub(super) fn windows(usable: &[Usable], bounds: &Bounds, from: f64, to: f64) -> Vec<Window> {
    let mut all = Vec::new();
    let mut here = from;
    push(&mut all, at(usable, bounds, here, here, here));
    while here < to {
        let now = between(usable, bounds, here, to);
        push(&mut all, now);
        here = now.to;
        push(&mut all, at(usable, bounds, here, here, here));
    }
    // A place whose neighbours say the same of it is no stretch of its own.
    tidy(all)
}

fn at(usable: &[Usable], bounds: &Bounds, look: f64, from: f64, to: f64) -> Window {
    Window {
        from,
        to,
        right: pick(usable, bounds, look, None),
    }
}

/// The stretch that begins just after `here`.
fn between(usable: &[Usable], bounds: &Bounds, here: f64, to: f64) -> Window {
    // A step past the slack with which bounds are compared.
    let past = here + 4.0 * SLACK;
    let right = pick(usable, bounds, past.min(to), None);
    let mut next = to;
    let mut consider = |place: f64| {
        if place > past && place < next {
            next = place;
        }
    };
    match right.map(|i| &usable[i]) {
        Some(now) => {
            for other in usable {
                match other.by_parts_and_hole(now) {
                    // Sorted by rank: nothing better follows.
                    core::cmp::Ordering::Greater => break,
                    core::cmp::Ordering::Less => consider(bounds.least - other.lift),
                    core::cmp::Ordering::Equal => {
                        consider(bounds.least - other.lift);
                        consider(bounds.greatest - other.lift);
                        consider(bounds.target - f64::midpoint(now.lift, other.lift));
                    }
                }
            }
        }
        None => {
            for other in usable {
                consider(bounds.least - other.lift);
            }
        }
    }
    Window {
        from: here,
        to: next,
        right,
    }
}

fn push(all: &mut Vec<Window>, next: Window) {
    match all.last_mut() {
        Some(last) if last.right == next.right => last.to = next.to,
        _ => all.push(next),
    }
}

/// Leaves out single points whose set is right beside them as well, or where
/// none is right, and joins what they held apart.
fn tidy(all: Vec<Window>) -> Vec<Window> {
    let mut kept: Vec<Window> = Vec::with_capacity(all.len());
    for (i, window) in all.iter().enumerate() {
        let single = window.from >= window.to;
        let beside = |j: Option<usize>| j.and_then(|j| all.get(j)).map(|w| w.right);
        let neighbours = [beside(i.checked_sub(1)), beside(Some(i + 1))];
        let told = neighbours.contains(&Some(window.right));
        let nothing = window.right.is_none() && all.len() > 1;
        if single && (told || nothing) {
            continue;
        }
        push(&mut kept, *window);
    }
    kept
}
