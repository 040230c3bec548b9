//! Ring set: which ring, and insert if any, a head gets.
//!
//! [`choose`] decides for one spot, [`choose_all`] for several, [`pair`] is
//! the second step over two mirrored spots. Angles are degrees, + up; the
//! aim of a head is the face angle plus the lift of what it sits on.
//!
//! A ring can be changed after drilling; a hole, an insert and a spot
//! cannot, nor a painted ring. [`RingChoice::blocked`] says which of these a
//! verdict leaves open.

mod by_hand;
mod candidates;
mod choose;
mod pair;
#[cfg(test)]
mod tests;
mod windows;
mod words;

pub use by_hand::{ByHand, ByHandFault, choose_by_hand};
pub use candidates::{Candidate, Outcome};
pub use choose::{choose, choose_all, serves_range};
pub use pair::{Pair, pair};
pub use words::{SETTLED_BY_ZEROING, aim_words, face_words};

use serde::{Deserialize, Serialize};

use crate::kit::{KitSheet, Material};
use crate::text::Message;
use crate::units::{Degrees, Estimate, Millimetres};

/// Allowance for a load that lowers the rear, cars: degrees (our own figure;
/// a rear that sinks 70 mm over a wheelbase of 3 m points 1.3 degrees lower).
pub const LOAD_ALLOWANCE: Degrees = Degrees(1.0);
/// Allowance for a load that lowers the rear, load carriers: degrees (our own figure).
pub const LOAD_ALLOWANCE_CARRIER: Degrees = Degrees(2.0);

/// An old hole within this of the size wanted is kept as it is, filed to the
/// head (our own figure).
pub const OLD_HOLE_FITS_WITHIN: Millimetres = Millimetres(0.3);

/// Whether a hole that is there passes for one of a size; a hair more than
/// [`OLD_HOLE_FITS_WITHIN`] is the rounding of figures.
#[must_use]
pub fn passes_for(there: Millimetres, wanted: Millimetres) -> bool {
    (there - wanted).abs().0 <= OLD_HOLE_FITS_WITHIN.0 + 1e-9
}

/// Where a face angle came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum RakeOrigin {
    /// Read with a zeroed phone.
    Zeroed,
    /// Read with a phone that was not zeroed.
    Unzeroed,
    /// Typed from an angle gauge.
    Typed,
}

/// Whether an insert may be used where none is needed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum InsertUse {
    /// Also for its lift alone.
    #[default]
    Allowed,
    /// Only where the material or an old hole needs one.
    WhereNeeded,
}

/// What is known about a spot.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SpotFacts {
    /// Face angle with its total standard uncertainty.
    pub rake: Estimate<Degrees>,
    /// Where the face angle came from.
    pub origin: RakeOrigin,
    /// What the panel is made of.
    pub material: Material,
    /// Added to the sheet's least aim, for a loaded rear.
    pub load_allowance: Degrees,
    /// Diameter of an old hole at the spot, if there is one.
    pub old_hole: Option<Millimetres>,
    /// Whether an insert may be used where none is needed.
    pub inserts: InsertUse,
}

impl SpotFacts {
    /// A plastic bumper of a car without an old hole.
    #[must_use]
    pub fn plain(rake: Estimate<Degrees>, origin: RakeOrigin) -> Self {
        Self {
            rake,
            origin,
            material: Material::Plastic,
            load_allowance: LOAD_ALLOWANCE,
            old_hole: None,
            inserts: InsertUse::Allowed,
        }
    }
}

/// The ring, and insert if any, of one head, by their names on the sheet.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct RingSet {
    /// Name of the ring.
    pub ring: String,
    /// Name of the insert, if any.
    pub insert: Option<String>,
}

impl RingSet {
    /// A ring without an insert.
    pub fn ring(name: impl Into<String>) -> Self {
        Self {
            ring: name.into(),
            insert: None,
        }
    }

    /// A ring with an insert.
    pub fn with_insert(ring: impl Into<String>, insert: impl Into<String>) -> Self {
        Self {
            ring: ring.into(),
            insert: Some(insert.into()),
        }
    }

    /// The hole that this set needs in that material; `None` when its insert
    /// is not on the sheet.
    #[must_use]
    pub fn hole(&self, sheet: &KitSheet, material: Material) -> Option<Millimetres> {
        match &self.insert {
            None => Some(sheet.head_hole(material)),
            Some(name) => sheet.insert(name).map(|i| i.hole),
        }
    }

    /// Whether a hole that is there takes this set: one of its size, filed
    /// where it is a little tight, or one that its insert covers.
    #[must_use]
    pub fn fits_hole(&self, sheet: &KitSheet, material: Material, there: Millimetres) -> bool {
        let Some(wanted) = self.hole(sheet, material) else {
            return false;
        };
        let insert = self.insert.as_ref().and_then(|name| sheet.insert(name));
        let covered = insert.is_some_and(|i| there >= wanted && there <= i.largest_old_hole());
        covered || passes_for(there, wanted)
    }

    /// What turns over with the ring when it sits upside down, degrees: the
    /// ring's own lift. Head and insert stay as they are.
    #[must_use]
    pub fn turns_over(&self, sheet: &KitSheet) -> Degrees {
        sheet
            .ring(&self.ring)
            .map_or(Degrees(0.0), |ring| ring.lift)
    }

    /// How much lower the head points when the ring sits upside down,
    /// degrees: what should add takes away instead.
    #[must_use]
    pub fn lower_upside_down(&self, sheet: &KitSheet) -> Degrees {
        self.turns_over(sheet) * 2.0
    }
}

/// A set that is right for some face angles inside the ±.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RightSomewhere {
    /// The set.
    pub set: RingSet,
    /// Lowest face angle of this stretch.
    pub from: Degrees,
    /// Highest face angle of this stretch.
    pub to: Degrees,
}

/// What the ring sets of one spot come to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Verdict {
    /// One set, whatever the face angle inside its ±.
    Sure {
        /// The set.
        set: RingSet,
    },
    /// It hangs on where inside the ± the face angle is.
    CloseCall {
        /// The set to go on with for now; `None` where none is right at the estimate.
        proposed: Option<RingSet>,
        /// Every set that is right somewhere inside ±, from low to high face angles.
        right_somewhere: Vec<RightSomewhere>,
        /// What would settle it.
        settle: Vec<Message>,
    },
    /// No set is right anywhere inside the ±.
    CannotBeServed {
        /// Face angles that the kit can serve here, from and to.
        serves: Vec<(Degrees, Degrees)>,
        /// What to do.
        what_to_do: Message,
    },
}

/// What must wait until a verdict is settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Blocked {
    /// The hole: hole size, insert or spot hang on it.
    Drill,
    /// Painting: the ring hangs on it and is painted with the head.
    Paint,
}

/// The choice for one spot with everything that was weighed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RingChoice {
    /// What it was decided on.
    pub facts: SpotFacts,
    /// The verdict.
    pub verdict: Verdict,
    /// Every combination on the sheet, in its order: without insert first, rings in order.
    pub candidates: Vec<Candidate>,
    /// What must wait.
    pub blocked: Vec<Blocked>,
}

impl RingChoice {
    /// The set to go on with: the sure one, or the one for now.
    #[must_use]
    pub fn set(&self) -> Option<&RingSet> {
        match &self.verdict {
            Verdict::Sure { set } => Some(set),
            Verdict::CloseCall { proposed, .. } => proposed.as_ref(),
            Verdict::CannotBeServed { .. } => None,
        }
    }

    /// Whether that must wait until the verdict is settled.
    #[must_use]
    pub fn blocks(&self, what: Blocked) -> bool {
        self.blocked.contains(&what)
    }

    /// What the rule chose, over the whole ±; `None` where it chose none.
    #[must_use]
    pub fn chosen_by_rule(&self) -> Option<&Candidate> {
        self.candidates
            .iter()
            .find(|c| c.outcome == Outcome::Chosen)
    }

    /// Why a candidate was chosen or lost. On a close call the rule's choice
    /// is not what goes in for certain, and is not called chosen.
    #[must_use]
    pub fn why(&self, candidate: &Candidate, sheet: &KitSheet) -> Message {
        let mut why = candidate.why(sheet);
        if candidate.outcome == Outcome::Chosen && matches!(self.verdict, Verdict::CloseCall { .. })
        {
            why.key = "ring-why-by-rule".into();
        }
        why
    }

    /// The candidate of a set.
    #[must_use]
    pub fn candidate(&self, sheet: &KitSheet, set: &RingSet) -> Option<&Candidate> {
        self.candidates.iter().find(|c| c.is(sheet, set))
    }
}
