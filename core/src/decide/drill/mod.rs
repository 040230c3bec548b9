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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::look_behind::{Behind, LookBehind, Looked};
    use crate::decide::ring_set::{RakeOrigin, SpotFacts, choose};
    use crate::kit::{KitSheet, parse};
    use crate::units::{Estimate, Offset};

    const METAL: &str = include_str!("../../../../assets/kits/metal-four.json");

    fn sheet() -> KitSheet {
        parse(METAL).unwrap()
    }

    fn facts(material: Material, old_hole: Option<f64>) -> SpotFacts {
        let rake = Estimate::new(Degrees(-6.0), Degrees(0.2));
        SpotFacts {
            material,
            old_hole: old_hole.map(Millimetres),
            ..SpotFacts::plain(rake, RakeOrigin::Typed)
        }
    }

    fn planned(facts: &SpotFacts, depth: f64, tools: &Tools) -> Result<DrillPlan, NoPlan> {
        let sheet = sheet();
        let choice = choose(&sheet, facts);
        let look = LookBehind {
            bumper: Looked {
                behind: Some(Behind::SeenAndClear),
                depth: Some(Millimetres(depth)),
                ..Looked::default()
            },
            ..LookBehind::default()
        };
        let at = AtHead {
            sheet: &sheet,
            label: "2",
            mark: Offset(-230.0),
            choice: &choice,
            instead: None,
            look: &look,
        };
        plan(&at, tools)
    }

    fn short() -> Tools {
        Tools {
            reach_past_teeth: Some(Millimetres(18.0)),
            bumper_celsius: Some(20.0),
        }
    }

    fn keys(messages: &[Message]) -> Vec<&str> {
        messages.iter().map(|m| m.key.as_ref()).collect()
    }

    #[test]
    fn a_plastic_bumper_is_sawn_in_the_order_of_work() {
        let plan = planned(&facts(Material::Plastic, None), 60.0, &short()).unwrap();
        assert_eq!(plan.making, Making::Saw(Millimetres(21.0)));
        assert_eq!(plan.pilot, Some(Millimetres(4.0)));
        let wanted = [
            "drill-step-confirm-from-behind",
            "drill-step-pilot",
            "drill-step-saw",
            "drill-step-centre-stop",
            "drill-step-tape-off",
            "drill-step-swarf",
            "drill-step-file",
            "drill-step-touch-in",
            "drill-step-arrow-up",
            "drill-step-press-edge",
            "drill-step-clicked-and-tugged",
        ];
        assert_eq!(keys(&plan.steps), wanted);
        let wanted = [
            "drill-caution-maker",
            "drill-caution-eyes",
            "drill-caution-gloves",
        ];
        assert_eq!(keys(&plan.cautions), wanted);
    }

    #[test]
    fn metal_gets_a_step_drill_to_the_inserts_hole() {
        let facts = facts(Material::Metal, None);
        let plan = planned(&facts, 60.0, &Tools::default()).unwrap();
        assert_eq!(plan.making, Making::StepDrill(Millimetres(28.0)));
        assert!(keys(&plan.steps).contains(&"drill-step-touch-in-metal"));
    }

    #[test]
    fn fibre_gets_its_own_hole_and_a_word_about_dust() {
        let plan = planned(&facts(Material::Fibre, None), 60.0, &short()).unwrap();
        assert_eq!(plan.making, Making::Saw(Millimetres(21.5)));
        assert!(keys(&plan.cautions).contains(&"drill-caution-dust"));
    }

    #[test]
    fn a_cold_or_unknown_plastic_bumper_is_warmed() {
        for bumper_celsius in [None, Some(3.0)] {
            let tools = Tools {
                bumper_celsius,
                ..short()
            };
            let plan = planned(&facts(Material::Plastic, None), 60.0, &tools).unwrap();
            assert!(keys(&plan.cautions).contains(&"drill-caution-cold"));
        }
    }

    #[test]
    fn the_saws_centre_drill_must_stay_short_of_what_is_behind() {
        let facts = facts(Material::Plastic, None);
        let with = |reach: Option<f64>| {
            let tools = Tools {
                reach_past_teeth: reach.map(Millimetres),
                ..short()
            };
            planned(&facts, 60.0, &tools)
        };
        assert_eq!(with(None), Err(NoPlan::ReachNotEntered));
        let wrong = NoPlan::ReachesTooFar {
            reach: Millimetres(60.0),
            depth: Millimetres(60.0),
        };
        assert_eq!(with(Some(60.0)), Err(wrong));
        assert!(with(Some(59.9)).is_ok());
        for nonsense in [-1.0, f64::NAN, 1000.0] {
            assert!(matches!(
                with(Some(nonsense)),
                Err(NoPlan::ReachMakesNoSense { .. })
            ));
        }
    }

    #[test]
    fn old_holes_are_kept_widened_or_covered() {
        let making = |old| {
            let plan = planned(&facts(Material::Plastic, Some(old)), 60.0, &short());
            plan.unwrap().making
        };
        let mm = Millimetres;
        assert_eq!(making(21.0), Making::KeepOldHole(mm(21.0)));
        let widen = Making::WidenOldHole {
            from: mm(18.0),
            to: mm(21.0),
        };
        assert_eq!(making(18.0), widen);
        assert_eq!(making(29.0), Making::CoverOldHole(mm(29.0)));
        let widen = Making::WidenOldHole {
            from: mm(25.0),
            to: mm(28.0),
        };
        assert_eq!(making(25.0), widen);
    }

    #[test]
    fn a_shut_gate_gives_no_plan() {
        let faults = planned(&facts(Material::Plastic, None), 30.0, &short()).unwrap_err();
        assert!(matches!(&faults, NoPlan::Shut(shut) if shut.len() == 1));
        assert_eq!(keys(&faults.messages()), ["drill-shut-too-shallow"]);
    }
}
