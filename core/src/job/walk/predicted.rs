//! What was measured against what was predicted: misses and surprises. It
//! stays with the workshop; the customer's page has what was measured.

use super::WalkTest;
use super::told::point_words;
use crate::decide::coverage::{Place, Target, predict};
use crate::decide::walk_test::{Compared, Sounded, WalkPoint, compare};
use crate::job::coverage::{Placed, air_of, heads_in_place};
use crate::job::state::JobState;
use crate::text::{Message, msg};

/// A walk test against the prediction.
#[derive(Clone, Debug, PartialEq)]
pub struct AgainstPrediction {
    /// Each tapped point: which, what sounded, whether it was predicted as
    /// seen, and how the two compare.
    pub points: Vec<PointCompared>,
    /// Points predicted as seen where nothing sounded, in words.
    pub misses: Vec<Message>,
    /// Points predicted as not seen where something sounded, in words.
    pub surprises: Vec<Message>,
    /// What the prediction assumes.
    pub assumed: Vec<Message>,
}

/// One point against the prediction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PointCompared {
    /// The point.
    pub point: WalkPoint,
    /// What sounded.
    pub sounded: Sounded,
    /// Whether the pole should be seen there.
    pub predicted: bool,
    /// How the two compare.
    pub compared: Compared,
}

fn is_predicted(job: &JobState, placed: &Placed, point: &WalkPoint) -> bool {
    let place = Place {
        across: point.across,
        behind: point.behind,
    };
    let levels = predict(&placed.heads, &Target::Pole, place, &air_of(job));
    levels.iter().any(|head| head.seen() && !head.too_close)
}

/// Compares every tapped point of a test.
///
/// # Errors
/// Why there is no prediction.
pub fn against_prediction(job: &JobState, test: &WalkTest) -> Result<AgainstPrediction, Message> {
    let placed = heads_in_place(job)?;
    let points: Vec<PointCompared> = test
        .points
        .iter()
        .enumerate()
        .filter_map(|(index, point)| {
            let sounded = test.at_point(index)?;
            let predicted = is_predicted(job, &placed, point);
            Some(PointCompared {
                point: *point,
                sounded,
                predicted,
                compared: compare(sounded, Some(predicted)),
            })
        })
        .collect();
    let words = |which: Compared, key: &'static str| {
        points
            .iter()
            .filter(|one| one.compared == which)
            .map(|one| msg(key).message("point", point_words(&one.point)))
            .collect()
    };
    Ok(AgainstPrediction {
        misses: words(Compared::Miss, "walk-miss"),
        surprises: words(Compared::Surprise, "walk-surprise"),
        points,
        assumed: placed.assumed,
    })
}
