//! The gate before the drill: what keeps it shut at a head.

use crate::decide::look_behind::{Behind, BehindFoam, LookBehind, NoDrill, Obstacle};
use crate::decide::ring_set::{Blocked, RingChoice, RingSet};
use crate::kit::{Heads, KitSheet};
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

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
    /// A depth that no bumper has.
    DepthMakesNoSense {
        /// As typed.
        typed: Millimetres,
    },
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
            Self::DepthMakesNoSense { typed } => {
                msg("drill-shut-depth-makes-no-sense").mm("typed", typed.0)
            }
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

/// A set taken instead of the one chosen for the spot alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Instead<'a> {
    /// By hand, with a reason: the fitter answers for the hole.
    ByHand(&'a RingSet),
    /// For the pair: an open verdict still keeps the drill shut.
    ForPair(&'a RingSet),
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
    /// A set taken instead of the chosen one.
    pub instead: Option<Instead<'a>>,
    /// What was seen and measured.
    pub look: &'a LookBehind,
}

impl AtHead<'_> {
    /// The set that goes in: the one taken instead, else the chosen one.
    #[must_use]
    pub fn set(&self) -> Option<&RingSet> {
        match self.instead {
            Some(Instead::ByHand(set) | Instead::ForPair(set)) => Some(set),
            None => self.choice.set(),
        }
    }

    /// The hole that this set needs.
    #[must_use]
    pub fn hole(&self) -> Option<Millimetres> {
        self.set()?.hole(self.sheet, self.choice.facts.material)
    }
}

/// A greater depth behind a face is a slip of the finger (our own figure).
pub const GREATEST_DEPTH: Millimetres = Millimetres(1500.0);

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
        (_, Some(typed)) if !(0.0..=GREATEST_DEPTH.0).contains(&typed.0) => {
            shut.push(Shut::DepthMakesNoSense { typed });
        }
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
            let answered_for = matches!(at.instead, Some(Instead::ByHand(_)));
            if !answered_for && at.choice.blocks(Blocked::Drill) {
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
