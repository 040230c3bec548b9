//! A run of an obstacle learn, followed to its end.

use rakeline_core::learn::{self, Event, Proof, Run, Source, Standing, Ways, procedure, step};
use rakeline_core::text::msg;
use rakeline_core::units::Millis;
use rakeline_words::say;

use crate::Fault;
use crate::kit::sheet;

/// How cycles are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum LearnWays {
    /// Taps say in and out, the microphone hears the beeps.
    Both,
    /// Taps alone.
    Hand,
    /// The microphone alone.
    Microphone,
}

/// What happened.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Enum)]
pub enum LearnHappened {
    /// The selector went into reverse.
    ReverseIn,
    /// It went out of reverse.
    ReverseOut,
    /// A beep was heard, by its own times.
    Beep {
        /// Its first sound, ms.
        start_ms: f64,
        /// Its last sound, ms.
        end_ms: f64,
        /// Its tone, hertz.
        tone_hz: f64,
    },
    /// Sound was looked at up to this moment.
    Listened,
    /// Time passed.
    Tick,
    /// The fitter gave up.
    Cancelled,
    /// The app was ended.
    Killed,
}

/// Something that happened, and when.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct LearnMoment {
    /// Monotonic milliseconds.
    pub at_ms: f64,
    /// What.
    pub what: LearnHappened,
}

/// What came of a run.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct LearnOutcome {
    /// Whether the control box now ignores the obstacle, proved by what the
    /// microphone heard.
    pub proved: bool,
    /// Cycles confirmed.
    pub confirmed: u32,
    /// Cycles that the kit asks for.
    pub asked: u32,
    /// The outcome in words.
    pub outcome: String,
    /// How it was counted and what was heard, in words.
    pub summary: String,
}

/// Follows a run of the kit's obstacle learn through what happened. One that
/// is not over then was interrupted.
///
/// # Errors
/// [`Fault::Unreadable`] for a sheet that is none, [`Fault::Impossible`] where
/// the sheet does not say how its kit learns.
#[uniffi::export]
pub fn obstacle_learn(
    kit: &str,
    ways: LearnWays,
    moments: &[LearnMoment],
) -> Result<LearnOutcome, Fault> {
    let procedure = procedure(&sheet(kit)?);
    let procedure = procedure.map_err(|_| Fault::impossible(&msg("ffi-learn-not-given")))?;
    let ways = match ways {
        LearnWays::Both => Ways::Both,
        LearnWays::Hand => Ways::Hand,
        LearnWays::Microphone => Ways::Microphone,
    };
    let mut run = Run::new(procedure, ways, None);
    for moment in moments {
        let at = Millis(moment.at_ms);
        let event = match moment.what {
            LearnHappened::ReverseIn => Event::Reverse(Source::Tap),
            LearnHappened::ReverseOut => Event::Out(Source::Tap),
            LearnHappened::Beep {
                start_ms,
                end_ms,
                tone_hz,
            } => Event::Beep(learn::Heard {
                start: Millis(start_ms),
                end: Millis(end_ms),
                hertz: tone_hz,
            }),
            LearnHappened::Listened => Event::Listened(at),
            LearnHappened::Tick => Event::Tick,
            LearnHappened::Cancelled => Event::Cancelled,
            LearnHappened::Killed => Event::Interrupted(learn::Cause::Killed),
        };
        run = step(&run, event, at).next;
    }
    let proof = Proof::of(&run);
    Ok(LearnOutcome {
        proved: proof.standing() == Standing::Ignores,
        confirmed: proof.confirmed,
        asked: proof.asked,
        outcome: say(&proof.message()),
        summary: say(&proof.summary()),
    })
}
