//! The tape card: the figures that a tape is laid by, from the centre line
//! and head to head, straight and along the face.

use super::measured::plan_curve;
use super::state::JobState;
use super::taken::along_known;
use crate::units::{Estimate, Millimetres, Offset};

/// One mark on the card.
#[derive(Clone, Debug, PartialEq)]
pub struct CardMark {
    /// The head's label.
    pub label: String,
    /// From the centre line, straight, + to the right.
    pub straight: Offset,
    /// The same along the face, in whole millimetres; `None` where the shape
    /// from above is not known or does not reach it.
    pub along: Option<Estimate<Millimetres>>,
}

/// One gap on the card.
#[derive(Clone, Debug, PartialEq)]
pub struct CardGap {
    /// The left head's label.
    pub left: String,
    /// The right head's label.
    pub right: String,
    /// Head to head, straight.
    pub straight: Millimetres,
    /// The same along the face: what lies between the two figures of the card.
    pub along: Option<Millimetres>,
}

/// All figures of the card.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TapeCard {
    /// The marks, left to right.
    pub marks: Vec<CardMark>,
    /// The gaps between them, left to right.
    pub gaps: Vec<CardGap>,
}

impl TapeCard {
    /// Whether any mark has its figure along the face.
    #[must_use]
    pub fn knows_the_face(&self) -> bool {
        self.marks.iter().any(|mark| mark.along.is_some())
    }
}

/// The card of a job; empty without marks.
#[must_use]
pub fn tape_card(job: &JobState) -> TapeCard {
    let Some(placed) = &job.marks else {
        return TapeCard::default();
    };
    let curve = plan_curve(job);
    let along = |straight: Offset| {
        let along = along_known(curve.as_ref()?, straight)?;
        Some(Estimate::new(Millimetres(along.value.0.round()), along.u))
    };
    let spots = job.spots.iter().zip(&placed.offsets);
    let marks: Vec<CardMark> = spots
        .map(|(spot, at)| CardMark {
            label: spot.label.clone(),
            straight: *at,
            along: along(*at),
        })
        .collect();
    let gap = |pair: &[CardMark]| CardGap {
        left: pair[0].label.clone(),
        right: pair[1].label.clone(),
        straight: pair[1].straight - pair[0].straight,
        along: pair[0]
            .along
            .zip(pair[1].along)
            .map(|(left, right)| right.value - left.value),
    };
    let gaps = marks.windows(2).map(gap).collect();
    TapeCard { marks, gaps }
}
