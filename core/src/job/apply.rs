//! The only way a job changes.

use chrono::{DateTime, FixedOffset};

use super::event::JobEvent;
use super::marks::{moved, task_for};
use super::measuring;
use super::state::{ClockTrust, JobState, Marks, SheetIssue, TakenReading, Tape};
use crate::decide::mark_out::check_marks;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

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
/// | `Measuring(PhoneUsed)` | refused where another phone's readings, or the same phone's with another case or feet, would be corrected by it |
/// | `Measuring(Swept)` | needs a sweep that closes |
/// | other `Measuring` | kept; all face angles follow |
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
            drop_moved_readings(&mut next, &offsets);
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
        JobEvent::Measuring(event) => measuring::apply(&mut next, event)?,
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

fn cut(text: String) -> String {
    if text.chars().count() <= TEXT_GREATEST {
        text
    } else {
        text.chars().take(TEXT_GREATEST).collect()
    }
}

fn holds_the_rules(
    job: &JobState,
    half_left: Millimetres,
    half_right: Millimetres,
    offsets: &[Offset],
) -> Result<(), Refusal> {
    if offsets.len() != job.spots.len() {
        return Err(Refusal(
            msg("refused-mark-count")
                .count("marks", i64::try_from(offsets.len()).unwrap_or(i64::MAX))
                .count("heads", i64::try_from(job.spots.len()).unwrap_or(i64::MAX)),
        ));
    }
    let task = task_for(&job.kit, half_left, half_right);
    match check_marks(&task, offsets).first() {
        None => Ok(()),
        Some(broken) => Err(Refusal(broken.message(&task))),
    }
}

/// A reading belongs to its mark: where the mark moved, it is void.
fn drop_moved_readings(next: &mut JobState, offsets: &[Offset]) {
    let Some(before) = &next.marks else { return };
    let moved: Vec<bool> = before
        .offsets
        .iter()
        .zip(offsets)
        .map(|(old, new)| moved(*old, *new))
        .collect();
    for (index, (spot, moved)) in next.spots.iter_mut().zip(moved).enumerate() {
        if moved {
            spot.readings.clear();
            next.measuring.forget_turn(index);
        }
    }
}
