//! What earlier jobs of a model offer to the next one.

use super::amounts;
use super::kinds::{self, UNKNOWN_PHONE, kinds};
use super::lesson::{FaceLearned, HandedOver, Lesson};
use super::name::VehicleName;
use super::pool::{SPREAD_SCALE, expected};
use super::told::Told;
use super::words;
use crate::decide::mark_out::NoDrill;
use crate::job::{
    EARLIER_JOBS_GREATEST, ExpectedFace, ExpectedHalves, Field, FromJob, Handed, Instrument, Row,
    Took, U_HALF_WIDTH,
};
use crate::kit::KitSheet;
use crate::order;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres};
use serde::{Deserialize, Serialize};

/// Half widths and marks this near are of one bumper, mm (our own figure:
/// two tapes and two edges found by eye differ by less).
pub const SAME_BUMPER: Millimetres = Millimetres(12.0);

/// Scale of the prior of the spread of half widths between vehicles of a
/// model, mm (our own figure).
const HALF_WIDTH_SCALE: f64 = 1.5;

/// One line of an offer, taken or left out as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Line {
    /// Half widths to compare with, marks, height of the row, limits.
    Marks,
    /// Expected face angles.
    Faces,
    /// Areas to keep clear of.
    NoDrill,
    /// Places of control box and grommet.
    Places,
    /// Routes of the leads.
    Leads,
    /// Minutes and parts for the quote.
    Quote,
}

impl Line {
    /// All, in the order of the work.
    pub const ALL: [Self; 6] = [
        Self::Marks,
        Self::Faces,
        Self::NoDrill,
        Self::Places,
        Self::Leads,
        Self::Quote,
    ];

    /// Its name on the screen.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Marks => "again-line-marks",
            Self::Faces => "again-line-faces",
            Self::NoDrill => "again-line-no-drill",
            Self::Places => "again-line-places",
            Self::Leads => "again-line-leads",
            Self::Quote => "again-line-quote",
        })
    }
}

/// A line with what it says and where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct OfferLine {
    /// Which.
    pub line: Line,
    /// What it says.
    pub says: Vec<Message>,
    /// Where it comes from.
    pub from: Message,
}

/// What earlier jobs offer.
#[derive(Clone, Debug, PartialEq)]
pub struct Offer {
    /// The kit of the best job.
    pub kit: KitSheet,
    /// The jobs that count, best first.
    pub from: Vec<FromJob>,
    /// Lines that have something to say.
    pub lines: Vec<OfferLine>,
    /// What is worth knowing and is never taken over.
    pub told: Vec<(Message, Message)>,
    /// What to be careful about.
    pub warnings: Vec<Message>,
    /// Kinds under this name whose faces contradict each other, in words;
    /// empty where there is one.
    pub kinds: Vec<Message>,
    /// Which of them is offered.
    pub kind: usize,
    handed: Handed,
}

impl Offer {
    /// What is handed on, without the lines left out. Marks carry the half
    /// widths they belong to, faces their marks.
    #[must_use]
    pub fn handed(&self, left_out: &[Line]) -> Handed {
        let mut handed = self.handed.clone();
        let out = |line: Line| left_out.contains(&line);
        if out(Line::Marks) {
            handed.halves = None;
            handed.offsets.clear();
            handed.centre = None;
            handed.row = None;
            handed.limits.clear();
            handed.faces.clear();
        }
        if out(Line::Faces) {
            handed.faces.clear();
        }
        if out(Line::NoDrill) {
            handed.no_drill.clear();
        }
        if out(Line::Places) {
            handed.words.clear();
        }
        if out(Line::Quote) {
            handed.extra.clear();
            handed.took = Took::default();
        }
        handed.typed.retain(|(field, _)| match field {
            Field::QuoteMinutes => !out(Line::Quote),
            Field::RowFromLine | Field::Limit(_) => !out(Line::Marks),
            _ => !out(Line::Leads),
        });
        handed
    }
}

/// What these lessons offer to a vehicle of that name; `None` without one.
/// At most [`EARLIER_JOBS_GREATEST`] count, the best. A job that came back
/// counts only where there is no other; another bumper's does not count, nor
/// one whose faces contradict the others'.
#[must_use]
pub fn offer(wanted: &VehicleName, lessons: &[Lesson]) -> Option<Offer> {
    offer_of(wanted, lessons, 0)
}

/// The same from another of the kinds that [`Offer::kinds`] names.
#[must_use]
pub fn offer_of(wanted: &VehicleName, lessons: &[Lesson], kind: usize) -> Option<Offer> {
    let mut ranked: Vec<&Lesson> = lessons.iter().collect();
    order::sort_by(&mut ranked, |a, b| {
        rank(wanted, a)
            .cmp(&rank(wanted, b))
            .then_with(|| b.at.cmp(&a.at))
            .then_with(|| a.id.cmp(&b.id))
    });
    let best = *ranked.first()?;
    let mut warnings = Vec::new();
    let came_back = |lesson: &&Lesson| lesson.handed_over == HandedOver::CameBack;
    let sound: Vec<&Lesson> = ranked
        .iter()
        .copied()
        .filter(|lesson| best.handed_over == HandedOver::CameBack || !came_back(lesson))
        .collect();
    if best.handed_over == HandedOver::CameBack {
        warnings.push(msg("again-only-came-back"));
    } else if sound.len() < ranked.len() {
        let left = ranked.len() - sound.len();
        warnings.push(msg("again-came-back-left").count("jobs", counted(left)));
    }
    let (alike, others): (Vec<&Lesson>, Vec<&Lesson>) = sound
        .into_iter()
        .partition(|lesson| same_bumper(best, lesson));
    warnings.extend(words::other_bumpers(best, &others));
    let mut all = kinds(wanted, &alike);
    let (label, told_kinds) = kinds::told(&all);
    if !told_kinds.is_empty() {
        let words = msg("again-kinds").count("kinds", counted(told_kinds.len()));
        let words = words.text("label", label).list("which", told_kinds.clone());
        warnings.push(words);
    }
    let kind = if kind < all.len() { kind } else { 0 };
    // Those that were not compared are as many more of the same bumper.
    let mut alike = if all.len() == 1 {
        alike
    } else {
        all.swap_remove(kind)
    };
    let best = *alike.first()?;
    if alike.len() > EARLIER_JOBS_GREATEST {
        warnings.push(
            msg("again-many")
                .count("jobs", counted(alike.len()))
                .count("counted", counted(EARLIER_JOBS_GREATEST)),
        );
        alike.truncate(EARLIER_JOBS_GREATEST);
    }
    if best.handed_over == HandedOver::NotYet {
        warnings.push(msg("again-not-handed-over"));
    }
    let apart = wanted.years_apart(&VehicleName::read(&best.vehicle));
    if apart > 0 {
        warnings.push(msg("again-years-apart").count("years", i64::from(apart)));
    }
    let from: Vec<FromJob> = alike.iter().map(|lesson| named(lesson)).collect();
    // What went wrong or was found behind is worth knowing from a job whose
    // figures do not count.
    let mut known: Vec<&Lesson> = ranked.into_iter().filter(|l| came_back(l)).collect();
    known.retain(|lesson| same_bumper(best, lesson));
    known.extend(alike.iter().filter(|lesson| !came_back(lesson)));
    let handed = hand_on(best, &alike, areas(&known), from.clone());
    let told = known
        .iter()
        .flat_map(|lesson| {
            let from = named(lesson).message();
            let lines = lesson.told.iter().map(Told::message);
            lines.map(move |line| (line, from.clone()))
        })
        .take(MOST_TOLD)
        .collect();
    Some(Offer {
        kit: best.kit.clone(),
        lines: words::lines(&alike, &from, &handed),
        told,
        from,
        warnings,
        kinds: told_kinds,
        kind,
        handed,
    })
}

/// Most lines that are told beforehand.
const MOST_TOLD: usize = 40;

pub(super) fn counted(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// The lower the better: what came back last, then by years, whether it was
/// handed over, whose it is, how much it knows.
fn rank(wanted: &VehicleName, lesson: &Lesson) -> (bool, u16, HandedOver, bool, usize) {
    let unread = lesson.faces.iter().filter(|face| face.is_none()).count();
    (
        lesson.handed_over == HandedOver::CameBack,
        wanted.years_apart(&VehicleName::read(&lesson.vehicle)),
        lesson.handed_over,
        lesson.by.is_some(),
        unread,
    )
}

/// Whether half widths and marks are where the best job's are.
fn same_bumper(best: &Lesson, lesson: &Lesson) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() <= SAME_BUMPER.0;
    let halves =
        near(best.half_left.0, lesson.half_left.0) && near(best.half_right.0, lesson.half_right.0);
    let marks = best.offsets.len() == lesson.offsets.len()
        && (best.offsets.iter().zip(&lesson.offsets)).all(|(a, b)| near(a.0, b.0));
    halves && marks
}

/// Whether two lessons are of one job: the same measures to the last figure,
/// with at least one face that both have read.
#[must_use]
pub fn is_same_job(one: &Lesson, other: &Lesson) -> bool {
    let both = one.faces.iter().zip(&other.faces);
    let mut both = both
        .filter_map(|(a, b)| Some((a.as_ref()?, b.as_ref()?)))
        .peekable();
    one.half_left == other.half_left
        && one.half_right == other.half_right
        && one.offsets == other.offsets
        && both.peek().is_some()
        && both.all(|(a, b)| a.rake == b.rake)
}

fn named(lesson: &Lesson) -> FromJob {
    FromJob {
        id: lesson.id.clone(),
        vehicle: lesson.vehicle.clone(),
        at: lesson.at,
        theirs: lesson.by.as_ref().map(super::lesson::TaughtBy::words),
    }
}

fn hand_on(best: &Lesson, alike: &[&Lesson], no_drill: Vec<NoDrill>, from: Vec<FromJob>) -> Handed {
    let halves = |of: fn(&Lesson) -> Millimetres| {
        let values = alike.iter().map(|l| (of(l).0, U_HALF_WIDTH.0)).collect();
        let found = expected(&[values], HALF_WIDTH_SCALE);
        let found = found.into_iter().next().flatten();
        found.map_or_else(
            || Estimate::new(of(best), U_HALF_WIDTH),
            |found| Estimate::new(Millimetres(found.value), Millimetres(found.u)),
        )
    };
    let took = amounts::took(best, alike);
    let mut typed = best.typed.clone();
    if let Some(minutes) = &took.minutes {
        typed.push((Field::QuoteMinutes, minutes.median.to_string()));
    }
    Handed {
        from,
        vehicle: best.vehicle.clone(),
        halves: Some(ExpectedHalves {
            left: halves(|lesson| lesson.half_left),
            right: halves(|lesson| lesson.half_right),
        }),
        offsets: best.offsets.clone(),
        centre: best.centre,
        // Its height above the ground is this vehicle's own, by tyres and load.
        row: best.row.map(|row| Row {
            above_ground: None,
            ..row
        }),
        limits: best.limits.iter().copied().collect(),
        faces: faces(best, alike),
        no_drill,
        typed,
        words: best.words.iter().cloned().collect(),
        extra: amounts::extra(&took),
        took,
    }
}

/// Expected face angles: each spot pooled over the vehicles that read it.
fn faces(best: &Lesson, alike: &[&Lesson]) -> Vec<Option<ExpectedFace>> {
    let at = |spot: usize| -> Vec<&FaceLearned> {
        let read = alike.iter().filter_map(|lesson| lesson.faces.get(spot));
        read.flatten().collect()
    };
    let spots: Vec<Vec<&FaceLearned>> = (0..best.offsets.len()).map(at).collect();
    let values: Vec<Vec<(f64, f64)>> = spots
        .iter()
        .map(|spot| spot.iter().map(|face| (face.rake.0, face.u.0)).collect())
        .collect();
    let found = expected(&values, SPREAD_SCALE);
    spots
        .iter()
        .zip(found)
        .map(|(faces, found)| {
            let found = found?;
            let greatest = |part: fn(&FaceLearned) -> Degrees| {
                Degrees(faces.iter().map(|f| part(f).0).fold(0.0, f64::max))
            };
            Some(ExpectedFace {
                rake: Degrees(found.value),
                u: Degrees(found.u),
                u_ground: greatest(|face| face.u_ground),
                u_instrument: greatest(|face| face.u_instrument),
                between: Degrees(found.between),
                vehicles: u16::try_from(found.vehicles).unwrap_or(u16::MAX),
                read_by: read_by(faces),
            })
        })
        .collect()
}

/// What read them: the same each time, else an unzeroed one of no name where
/// any was unzeroed.
fn read_by(faces: &[&FaceLearned]) -> Option<Instrument> {
    let first = faces.first()?.read_by.clone();
    if faces.iter().all(|face| face.read_by == first) {
        return Some(first);
    }
    let unzeroed = |face: &&FaceLearned| matches!(face.read_by, Instrument::Unzeroed(_));
    faces
        .iter()
        .any(unzeroed)
        .then(|| Instrument::Unzeroed(UNKNOWN_PHONE.to_owned()))
}

/// All areas that any of them had to keep clear of, each once.
fn areas(known: &[&Lesson]) -> Vec<NoDrill> {
    let mut areas: Vec<NoDrill> = Vec::new();
    for area in known.iter().flat_map(|lesson| &lesson.no_drill) {
        let near = |a: f64, b: f64| (a - b).abs() <= SAME_BUMPER.0;
        let known = areas.iter().any(|known| {
            known.why == area.why && near(known.from.0, area.from.0) && near(known.to.0, area.to.0)
        });
        if !known {
            areas.push(area.clone());
        }
    }
    areas.truncate(MOST_AREAS);
    areas
}

/// Most areas that are handed on.
const MOST_AREAS: usize = 40;
