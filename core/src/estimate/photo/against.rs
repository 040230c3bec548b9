//! Photos against the plan: how far each mark is from where it should be.

use serde::{Deserialize, Serialize};

use super::result::{Measured, Zero};
use crate::units::{Estimate, Millimetres, Offset};

/// One mark against the plan.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct MarkAgainst {
    /// Which, counted from 0 at the left.
    pub mark: usize,
    /// Where it is, straight from the centre line.
    pub at: Estimate<Offset>,
    /// Measured less planned: + is too far right.
    pub error: Estimate<Millimetres>,
}

/// Each mark seen against its planned place. Where no card stands on the
/// centre mark, the marks are laid onto the plan as they fit best (mean
/// error 0): then a shift of all of them does not show, and the errors say
/// only how they stand to each other. Empty where straight across is not
/// known.
#[must_use]
pub fn against_plan(measured: &Measured, planned: &[Offset]) -> Vec<MarkAgainst> {
    let seen: Vec<(usize, Estimate<Offset>, f64)> = measured
        .marks
        .iter()
        .filter_map(|m| Some((m.mark, m.straight?, planned.get(m.mark)?.0)))
        .collect();
    let errors: f64 = seen.iter().map(|(_, at, plan)| at.value.0 - plan).sum();
    let shift = match measured.zero {
        Zero::CentreMark => 0.0,
        Zero::TwoHalves if seen.is_empty() => 0.0,
        Zero::TwoHalves => errors / seen.len() as f64,
    };
    seen.into_iter()
        .map(|(mark, at, plan)| {
            let value = at.value.0 - shift;
            MarkAgainst {
                mark,
                at: Estimate::new(Offset(value), at.u),
                error: Estimate::new(Millimetres(value - plan), Millimetres(at.u.0)),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::photo::result::{GapMeasured, MarkMeasured};

    fn measured(zero: Zero, at: &[f64]) -> Measured {
        let mm = |x: f64| Estimate::new(Millimetres(x), Millimetres(0.5));
        Measured {
            zero,
            marks: at
                .iter()
                .enumerate()
                .map(|(mark, x)| MarkMeasured {
                    mark,
                    straight: Some(Estimate::new(Offset(*x), Offset(0.5))),
                    along: None,
                    forward: None,
                    turn: None,
                })
                .collect(),
            gaps: Vec::new(),
            width: GapMeasured {
                left: 0,
                right: at.len() - 1,
                chord: mm(1000.0),
                along: mm(1000.0),
                straight: None,
            },
            evenness: None,
            symmetry: None,
            edited: Vec::new(),
            left_over: 0.1,
        }
    }

    fn errors(found: &[MarkAgainst]) -> Vec<f64> {
        found.iter().map(|m| m.error.value.0).collect()
    }

    #[test]
    fn a_centre_mark_shows_a_shift_of_all_marks() {
        let plan = [-600.0, -200.0, 200.0, 600.0].map(Offset);
        let at = [-597.0, -197.0, 203.0, 603.0];
        let found = against_plan(&measured(Zero::CentreMark, &at), &plan);
        assert_eq!(errors(&found), [3.0, 3.0, 3.0, 3.0]);
    }

    #[test]
    fn without_one_the_marks_stand_against_each_other() {
        let plan = [-600.0, -200.0, 200.0, 600.0].map(Offset);
        let at = [-600.0, -200.0, 204.0, 600.0];
        let found = against_plan(&measured(Zero::TwoHalves, &at), &plan);
        assert_eq!(errors(&found), [-1.0, -1.0, 3.0, -1.0]);
        assert_eq!(found[2].at.value, Offset(203.0));
    }
}
