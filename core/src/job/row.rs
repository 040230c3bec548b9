//! How high the row of heads sits: from a line that runs true across, and
//! once above the ground.

use serde::{Deserialize, Serialize};

use super::apply::{Refusal, void_spots};
use super::entry::{Field, read_length};
use super::state::{JobState, Tape};
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Farthest from the line across to the row, either way, mm: more than a
/// bumper and the panel above it are high (our own figure).
pub const ROW_FROM_LINE_GREATEST: Millimetres = Millimetres(1000.0);
/// Lowest row above the ground, mm (our own figure).
pub const ROW_HEIGHT_LEAST: Millimetres = Millimetres(100.0);
/// Highest row above the ground, mm (our own figure).
pub const ROW_HEIGHT_GREATEST: Millimetres = Millimetres(1500.0);

/// The line that runs true across and that the height is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RowLine {
    /// The swage line.
    Swage,
    /// A shut line: of the boot lid or the doors.
    ShutLine,
    /// The top edge of the bumper.
    TopEdge,
    /// Another one, in the fitter's words.
    Other,
}

impl RowLine {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 4] = [Self::Swage, Self::ShutLine, Self::TopEdge, Self::Other];

    /// Its name.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Swage => "row-line-swage",
            Self::ShutLine => "row-line-shut",
            Self::TopEdge => "row-line-top-edge",
            Self::Other => "row-line-other",
        })
    }
}

/// Where the row of heads sits up and down: one measure from a line that
/// runs true across, never from the ground.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// From the line to the marks: + up, - down.
    pub from_line: Millimetres,
    /// Height of the marks above the ground, measured once for the sheet.
    pub above_ground: Option<Millimetres>,
    /// Which line it was measured from; `None` where that was not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line: Option<RowLine>,
}

/// The line that the height was measured from, in words.
#[must_use]
pub fn line_words(job: &JobState) -> Message {
    let words = job.typed(Field::RowLineWhat).trim();
    match job.mark_out.row.and_then(|row| row.line) {
        None => msg("row-line-not-said"),
        Some(RowLine::Other) if !words.is_empty() => msg("row-line-words").text("words", words),
        Some(line) => line.message(),
    }
}

/// How far the row is from its line, up or down, in words; `None` where it
/// was not measured.
#[must_use]
pub fn row_from_line_words(job: &JobState) -> Option<Message> {
    let (from_line, line) = (job.mark_out.row?.from_line.0, line_words(job));
    Some(if from_line > 0.0 {
        msg("sheet-row-above")
            .mm("mm", from_line)
            .message("line", line)
    } else if from_line < 0.0 {
        msg("sheet-row-below")
            .mm("mm", -from_line)
            .message("line", line)
    } else {
        msg("sheet-row-on").message("line", line)
    })
}

/// Where the row is, in words; `None` where it was not measured.
#[must_use]
pub fn row_words(job: &JobState) -> Option<Message> {
    let line = row_from_line_words(job)?;
    Some(match job.mark_out.row?.above_ground {
        Some(height) => msg("sheet-row-height")
            .message("line", line)
            .mm("height", height.0),
        None => line,
    })
}

/// Reads the measure from the line across, + up and - down.
///
/// # Errors
/// No length, or farther than [`ROW_FROM_LINE_GREATEST`] and by how much.
pub fn read_from_line(text: &str) -> Result<Millimetres, Message> {
    from_line_in_range(read_length(text)?)
}

/// Reads the height above the ground.
///
/// # Errors
/// No length, or outside [`ROW_HEIGHT_LEAST`] to [`ROW_HEIGHT_GREATEST`] and
/// by how much.
pub fn read_row_height(text: &str) -> Result<Millimetres, Message> {
    height_in_range(read_length(text)?)
}

fn from_line_in_range(typed: Millimetres) -> Result<Millimetres, Message> {
    let over = typed.abs() - ROW_FROM_LINE_GREATEST;
    if over.0 <= 0.0 {
        return Ok(typed);
    }
    Err(msg("row-line-too-far")
        .mm("typed", typed.0)
        .mm("greatest", ROW_FROM_LINE_GREATEST.0)
        .mm("by", over.0))
}

fn height_in_range(typed: Millimetres) -> Result<Millimetres, Message> {
    let by = if typed < ROW_HEIGHT_LEAST {
        ROW_HEIGHT_LEAST - typed
    } else if typed <= ROW_HEIGHT_GREATEST {
        return Ok(typed);
    } else {
        typed - ROW_HEIGHT_GREATEST
    };
    Err(msg("row-height-outside")
        .mm("typed", typed.0)
        .mm("least", ROW_HEIGHT_LEAST.0)
        .mm("greatest", ROW_HEIGHT_GREATEST.0)
        .mm("by", by.0))
}

/// The height was typed. Where the row moves up or down, every mark moves
/// with it. A first height says where the row is; the tape has not been read
/// back at it yet.
pub(super) fn typed(next: &mut JobState, row: Row) -> Result<(), Refusal> {
    from_line_in_range(row.from_line).map_err(Refusal)?;
    if let Some(height) = row.above_ground {
        height_in_range(height).map_err(Refusal)?;
    }
    match next.mark_out.row {
        Some(before) if is_elsewhere(before, row) => all_marks_move(next)?,
        None if next.holes.drilled.is_empty() => {
            next.check.tape.clear();
            next.check.tape_at = None;
        }
        _ => {}
    }
    next.mark_out.row = Some(row);
    Ok(())
}

/// The height is open again: where it is typed anew is not known, so what
/// was done at the marks counts no more.
pub(super) fn cleared(next: &mut JobState) -> Result<(), Refusal> {
    if next.mark_out.row.is_some() {
        all_marks_move(next)?;
        next.mark_out.row = None;
    }
    Ok(())
}

/// Whether a row typed anew is at another height: another measure, or the
/// same from another line. A line that was not said before says where it is.
fn is_elsewhere(before: Row, row: Row) -> bool {
    let other_line = before.line.zip(row.line).is_some_and(|(a, b)| a != b);
    before.from_line != row.from_line || other_line
}

fn all_marks_move(next: &mut JobState) -> Result<(), Refusal> {
    let Some(marks) = &next.marks else {
        return Ok(());
    };
    let all: Vec<usize> = (0..marks.offsets.len()).collect();
    void_spots(next, &all)?;
    if let Some(marks) = &mut next.marks {
        marks.tape = Tape::NotYet;
    }
    Ok(())
}

/// The readings that the height as typed would void, in words; `None` where
/// it voids none.
#[must_use]
pub fn row_voids(job: &JobState, row: Option<Row>) -> Option<Message> {
    let before = job.mark_out.row?;
    job.marks.as_ref()?;
    if row.is_some_and(|row| !is_elsewhere(before, row)) {
        return None;
    }
    let read = job.spots.iter().filter(|spot| spot.is_read());
    let labels: Vec<String> = read.map(|spot| spot.label.clone()).collect();
    (!labels.is_empty()).then(|| {
        msg("readings-lost")
            .count("readings", i64::try_from(labels.len()).unwrap_or(i64::MAX))
            .text("labels", labels.join(", "))
    })
}

/// What the height above ground says against the sheet; `None` where
/// nothing was measured, the sheet gives nothing, or it fits.
#[must_use]
pub fn height_fault(job: &JobState) -> Option<Message> {
    let height = job.mark_out.row?.above_ground?;
    let range = job.kit.height.as_ref()?;
    let fault = |key, by: Millimetres| {
        msg(key)
            .mm("height", height.0)
            .mm("by", by.0)
            .mm("least", range.least.0)
            .mm("greatest", range.greatest.0)
    };
    if height < range.least {
        Some(fault("row-too-low", range.least - height))
    } else if height > range.greatest {
        Some(fault("row-too-high", height - range.greatest))
    } else {
        None
    }
}
