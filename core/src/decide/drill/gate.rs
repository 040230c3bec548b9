//! The gate before the drill: what keeps it shut at a head.

use crate::decide::look_behind::{Behind, BehindFoam, LookBehind, NoDrill, Obstacle};
use crate::decide::ring_set::{Blocked, Outcome, RingChoice, RingSet};
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
    /// The old hole is larger than the set that goes in covers.
    OldHoleTooLarge {
        /// The old hole, diameter.
        old_hole: Millimetres,
        /// What the set covers, diameter.
        covers: Millimetres,
    },
    /// This panel must not be met without its insert.
    PanelNeedsInsert,
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
            Self::OldHoleTooLarge { old_hole, covers } => msg("drill-shut-old-hole")
                .number("old_hole", old_hole.0, 1)
                .number("covers", covers.0, 1)
                .number("by", old_hole.0 - covers.0, 1),
            Self::PanelNeedsInsert => msg("drill-shut-panel-needs-insert"),
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
    /// By hand, with a reason: the fitter answers for the aim and for the
    /// size of the hole, not for what cannot be.
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

    /// What no reason makes right about the set that goes in: it does not
    /// cover the old hole, or the panel needs an insert that it has not.
    fn impossible(&self) -> Option<Shut> {
        match self.choice.candidate(self.sheet, self.set()?) {
            None => Some(Shut::RingSetOpen),
            Some(candidate) => match candidate.outcome {
                Outcome::OldHoleTooLarge { old_hole, covers } => {
                    Some(Shut::OldHoleTooLarge { old_hole, covers })
                }
                Outcome::MaterialNeedsAnInsert => Some(Shut::PanelNeedsInsert),
                _ => None,
            },
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
            if let Some(impossible) = at.impossible() {
                shut.push(impossible);
            } else if !answered_for && at.choice.blocks(Blocked::Drill) {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::look_behind::Looked;
    use crate::decide::ring_set::{RakeOrigin, SpotFacts, choose};
    use crate::kit::parse;
    use crate::units::{Degrees, Estimate};

    const PLAIN: &str = include_str!("../../../../assets/kits/plain-four.json");
    const METAL: &str = include_str!("../../../../assets/kits/metal-four.json");

    fn looked(behind: Option<Behind>, depth: Option<f64>) -> Looked {
        Looked {
            behind,
            depth: depth.map(Millimetres),
            ..Looked::default()
        }
    }

    fn clear(depth: f64) -> LookBehind {
        LookBehind {
            bumper: looked(Some(Behind::SeenAndClear), Some(depth)),
            ..LookBehind::default()
        }
    }

    fn choice(sheet: &KitSheet, rake: f64, u: f64) -> RingChoice {
        let rake = Estimate::new(Degrees(rake), Degrees(u));
        choose(sheet, &SpotFacts::plain(rake, RakeOrigin::Zeroed))
    }

    fn shut(sheet: &KitSheet, choice: &RingChoice, look: &LookBehind) -> Vec<Shut> {
        let at = AtHead {
            sheet,
            label: "2",
            mark: Offset(-230.0),
            choice,
            instead: None,
            look,
        };
        match gate(&at) {
            Gate::Open => Vec::new(),
            Gate::Shut(shut) => shut,
        }
    }

    fn on_plain(look: &LookBehind) -> Vec<Shut> {
        let sheet = parse(PLAIN).unwrap();
        shut(&sheet, &choice(&sheet, -6.0, 0.2), look)
    }

    #[test]
    fn only_seen_and_clear_with_depth_enough_opens_the_drill() {
        // Head 17, connector 19, bend 14.
        assert_eq!(on_plain(&clear(50.0)), []);
        let mut look = clear(60.0);
        look.bumper.behind = Some(Behind::CouldNotSee);
        assert_eq!(on_plain(&look), [Shut::CouldNotSee]);
        look.bumper.behind = None;
        assert_eq!(on_plain(&look), [Shut::NotLooked]);
        let radar = vec![Obstacle::Radar];
        look.bumper.behind = Some(Behind::SomethingThere(radar.clone()));
        assert_eq!(on_plain(&look), [Shut::SomethingThere(radar)]);
    }

    #[test]
    fn an_exception_of_one_head_counts_for_that_head() {
        let mut look = clear(60.0);
        let beam = Behind::SomethingThere(vec![Obstacle::CrashBeam]);
        let exception = looked(Some(beam), None);
        look.exceptions = vec![("3".to_owned(), exception.clone())];
        assert_eq!(on_plain(&look), [], "head 2 has none");
        look.exceptions[0].0 = "2".to_owned();
        assert_eq!(
            on_plain(&look),
            [Shut::SomethingThere(vec![Obstacle::CrashBeam])]
        );
    }

    #[test]
    fn a_depth_must_be_measured_and_be_enough() {
        let mut look = clear(60.0);
        look.bumper.depth = None;
        assert_eq!(on_plain(&look), [Shut::DepthNotMeasured]);
        let depth = Millimetres(41.0);
        let needs = Millimetres(50.0);
        assert_eq!(on_plain(&clear(41.0)), [Shut::TooShallow { needs, depth }]);
        let message = Shut::TooShallow { needs, depth }.message();
        let wanted = msg("drill-shut-too-shallow")
            .mm("needs", 50.0)
            .mm("depth", 41.0)
            .mm("by", 9.0);
        assert_eq!(message, wanted);
        for nonsense in [f64::NAN, f64::INFINITY, -3.0, 60_000.0] {
            let found = on_plain(&clear(nonsense));
            assert!(
                matches!(found[..], [Shut::DepthMakesNoSense { .. }]),
                "{found:?}"
            );
        }
    }

    #[test]
    fn foam_opens_nothing_before_it_was_seen_what_is_behind_it_nor_while_it_is_there() {
        let mut look = clear(60.0);
        let mut key = |foam| {
            look.bumper.behind = Some(Behind::SomethingThere(vec![Obstacle::Foam(foam)]));
            on_plain(&look)[0].message().key
        };
        assert_eq!(key(BehindFoam::NotSeen), "drill-shut-foam-not-seen");
        assert_eq!(key(BehindFoam::SeenAndClear), "drill-shut-foam-seen");
    }

    #[test]
    fn a_mark_in_a_no_drill_area_is_refused_and_its_ends_are_allowed() {
        let area = |from: f64, to: f64| NoDrill {
            from: Offset(from),
            to: Offset(to),
            what: Obstacle::Wiring,
        };
        let at = |from, to| {
            let mut look = clear(60.0);
            look.no_drill = vec![area(from, to)];
            on_plain(&look)
        };
        // Hole 21, clearance 6: the area is wider by 16.5 on both sides.
        assert_eq!(at(-213.5, -150.0), []);
        assert_eq!(at(-213.6, -150.0), [Shut::NoDrill(area(-213.6, -150.0))]);
        assert_eq!(at(-300.0, -246.5), []);
        assert_eq!(at(-246.4, -300.0).len(), 1, "either way round");
        assert_eq!(at(f64::NAN, -300.0).len(), 1, "no number refuses");
    }

    #[test]
    fn what_the_sheet_does_not_say_is_asked() {
        let mut sheet = parse(PLAIN).unwrap();
        sheet.heads.bend = None;
        sheet.heads.connector_diameter = None;
        let found = shut(&sheet, &choice(&sheet, -6.0, 0.2), &clear(60.0));
        let fields: Vec<Shut> = ["kit-field-heads-bend", "kit-field-heads-connector-diameter"]
            .into_iter()
            .map(|field| Shut::Ask { field })
            .collect();
        assert_eq!(found, fields);
    }

    #[test]
    fn a_connector_that_does_not_pass_the_hole_keeps_it_shut() {
        let mut sheet = parse(PLAIN).unwrap();
        sheet.heads.connector_diameter = Some(Millimetres(21.0));
        let found = shut(&sheet, &choice(&sheet, -6.0, 0.2), &clear(60.0));
        let (connector, hole) = (Millimetres(21.0), Millimetres(21.0));
        assert_eq!(found, [Shut::ConnectorTooLarge { connector, hole }]);
    }

    #[test]
    fn a_panel_outside_what_the_head_grips_keeps_it_shut() {
        let mut look = clear(60.0);
        look.bumper.panel = Some(Millimetres(6.0));
        assert!(matches!(
            on_plain(&look)[..],
            [Shut::PanelOutsideGrip { .. }]
        ));
        look.bumper.panel = Some(Millimetres(3.0));
        assert_eq!(on_plain(&look), []);
    }

    #[test]
    fn an_open_verdict_keeps_the_drill_shut_only_where_the_hole_hangs_on_it() {
        let plain = parse(PLAIN).unwrap();
        assert_eq!(shut(&plain, &choice(&plain, -0.9, 0.3), &clear(60.0)), []);
        let metal = parse(METAL).unwrap();
        let open = choice(&metal, -12.9, 0.3);
        assert!(open.blocks(Blocked::Drill));
        assert_eq!(shut(&metal, &open, &clear(60.0)), [Shut::RingSetOpen]);
        let look = clear(60.0);
        let set = RingSet::ring("14");
        let mut at = AtHead {
            sheet: &metal,
            label: "2",
            mark: Offset(-230.0),
            choice: &open,
            instead: Some(Instead::ByHand(&set)),
            look: &look,
        };
        assert!(gate(&at).is_open(), "the fitter answers for it");
        at.instead = Some(Instead::ForPair(&set));
        assert!(!gate(&at).is_open());
    }

    /// What keeps the drill shut for a set taken by hand.
    fn by_hand(sheet: &KitSheet, facts: &SpotFacts, set: &RingSet) -> Vec<Shut> {
        let (choice, look) = (choose(sheet, facts), clear(60.0));
        let at = AtHead {
            sheet,
            label: "2",
            mark: Offset(-230.0),
            choice: &choice,
            instead: Some(Instead::ByHand(set)),
            look: &look,
        };
        match gate(&at) {
            Gate::Open => Vec::new(),
            Gate::Shut(shut) => shut,
        }
    }

    fn facts() -> SpotFacts {
        let rake = Estimate::new(Degrees(-6.0), Degrees(0.2));
        SpotFacts::plain(rake, RakeOrigin::Typed)
    }

    #[test]
    fn no_reason_makes_a_set_cover_an_old_hole_that_is_too_large() {
        let metal = parse(METAL).unwrap();
        let old = |mm| SpotFacts {
            old_hole: Some(Millimetres(mm)),
            ..facts()
        };
        let bare = RingSet::ring("9");
        let too_large = |old_hole, covers| Shut::OldHoleTooLarge {
            old_hole: Millimetres(old_hole),
            covers: Millimetres(covers),
        };
        let found = by_hand(&metal, &old(29.0), &bare);
        assert_eq!(found, [too_large(29.0, 21.0)]);
        let insert = RingSet::with_insert("5", "flat");
        assert_eq!(by_hand(&metal, &old(29.0), &insert), []);
        let found = by_hand(&metal, &old(30.5), &insert);
        assert_eq!(found, [too_large(30.5, 30.0)]);
        let message = too_large(30.5, 30.0).message();
        assert_eq!(message.key, "drill-shut-old-hole");
    }

    #[test]
    fn no_reason_lets_a_head_meet_a_metal_panel_without_its_insert() {
        let metal = parse(METAL).unwrap();
        let panel = SpotFacts {
            material: crate::kit::Material::Metal,
            ..facts()
        };
        let bare = RingSet::ring("9");
        assert_eq!(by_hand(&metal, &panel, &bare), [Shut::PanelNeedsInsert]);
        let insert = RingSet::with_insert("5", "flat");
        assert_eq!(by_hand(&metal, &panel, &insert), []);
    }
}
