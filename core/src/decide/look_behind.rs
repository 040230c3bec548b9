//! Look behind: what is behind the face, and what opens the drill.
//!
//! Answered once for the bumper, with exceptions for heads. Only 'seen and
//! clear' goes on; nothing here is assumed that was not seen.

use serde::{Deserialize, Serialize};

use super::ring_set::{Blocked, RingChoice, RingSet};
use crate::kit::{Heads, KitSheet};
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// What stands behind the face.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
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
    /// Key of the photo, if one was taken.
    pub photo: Option<String>,
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
        mark.0 > from - wider && mark.0 < to + wider
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

/// Why the drill stays shut.
#[derive(Clone, Debug, PartialEq)]
pub enum Shut {
    /// Nobody has looked.
    NotLooked,
    /// Something is there.
    SomethingThere(Vec<Obstacle>),
    /// It could not be seen.
    CouldNotSee,
    /// The depth was not measured.
    DepthNotMeasured,
    /// The head does not fit behind the face.
    TooShallow {
        /// What head, connector and bend need.
        needs: Millimetres,
        /// What was measured.
        depth: Millimetres,
    },
    /// The connector does not pass the hole.
    ConnectorTooLarge {
        /// The connector's diameter.
        connector: Millimetres,
        /// The hole's diameter.
        hole: Millimetres,
    },
    /// The panel is outside what the head grips.
    PanelOutsideGrip {
        /// The panel's thickness.
        panel: Millimetres,
        /// Thinnest that it grips.
        least: Millimetres,
        /// Thickest that it grips.
        greatest: Millimetres,
    },
    /// The mark lies in a no-drill area.
    NoDrill(NoDrill),
    /// The ring set is not settled where the hole hangs on it.
    RingSetOpen,
    /// The sheet does not say what is needed here.
    Ask {
        /// The field of the sheet.
        field: &'static str,
    },
}

impl Shut {
    /// What the fitter is told: why, by how much, what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::NotLooked => msg("drill-shut-not-looked"),
            Self::SomethingThere(what) => match what.as_slice() {
                [Obstacle::Foam(BehindFoam::NotSeen)] => msg("drill-shut-foam-not-seen"),
                [Obstacle::Foam(BehindFoam::SeenAndClear)] => msg("drill-shut-foam-seen"),
                what => msg("drill-shut-something-there")
                    .list("what", what.iter().map(Obstacle::message).collect()),
            },
            Self::CouldNotSee => msg("drill-shut-could-not-see"),
            Self::DepthNotMeasured => msg("drill-shut-depth-not-measured"),
            Self::TooShallow { needs, depth } => msg("drill-shut-too-shallow")
                .mm("needs", needs.0)
                .mm("depth", depth.0)
                .mm("by", needs.0 - depth.0),
            Self::ConnectorTooLarge { connector, hole } => msg("drill-shut-connector")
                .number("connector", connector.0, 1)
                .number("hole", hole.0, 1),
            Self::PanelOutsideGrip {
                panel,
                least,
                greatest,
            } => msg("drill-shut-grip")
                .number("panel", panel.0, 1)
                .number("least", least.0, 1)
                .number("greatest", greatest.0, 1),
            Self::NoDrill(area) => msg("drill-shut-no-drill")
                .message("what", area.what.message())
                .mm("from", area.from.0)
                .mm("to", area.to.0),
            Self::RingSetOpen => msg("drill-shut-ring-set-open"),
            Self::Ask { field } => msg("drill-shut-ask").message("field", msg(field)),
        }
    }
}

/// Whether the drill may be used at a head.
#[derive(Clone, Debug, PartialEq)]
pub enum Gate {
    /// Go on.
    Open,
    /// Not yet, for these reasons.
    Shut(Vec<Shut>),
}

impl Gate {
    /// Whether the drill may be used.
    #[must_use]
    pub fn is_open(&self) -> bool {
        *self == Self::Open
    }
}

/// What the drill is to do at one head.
#[derive(Clone, Copy, Debug)]
pub struct AtHead<'a> {
    /// The job's sheet.
    pub sheet: &'a KitSheet,
    /// The head's label.
    pub label: &'a str,
    /// Its mark, straight.
    pub mark: Offset,
    /// What was chosen there.
    pub choice: &'a RingChoice,
    /// A set taken by hand instead, with its reason kept elsewhere.
    pub by_hand: Option<&'a RingSet>,
    /// What was seen and measured.
    pub look: &'a LookBehind,
}

impl AtHead<'_> {
    /// The set that goes in: the one taken by hand, else the chosen one.
    #[must_use]
    pub fn set(&self) -> Option<&RingSet> {
        self.by_hand.or(self.choice.set())
    }

    /// The hole that this set needs.
    #[must_use]
    pub fn hole(&self) -> Option<Millimetres> {
        self.set()?.hole(self.sheet, self.choice.facts.material)
    }
}

/// Depth that a head needs behind the face: head, connector and bend.
///
/// # Errors
/// The key of the first field that the sheet does not give.
pub fn depth_needed(heads: &Heads) -> Result<Millimetres, &'static str> {
    let depth = heads.depth.ok_or("kit-field-heads-depth")?;
    let connector = heads
        .connector_length
        .ok_or("kit-field-heads-connector-length")?;
    let bend = heads.bend.ok_or("kit-field-heads-bend")?;
    Ok(depth + connector + bend)
}

/// Whether the drill may be used at a head: seen and clear, deep enough, the
/// connector passes, no no-drill area, and the hole settled.
#[must_use]
pub fn gate(at: &AtHead<'_>) -> Gate {
    let mut shut = Vec::new();
    match at.look.behind(at.label) {
        None => shut.push(Shut::NotLooked),
        Some(Behind::CouldNotSee) => shut.push(Shut::CouldNotSee),
        Some(Behind::SomethingThere(what)) => shut.push(Shut::SomethingThere(what.clone())),
        Some(Behind::SeenAndClear) => {}
    }
    let heads = &at.sheet.heads;
    match (depth_needed(heads), at.look.depth(at.label)) {
        (_, None) => shut.push(Shut::DepthNotMeasured),
        (Err(field), _) => shut.push(Shut::Ask { field }),
        (Ok(needs), Some(depth)) if depth < needs => shut.push(Shut::TooShallow { needs, depth }),
        (Ok(_), Some(_)) => {}
    }
    if let (Some(grip), Some(panel)) = (&heads.grip, at.look.panel(at.label))
        && (panel < grip.least || panel > grip.greatest)
    {
        shut.push(Shut::PanelOutsideGrip {
            panel,
            least: grip.least,
            greatest: grip.greatest,
        });
    }
    match at.hole() {
        None => shut.push(Shut::RingSetOpen),
        Some(hole) => {
            match heads.connector_diameter {
                None => shut.push(Shut::Ask {
                    field: "kit-field-heads-connector-diameter",
                }),
                Some(connector) if connector >= hole => {
                    shut.push(Shut::ConnectorTooLarge { connector, hole });
                }
                Some(_) => {}
            }
            let clearance = at.sheet.mark_out.clearance;
            let areas = at.look.no_drill.iter();
            let hit = areas.filter(|a| a.refuses(at.mark, hole, clearance));
            shut.extend(hit.cloned().map(Shut::NoDrill));
            if at.by_hand.is_none() && at.choice.blocks(Blocked::Drill) {
                shut.push(Shut::RingSetOpen);
            }
        }
    }
    if shut.is_empty() {
        Gate::Open
    } else {
        Gate::Shut(shut)
    }
}
