//! What the check line of a mark-card sheet measures on paper.
//!
//! Printers and their dialogs make sheets smaller or larger than drawn; the
//! cards on a sheet are scaled by as much as its line.

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};
use crate::units::{Estimate, Millimetres};

/// Length of the check line as drawn.
pub const CHECK_LINE: Millimetres = Millimetres(250.0);
/// A line that is off by more was not printed near full size, or another
/// line was measured (our own figure; 'fit to page' takes 3 to 8 %).
pub const CHECK_LINE_OFF: Millimetres = Millimetres(25.0);
/// A line that is off by more than this is named on the screen, mm.
pub const CHECK_LINE_TRUE: Millimetres = Millimetres(0.5);
/// Standard uncertainty of a ruler laid along the line, mm: read to half a
/// millimetre at both ends (our own figure).
pub const U_CHECK_LINE: Millimetres = Millimetres(0.2);
/// Millimetres in an inch, exact.
const INCH: f64 = 25.4;

/// The measured length of a check line.
///
/// # Units
/// Millimetres on paper, within [`CHECK_LINE_OFF`] of [`CHECK_LINE`].
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(try_from = "Millimetres", into = "Millimetres")]
pub struct CheckLine(Millimetres);

impl CheckLine {
    /// A measured length.
    ///
    /// # Errors
    /// Too far from what was drawn, and by how much; inches are recognised.
    pub fn new(measured: Millimetres) -> Result<Self, Message> {
        let off = |length: f64| (length - CHECK_LINE.0).abs();
        if off(measured.0) <= CHECK_LINE_OFF.0 {
            return Ok(Self(measured));
        }
        let said = |key| {
            msg(key)
                .number("typed", measured.0, 1)
                .mm("drawn", CHECK_LINE.0)
        };
        Err(if off(measured.0 * INCH) <= CHECK_LINE_OFF.0 {
            said("check-line-inches").number("inches", measured.0 * INCH, 1)
        } else if measured.0.is_finite() {
            said("check-line-off")
                .number("by", off(measured.0), 1)
                .mm("most", CHECK_LINE_OFF.0)
        } else {
            msg("entry-not-a-length").text("typed", measured.0.to_string())
        })
    }

    /// As measured.
    #[must_use]
    pub fn measured(self) -> Millimetres {
        self.0
    }

    /// How much larger the sheet is than drawn: 1 at full size. A length of
    /// a card as drawn, times this, is its length on paper.
    #[must_use]
    pub fn scale(self) -> Estimate<f64> {
        Estimate::new(self.0.0 / CHECK_LINE.0, U_CHECK_LINE.0 / CHECK_LINE.0)
    }

    /// What the length says of the sheet.
    #[must_use]
    pub fn message(self) -> Message {
        let off = self.0.0 - CHECK_LINE.0;
        if off.abs() <= CHECK_LINE_TRUE.0 {
            return msg("check-line-true");
        }
        msg(if off < 0.0 {
            "check-line-short"
        } else {
            "check-line-long"
        })
        .number("by", off.abs(), 1)
        .number("percent", 100.0 * self.0.0 / CHECK_LINE.0, 1)
    }
}

impl TryFrom<Millimetres> for CheckLine {
    type Error = String;

    fn try_from(measured: Millimetres) -> Result<Self, String> {
        Self::new(measured).map_err(|fault| fault.key.into_owned())
    }
}

impl From<CheckLine> for Millimetres {
    fn from(line: CheckLine) -> Self {
        line.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_near_what_was_drawn_gives_the_scale() {
        let line = CheckLine::new(Millimetres(242.5)).unwrap();
        assert!((line.scale().value - 0.97).abs() < 1e-12);
        assert!((line.scale().u - 0.0008).abs() < 1e-12);
        assert_eq!(line.message().key, "check-line-short");
        let full = CheckLine::new(Millimetres(250.5)).unwrap();
        assert_eq!(full.message(), msg("check-line-true"));
        let long = CheckLine::new(Millimetres(251.0)).unwrap();
        let said = msg("check-line-long")
            .number("by", 1.0, 1)
            .number("percent", 100.4, 1);
        assert_eq!(long.message(), said);
    }

    #[test]
    fn another_line_inches_or_no_figure_are_named() {
        let key = |mm| CheckLine::new(Millimetres(mm)).unwrap_err().key;
        assert_eq!(key(100.0), "check-line-off");
        assert_eq!(key(-250.0), "check-line-off");
        assert_eq!(key(9.84), "check-line-inches");
        assert_eq!(key(f64::NAN), "entry-not-a-length");
        assert!(CheckLine::new(Millimetres(275.0)).is_ok());
        assert!(CheckLine::new(Millimetres(275.1)).is_err());
    }

    #[test]
    fn a_stored_length_is_held_against_the_same_limits() {
        let line = CheckLine::new(Millimetres(249.0)).unwrap();
        let text = serde_json::to_string(&line).unwrap();
        assert_eq!(text, "249.0");
        assert_eq!(serde_json::from_str::<CheckLine>(&text).unwrap(), line);
        assert!(serde_json::from_str::<CheckLine>("90").is_err());
    }
}
