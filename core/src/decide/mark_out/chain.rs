//! Is there any plan at all? One pass of bounds along the chain of heads.

use super::room::{Bounds, Room};

/// Marks that keep every rule, the leftmost such marks of the first case
/// that has any; `None` when there are none.
///
/// Spacings are differences, and differences keep a set of solutions closed
/// under the smaller of two in each head: so raising lower bounds until
/// nothing changes ends at the least solution, or passes an upper bound.
pub(super) fn any(room: &Room) -> Option<Vec<i32>> {
    room.cases.iter().find_map(|case| leftmost(room, case))
}

/// The leftmost marks within the bounds of one case.
pub(super) fn leftmost(room: &Room, bounds: &Bounds) -> Option<Vec<i32>> {
    let (least, greatest) = room.spacing;
    if least > greatest {
        return None;
    }
    let n = bounds.len();
    let mut at: Vec<i32> = bounds.iter().map(|b| room.up(b.0)).collect();
    loop {
        let before = at.clone();
        for k in 1..n {
            at[k] = room.up(at[k].max(at[k - 1] + least));
        }
        for k in (1..n).rev() {
            at[k - 1] = room.up(at[k - 1].max(at[k] - greatest));
        }
        if at.iter().zip(bounds).any(|(&x, b)| x > b.1) {
            return None;
        }
        if at == before {
            return Some(at);
        }
    }
}
