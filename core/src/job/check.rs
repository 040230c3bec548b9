//! Before the drill: the tape read back, each mark confirmed from behind,
//! the customer's agreement to the positions.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, no_such_spot};
use super::entry::{Field, read_length};
use super::state::JobState;
use super::taken::as_taken;
use crate::decide::mark_out::{TapeCheck, TapeLimits, TapeReading, TapeVerdict, tape_check};
use crate::order;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// How the customer agreed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AgreedHow {
    /// Here, at the car.
    Here,
    /// By phone.
    Phone,
    /// By message.
    Message,
}

impl AgreedHow {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 3] = [Self::Here, Self::Phone, Self::Message];

    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Here => "agreed-here",
            Self::Phone => "agreed-phone",
            Self::Message => "agreed-message",
        })
    }
}

/// The customer's agreement to the positions.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Agreed {
    /// Who agreed.
    pub name: String,
    /// How.
    pub how: AgreedHow,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// A mark that was seen from behind and is clear.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SeenBehind {
    /// Which spot, 0 for the leftmost.
    pub spot: usize,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// What was checked before drilling.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Check {
    /// Tape readings that were found ready, one a spot.
    pub tape: Vec<TapeReading>,
    /// When they were.
    pub tape_at: Option<DateTime<FixedOffset>>,
    /// Marks confirmed from behind.
    pub seen_behind: Vec<SeenBehind>,
    /// The customer's agreement.
    pub agreed: Option<Agreed>,
}

/// What was checked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum CheckEvent {
    /// The tape was read back at every mark and is within the limits.
    TapeReady(Vec<TapeReading>),
    /// A mark was seen from behind and is clear.
    SeenFromBehind(usize),
    /// It was not after all.
    NotSeenFromBehind(usize),
    /// The customer agreed to the positions.
    Agreed {
        /// Who.
        name: String,
        /// How.
        how: AgreedHow,
    },
    /// The agreement was taken back.
    NotAgreed,
}

/// Applies what was checked.
///
/// `TapeReady` must be ready by [`tape_check`]; `SeenFromBehind` needs the
/// spot; `Agreed` needs marks and a name.
pub(super) fn apply(
    next: &mut JobState,
    event: CheckEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    let Some(marks) = &next.marks else {
        return Err(Refusal(msg("refused-no-marks")));
    };
    match event {
        CheckEvent::TapeReady(readings) => {
            let row = next.mark_out.row.map(|row| row.from_line.abs());
            let check = tape_check(&marks.offsets, row, &readings, &TapeLimits::default());
            if let TapeVerdict::NotReady(against) = check.verdict {
                let first = against.into_iter().next();
                return Err(Refusal(first.unwrap_or_else(|| msg("tape-unread"))));
            }
            next.check.tape = readings;
            next.check.tape_at = Some(at);
        }
        CheckEvent::SeenFromBehind(spot) => {
            if spot >= next.spots.len() {
                return Err(no_such_spot(next, spot));
            }
            next.check.seen_behind.retain(|seen| seen.spot != spot);
            next.check.seen_behind.push(SeenBehind { spot, at });
            order::sort_by_key(&mut next.check.seen_behind, |seen| seen.spot);
        }
        CheckEvent::NotSeenFromBehind(spot) => {
            next.check.seen_behind.retain(|seen| seen.spot != spot);
        }
        CheckEvent::Agreed { name, how } => {
            if name.trim().is_empty() {
                return Err(Refusal(msg("agreed-no-name")));
            }
            let name = name.trim().to_owned();
            next.check.agreed = Some(Agreed { name, how, at });
        }
        CheckEvent::NotAgreed => next.check.agreed = None,
    }
    Ok(())
}

/// What moved marks void.
pub(super) fn void(check: &mut Check, moved: &[usize]) {
    if moved.is_empty() {
        return;
    }
    check.tape.clear();
    check.tape_at = None;
    check.agreed = None;
    check.seen_behind.retain(|seen| !moved.contains(&seen.spot));
}

/// What stands in the tape fields of a spot: a distance from the centre
/// line, taken to the mark's own side, and one from the line across.
///
/// # Errors
/// What is wrong with a typed figure.
pub fn tape_reading(job: &JobState, spot: usize) -> Result<TapeReading, Message> {
    let number = u8::try_from(spot).unwrap_or(u8::MAX);
    let read = |field| {
        let text = job.typed(field).trim();
        if text.is_empty() {
            Ok(None)
        } else {
            read_length(text).map(Some)
        }
    };
    let side = job
        .marks
        .as_ref()
        .and_then(|marks| marks.offsets.get(spot))
        .map_or(1.0, |offset| if offset.0 < 0.0 { -1.0 } else { 1.0 });
    let at = read(Field::TapeMark(number))?;
    let from_line = read(Field::TapeLine(number))?;
    let at = at
        .map(|mm| as_taken(job, Offset(mm.0 * side)))
        .transpose()?;
    Ok(TapeReading {
        at,
        from_line: from_line.map(Millimetres::abs),
    })
}

/// The check as the screen shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckView {
    /// Readings as typed, with what is wrong at each spot.
    pub readings: Vec<Result<TapeReading, Message>>,
    /// All readings against the marks.
    pub tape: TapeCheck,
}

/// The typed readings against the marks; `None` without marks.
#[must_use]
pub fn check_view(job: &JobState) -> Option<CheckView> {
    let marks = job.marks.as_ref()?;
    let readings: Vec<_> = (0..marks.offsets.len())
        .map(|spot| tape_reading(job, spot))
        .collect();
    let usable: Vec<TapeReading> = readings
        .iter()
        .map(|reading| reading.clone().unwrap_or_default())
        .collect();
    let row = job.mark_out.row.map(|row| row.from_line.abs());
    let tape = tape_check(&marks.offsets, row, &usable, &TapeLimits::default());
    Some(CheckView { readings, tape })
}
