//! Before the drill: the tape read back, each mark confirmed from behind,
//! the customer's agreement to the positions.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, no_such_spot};
use super::entry::{Field, read_offset};
use super::labels::labelled;
use super::marks::marks_fault;
use super::row::read_from_line;
use super::state::JobState;
use super::taken::as_taken;
use super::tape_limit::tape_limits;
use crate::decide::mark_out::{TapeCheck, TapeReading, TapeVerdict, tape_check};
use crate::order;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// Readings nearer than this are the same, mm.
const SAME: f64 = 0.05;

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
/// spot; `Agreed` needs a name. `TapeReady` and `Agreed` need marks that are
/// made for the half widths as typed and keep every rule.
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
            marks_hold(next)?;
            let row = next.mark_out.row.map(|row| row.from_line);
            let check = tape_check(&marks.offsets, row, &readings, &tape_limits(next));
            if let TapeVerdict::NotReady(against) = check.verdict {
                let first = against.into_iter().next();
                let first = first.unwrap_or_else(|| msg("tape-unread"));
                return Err(Refusal(labelled(next, first)));
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
            marks_hold(next)?;
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

/// After a limit changed: tape that is not within the limits any more was
/// not found ready.
pub(super) fn judged_anew(next: &mut JobState) {
    let Some(marks) = &next.marks else {
        return;
    };
    let row = next.mark_out.row.map(|row| row.from_line);
    let check = tape_check(&marks.offsets, row, &next.check.tape, &tape_limits(next));
    if check.verdict != TapeVerdict::Ready {
        next.check.tape.clear();
        next.check.tape_at = None;
    }
}

fn marks_hold(job: &JobState) -> Result<(), Refusal> {
    marks_fault(job).map_or(Ok(()), |why| Err(Refusal(why)))
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

/// The fields in which the tape at a spot is typed.
pub(super) fn tape_fields(spot: u8) -> [Field; 2] {
    [Field::TapeMark(spot), Field::TapeLine(spot)]
}

/// What was typed of the tape belongs to the mark: where a mark is elsewhere
/// in the job as it is and the job that is brought back, that one's counts.
pub(super) fn tape_of(typed: &mut Table<Field, String>, job: &JobState, brought: &JobState) {
    let place = |job: &JobState, spot: u8| {
        let marks = job.marks.as_ref();
        marks.and_then(|marks| marks.offsets.get(usize::from(spot)).copied())
    };
    let other_row = match (job.mark_out.row, brought.mark_out.row) {
        (Some(row), Some(brought)) => row.from_line != brought.from_line,
        _ => false,
    };
    let spots = u8::try_from(brought.spots.len()).unwrap_or(u8::MAX);
    for spot in 0..spots {
        let elsewhere = other_row || place(job, spot) != place(brought, spot);
        for field in tape_fields(spot) {
            let stands = typed.get(&field).is_some_and(|text| !text.is_empty());
            if stands && !elsewhere {
                continue;
            }
            typed.remove(&field);
            if let Some(text) = brought.typed.get(&field) {
                typed.insert(field, text.clone());
            }
        }
    }
}

/// Whether a typed distance says its side itself, by a sign or a letter.
fn says_its_side(text: &str) -> bool {
    let text = text.trim();
    text.starts_with(['-', '−', '+', 'l', 'L', 'r', 'R']) || text.ends_with(['l', 'L', 'r', 'R'])
}

/// What stands in the two tape fields of a spot, each with what is wrong
/// with its own figure.
#[derive(Clone, Debug, PartialEq)]
pub struct TapeTyped {
    /// From the centre line, straight, + to the right.
    pub at: Result<Option<Offset>, Message>,
    /// From the line across: + up, - down.
    pub from_line: Result<Option<Millimetres>, Message>,
}

impl TapeTyped {
    /// Both figures.
    ///
    /// # Errors
    /// What is wrong with the first that cannot be used.
    fn reading(&self) -> Result<TapeReading, Message> {
        Ok(TapeReading {
            at: self.at.clone()?,
            from_line: self.from_line.clone()?,
        })
    }

    /// The figures that can be used.
    fn usable(&self) -> TapeReading {
        TapeReading {
            at: self.at.clone().ok().flatten(),
            from_line: self.from_line.clone().ok().flatten(),
        }
    }
}

/// What stands in the tape fields of a spot: a distance from the centre
/// line, taken to the mark's own side unless it says its own, and one from
/// the line across, + up and - down.
///
/// # Errors
/// What is wrong with a typed figure.
pub fn tape_reading(job: &JobState, spot: usize) -> Result<TapeReading, Message> {
    tape_typed(job, spot).reading()
}

fn tape_typed(job: &JobState, spot: usize) -> TapeTyped {
    let number = u8::try_from(spot).unwrap_or(u8::MAX);
    let typed = |field| Some(job.typed(field).trim()).filter(|text| !text.is_empty());
    let side = job
        .marks
        .as_ref()
        .and_then(|marks| marks.offsets.get(spot))
        .map_or(1.0, |offset| if offset.0 < 0.0 { -1.0 } else { 1.0 });
    let at = typed(Field::TapeMark(number))
        .map(|text| {
            let read = read_offset(text)?;
            let own = if says_its_side(text) { 1.0 } else { side };
            as_taken(job, Offset(read.0 * own))
        })
        .transpose();
    let from_line = typed(Field::TapeLine(number)).map(read_from_line);
    TapeTyped {
        at,
        from_line: from_line.transpose(),
    }
}

/// The check as the screen shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckView {
    /// Readings as typed, with what is wrong at each spot.
    pub readings: Vec<Result<TapeReading, Message>>,
    /// The same, the two fields of each spot apart.
    pub typed: Vec<TapeTyped>,
    /// All readings against the marks.
    pub tape: TapeCheck,
}

/// The typed readings against the marks; `None` without marks.
#[must_use]
pub fn check_view(job: &JobState) -> Option<CheckView> {
    let marks = job.marks.as_ref()?;
    let typed: Vec<TapeTyped> = (0..marks.offsets.len())
        .map(|spot| tape_typed(job, spot))
        .collect();
    let readings = typed.iter().map(TapeTyped::reading).collect();
    let usable: Vec<TapeReading> = typed.iter().map(TapeTyped::usable).collect();
    let row = job.mark_out.row.map(|row| row.from_line);
    let mut tape = tape_check(&marks.offsets, row, &usable, &tape_limits(job));
    if let TapeVerdict::NotReady(against) = &mut tape.verdict {
        for message in against {
            *message = labelled(job, message.clone());
        }
    }
    Some(CheckView {
        readings,
        typed,
        tape,
    })
}

/// When the tape was found ready, as long as what stands in its fields still
/// says the same; a field that was emptied says nothing.
#[must_use]
pub fn tape_checked(job: &JobState) -> Option<DateTime<FixedOffset>> {
    let at = job.check.tape_at?;
    let same = |read: Option<f64>, kept: Option<f64>| match (read, kept) {
        (Some(read), Some(kept)) => (read - kept).abs() <= SAME,
        (Some(_), None) => false,
        (None, _) => true,
    };
    let agrees = |spot: usize| {
        let kept = job.check.tape.get(spot).copied().unwrap_or_default();
        tape_reading(job, spot).is_ok_and(|read| {
            same(read.at.map(|at| at.0), kept.at.map(|at| at.0))
                && same(read.from_line.map(|mm| mm.0), kept.from_line.map(|mm| mm.0))
        })
    };
    (0..job.spots.len()).all(agrees).then_some(at)
}
