//! The exact search: one objective after the other over pivots and least
//! spacings, see [`super::fold`].

use super::PlanKind;
use super::chain;
use super::fold::{Fold, Within};
use super::room::{FAR, Room};

/// Marks with their three objective values, in mm.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Found {
    /// Left to right.
    pub marks: Vec<i32>,
    /// Greatest `|o_i + o_(n+1-i)|`.
    pub asym: i32,
    /// Greatest less least spacing.
    pub spread: i32,
    /// Outer head to outer head.
    pub width: i32,
}

impl Found {
    /// Measures marks.
    pub fn new(marks: Vec<i32>) -> Self {
        let gaps = || marks.windows(2).map(|w| w[1] - w[0]);
        let mirrored = marks.iter().zip(marks.iter().rev());
        Self {
            asym: mirrored.map(|(a, b)| (a + b).abs()).max().unwrap_or(0),
            spread: gaps().max().unwrap_or(0) - gaps().min().unwrap_or(0),
            width: gaps().sum(),
            marks,
        }
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Objective {
    Asym,
    Spread,
    Width,
}

impl PlanKind {
    fn order(self) -> [Objective; 3] {
        use Objective::{Asym, Spread, Width};
        match self {
            Self::Symmetric => [Asym, Spread, Width],
            Self::Even => [Spread, Asym, Width],
            Self::Wide => [Width, Asym, Spread],
        }
    }
}

/// What is asked of the next marks; `spread: None` leaves the gaps free.
#[derive(Clone, Copy)]
struct Ask {
    asym: i32,
    spread: Option<i32>,
    width: i32,
}

impl Ask {
    const ANYTHING: Self = Self {
        asym: FAR,
        spread: None,
        width: -FAR,
    };

    /// At least as good as `best` in one objective.
    fn as_good(self, objective: Objective, best: &Found) -> Self {
        match objective {
            Objective::Asym => Self {
                asym: best.asym,
                ..self
            },
            Objective::Spread => Self {
                spread: Some(best.spread),
                ..self
            },
            Objective::Width => Self {
                width: best.width,
                ..self
            },
        }
    }

    /// One millimetre better than `best` in one objective.
    fn better(self, objective: Objective, best: &Found) -> Self {
        match objective {
            Objective::Asym => Self {
                asym: best.asym - 1,
                ..self
            },
            Objective::Spread => Self {
                spread: Some(best.spread - 1),
                ..self
            },
            Objective::Width => Self {
                width: best.width + 1,
                ..self
            },
        }
    }
}

/// The three plans in the order of [`PlanKind::ALL`]; `None` when there is no plan.
pub(super) fn three(room: &Room) -> Option<[Found; 3]> {
    let any = Found::new(chain::any(room)?);
    let folds: Vec<Fold> = room
        .cases
        .iter()
        .filter(|case| chain::leftmost(room, case).is_some())
        .map(|case| Fold::new(room, case))
        .collect();
    let symmetric = best(room, &folds, PlanKind::Symmetric, any);
    let even = best(room, &folds, PlanKind::Even, symmetric.clone());
    let wide = best(room, &folds, PlanKind::Wide, symmetric.clone());
    Some([symmetric, even, wide])
}

/// One plan only; `None` when there is no plan.
pub(super) fn one(room: &Room, kind: PlanKind) -> Option<Found> {
    let any = Found::new(chain::any(room)?);
    let folds: Vec<Fold> = room.cases.iter().map(|c| Fold::new(room, c)).collect();
    Some(best(room, &folds, kind, any))
}

fn best(room: &Room, folds: &[Fold], kind: PlanKind, start: Found) -> Found {
    let [first, second, third] = kind.order();
    let free = Ask::ANYTHING;
    let best = improve(room, folds, first, free.better(first, &start), free, start);
    let held = free.as_good(first, &best);
    let best = improve(room, folds, second, held.better(second, &best), held, best);
    let held = held.as_good(second, &best);
    // The last objective starts from 'as good', so that among equals the
    // first in the order of search is taken, whatever was found before.
    improve(room, folds, third, held.as_good(third, &best), held, best)
}

/// Improves one objective, the others held: for every case, least spacing
/// and pivot, ascending, asks for one millimetre better until there is none.
fn improve(
    room: &Room,
    folds: &[Fold],
    objective: Objective,
    mut ask: Ask,
    held: Ask,
    mut best: Found,
) -> Found {
    for fold in folds {
        let mut least = room.spacing.0;
        while let Some(w) = within(room, &ask, least) {
            let mut pivot = -FAR;
            let mut w = w;
            let mut narrowed = fold.narrow(&w);
            while let Some(n) = &narrowed {
                pivot = fold.next_pivot(pivot.max(n.pivots.0));
                if pivot > n.pivots.1 {
                    break;
                }
                match fold.widest(&w, n, pivot) {
                    None => pivot += 1,
                    Some(marks) => {
                        best = Found::new(marks);
                        ask = held.better(objective, &best);
                        match within(room, &ask, least) {
                            Some(tighter) => w = tighter,
                            None => return best,
                        }
                        narrowed = fold.narrow(&w);
                    }
                }
            }
            // Free gaps, or only one gap: there is one range of spacings.
            if ask.spread.is_none() || room.heads == 2 {
                break;
            }
            least += 1;
        }
    }
    best
}

/// The bounds of one least spacing; `None` past the last one.
fn within(room: &Room, ask: &Ask, least: i32) -> Option<Within> {
    if ask.asym < 0 {
        return None;
    }
    let greatest = match ask.spread {
        None => room.spacing.1,
        Some(s) if s < 0 => return None,
        Some(_) if room.heads == 2 => room.spacing.1,
        Some(s) => room.spacing.1.min(least + s),
    };
    let whole = room.widest_room();
    let gaps = room.heads as i32 - 1;
    let fits = least <= greatest && least * gaps <= whole;
    fits.then_some(Within {
        spacing: (least, greatest),
        asym: ask.asym,
        width: ask.width,
    })
}
