//! Face angles and ring choices of a job, from its readings and its kit
//! sheet. Nothing here is stored: better knowledge of the phone or the
//! ground corrects what was read before.

use super::agreed::measured_before;
use super::holes::typed_old_hole;
use super::measured::{around, phone_as_seated};
use super::state::{JobState, Spot};
use crate::decide::ring_set::{
    RakeOrigin, RingChoice, SpotFacts, Verdict, aim_words, choose, face_words,
};
use crate::estimate::budget::Part;
use crate::estimate::rake::{Origin, RakeEstimate, estimate_rake};
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees};

/// The face angle at a spot: read on this vehicle, else measured before
/// where this vehicle agrees; `None` until one of them is so.
#[must_use]
pub fn rake_at(job: &JobState, spot: &Spot) -> Option<RakeEstimate> {
    rake_read(job, spot).or_else(|| {
        let mut spots = job.spots.iter();
        measured_before(job, spots.position(|other| other.label == spot.label)?)
    })
}

/// The face angle at a spot as read on this vehicle.
#[must_use]
pub fn rake_read(job: &JobState, spot: &Spot) -> Option<RakeEstimate> {
    let readings: Vec<_> = spot.readings.iter().map(|taken| taken.reading).collect();
    estimate_rake(&readings, &phone_as_seated(job), &around(job, spot))
}

/// The ring choice at a spot; `None` until its face angle is read.
#[must_use]
pub fn ring_choice(job: &JobState, spot: &Spot) -> Option<RingChoice> {
    let estimate = rake_at(job, spot)?;
    Some(choose(&job.kit, &facts(job, spot, &estimate)))
}

/// The ring choices of all spots, left to right.
#[must_use]
pub fn ring_choices(job: &JobState) -> Vec<Option<RingChoice>> {
    job.spots
        .iter()
        .map(|spot| ring_choice(job, spot))
        .collect()
}

fn facts(job: &JobState, spot: &Spot, estimate: &RakeEstimate) -> SpotFacts {
    let place = job.spots.iter().position(|other| other.label == spot.label);
    let old_hole = place
        .and_then(|place| u8::try_from(place).ok())
        .and_then(|place| typed_old_hole(job, place))
        .and_then(Result::ok);
    SpotFacts {
        rake: estimate.rake,
        origin: match estimate.origin {
            Origin::Zeroed { .. } | Origin::Before { zeroed: true, .. } => RakeOrigin::Zeroed,
            Origin::Unzeroed | Origin::Before { zeroed: false, .. } => RakeOrigin::Unzeroed,
            Origin::Typed { .. } => RakeOrigin::Typed,
        },
        material: job.behind.material,
        load_allowance: job.load_allowance,
        old_hole,
        inserts: job.rings.inserts,
    }
}

/// A face angle below this is shown as level: its words would say a
/// direction that the figure does not.
const LEVEL: f64 = 0.05;

/// Only which way a face looks: 'faces down'.
#[must_use]
pub fn facing_words(rake: Degrees) -> Message {
    msg(if rake.abs().0 < LEVEL {
        "faces-level"
    } else if rake.0 > 0.0 {
        "faces-up-word"
    } else {
        "faces-down-word"
    })
}

/// A value in words with its ±: 'points up 2.5° ± 0.6°'.
#[must_use]
pub fn with_plus_minus(words: Message, plus_minus: Degrees) -> Message {
    msg("with-plus-minus")
        .message("words", words)
        .deg("plus", plus_minus.0)
}

/// The face angle of a spot in words with its ±; `None` until it is read.
#[must_use]
pub fn face_with_plus_minus(job: &JobState, spot: &Spot) -> Option<Message> {
    let rake = rake_at(job, spot)?.rake;
    Some(with_plus_minus(face_words(rake.value), rake.expanded()))
}

/// The aim with the set of a choice, in words with its ±.
#[must_use]
pub fn aim_with_ring(job: &JobState, choice: &RingChoice) -> Option<Message> {
    let candidate = choice.candidate(&job.kit, choice.set()?)?;
    Some(with_plus_minus(
        aim_words(candidate.aim.value),
        candidate.aim.expanded(),
    ))
}

/// How many spots are sure, close calls, and cannot be served.
#[must_use]
pub fn rings_headline(job: &JobState) -> Message {
    let (mut sure, mut close, mut none, mut open) = (0, 0, 0, 0);
    for choice in ring_choices(job) {
        match choice.map(|choice| choice.verdict) {
            Some(Verdict::Sure { .. }) => sure += 1,
            Some(Verdict::CloseCall { .. }) => close += 1,
            Some(Verdict::CannotBeServed { .. }) => none += 1,
            None => open += 1,
        }
    }
    let counted = [
        ("rings-count-sure", sure),
        ("rings-count-close", close),
        ("rings-count-none", none),
        ("rings-count-open", open),
    ];
    let parts = counted
        .into_iter()
        .filter(|(_, count)| *count > 0)
        .map(|(key, count)| msg(key).count("spots", count))
        .collect();
    msg("rings-headline").list("parts", parts)
}

/// The parts of a spot's ±, each with its own ±, and what would shrink the
/// greatest. Empty until the spot is read.
#[must_use]
pub fn budget_lines(job: &JobState, spot: &Spot) -> Vec<Message> {
    let Some(estimate) = rake_at(job, spot) else {
        return Vec::new();
    };
    let budget = &estimate.budget;
    let mut lines: Vec<Message> = budget
        .items
        .iter()
        .map(|item| with_plus_minus(item.name(), item.u * COVERAGE_95))
        .collect();
    if let Some(greatest) = budget.dominant() {
        lines.push(
            msg("budget-greatest")
                .message("part", greatest.name())
                .message("shrink", greatest.shrink.clone()),
        );
    }
    lines
}

/// The ways that would settle the close calls of the job, each once. Where
/// most of the ± is how the ground lies, a better reading would not help.
#[must_use]
pub fn ways_to_settle(job: &JobState) -> Vec<Message> {
    let mut ways: Vec<Message> = Vec::new();
    for spot in &job.spots {
        let Some(choice) = ring_choice(job, spot) else {
            continue;
        };
        if let Verdict::CloseCall { settle, .. } = choice.verdict {
            let here = instead_of_reading_again(job, spot).map_or(settle, |way| vec![way]);
            for way in here {
                if !ways.contains(&way) {
                    ways.push(way);
                }
            }
        }
    }
    ways
}

/// The way to settle a close call that is about the ground.
pub const SETTLED_BY_GROUND: &str = "ring-settle-ground";

/// What settles a spot where reading it better would not.
fn instead_of_reading_again(job: &JobState, spot: &Spot) -> Option<Message> {
    let estimate = rake_at(job, spot)?;
    if let Origin::Before { .. } = estimate.origin {
        return Some(msg("ring-settle-read-here"));
    }
    let most = estimate.budget.dominant().map(|item| item.part);
    (most == Some(Part::Ground)).then(|| msg(SETTLED_BY_GROUND))
}

/// What would settle the close calls of the job, in words.
#[must_use]
pub fn settled_by(job: &JobState) -> Option<Message> {
    let ways = ways_to_settle(job);
    (!ways.is_empty()).then(|| msg("rings-settled-by").list("ways", ways))
}
