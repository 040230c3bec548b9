//! Drill plan: every hole answered before it is made.
//!
//! The order of work at one head, from the mark that is confirmed from
//! behind to the head that is pressed in at its edge. Steps and cautions are
//! messages; what is missing is asked.

mod gate;

pub use gate::{AtHead, GREATEST_DEPTH, Gate, Instead, Shut, depth_needed, gate};

use serde::{Deserialize, Serialize};

use crate::kit::Material;
use crate::text::{Message, msg};
use crate::units::{Degrees, Millimetres};

/// A pilot reaches at most so far behind the panel (our own figure).
pub const PILOT_REACH: Millimetres = Millimetres(12.0);
/// A step drill makes holes up to this in metal; larger ones are sawn (our own figure).
pub const LARGEST_STEP_DRILL: Millimetres = Millimetres(32.0);
/// An old hole within this of the size wanted is kept as it is (our own figure).
pub const OLD_HOLE_FITS_WITHIN: Millimetres = Millimetres(0.3);
/// A plastic bumper colder than this is warmed before drilling, °C (our own figure).
pub const WARM_BELOW_CELSIUS: f64 = 12.0;

/// The workshop's tools, entered once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Tools {
    /// How far the saw's own centre drill reaches past the teeth.
    pub reach_past_teeth: Option<Millimetres>,
    /// Temperature of the bumper in °C, if known.
    pub bumper_celsius: Option<f64>,
}

/// How a hole is made.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Making {
    /// Hole saw of that diameter.
    Saw(Millimetres),
    /// Step drill to that diameter.
    StepDrill(Millimetres),
    /// The old hole is kept as it is.
    KeepOldHole(Millimetres),
    /// The old hole is widened; a saw has no centre there, so a step drill
    /// or a plug for the saw is wanted.
    WidenOldHole {
        /// The old hole.
        from: Millimetres,
        /// The hole wanted.
        to: Millimetres,
    },
    /// The old hole is larger than the insert's own and lies under it.
    CoverOldHole(Millimetres),
}

/// Why there is no plan for a hole yet.
#[derive(Clone, Debug, PartialEq)]
pub enum NoPlan {
    /// The gate is shut.
    Shut(Vec<Shut>),
    /// How far the saw's centre drill reaches is not entered.
    ReachNotEntered,
    /// The saw's centre drill reaches as far as the measured depth or further.
    ReachesTooFar {
        /// How far it reaches past the teeth.
        reach: Millimetres,
        /// The measured depth.
        depth: Millimetres,
    },
    /// A reach that no saw has.
    ReachMakesNoSense {
        /// As typed.
        typed: Millimetres,
    },
}

impl NoPlan {
    /// What the fitter is told.
    #[must_use]
    pub fn messages(&self) -> Vec<Message> {
        match self {
            Self::Shut(shut) => shut.iter().map(Shut::message).collect(),
            Self::ReachNotEntered => vec![msg("drill-reach-not-entered")],
            Self::ReachesTooFar { reach, depth } => vec![
                msg("drill-reaches-too-far")
                    .mm("reach", reach.0)
                    .mm("depth", depth.0),
            ],
            Self::ReachMakesNoSense { typed } => {
                vec![msg("drill-reach-makes-no-sense").mm("typed", typed.0)]
            }
        }
    }
}

/// The plan for one hole.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillPlan {
    /// The head's label.
    pub label: String,
    /// How the hole is made.
    pub making: Making,
    /// The pilot drill, where one is used and the sheet names it.
    pub pilot: Option<Millimetres>,
    /// Depth stop: so far past the panel at most.
    pub stop: Millimetres,
    /// What to heed, as one picture with one press.
    pub cautions: Vec<Message>,
    /// What to do, in order.
    pub steps: Vec<Message>,
}

fn making(hole: Millimetres, material: Material, old_hole: Option<Millimetres>) -> Making {
    match old_hole {
        Some(old) if (old - hole).abs() <= OLD_HOLE_FITS_WITHIN => Making::KeepOldHole(old),
        Some(old) if old > hole => Making::CoverOldHole(old),
        Some(old) => Making::WidenOldHole {
            from: old,
            to: hole,
        },
        None if material == Material::Metal && hole <= LARGEST_STEP_DRILL => {
            Making::StepDrill(hole)
        }
        None => Making::Saw(hole),
    }
}

impl Making {
    /// What to do, in words with its size.
    #[must_use]
    pub fn message(&self) -> Message {
        let size = |key: &'static str, d: &Millimetres| msg(key).number("diameter", d.0, 1);
        match self {
            Self::Saw(d) => size("drill-step-saw", d),
            Self::StepDrill(d) => size("drill-step-step-drill", d),
            Self::KeepOldHole(d) => size("drill-step-keep-old-hole", d),
            Self::CoverOldHole(d) => size("drill-step-cover-old-hole", d),
            Self::WidenOldHole { from, to } => msg("drill-step-widen-old-hole")
                .number("from", from.0, 1)
                .number("to", to.0, 1),
        }
    }

    fn cuts(self) -> Cut {
        match self {
            Self::Saw(_) => Cut::WithCentreDrill,
            Self::StepDrill(_) | Self::WidenOldHole { .. } => Cut::Plain,
            Self::KeepOldHole(_) | Self::CoverOldHole(_) => Cut::Nothing,
        }
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Cut {
    WithCentreDrill,
    Plain,
    Nothing,
}

/// The plan for the hole of one head.
///
/// # Errors
/// When the gate is shut, or the saw's centre drill is not known to stay
/// short of what is behind.
pub fn plan(at: &AtHead<'_>, tools: &Tools) -> Result<DrillPlan, NoPlan> {
    if let Gate::Shut(shut) = gate(at) {
        return Err(NoPlan::Shut(shut));
    }
    let facts = &at.choice.facts;
    // The gate is open only with a hole and a measured depth.
    let (Some(hole), Some(depth), Some(set)) = (at.hole(), at.look.depth(at.label), at.set())
    else {
        return Err(NoPlan::Shut(vec![Shut::RingSetOpen]));
    };
    let making = making(hole, facts.material, facts.old_hole);
    if making.cuts() == Cut::WithCentreDrill {
        match tools.reach_past_teeth {
            None => return Err(NoPlan::ReachNotEntered),
            Some(typed) if !(0.0..=150.0).contains(&typed.0) => {
                return Err(NoPlan::ReachMakesNoSense { typed });
            }
            Some(reach) if reach >= depth => return Err(NoPlan::ReachesTooFar { reach, depth }),
            Some(_) => {}
        }
    }
    let stop = Millimetres(PILOT_REACH.0.min(depth.0 / 2.0));
    let has_pilot = matches!(making, Making::Saw(_) | Making::StepDrill(_));
    let pilot = at.sheet.holes.pilot.filter(|_| has_pilot);
    let ring = at.sheet.ring(&set.ring);
    let lift = ring.map_or(Degrees(0.0), |r| r.lift);
    Ok(DrillPlan {
        label: at.label.to_owned(),
        making,
        pilot,
        stop,
        cautions: cautions(making, facts.material, tools),
        steps: steps(at.label, making, pilot, stop, facts.material)
            .into_iter()
            .chain(fitting(set.name(), lift))
            .collect(),
    })
}

fn cautions(making: Making, material: Material, tools: &Tools) -> Vec<Message> {
    let mut all = vec![msg("drill-caution-maker")];
    if making.cuts() == Cut::Nothing {
        return all;
    }
    all.push(msg("drill-caution-eyes"));
    all.push(msg("drill-caution-gloves"));
    let cold = tools.bumper_celsius.is_none_or(|t| t < WARM_BELOW_CELSIUS);
    if material == Material::Plastic && cold {
        all.push(msg("drill-caution-cold"));
    }
    if material == Material::Fibre {
        all.push(msg("drill-caution-dust"));
    }
    all
}

fn steps(
    label: &str,
    making: Making,
    pilot: Option<Millimetres>,
    stop: Millimetres,
    material: Material,
) -> Vec<Message> {
    let mut all = vec![msg("drill-step-confirm-from-behind").text("label", label)];
    if making.cuts() == Cut::Nothing {
        all.push(making.message());
        all.push(msg("drill-step-check-edge"));
        return all;
    }
    if matches!(making, Making::Saw(_) | Making::StepDrill(_)) {
        all.push(match pilot {
            Some(d) => msg("drill-step-pilot")
                .number("diameter", d.0, 1)
                .mm("stop", stop.0),
            None => msg("drill-step-pilot-thin").mm("stop", stop.0),
        });
    }
    all.push(making.message());
    if making.cuts() == Cut::WithCentreDrill {
        all.push(msg("drill-step-centre-stop").mm("stop", stop.0));
    }
    all.push(msg("drill-step-tape-off"));
    all.push(msg("drill-step-swarf"));
    // A tight fit in the panel causes false alarms, so it is filed free.
    all.push(msg("drill-step-file"));
    all.push(if material == Material::Metal {
        msg("drill-step-touch-in-metal")
    } else {
        msg("drill-step-touch-in")
    });
    all
}

/// Ring and head go in: which side up, and where to press.
fn fitting(set: Message, lift: Degrees) -> Vec<Message> {
    vec![
        msg("drill-step-arrow-up")
            .message("set", set)
            .deg("twice", 2.0 * lift.0),
        msg("drill-step-press-edge"),
        msg("drill-step-clicked-and-tugged"),
    ]
}
