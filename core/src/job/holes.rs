//! Holes: tools, old holes, the plan per spot, and what was drilled.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::behind::look;
use super::entry::{Field, read_degrees, read_length};
use super::hindrances::{in_an_area, open_fields};
use super::marks::marks_fault;
use super::rings::ring_choice;
use super::rings_chosen::set_taken;
use super::state::JobState;
use crate::decide::drill::{AtHead, DrillPlan, Making, NoPlan, Shut, Tools, plan};
use crate::decide::look_behind::Behind;
use crate::moment;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Largest old hole that a bumper has where a head may go, mm (our own figure).
pub const OLD_HOLE_GREATEST: Millimetres = Millimetres(120.0);

/// A hole that was made.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drilled {
    /// When.
    pub at: DateTime<FixedOffset>,
    /// Its diameter: the one made, or that of the old hole that stays.
    pub diameter: Millimetres,
    /// How it was made.
    pub making: Making,
}

/// What was confirmed and drilled.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct HolesState {
    /// When the cautions were heeded, 'All of this is so'.
    pub cautions: Option<DateTime<FixedOffset>>,
    /// Holes made, by spot.
    pub drilled: Table<u8, Drilled>,
}

/// Something that happened at the holes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum HolesEvent {
    /// The cautions were heeded, all of them.
    CautionsHeeded,
    /// The hole at a spot was made as planned.
    HoleDrilled(u8),
}

pub(super) fn apply(
    next: &mut JobState,
    event: HolesEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    match event {
        HolesEvent::CautionsHeeded => next.holes.cautions = Some(at),
        HolesEvent::HoleDrilled(spot) => {
            let hole = match hole(next, usize::from(spot)) {
                Hole::Plan(hole) => hole,
                Hole::Shut(why) => return Err(first(why)),
                Hole::Drilled(_) => return Ok(()),
            };
            if next.holes.cautions.is_none() {
                return Err(Refusal(msg("refused-cautions-first")));
            }
            if !seen_from_behind(next, usize::from(spot)) {
                return Err(Refusal(msg("refused-confirm-first")));
            }
            let making = hole.making;
            next.holes.drilled.insert(
                spot,
                Drilled {
                    at,
                    diameter: making.diameter(),
                    making,
                },
            );
        }
    }
    Ok(())
}

fn first(why: Vec<Message>) -> Refusal {
    let why = why.into_iter().next();
    Refusal(why.unwrap_or_else(|| msg("drill-shut-not-looked")))
}

/// Refuses what would contradict a hole that is there.
pub(super) fn nothing_drilled(job: &JobState) -> Result<(), Refusal> {
    if job.holes.drilled.is_empty() {
        Ok(())
    } else {
        Err(Refusal(msg("refused-already-drilled")))
    }
}

/// Reads the tools as typed; a wrong reach is judged with the plan.
#[must_use]
pub fn tools(job: &JobState) -> Tools {
    let typed = |field| Some(job.typed(field)).filter(|text| !text.trim().is_empty());
    Tools {
        reach_past_teeth: typed(Field::ReachPastTeeth).and_then(|text| read_length(text).ok()),
        step_drill_reach: typed(Field::StepDrillReach).and_then(|text| read_length(text).ok()),
        bumper_celsius: typed(Field::BumperCelsius)
            .and_then(|text| read_degrees(text.trim().trim_end_matches(['C', 'c'])).ok())
            .map(|celsius| celsius.0),
    }
}

/// The old hole at a spot as typed; what is wrong with it. `None` where none is.
#[must_use]
pub fn typed_old_hole(job: &JobState, spot: u8) -> Option<Result<Millimetres, Message>> {
    let typed = job.typed(Field::OldHoleSize(spot));
    if typed.trim().is_empty() {
        return None;
    }
    Some(read_length(typed).and_then(|hole| {
        if hole.0 > 0.0 && hole <= OLD_HOLE_GREATEST {
            Ok(hole)
        } else {
            Err(msg("entry-length-outside")
                .number("typed", hole.0, 1)
                .mm("greatest", OLD_HOLE_GREATEST.0))
        }
    }))
}

/// What there is to do or to know at the hole of a spot.
#[derive(Clone, Debug, PartialEq)]
pub enum Hole {
    /// Do not drill, for these reasons.
    Shut(Vec<Message>),
    /// Drill as planned.
    Plan(DrillPlan),
    /// It is there.
    Drilled(Drilled),
}

impl Hole {
    /// Whether it is there.
    #[must_use]
    pub fn is_made(&self) -> bool {
        matches!(self, Self::Drilled(_))
    }

    /// Whether first of all the tool's own reach has to be typed or mended.
    #[must_use]
    pub fn waits_for_the_tool(&self) -> bool {
        matches!(self, Self::Shut(why) if why.first().is_some_and(|why| {
            matches!(short(why).key.as_ref(), "hole-why-reach" | "hole-why-step-reach")
        }))
    }

    /// The verdict: 'Drill 21 mm, stop at 12' or 'Do not drill: ...'.
    #[must_use]
    pub fn headline(&self) -> Message {
        match self {
            Self::Shut(why) => match why.as_slice() {
                [] => msg("hole-shut-plain"),
                [why, ..] => msg("hole-shut").message("why", short(why)),
            },
            Self::Plan(plan) => verdict(plan),
            Self::Drilled(hole) => msg("hole-drilled")
                .number("diameter", hole.diameter.0, 1)
                .text("when", moment::clock(&hole.at)),
        }
    }
}

/// A reason in a few words for the verdict; the sentence stands below it.
fn short(why: &Message) -> Message {
    msg(match why.key.as_ref() {
        "drill-shut-not-looked" => "hole-why-not-looked",
        "drill-shut-could-not-see" => "hole-why-could-not-see",
        "drill-shut-something-there" => "hole-why-something-there",
        "drill-shut-foam-not-seen" | "drill-shut-foam-seen" => "hole-why-foam",
        "drill-shut-depth-not-measured" => "hole-why-depth",
        "drill-shut-too-shallow" => "hole-why-too-shallow",
        "drill-shut-no-drill" => "hole-why-no-drill",
        "drill-shut-ring-set-open" => "hole-why-ring-set",
        "drill-shut-old-hole" => "hole-why-old-hole",
        "drill-shut-old-hole-asked" => "hole-why-old-hole-asked",
        "drill-shut-panel-needs-insert" => "hole-why-insert",
        "drill-shut-typed-wrong" => "hole-why-typed-wrong",
        "drill-shut-ask" => "hole-why-kit-sheet",
        "drill-reach-not-entered" | "drill-reaches-too-far" | "drill-reach-makes-no-sense" => {
            "hole-why-reach"
        }
        "drill-step-reach-not-entered"
        | "drill-step-reaches-too-far"
        | "drill-step-reach-makes-no-sense" => "hole-why-step-reach",
        "hole-not-read" => "hole-why-not-read",
        "marks-stale-first" | "marks-broken-first" => "hole-why-marks",
        _ => "hole-why-below",
    })
}

fn verdict(plan: &DrillPlan) -> Message {
    let sized = |key: &'static str, size: Millimetres| {
        msg(key)
            .number("diameter", size.0, whole_or_tenth(size.0))
            .mm("stop", plan.stop.0)
    };
    match plan.making {
        Making::Saw(size) => sized("hole-saw", size),
        Making::StepDrill(size) => sized("hole-step-drill", size),
        Making::KeepOldHole(size) => sized("hole-keep", size),
        Making::WidenOldHole { to, .. } => sized("hole-widen", to),
        Making::CoverOldHole(size) => sized("hole-cover", size),
    }
}

fn whole_or_tenth(size: f64) -> u8 {
    u8::from((size - size.round()).abs() > 0.04)
}

/// The hole at a spot. None is drilled by marks that were made for other
/// half widths or break a rule.
#[must_use]
pub fn hole(job: &JobState, spot: usize) -> Hole {
    if let Some(drilled) = u8::try_from(spot)
        .ok()
        .and_then(|spot| job.holes.drilled.get(&spot))
    {
        return Hole::Drilled(drilled.clone());
    }
    let Some(place) = job.spots.get(spot) else {
        return Hole::Shut(Vec::new());
    };
    if let Some(why) = marks_fault(job) {
        return Hole::Shut(vec![why]);
    }
    let look = look(job);
    let mark = job
        .marks
        .as_ref()
        .and_then(|m| m.offsets.get(spot).copied());
    let choice = ring_choice(job, place);
    let (Some(mark), Some(choice)) = (mark, choice) else {
        // What was seen behind it is said all the same: it may decide alone.
        let mut why = Vec::new();
        match look.behind(&place.label) {
            Some(Behind::CouldNotSee) => {
                why.push(Shut::CouldNotSee.message());
            }
            Some(Behind::SomethingThere(what)) => {
                why.push(Shut::SomethingThere(what.clone()).message());
            }
            _ => {}
        }
        why.push(msg("hole-not-read").text("label", place.label.clone()));
        return Hole::Shut(why);
    };
    let taken = set_taken(job, spot);
    let at = AtHead {
        sheet: &job.kit,
        label: &place.label,
        mark,
        choice: &choice,
        instead: taken.as_ref().and_then(|taken| taken.instead()),
        look: &look,
    };
    let area = at.hole().and_then(|hole| in_an_area(job, mark, hole));
    let mut why = open_fields(job, spot, mark, at.hole());
    why.extend(area);
    match plan(&at, &tools(job)) {
        Ok(plan) if why.is_empty() => Hole::Plan(plan),
        Ok(_) => Hole::Shut(why),
        Err(NoPlan::Shut(shut)) => Hole::Shut(shut.iter().map(Shut::message).chain(why).collect()),
        Err(none) => Hole::Shut(none.messages().into_iter().chain(why).collect()),
    }
}

/// All cautions of the holes that may be drilled, each once.
#[must_use]
pub fn hole_cautions(job: &JobState) -> Vec<Message> {
    let mut all: Vec<Message> = Vec::new();
    for spot in 0..job.spots.len() {
        if let Hole::Plan(plan) = hole(job, spot) {
            for caution in plan.cautions {
                if !all.contains(&caution) {
                    all.push(caution);
                }
            }
        }
    }
    all
}

/// How many holes are made, may be made, and may not.
#[must_use]
pub fn holes_headline(job: &JobState) -> Message {
    let (mut made, mut open, mut shut) = (0_i64, 0_i64, 0_i64);
    for spot in 0..job.spots.len() {
        match hole(job, spot) {
            Hole::Drilled(_) => made += 1,
            Hole::Plan(_) => open += 1,
            Hole::Shut(_) => shut += 1,
        }
    }
    let counted = [
        ("holes-count-made", made),
        ("holes-count-open", open),
        ("holes-count-shut", shut),
    ];
    let parts = counted
        .into_iter()
        .filter(|(_, count)| *count > 0)
        .map(|(key, count)| msg(key).count("holes", count))
        .collect();
    msg("holes-headline").list("parts", parts)
}

/// Whether a mark was confirmed from behind.
#[must_use]
pub fn seen_from_behind(job: &JobState, spot: usize) -> bool {
    let mut seen = job.check.seen_behind.iter();
    seen.any(|seen| seen.spot == spot)
}
