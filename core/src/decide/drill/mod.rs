//! Drill plan: every hole answered before it is made.
//!
//! The order of work at one head, from the mark that is confirmed from
//! behind to the head that is pressed in at its edge. Steps and cautions are
//! messages; what is missing is asked.

mod cutter;
mod gate;
mod steps;

pub use cutter::{Cutter, NoPlan, Tools};
pub use gate::{AtHead, GREATEST_DEPTH, Gate, Instead, Shut, depth_needed, gate};
pub use steps::{WARM_BELOW_CELSIUS, fitting_steps};

use serde::{Deserialize, Serialize};

use cutter::stays_short;
use steps::{cautions, steps};

pub use crate::decide::ring_set::OLD_HOLE_FITS_WITHIN;
use crate::decide::ring_set::passes_for;
use crate::kit::Material;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// A pilot reaches at most so far behind the panel (our own figure).
pub const PILOT_REACH: Millimetres = Millimetres(12.0);
/// A step drill makes holes up to this in metal; larger ones are sawn (our own figure).
pub const LARGEST_STEP_DRILL: Millimetres = Millimetres(32.0);

/// How a hole is made.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Making {
    /// Hole saw of that diameter.
    Saw(Millimetres),
    /// Step drill to that diameter.
    StepDrill(Millimetres),
    /// The old hole is kept as it is.
    KeepOldHole(Millimetres),
    /// The old hole is widened: a saw has no centre there, so by a step drill
    /// up to [`LARGEST_STEP_DRILL`], and beyond that the hole is plugged for
    /// the saw.
    WidenOldHole {
        /// The old hole.
        from: Millimetres,
        /// The hole wanted.
        to: Millimetres,
    },
    /// The old hole is larger than the insert's own and lies under it.
    CoverOldHole(Millimetres),
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

/// How a hole comes about. The gate has refused an old hole that is larger
/// than the set covers, so that a larger one lies under an insert.
fn making(hole: Millimetres, material: Material, old_hole: Option<Millimetres>) -> Making {
    match old_hole {
        Some(old) if passes_for(old, hole) => Making::KeepOldHole(old),
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
            Self::WidenOldHole { from, to } => msg(if *to > LARGEST_STEP_DRILL {
                "drill-step-plug-old-hole"
            } else {
                "drill-step-widen-old-hole"
            })
            .number("from", from.0, 1)
            .number("to", to.0, 1),
        }
    }

    /// What cuts; `None` where an old hole stays.
    fn cutter(self) -> Option<Cutter> {
        match self {
            Self::Saw(_) => Some(Cutter::Saw),
            Self::StepDrill(_) => Some(Cutter::StepDrill),
            Self::WidenOldHole { to, .. } if to > LARGEST_STEP_DRILL => Some(Cutter::Saw),
            Self::WidenOldHole { .. } => Some(Cutter::StepDrill),
            Self::KeepOldHole(_) | Self::CoverOldHole(_) => None,
        }
    }

    /// The diameter of the hole that is there when it is made.
    #[must_use]
    pub fn diameter(self) -> Millimetres {
        match self {
            Self::Saw(d)
            | Self::StepDrill(d)
            | Self::KeepOldHole(d)
            | Self::CoverOldHole(d)
            | Self::WidenOldHole { to: d, .. } => d,
        }
    }
}

/// The plan for the hole of one head.
///
/// # Errors
/// When the gate is shut, or what cuts is not known to stay short of what is
/// behind.
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
    if let Some(cutter) = making.cutter() {
        stays_short(cutter, tools, depth)?;
    }
    let stop = Millimetres(PILOT_REACH.0.min(depth.0 / 2.0));
    let has_pilot = matches!(making, Making::Saw(_) | Making::StepDrill(_));
    let pilot = at.sheet.holes.pilot.filter(|_| has_pilot);
    let mut steps = steps(at.label, making, pilot, stop, facts.material);
    if let (Some(grip), None) = (&at.sheet.heads.grip, at.look.panel(at.label)) {
        let measure = msg("drill-step-measure-panel")
            .number("least", grip.least.0, 1)
            .number("greatest", grip.greatest.0, 1);
        steps.insert(1, measure);
    }
    steps.extend(fitting_steps(
        at.sheet,
        set,
        at.sheet.heads.comes_with.as_deref(),
    ));
    Ok(DrillPlan {
        label: at.label.to_owned(),
        making,
        pilot,
        stop,
        cautions: cautions(making, facts.material, tools),
        steps,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::look_behind::{Behind, LookBehind, Looked};
    use crate::decide::ring_set::{RakeOrigin, RingSet, SpotFacts, choose};
    use crate::kit::{KitSheet, parse};
    use crate::units::{Degrees, Estimate, Offset};

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
            step_drill_reach: Some(Millimetres(35.0)),
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
            "drill-step-measure-panel",
            "drill-step-pilot",
            "drill-step-saw",
            "drill-step-centre-stop",
            "drill-step-tape-off",
            "drill-step-swarf",
            "drill-step-file",
            "drill-step-touch-in",
            "drill-step-comes-off",
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
        let plan = planned(&facts, 60.0, &short()).unwrap();
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
        assert_eq!(with(None), Err(NoPlan::ReachNotEntered(Cutter::Saw)));
        let wrong = NoPlan::ReachesTooFar {
            cutter: Cutter::Saw,
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
    fn the_step_drills_tip_must_stay_short_of_what_is_behind() {
        let with = |facts: &SpotFacts, reach: Option<f64>| {
            let tools = Tools {
                step_drill_reach: reach.map(Millimetres),
                ..short()
            };
            planned(facts, 60.0, &tools)
        };
        let metal = facts(Material::Metal, None);
        let widened = facts(Material::Plastic, Some(18.0));
        for facts in [metal, widened] {
            let cutter = Cutter::StepDrill;
            let none = with(&facts, None).unwrap_err();
            assert_eq!(none, NoPlan::ReachNotEntered(cutter));
            assert_eq!(keys(&none.messages()), ["drill-step-reach-not-entered"]);
            let wrong = NoPlan::ReachesTooFar {
                cutter,
                reach: Millimetres(60.0),
                depth: Millimetres(60.0),
            };
            assert_eq!(with(&facts, Some(60.0)), Err(wrong));
            assert!(with(&facts, Some(59.9)).is_ok());
            let nonsense = with(&facts, Some(f64::NAN));
            assert!(matches!(nonsense, Err(NoPlan::ReachMakesNoSense { .. })));
        }
        let kept = facts(Material::Plastic, Some(21.0));
        assert!(with(&kept, None).is_ok(), "nothing is cut there");
    }

    #[test]
    fn an_old_hole_too_small_for_any_step_drill_is_plugged_and_the_saws_reach_counts() {
        let making = Making::WidenOldHole {
            from: Millimetres(25.0),
            to: Millimetres(36.0),
        };
        assert_eq!(making.cutter(), Some(Cutter::Saw));
        assert_eq!(making.message().key, "drill-step-plug-old-hole");
        let stop = Millimetres(12.0);
        let steps = steps("2", making, None, stop, Material::Plastic);
        assert!(keys(&steps).contains(&"drill-step-centre-stop"));
    }

    #[test]
    fn a_tight_old_hole_is_kept_and_filed_until_the_head_goes_in() {
        for old in [20.7, 21.2] {
            let plan = planned(&facts(Material::Plastic, Some(old)), 60.0, &short()).unwrap();
            assert_eq!(plan.making, Making::KeepOldHole(Millimetres(old)));
            assert_eq!(plan.making.diameter(), Millimetres(old));
            let keys = keys(&plan.steps);
            for wanted in ["drill-step-file", "drill-step-touch-in"] {
                assert!(keys.contains(&wanted), "{old}: {wanted}");
            }
        }
        let refused = planned(&facts(Material::Plastic, Some(31.0)), 60.0, &short());
        assert!(refused.is_err());
    }

    #[test]
    fn a_measured_panel_is_not_asked_for_again() {
        let sheet = sheet();
        let choice = choose(&sheet, &facts(Material::Plastic, None));
        let look = LookBehind {
            bumper: Looked {
                behind: Some(Behind::SeenAndClear),
                depth: Some(Millimetres(60.0)),
                panel: Some(Millimetres(3.0)),
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
        let plan = plan(&at, &short()).unwrap();
        assert!(!keys(&plan.steps).contains(&"drill-step-measure-panel"));
    }

    #[test]
    fn the_ring_that_comes_off_and_how_the_new_one_seats_are_said_at_the_head() {
        let mut sheet = sheet();
        sheet.rings[0].comes_off = Some("Lift the tab.".to_owned());
        sheet.rings[2].seats = Some("Two clicks.".to_owned());
        let nine = RingSet::ring("9");
        let steps = fitting_steps(&sheet, &nine, Some("2"));
        let wanted = [
            msg("drill-step-comes-off-how")
                .text("ring", "2")
                .text("how", "Lift the tab."),
            msg("drill-step-arrow-up")
                .message("set", nine.name())
                .deg("twice", 18.0),
            msg("drill-step-seats")
                .text("ring", "9")
                .text("how", "Two clicks."),
        ];
        assert_eq!(steps[..3], wanted);
        let same = fitting_steps(&sheet, &nine, Some("9"));
        assert_eq!(keys(&same)[0], "drill-step-arrow-up");
    }

    #[test]
    fn upside_down_is_twice_the_rings_lift_in_words_and_in_the_drawing() {
        // A sheet whose head and insert add something themselves.
        let mut sheet = sheet();
        sheet.heads.bare_lift = Degrees(1.5);
        let choice = choose(&sheet, &facts(Material::Metal, None));
        let set = RingSet::with_insert("5", "steep");
        let candidate = choice.candidate(&sheet, &set).unwrap();
        let lost = candidate.aim.value - candidate.aim_upside_down(&sheet);
        assert!((lost.0 - 10.0).abs() < 1e-9, "{lost:?}");
        let steps = fitting_steps(&sheet, &set, None);
        let wanted = msg("drill-step-arrow-up")
            .message("set", set.name())
            .deg("twice", 10.0);
        assert_eq!(steps[0], wanted);
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
