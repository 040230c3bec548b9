//! The only way a job changes.

use chrono::{DateTime, FixedOffset};

use super::event::JobEvent;
use super::marks::{moved, task_for};
use super::state::{ClockTrust, JobState, Marks, MarksFrom, SheetIssue, TakenReading, Tape};
use super::{check, mark_out};
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
/// | `MarkOut` | see [`super::MarkOutEvent`]; a moved mark voids what belongs to it |
/// | `Check` | see [`super::CheckEvent`] |
/// | `TapeLaid` | needs marks |
/// | `FaceRead` | needs marks and a spot of this kit; joins the readings there |
/// | `FaceDropped` | the last reading there goes; needs one |
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
            void_moved(&mut next, &offsets);
            next.marks = Some(Marks {
                half_left,
                half_right,
                from: MarksFrom::Plan(kind),
                offsets,
                tape: Tape::NotYet,
            });
        }
        JobEvent::MarkOut(event) => mark_out::apply(&mut next, event)?,
        JobEvent::Check(event) => check::apply(&mut next, event, at)?,
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
        JobEvent::SheetIssued { zone } => next.sheets.push(SheetIssue {
            number: u32::try_from(job.sheets.len()).unwrap_or(u32::MAX - 1) + 1,
            at,
            zone,
        }),
    }
    Ok(next)
}

pub(super) fn no_such_spot(job: &JobState, spot: usize) -> Refusal {
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
    let task = task_for(job, half_left, half_right);
    match check_marks(&task, offsets).first() {
        None => Ok(()),
        Some(broken) => Err(Refusal(broken.message(&task))),
    }
}

/// What belongs to a mark is void where the mark moves: its readings, its
/// tape, its confirmation from behind; and the customer's agreement.
pub(super) fn void_moved(next: &mut JobState, offsets: &[Offset]) {
    let Some(before) = &next.marks else { return };
    let moved: Vec<usize> = (0..offsets.len())
        .filter(|spot| match before.offsets.get(*spot) {
            Some(old) => moved(*old, offsets[*spot]),
            None => true,
        })
        .collect();
    for spot in &moved {
        if let Some(place) = next.spots.get_mut(*spot) {
            place.readings.clear();
        }
    }
    check::void(&mut next.check, &moved);
}
