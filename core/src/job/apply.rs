//! The only way a job changes.

use chrono::{DateTime, FixedOffset};

use super::event::JobEvent;
use super::marks::{holds_the_rules, moved};
use super::state::{ClockTrust, JobState, Marks, SheetIssue, TakenReading, Tape};
use super::{behind, holes, kit_asked, loom, quote, rings_chosen};
use crate::text::{Message, msg};
use crate::units::Offset;

/// Longest text that a job keeps in one field, characters.
pub const TEXT_GREATEST: usize = 500;

/// Why an event did not change the job; the job is as it was.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal(pub Message);

/// Applies one event to a job and gives the job that follows.
///
/// | event | what follows |
/// |---|---|
/// | `Named`, `ParticularTyped`, `Typed` | kept, cut at [`TEXT_GREATEST`] characters |
/// | `MarksPlanned` | marks set, tape to be laid; readings at marks that moved are dropped |
/// | `TapeLaid` | needs marks |
/// | `FaceRead` | needs marks and a spot of this kit; joins the readings there |
/// | `FaceDropped` | the last reading there goes; needs one |
/// | `KitChosen` | needs that no hole is drilled; with as many heads and marks inside its limits marks and readings stay, else they go; sets taken by hand go |
/// | `KitFilled` | what is typed for asked fields goes on the job's sheet |
/// | `Behind` | answers, photos, no-drill areas; the panel's material only before the first hole |
/// | `Rings` | by hand needs a reason and the hole that is there; seated needs the hole |
/// | `Holes` | a hole needs its plan, the cautions and the mark confirmed from behind |
/// | `Loom` | answers; a fuse that is too large is refused |
/// | `Quote` | parts by hand and prices as typed |
/// | `SheetIssued` | the next number |
///
/// A time before the last event is taken as the last event's, and the job
/// remembers that the clock went back.
///
/// # Errors
/// A [`Refusal`] that says what has to come first.
pub fn apply(
    job: &JobState,
    event: JobEvent,
    at: DateTime<FixedOffset>,
) -> Result<JobState, Refusal> {
    let mut next = job.clone();
    let at = steady(&mut next, at);
    match event {
        JobEvent::Named(name) => next.name = cut(name),
        JobEvent::ParticularTyped(which, text) => {
            next.particulars.insert(which, cut(text));
        }
        JobEvent::Typed(field, text) => {
            next.typed.insert(field, cut(text));
        }
        JobEvent::MarksPlanned {
            half_left,
            half_right,
            kind,
            offsets,
        } => {
            holds_the_rules(job, half_left, half_right, &offsets)?;
            void_moved(&mut next, &offsets)?;
            next.marks = Some(Marks {
                half_left,
                half_right,
                kind,
                offsets,
                tape: Tape::NotYet,
            });
        }
        JobEvent::TapeLaid => match &mut next.marks {
            Some(marks) => marks.tape = Tape::On(at),
            None => return Err(Refusal(msg("refused-no-marks"))),
        },
        JobEvent::FaceRead { spot, reading } => {
            if next.marks.is_none() {
                return Err(Refusal(msg("refused-no-marks")));
            }
            let place = next.spots.get_mut(spot);
            let place = place.ok_or_else(|| no_such_spot(job, spot))?;
            place.readings.push(TakenReading { reading, at });
        }
        JobEvent::FaceDropped { spot } => {
            let place = next.spots.get_mut(spot);
            let place = place.ok_or_else(|| no_such_spot(job, spot))?;
            if place.readings.pop().is_none() {
                let label = place.label.clone();
                return Err(Refusal(msg("refused-no-reading").text("label", label)));
            }
        }
        JobEvent::KitChosen(kit) => kit_asked::chosen(&mut next, *kit)?,
        JobEvent::KitFilled(asked) => kit_asked::filled(&mut next, &asked)?,
        JobEvent::Behind(event) => behind::apply(&mut next, event)?,
        JobEvent::Rings(event) => rings_chosen::apply(&mut next, event, at)?,
        JobEvent::Holes(event) => holes::apply(&mut next, event, at)?,
        JobEvent::Loom(event) => loom::apply(&mut next, event, at)?,
        JobEvent::Quote(event) => quote::apply(&mut next, event)?,
        JobEvent::SheetIssued { zone } => next.sheets.push(SheetIssue {
            number: u32::try_from(job.sheets.len()).unwrap_or(u32::MAX - 1) + 1,
            at,
            zone,
        }),
    }
    Ok(next)
}

fn no_such_spot(job: &JobState, spot: usize) -> Refusal {
    let heads = i64::try_from(job.spots.len()).unwrap_or(i64::MAX);
    let asked = i64::try_from(spot).unwrap_or(i64::MAX);
    Refusal(
        msg("refused-no-such-spot")
            .count("asked", asked.saturating_add(1))
            .count("heads", heads),
    )
}

/// The event's time, never before the last one.
fn steady(next: &mut JobState, at: DateTime<FixedOffset>) -> DateTime<FixedOffset> {
    if at >= next.changed {
        next.changed = at;
        return at;
    }
    let back = (next.changed - at).num_minutes().max(1);
    let before = match next.clock {
        ClockTrust::Steady => 0,
        ClockTrust::WentBack { minutes } => minutes,
    };
    next.clock = ClockTrust::WentBack {
        minutes: back.max(before),
    };
    next.changed
}

/// A text cut at [`TEXT_GREATEST`] characters.
pub(super) fn cut(text: String) -> String {
    if text.chars().count() <= TEXT_GREATEST {
        text
    } else {
        text.chars().take(TEXT_GREATEST).collect()
    }
}

/// What was read, seen and confirmed at a mark belongs to it: where the mark
/// moved, it is void. A mark with a hole cannot move.
fn void_moved(next: &mut JobState, offsets: &[Offset]) -> Result<(), Refusal> {
    let Some(before) = &next.marks else {
        return Ok(());
    };
    let moved: Vec<bool> = before
        .offsets
        .iter()
        .zip(offsets)
        .map(|(old, new)| moved(*old, *new))
        .collect();
    for ((index, spot), _) in (0_u8..).zip(&next.spots).zip(&moved).filter(|(_, m)| **m) {
        if next.holes.drilled.contains_key(&index) {
            return Err(Refusal(
                msg("refused-mark-drilled").text("label", spot.label.clone()),
            ));
        }
    }
    for (index, _) in (0_u8..).zip(&moved).filter(|(_, moved)| **moved) {
        if let Some(spot) = next.spots.get_mut(usize::from(index)) {
            spot.readings.clear();
        }
        behind::void_spot(next, index);
        holes::void_spot(next, index);
        rings_chosen::void_spot(next, index);
    }
    Ok(())
}
