//! What the phone may be held to.

use rakeline_core::estimate::rake::{Seat, Side, plausible, rake_against_gravity};
use rakeline_core::estimate::zero::poses::Pose;
use rakeline_core::job::BesideHead;
use rakeline_core::sample::UpVector;

/// What the phone is held to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// A mark, 0 for the leftmost.
    Spot(usize),
    /// 30 mm above a mark, then below it: how round the face is.
    Round(Beside),
    /// A pose of zeroing.
    Pose(Pose),
    /// The board beside the wheels.
    Board(BoardWay),
    /// The sill, long edge along it, top edge forward: nose up or down only.
    Sill,
    /// A place of the sweep in the order of going: the centre first and last.
    Station(usize),
    /// The panel a hand's breadth beside a fitted head.
    Beside(u8, BesideHead),
    /// Nothing: the attitude is shown and never captured.
    Level,
}

/// Above or below the mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beside {
    /// 30 mm above.
    Above,
    /// 30 mm below.
    Below,
}

/// How the phone lies on the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoardWay {
    /// Top edge forward.
    Forward,
    /// Turned end for end.
    Turned,
}

impl Target {
    /// Whether a phone with up there may be on its way to the target: the
    /// tone 'moving' is for that only.
    pub(super) fn is_near(self, up: UpVector) -> bool {
        match self {
            Self::Pose(Pose::Table | Pose::TableTurned) | Self::Board(_) => up.0[2] > 0.9,
            Self::Sill => up.0[1].abs() < 0.4,
            Self::Level => false,
            _ => plausible(rake_against_gravity(up, Side::Back, Seat::default())).is_ok(),
        }
    }
}
