//! How the ground under the vehicle lies.

use rakeline_core::estimate::ground::{self, GroundHow};
use rakeline_core::estimate::seating::Seating;

use crate::{Fault, Measured, Still};

/// How the ground lies, degrees.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct Ground {
    /// + when the front stands higher.
    pub nose_up: Measured,
    /// + when the right side stands higher.
    pub right_up: Measured,
}

impl From<ground::Ground> for Ground {
    fn from(found: ground::Ground) -> Self {
        Self {
            nose_up: found.nose_up.into(),
            right_up: found.right_up.into(),
        }
    }
}

impl Ground {
    pub(crate) fn ground(self) -> ground::Ground {
        ground::Ground {
            nose_up: self.nose_up.degrees(),
            right_up: self.right_up.degrees(),
            how: GroundHow::Board,
        }
    }
}

/// The two readings at one place of the board beside the wheels.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct BoardPair {
    /// Phone flat, top edge forward.
    pub forward: Still,
    /// The same, turned end for end.
    pub turned: Still,
}

/// Level by eye, with its stated uncertainty.
#[uniffi::export]
#[must_use]
pub fn ground_looks_level() -> Ground {
    ground::Ground::looks_level().into()
}

/// From the board: a pair of readings for each of its places.
///
/// # Errors
/// [`Fault::Impossible`] when the readings are not such pairs or the ground is
/// too steep to work on.
#[uniffi::export]
pub fn ground_by_board(pairs: &[BoardPair]) -> Result<Ground, Fault> {
    let pair = |pair: &BoardPair| Ok((pair.forward.reading()?, pair.turned.reading()?));
    let taken: Result<Vec<_>, Fault> = pairs.iter().map(pair).collect();
    let found = ground::Ground::board(&taken?, Seating::Assumed);
    found
        .map(Ground::from)
        .map_err(|why| Fault::impossible(&why))
}
