//! What cuts the hole, how far it reaches behind the panel while it does,
//! and why there is no plan yet.

use serde::{Deserialize, Serialize};

use super::Shut;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// The workshop's tools, entered once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Tools {
    /// How far the saw's own centre drill reaches past the teeth.
    pub reach_past_teeth: Option<Millimetres>,
    /// How far the step drill's tip is past the panel when the hole has its size.
    pub step_drill_reach: Option<Millimetres>,
    /// Temperature of the bumper in °C, if known.
    pub bumper_celsius: Option<f64>,
}

/// What cuts a hole and reaches behind the panel while it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cutter {
    /// The hole saw: its own centre drill reaches past the teeth.
    Saw,
    /// The step drill: its tip is well past the panel when the hole has its size.
    StepDrill,
}

impl Cutter {
    fn reach(self, tools: &Tools) -> Option<Millimetres> {
        match self {
            Self::Saw => tools.reach_past_teeth,
            Self::StepDrill => tools.step_drill_reach,
        }
    }

    fn told(self, saw: &'static str, step_drill: &'static str) -> Message {
        msg(match self {
            Self::Saw => saw,
            Self::StepDrill => step_drill,
        })
    }
}

/// A longer reach is a slip of the finger (our own figure).
const LONGEST_REACH: f64 = 150.0;

/// Why there is no plan for a hole yet.
#[derive(Clone, Debug, PartialEq)]
pub enum NoPlan {
    /// The gate is shut.
    Shut(Vec<Shut>),
    /// How far the cutter reaches behind the panel is not entered.
    ReachNotEntered(Cutter),
    /// The cutter reaches as far as the measured depth or further.
    ReachesTooFar {
        /// Which cutter.
        cutter: Cutter,
        /// How far it reaches behind the panel.
        reach: Millimetres,
        /// The measured depth.
        depth: Millimetres,
    },
    /// A reach that no cutter has.
    ReachMakesNoSense {
        /// Which cutter.
        cutter: Cutter,
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
            Self::ReachNotEntered(cutter) => {
                vec![cutter.told("drill-reach-not-entered", "drill-step-reach-not-entered")]
            }
            Self::ReachesTooFar {
                cutter,
                reach,
                depth,
            } => vec![
                cutter
                    .told("drill-reaches-too-far", "drill-step-reaches-too-far")
                    .mm("reach", reach.0)
                    .mm("depth", depth.0),
            ],
            Self::ReachMakesNoSense { cutter, typed } => vec![
                cutter
                    .told(
                        "drill-reach-makes-no-sense",
                        "drill-step-reach-makes-no-sense",
                    )
                    .mm("typed", typed.0),
            ],
        }
    }
}

/// Whether a cutter stays short of what is behind.
pub(super) fn stays_short(cutter: Cutter, tools: &Tools, depth: Millimetres) -> Result<(), NoPlan> {
    match cutter.reach(tools) {
        None => Err(NoPlan::ReachNotEntered(cutter)),
        Some(typed) if !(0.0..=LONGEST_REACH).contains(&typed.0) => {
            Err(NoPlan::ReachMakesNoSense { cutter, typed })
        }
        Some(reach) if reach >= depth => Err(NoPlan::ReachesTooFar {
            cutter,
            reach,
            depth,
        }),
        Some(_) => Ok(()),
    }
}
