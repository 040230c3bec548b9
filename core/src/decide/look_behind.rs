//! Look behind: what is behind the face.
//!
//! Answered once for the bumper, with exceptions for heads. Only 'seen and
//! clear' goes on (see [`super::drill::gate`]); nothing here is assumed that
//! was not seen.

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// What stands behind the face.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Obstacle {
    /// The crash beam.
    CrashBeam,
    /// An airbag or crash sensor, or its lead.
    AirbagOrCrashSensor,
    /// A radar or its bracket.
    Radar,
    /// Wiring.
    Wiring,
    /// A fuel or vapour line or tank.
    FuelOrVapour,
    /// Exhaust or other hot parts.
    HotParts,
    /// Foam in front of the beam.
    Foam(BehindFoam),
    /// A ridge or step under the flange.
    RidgeOrStep,
    /// Something else, in the fitter's words.
    Other(String),
}

/// Whether it was seen what is behind foam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum BehindFoam {
    /// Seen, and nothing is there.
    SeenAndClear,
    /// Not seen yet.
    NotSeen,
}

impl Obstacle {
    /// Its name.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::CrashBeam => msg("behind-crash-beam"),
            Self::AirbagOrCrashSensor => msg("behind-airbag-or-crash-sensor"),
            Self::Radar => msg("behind-radar"),
            Self::Wiring => msg("behind-wiring"),
            Self::FuelOrVapour => msg("behind-fuel-or-vapour"),
            Self::HotParts => msg("behind-hot-parts"),
            Self::Foam(_) => msg("behind-foam"),
            Self::RidgeOrStep => msg("behind-ridge-or-step"),
            Self::Other(words) => msg("behind-other").text("words", words.clone()),
        }
    }
}

/// The answer to 'What is behind it?'.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Behind {
    /// Seen, and nothing is there.
    SeenAndClear,
    /// Something is there.
    SomethingThere(Vec<Obstacle>),
    /// It could not be seen.
    CouldNotSee,
}

/// What was answered and measured for the bumper or for one head.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Looked {
    /// What is behind it.
    pub behind: Option<Behind>,
    /// Free depth behind the face, measured.
    pub depth: Option<Millimetres>,
    /// Thickness of the panel, measured.
    pub panel: Option<Millimetres>,
}

/// The answers of a job: once for the bumper, exceptions for heads.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct LookBehind {
    /// For all heads without an exception.
    pub bumper: Looked,
    /// Exceptions by the head's label; what an exception leaves open, the
    /// bumper's answer fills.
    pub exceptions: Vec<(String, Looked)>,
    /// Where nothing may be drilled.
    pub no_drill: Vec<NoDrill>,
}

/// An interval along the bumper where nothing may be drilled. Its ends are allowed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NoDrill {
    /// Left end, straight.
    pub from: Offset,
    /// Right end, straight.
    pub to: Offset,
    /// What is there.
    pub what: Obstacle,
}

impl NoDrill {
    /// Whether a hole at a mark comes into it: the interval, widened by hole
    /// radius and clearance, is open.
    #[must_use]
    pub fn refuses(&self, mark: Offset, hole: Millimetres, clearance: Millimetres) -> bool {
        let wider = hole.0 / 2.0 + clearance.0;
        let (from, to) = if self.from <= self.to {
            (self.from.0, self.to.0)
        } else {
            (self.to.0, self.from.0)
        };
        // What is no number refuses.
        let clear = mark.0 <= from - wider || mark.0 >= to + wider;
        !clear
    }
}

impl LookBehind {
    fn exception(&self, label: &str) -> Option<&Looked> {
        self.exceptions
            .iter()
            .find(|(l, _)| l == label)
            .map(|(_, looked)| looked)
    }

    /// What is behind a head.
    #[must_use]
    pub fn behind(&self, label: &str) -> Option<&Behind> {
        self.exception(label)
            .and_then(|e| e.behind.as_ref())
            .or(self.bumper.behind.as_ref())
    }

    /// Free depth behind a head.
    #[must_use]
    pub fn depth(&self, label: &str) -> Option<Millimetres> {
        self.exception(label)
            .and_then(|e| e.depth)
            .or(self.bumper.depth)
    }

    /// Thickness of the panel at a head.
    #[must_use]
    pub fn panel(&self, label: &str) -> Option<Millimetres> {
        self.exception(label)
            .and_then(|e| e.panel)
            .or(self.bumper.panel)
    }
}
