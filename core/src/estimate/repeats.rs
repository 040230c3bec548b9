//! Repeats at a spot, and a spot against its mirror image.

use serde::{Deserialize, Serialize};

use crate::estimate::budget::{Budget, Part};
use crate::estimate::rake::RakeEstimate;
use crate::estimate::seating::Seating;
use crate::estimate::stats::median;
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees};

/// A repeat off by more than so many standard deviations of seating is
/// pointed out.
const OUTLIER_SIGMAS: f64 = 3.0;
/// Left and right closer than this are the same for the trade.
pub const MIRROR_LEAST: Degrees = Degrees(0.5);

/// What the repeats at one spot say.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Repeats {
    /// They agree.
    Agree,
    /// One or more stand apart; all still count until the fitter takes one
    /// out.
    Outliers {
        /// Their places in the list, from 0.
        which: Vec<usize>,
        /// What is said.
        message: Message,
    },
    /// Two readings that cannot both be right: read once more.
    Contradict(Message),
}

/// Judges the face angles read at one spot.
#[must_use]
pub fn judge_repeats(values: &[Degrees], seating: Seating) -> Repeats {
    let sigma = seating.u().0.max(0.05);
    if let [a, b] = values {
        let apart = (*a - *b).abs();
        return if apart.0 > OUTLIER_SIGMAS * sigma * 2f64.sqrt() {
            Repeats::Contradict(msg("repeats-contradict").deg("apart", apart.0))
        } else {
            Repeats::Agree
        };
    }
    let mut sorted: Vec<f64> = values.iter().map(|v| v.0).collect();
    let middle = median(&mut sorted);
    let off = |v: &Degrees| (v.0 - middle).abs();
    let which: Vec<usize> = values
        .iter()
        .enumerate()
        .filter(|(_, v)| off(v) > OUTLIER_SIGMAS * sigma)
        .map(|(i, _)| i)
        .collect();
    let most = values.iter().map(off).fold(0.0, f64::max);
    match which.first() {
        None => Repeats::Agree,
        Some(first) => {
            let message = msg("repeats-outlier")
                .count("which", *first as i64 + 1)
                .deg("off", most);
            Repeats::Outliers { which, message }
        }
    }
}

/// Compares a spot with its mirror image: `None` while the difference is
/// within its uncertainty. The phone's own error is common to both and
/// does not count.
#[must_use]
pub fn compare_mirror(left: &RakeEstimate, right: &RakeEstimate) -> Option<Message> {
    let own = |budget: &Budget| {
        let common = budget.part(Part::Zeroing).0;
        (budget.total().0.powi(2) - common * common).max(0.0)
    };
    let u = (own(&left.budget) + own(&right.budget)).sqrt();
    let apart = left.rake.value - right.rake.value;
    let limit = (COVERAGE_95 * u).max(MIRROR_LEAST.0);
    (apart.0.abs() > limit).then(|| {
        msg("mirror-differs")
            .deg("left", left.rake.value.0)
            .deg("right", right.rake.value.0)
            .deg("apart", apart.0.abs())
            .deg("limit", limit)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::rake::Origin;
    use crate::units::Estimate;

    fn all(values: &[f64]) -> Vec<Degrees> {
        values.iter().map(|v| Degrees(*v)).collect()
    }

    #[test]
    fn a_repeat_that_stands_apart_is_pointed_out_and_kept() {
        let seen = judge_repeats(&all(&[-4.0, -4.2, -2.5, -3.9]), Seating::Assumed);
        let Repeats::Outliers { which, message } = seen else {
            panic!("{seen:?}")
        };
        assert_eq!(which, [2]);
        assert_eq!(message.key, "repeats-outlier");
        let seen = judge_repeats(&all(&[-4.0, -4.2, -3.6]), Seating::Assumed);
        assert_eq!(seen, Repeats::Agree);
    }

    #[test]
    fn two_readings_that_cannot_both_be_right_ask_for_a_third() {
        let seen = judge_repeats(&all(&[-4.0, -6.0]), Seating::Assumed);
        assert_eq!(
            seen,
            Repeats::Contradict(msg("repeats-contradict").deg("apart", 2.0))
        );
    }

    #[test]
    fn a_left_right_difference_counts_beyond_its_uncertainty_only() {
        let spot = |rake: f64| RakeEstimate {
            rake: Estimate::new(Degrees(rake), Degrees(2.3)),
            against_gravity: Degrees(rake),
            budget: Budget::default()
                .with(Part::Zeroing, Degrees(2.3), "budget-shrink-zeroing")
                .with(Part::Seating, Degrees(0.3), "budget-shrink-seating"),
            origin: Origin::Unzeroed,
            readings: 1,
        };
        assert_eq!(compare_mirror(&spot(-4.0), &spot(-4.7)), None);
        let said = compare_mirror(&spot(-4.0), &spot(-5.5)).unwrap();
        assert_eq!(said.key, "mirror-differs");
    }
}
