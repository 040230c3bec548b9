//! Times of the walk test against their limits. The limits are parameters:
//! typed, else our default with where it comes from.

use crate::decide::walk_test::{
    LATENCY_GREATEST, LimitFrom, START_UP_GREATEST, TimeLimit, TimeVerdict, judge_time,
};
use crate::figure;
use crate::job::entry::Field;
use crate::job::state::JobState;
use crate::text::{Message, msg};
use crate::units::Millis;

/// Longest time that is believed as a limit, ms (our own figure).
const LIMIT_GREATEST: Millis = Millis(10_000.0);

/// A time that may be measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WalkTime {
    /// From switching on to the driver being told.
    StartUp,
    /// From the pole being there to the driver being told.
    Latency,
}

impl WalkTime {
    /// Both, in the order in which they are shown.
    pub const ALL: [Self; 2] = [Self::StartUp, Self::Latency];

    fn measured(self) -> Field {
        match self {
            Self::StartUp => Field::WalkStartUp,
            Self::Latency => Field::WalkLatency,
        }
    }

    fn most(self) -> Field {
        match self {
            Self::StartUp => Field::WalkStartUpMost,
            Self::Latency => Field::WalkLatencyMost,
        }
    }

    /// Our default with its source.
    #[must_use]
    pub fn own_limit(self) -> TimeLimit {
        TimeLimit {
            greatest: match self {
                Self::StartUp => START_UP_GREATEST,
                Self::Latency => LATENCY_GREATEST,
            },
            from: LimitFrom::SecondHand,
        }
    }

    fn name(self) -> Message {
        msg(match self {
            Self::StartUp => "walk-time-start-up",
            Self::Latency => "walk-time-latency",
        })
    }
}

fn read(typed: &str) -> Option<Millis> {
    let figure = typed.trim_end_matches("ms").trim().replace(',', ".");
    figure::read(&figure).map(Millis)
}

/// The greatest time as typed, else our default.
///
/// # Errors
/// What stands there instead of a time.
pub fn time_limit(job: &JobState, of: WalkTime) -> Result<TimeLimit, Message> {
    let typed = job.typed(of.most()).trim();
    if typed.is_empty() {
        return Ok(of.own_limit());
    }
    match read(typed) {
        Some(greatest) if greatest.0 > 0.0 && greatest <= LIMIT_GREATEST => Ok(TimeLimit {
            greatest,
            from: LimitFrom::Typed,
        }),
        _ => Err(msg("walk-time-limit-no-figure")
            .text("typed", typed)
            .number("greatest", LIMIT_GREATEST.0, 0)),
    }
}

/// The limit that holds: a typed one that is no time counts as none.
fn holds(job: &JobState, of: WalkTime) -> TimeLimit {
    time_limit(job, of).unwrap_or_else(|_| of.own_limit())
}

/// Times as typed, each against its limit, with where that comes from.
#[must_use]
pub fn times_said(job: &JobState) -> Vec<Message> {
    let said = |of: WalkTime| {
        let typed = job.typed(of.measured()).trim();
        if typed.is_empty() {
            return None;
        }
        let limit = holds(job, of);
        let measured = read(typed).unwrap_or(Millis(f64::NAN));
        let words = match judge_time(measured, limit.greatest) {
            TimeVerdict::NoTime => {
                return Some(
                    msg("walk-time-no-figure")
                        .message("time", of.name())
                        .text("typed", typed),
                );
            }
            TimeVerdict::Within => msg("walk-time-within"),
            TimeVerdict::Over(by) => msg("walk-time-over").number("by", by.0, 0),
        };
        Some(
            words
                .message("time", of.name())
                .number("measured", measured.0, 0)
                .number("greatest", limit.greatest.0, 0)
                .message("from", limit.from.message()),
        )
    };
    WalkTime::ALL.into_iter().filter_map(said).collect()
}

/// By how much the measured start-up is over its limit; `None` where it was
/// not measured, or is within.
#[must_use]
pub fn starts_late_by(job: &JobState) -> Option<Millis> {
    let measured = read(job.typed(Field::WalkStartUp).trim())?;
    match judge_time(measured, holds(job, WalkTime::StartUp).greatest) {
        TimeVerdict::Over(by) => Some(by),
        TimeVerdict::Within | TimeVerdict::NoTime => None,
    }
}
