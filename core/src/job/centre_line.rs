//! How the centre line was found, and half widths from the full width.

use serde::{Deserialize, Serialize};

use super::entry::{Field, HALF_WIDTH_GREATEST, HALF_WIDTH_LEAST, read_half_width, read_length};
use super::state::JobState;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// How the centre line was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CentreBy {
    /// Plumbed from the striker of the boot or the lock of the doors.
    Striker,
    /// Half way between the holes of the number plate.
    PlateHoles,
    /// Half of the full width.
    FullWidth,
}

impl CentreBy {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 3] = [Self::Striker, Self::PlateHoles, Self::FullWidth];

    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Striker => "centre-by-striker",
            Self::PlateHoles => "centre-by-plate",
            Self::FullWidth => "centre-by-full-width",
        })
    }

    /// How it is done.
    #[must_use]
    pub fn how(self) -> Message {
        msg(match self {
            Self::Striker => "centre-line-striker",
            Self::PlateHoles => "centre-line-plate",
            Self::FullWidth => "centre-line-half",
        })
    }
}

/// How the centre line was found, in words; `None` until it was said.
#[must_use]
pub fn centre_words(job: &JobState) -> Option<Message> {
    let by = job.mark_out.centre?;
    Some(msg("centre-by").message("how", by.message()))
}

/// Reads a full width, outer edge to outer edge, and gives its half.
///
/// # Errors
/// No length, half of one (it looks like a half width), or outside twice the
/// half widths that vehicles have and by how much.
pub fn read_full_width(text: &str) -> Result<Millimetres, Message> {
    let full = read_length(text)?;
    let half = full * 0.5;
    if (HALF_WIDTH_LEAST..=HALF_WIDTH_GREATEST).contains(&half) {
        return Ok(half);
    }
    let (least, greatest) = (HALF_WIDTH_LEAST * 2.0, HALF_WIDTH_GREATEST * 2.0);
    if read_half_width(text).is_ok() {
        return Err(msg("full-width-looks-half")
            .mm("typed", full.0)
            .mm("least", least.0));
    }
    let by = (least - full).0.max((full - greatest).0);
    Err(msg("full-width-outside")
        .mm("typed", full.0)
        .mm("least", least.0)
        .mm("greatest", greatest.0)
        .mm("by", by))
}

/// Both half widths that follow from the full width as typed, as their
/// fields' texts.
///
/// # Errors
/// As [`read_full_width`].
pub fn halved(job: &JobState) -> Result<[(Field, String); 2], Message> {
    let half = read_full_width(job.typed(Field::FullWidth))?.0;
    let text = if (half - half.round()).abs() < 0.05 {
        format!("{half:.0}")
    } else {
        format!("{half:.1}")
    };
    Ok([(Field::HalfLeft, text.clone()), (Field::HalfRight, text)])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_full_width_is_halved_in_any_unit() {
        assert_eq!(read_full_width("1741"), Ok(Millimetres(870.5)));
        assert_eq!(read_full_width("174,2 cm"), Ok(Millimetres(871.0)));
        assert_eq!(read_full_width("1000"), Ok(HALF_WIDTH_LEAST));
        assert_eq!(read_full_width("2700"), Ok(HALF_WIDTH_GREATEST));
    }

    #[test]
    fn a_full_width_that_cannot_be_says_which_figure_and_by_how_much() {
        let half = msg("full-width-looks-half")
            .mm("typed", 871.0)
            .mm("least", 1000.0);
        assert_eq!(read_full_width("871"), Err(half));
        let outside = |typed: f64, by: f64| {
            msg("full-width-outside")
                .mm("typed", typed)
                .mm("least", 1000.0)
                .mm("greatest", 2700.0)
                .mm("by", by)
        };
        assert_eq!(read_full_width("3000"), Err(outside(3000.0, 300.0)));
        assert_eq!(read_full_width("-1740"), Err(outside(-1740.0, 2740.0)));
        assert_eq!(read_full_width("0"), Err(outside(0.0, 1000.0)));
        assert_eq!(
            read_full_width("edge to edge").unwrap_err().key,
            "entry-not-a-length"
        );
    }
}
