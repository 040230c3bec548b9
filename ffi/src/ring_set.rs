//! Which ring, and insert if any, a head gets.

use rakeline_core::decide::ring_set::{self, Blocked, InsertUse, RakeOrigin, Verdict, choose};
use rakeline_core::kit::Material;
use rakeline_core::text::msg;
use rakeline_core::units::{Degrees, Millimetres};
use rakeline_words::say;

use crate::fault::listed;
use crate::kit::sheet;
use crate::{Fault, Measured};

/// Where a face angle came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum FaceOrigin {
    /// Read with a zeroed phone.
    Zeroed,
    /// Read with a phone as it came.
    Unzeroed,
    /// Typed off a gauge.
    Typed,
}

/// What the panel is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum PanelMaterial {
    /// A plastic bumper skin.
    Plastic,
    /// Glass or carbon fibre in resin.
    Fibre,
    /// Steel or aluminium.
    Metal,
}

/// A ring, and insert if any, by their names on the sheet.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Record)]
pub struct RingSet {
    /// The ring.
    pub ring: String,
    /// The insert, if any.
    pub insert: Option<String>,
}

impl From<ring_set::RingSet> for RingSet {
    fn from(set: ring_set::RingSet) -> Self {
        Self {
            ring: set.ring,
            insert: set.insert,
        }
    }
}

/// A set with the face angles where it is right, degrees.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct RightBetween {
    /// The set.
    pub set: RingSet,
    /// From.
    pub from: f64,
    /// To.
    pub to: f64,
}

/// Face angles that the kit can serve, degrees.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct ServedBetween {
    /// From.
    pub from: f64,
    /// To.
    pub to: f64,
}

/// How sure the choice is.
#[derive(Clone, Debug, PartialEq, uniffi::Enum)]
pub enum RingVerdict {
    /// One set, whatever the face angle inside its ±.
    Sure {
        /// The set.
        set: RingSet,
    },
    /// It hangs on where inside the ± the face angle is.
    CloseCall {
        /// The set to go on with for now, if any.
        proposed: Option<RingSet>,
        /// Every set that is right somewhere inside the ±.
        right_somewhere: Vec<RightBetween>,
        /// What would settle it.
        settle: Vec<String>,
    },
    /// No set is right anywhere inside the ±.
    CannotBeServed {
        /// Face angles that the kit can serve here.
        serves: Vec<ServedBetween>,
        /// What to do.
        what_to_do: String,
    },
}

/// The choice for one spot.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct RingChoice {
    /// The verdict.
    pub verdict: RingVerdict,
    /// Where the head points with the set to go on with, degrees; nothing
    /// without one.
    pub aim: Option<Measured>,
    /// Whether the hole must wait until the verdict is settled.
    pub drilling_waits: bool,
    /// Whether paint must wait until then.
    pub paint_waits: bool,
}

impl RingChoice {
    pub(crate) fn of(sheet: &rakeline_core::kit::KitSheet, choice: ring_set::RingChoice) -> Self {
        let candidate = choice.set().and_then(|set| choice.candidate(sheet, set));
        Self {
            aim: candidate.map(|candidate| candidate.aim.into()),
            drilling_waits: choice.blocks(Blocked::Drill),
            paint_waits: choice.blocks(Blocked::Paint),
            verdict: verdict(choice.verdict),
        }
    }
}

fn verdict(verdict: Verdict) -> RingVerdict {
    match verdict {
        Verdict::Sure { set } => RingVerdict::Sure { set: set.into() },
        Verdict::CloseCall {
            proposed,
            right_somewhere,
            settle,
        } => RingVerdict::CloseCall {
            proposed: proposed.map(RingSet::from),
            right_somewhere: right_somewhere
                .into_iter()
                .map(|right| RightBetween {
                    set: right.set.into(),
                    from: right.from.0,
                    to: right.to.0,
                })
                .collect(),
            settle: listed(&settle),
        },
        Verdict::CannotBeServed { serves, what_to_do } => RingVerdict::CannotBeServed {
            serves: serves
                .into_iter()
                .map(|(from, to)| ServedBetween {
                    from: from.0,
                    to: to.0,
                })
                .collect(),
            what_to_do: say(&what_to_do),
        },
    }
}

/// The ring set for a face angle `rake` (degrees, standard uncertainty `u`).
/// `load_allowance` is added to the sheet's least aim for a rear that sinks
/// under load, degrees; `old_hole` is the diameter of one at the spot.
///
/// # Errors
/// [`Fault::Unreadable`] for a sheet that is none, [`Fault::Invalid`] for a
/// figure that is none.
#[uniffi::export]
pub fn ring_set(
    kit: &str,
    rake: Measured,
    origin: FaceOrigin,
    material: PanelMaterial,
    load_allowance: f64,
    old_hole: Option<f64>,
) -> Result<RingChoice, Fault> {
    let sheet = sheet(kit)?;
    let figures = [rake.value, rake.u, load_allowance, old_hole.unwrap_or(0.0)];
    if figures.iter().any(|figure| !figure.is_finite()) || rake.u < 0.0 {
        return Err(Fault::invalid(&msg("ffi-not-a-figure")));
    }
    let facts = ring_set::SpotFacts {
        rake: rake.degrees(),
        origin: match origin {
            FaceOrigin::Zeroed => RakeOrigin::Zeroed,
            FaceOrigin::Unzeroed => RakeOrigin::Unzeroed,
            FaceOrigin::Typed => RakeOrigin::Typed,
        },
        material: match material {
            PanelMaterial::Plastic => Material::Plastic,
            PanelMaterial::Fibre => Material::Fibre,
            PanelMaterial::Metal => Material::Metal,
        },
        load_allowance: Degrees(load_allowance),
        old_hole: old_hole.map(Millimetres),
        inserts: InsertUse::Allowed,
    };
    let choice = choose(&sheet, &facts);
    Ok(RingChoice::of(&sheet, choice))
}
