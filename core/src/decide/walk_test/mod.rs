//! The walk test: a pole is put at points behind the vehicle, and what
//! sounds is noted.
//!
//! Start with [`nine`] or [`grid`] for the points, [`Seen`] for the share
//! that was seen, [`compare`] for measured against predicted.

mod judge;
mod points;

pub use judge::{
    Compared, LATENCY_GREATEST, LimitFrom, OWN_SHARE_LEAST, START_UP_GREATEST, Seen, ShareLimit,
    TimeLimit, TimeVerdict, compare, judge_time,
};
pub use points::{
    Area, BESIDE_OBJECT, EDGE_INSET, NoPoints, PointBy, WalkPoint, around_object, grid, nine,
};

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};

/// What sounded at a point.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sounded {
    /// Nothing.
    Nothing,
    /// The far zone: slow beeps.
    Far,
    /// The middle zone: quicker beeps.
    Middle,
    /// The near zone: a steady tone.
    Near,
}

impl Sounded {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 4] = [Self::Nothing, Self::Far, Self::Middle, Self::Near];

    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Nothing => "walk-nothing",
            Self::Far => "walk-far",
            Self::Middle => "walk-middle",
            Self::Near => "walk-near",
        })
    }

    /// Whether anything sounded.
    #[must_use]
    pub fn is_seen(self) -> bool {
        self != Self::Nothing
    }
}
