//! What photos of mark cards measured, in words.

use super::card_photos::{shape_of, shape_trouble};
use super::check::check_view;
use super::state::JobState;
use crate::estimate::photo::against::{MarkAgainst, against_plan};
use crate::estimate::photo::result::{GapMeasured, Outcome, Zero};
use crate::estimate::photo::seen::{CardQuality, CardSeen, PhotoSeen};
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Estimate, Millimetres, Offset};

/// Blur above this share of a cell, or cells below so many pixels, make a
/// card's ± larger than it need be.
const SOFT: f64 = 0.3;
const SMALL: f64 = 3.5;

/// One mark as measured.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkLine {
    /// Its head's label.
    pub label: String,
    /// Where it is.
    pub at: Message,
    /// How it stands to the plan, where there is one.
    pub against: Option<Message>,
    /// Whether it is off the plan by more than the limit, also at the kinder
    /// end of its ±.
    pub off: bool,
}

/// How each card that can be measured on is seen, and what is wrong with
/// the others.
#[must_use]
pub fn card_words(job: &JobState, photo: &PhotoSeen) -> Vec<Message> {
    let good = |card: &CardSeen| {
        let CardQuality { blur, cell, .. } = card.quality;
        let key = if cell < SMALL {
            "cards-card-small"
        } else if blur > SOFT * cell {
            "cards-card-soft"
        } else {
            "cards-card-good"
        };
        msg(key).message("card", card_name(job, usize::from(card.code)))
    };
    let faults = photo.faults.iter().map(|fault| fault.message());
    let mut lines: Vec<Message> = photo.cards.iter().map(good).collect();
    lines.extend(faults);
    if lines.is_empty() {
        lines.push(msg("cards-none-seen"));
    }
    lines
}

pub(super) fn card_name(job: &JobState, code: usize) -> Message {
    let count = i64::try_from(code).unwrap_or(i64::MAX).saturating_add(1);
    if code == job.spots.len() {
        msg("cards-centre-card").count("card", count)
    } else {
        msg("photo-card").count("card", count)
    }
}

/// Cards of this job's marks that no photo shows well enough.
#[must_use]
pub fn cards_missing(job: &JobState) -> Vec<Message> {
    let seen = |code: usize| {
        let mut photos = job.card_photos.photos.iter();
        photos.any(|photo| {
            let mut cards = photo.seen.cards.iter();
            cards.any(|card| usize::from(card.code) == code)
        })
    };
    let codes = (0..job.spots.len()).filter(|code| !seen(*code));
    codes.map(|code| card_name(job, code)).collect()
}

/// Each mark that was seen, left to right.
#[must_use]
pub fn mark_lines(job: &JobState) -> Vec<MarkLine> {
    let Some(outcome) = &job.card_photos.outcome else {
        return Vec::new();
    };
    let limit = check_view(job).map_or(f64::INFINITY, |view| view.tape.limits.mark.0);
    let planned: &[Offset] = job.marks.as_ref().map_or(&[], |marks| &marks.offsets);
    let against = against_plan(&outcome.measured, planned);
    let lines = outcome.measured.marks.iter().map(|mark| {
        let against = against.iter().find(|other| other.mark == mark.mark);
        let at = against.map(|against| against.at).or(mark.straight);
        MarkLine {
            label: label(job, mark.mark),
            at: at.map_or_else(|| msg("cards-mark-no-straight"), offset_at),
            against: against.map(against_words),
            off: against.is_some_and(|a| a.error.value.abs().0 - a.error.expanded().0 > limit),
        }
    });
    lines.collect()
}

pub(super) fn label(job: &JobState, mark: usize) -> String {
    let spot = job.spots.get(mark);
    spot.map_or_else(|| (mark + 1).to_string(), |spot| spot.label.clone())
}

fn offset_at(at: Estimate<Offset>) -> Message {
    let key = if at.value.0 < 0.0 {
        "cards-at-left"
    } else {
        "cards-at-right"
    };
    msg(key)
        .number("at", at.value.0.abs(), 1)
        .number("plus", at.u.0 * COVERAGE_95, 1)
}

fn against_words(against: &MarkAgainst) -> Message {
    let (error, plus) = (against.error.value.0, against.error.expanded().0);
    let key = if error.abs() <= plus {
        "cards-on-plan"
    } else if error > 0.0 {
        "cards-right-of-plan"
    } else {
        "cards-left-of-plan"
    };
    msg(key)
        .number("by", error.abs(), 1)
        .number("plus", plus, 1)
}

/// From where the offsets count, and what that leaves open.
#[must_use]
pub fn zero_words(outcome: &Outcome) -> Message {
    match outcome.measured.zero {
        Zero::CentreMark => msg("cards-zero-centre"),
        Zero::TwoHalves => msg("cards-zero-halves"),
    }
}

/// A distance between two marks: straight, through the air, along the face.
#[must_use]
pub fn gap_measured_words(job: &JobState, gap: &GapMeasured) -> Message {
    let key = if gap.straight.is_some() {
        "cards-gap"
    } else {
        "cards-gap-no-straight"
    };
    let with = |words: Message, name, plus, mm: Estimate<Millimetres>| {
        words
            .number(name, mm.value.0, 1)
            .number(plus, mm.expanded().0, 1)
    };
    let words = msg(key)
        .text("left", label(job, gap.left))
        .text("right", label(job, gap.right));
    let words = with(words, "chord", "chord_plus", gap.chord);
    let words = with(words, "along", "along_plus", gap.along);
    match gap.straight {
        Some(straight) => with(words, "straight", "straight_plus", straight),
        None => words,
    }
}

/// Gaps, the whole width, evenness and left against right, heads and
/// heights: everything but the marks.
#[must_use]
pub fn photo_lines(job: &JobState) -> Vec<Message> {
    let Some(outcome) = &job.card_photos.outcome else {
        return Vec::new();
    };
    let measured = &outcome.measured;
    let mut lines: Vec<Message> = Vec::new();
    let one = |key: &'static str, mm: Estimate<Millimetres>| {
        msg(key)
            .number("by", mm.value.0.abs(), 1)
            .number("plus", mm.expanded().0, 1)
    };
    lines.extend(measured.gaps.iter().map(|gap| gap_measured_words(job, gap)));
    if measured.gaps.len() > 1 {
        lines.push(gap_measured_words(job, &measured.width));
    }
    lines.extend(measured.evenness.map(|by| one("cards-evenness", by)));
    lines.extend(measured.symmetry.map(|by| one("cards-symmetry", by)));
    lines.extend(outcome.heads.iter().map(|head| {
        msg("cards-head")
            .text("label", label(job, head.head))
            .message("at", offset_at(head.at.straight))
            .number("above", head.at.above.value.0, 1)
            .number("plus", head.at.above.expanded().0, 1)
    }));
    lines.extend(outcome.below_line.iter().map(|(mark, below)| {
        let key = if below.value.0 < 0.0 {
            "cards-above-line"
        } else {
            "cards-below-line"
        };
        one(key, *below).text("label", label(job, *mark))
    }));
    let trouble = shape_trouble(&job.card_photos);
    lines.extend(trouble.map(|why| msg("cards-no-shape").message("why", why)));
    lines.extend(measured.edited.iter().map(|photo| {
        let photo = i64::try_from(photo + 1).unwrap_or(i64::MAX);
        msg("cards-edited").count("photo", photo)
    }));
    lines
}

/// Corner angles as the photos measured them, with what the job has
/// otherwise; empty where straight across is not known.
#[must_use]
pub fn corners_by_photos(job: &JobState) -> Vec<Message> {
    let Some(outcome) = &job.card_photos.outcome else {
        return Vec::new();
    };
    if shape_of(&job.card_photos).is_none() {
        return Vec::new();
    }
    let marks = outcome.measured.marks.iter();
    marks
        .filter_map(|mark| {
            let turn = mark.turn?;
            Some(
                msg("cards-corner")
                    .text("label", label(job, mark.mark))
                    .message(
                        "angle",
                        super::measured::corner_words(crate::estimate::rake::Turn::Known(turn)),
                    ),
            )
        })
        .collect()
}
