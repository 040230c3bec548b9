//! The itemised uncertainty of a face angle (GUM, JCGM 100:2008).

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};
use crate::units::{Degrees, root_sum_of_squares};

/// What a part of the uncertainty comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Part {
    /// Noise of the readings.
    Noise,
    /// Rounding by the source.
    Rounding,
    /// The phone's own error: what zeroing left, or all of it.
    Zeroing,
    /// The ± of a typed angle.
    Gauge,
    /// Touching a rounded face beside the mark.
    Contact,
    /// Sitting differently from one reading to the next.
    Seating,
    /// How the ground lies.
    Ground,
    /// The corner angle, which counts on a slope.
    Turn,
    /// From vehicle to vehicle of a model.
    Vehicles,
}

/// One part with its share of the face angle's standard uncertainty, and
/// the words for what would shrink it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BudgetItem {
    /// Where it comes from.
    pub part: Part,
    /// Standard uncertainty that it puts into the face angle.
    pub u: Degrees,
    /// What would shrink it.
    pub shrink: Message,
}

impl BudgetItem {
    /// The part's name.
    #[must_use]
    pub fn name(&self) -> Message {
        msg(match self.part {
            Part::Noise => "budget-noise",
            Part::Rounding => "budget-rounding",
            Part::Zeroing => "budget-zeroing",
            Part::Gauge => "budget-gauge",
            Part::Contact => "budget-contact",
            Part::Seating => "budget-seating",
            Part::Ground => "budget-ground",
            Part::Turn => "budget-turn",
            Part::Vehicles => "budget-vehicles",
        })
    }
}

/// All parts; they are independent.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Budget {
    /// The parts, in the order of measuring.
    pub items: Vec<BudgetItem>,
}

impl Budget {
    /// Adds a part; nothing for zero.
    #[must_use]
    pub fn with(mut self, part: Part, u: Degrees, shrink: &'static str) -> Self {
        if u.0 > 0.0 {
            self.items.push(BudgetItem {
                part,
                u,
                shrink: msg(shrink),
            });
        }
        self
    }

    /// The part's standard uncertainty; 0 if it is not there.
    #[must_use]
    pub fn part(&self, part: Part) -> Degrees {
        let found: Vec<f64> = self
            .items
            .iter()
            .filter(|item| item.part == part)
            .map(|item| item.u.0)
            .collect();
        Degrees(root_sum_of_squares(&found))
    }

    /// Combined standard uncertainty: root sum of squares (GUM 5.1.2).
    #[must_use]
    pub fn total(&self) -> Degrees {
        let all: Vec<f64> = self.items.iter().map(|item| item.u.0).collect();
        Degrees(root_sum_of_squares(&all))
    }

    /// The largest part; `None` for an empty budget.
    #[must_use]
    pub fn dominant(&self) -> Option<&BudgetItem> {
        self.items.iter().max_by(|a, b| a.u.0.total_cmp(&b.u.0))
    }
}
