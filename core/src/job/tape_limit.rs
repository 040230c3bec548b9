//! How far the tape that is read back may be off before the marks are not
//! ready to drill: the app's limits, changeable for one job.

use serde::{Deserialize, Serialize};

use super::entry::read_length;
use super::state::JobState;
use crate::decide::mark_out::TapeLimits;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Least limit that can be set, mm: nobody reads a tape finer (our own figure).
pub const TAPE_LIMIT_LEAST: Millimetres = Millimetres(0.5);
/// Greatest limit that can be set, mm: more is seen from behind the vehicle
/// (our own figure).
pub const TAPE_LIMIT_GREATEST: Millimetres = Millimetres(15.0);

/// A limit of the check before drilling.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TapeLimit {
    /// One mark from its place.
    Mark,
    /// One gap from its planned gap.
    Gap,
    /// Left against right.
    Symmetry,
    /// One mark from its height.
    Level,
}

impl TapeLimit {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 4] = [Self::Mark, Self::Gap, Self::Symmetry, Self::Level];

    /// Its name on the screen.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Mark => "tape-limit-mark",
            Self::Gap => "tape-limit-gap",
            Self::Symmetry => "tape-limit-symmetry",
            Self::Level => "tape-limit-level",
        })
    }

    /// It among these limits.
    #[must_use]
    pub fn of(self, limits: &TapeLimits) -> Millimetres {
        match self {
            Self::Mark => limits.mark,
            Self::Gap => limits.gap,
            Self::Symmetry => limits.symmetry,
            Self::Level => limits.level,
        }
    }

    fn set(self, limits: &mut TapeLimits, value: Millimetres) {
        match self {
            Self::Mark => limits.mark = value,
            Self::Gap => limits.gap = value,
            Self::Symmetry => limits.symmetry = value,
            Self::Level => limits.level = value,
        }
    }
}

/// Reads a limit of the check.
///
/// # Errors
/// No length, or outside [`TAPE_LIMIT_LEAST`] to [`TAPE_LIMIT_GREATEST`] and
/// by how much.
pub fn read_tape_limit(text: &str) -> Result<Millimetres, Message> {
    in_range(read_length(text)?)
}

/// A limit inside its range.
pub(super) fn in_range(typed: Millimetres) -> Result<Millimetres, Message> {
    let by = (TAPE_LIMIT_LEAST.0 - typed.0).max(typed.0 - TAPE_LIMIT_GREATEST.0);
    if by <= 0.0 {
        return Ok(typed);
    }
    Err(msg("tape-limit-outside")
        .number("typed", typed.0, 1)
        .number("least", TAPE_LIMIT_LEAST.0, 1)
        .number("greatest", TAPE_LIMIT_GREATEST.0, 1)
        .number("by", by, 1))
}

/// The limits that hold for the check of this job, whether the tape is typed
/// or photos measured: the app's with what the job changed.
#[must_use]
pub fn tape_limits(job: &JobState) -> TapeLimits {
    let mut limits = TapeLimits::default();
    for (limit, value) in &job.mark_out.tape_limits {
        limit.set(&mut limits, *value);
    }
    limits
}

/// The limits that were changed for this job, each beside the app's own.
#[must_use]
pub fn tape_limits_changed(job: &JobState) -> Vec<Message> {
    let app = TapeLimits::default();
    let changed = job.mark_out.tape_limits.iter();
    changed
        .filter(|(limit, value)| limit.of(&app) != *value)
        .map(|(limit, value)| {
            msg("tape-limit-changed")
                .message("limit", limit.message())
                .number("now", value.0, 1)
                .number("app", limit.of(&app).0, 1)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_limit_out_of_range_says_the_range_and_by_how_much() {
        let said = |typed: f64, by: f64| {
            msg("tape-limit-outside")
                .number("typed", typed, 1)
                .number("least", 0.5, 1)
                .number("greatest", 15.0, 1)
                .number("by", by, 1)
        };
        assert_eq!(read_tape_limit("0"), Err(said(0.0, 0.5)));
        assert_eq!(read_tape_limit("-2"), Err(said(-2.0, 2.5)));
        assert_eq!(read_tape_limit("40 mm"), Err(said(40.0, 25.0)));
        assert_eq!(read_tape_limit("1,5"), Ok(Millimetres(1.5)));
        assert_eq!(read_tape_limit("0.5"), Ok(TAPE_LIMIT_LEAST));
        assert_eq!(read_tape_limit("15"), Ok(TAPE_LIMIT_GREATEST));
        for text in ["", "a little", "NaN", "1e999"] {
            assert_eq!(read_tape_limit(text).unwrap_err().key, "entry-not-a-length");
        }
    }
}
