//! Beeps in the sound of a cabin: when each began and ended, at what tone.
//!
//! # Where to start
//! [`Listener::push`] takes frames as the microphone gives them and returns
//! the beeps that ended and how well it hears. Inside, sound is brought to
//! [`RATE`] ([`resample`]); a [`bank`] of spectra of five lengths says where
//! a tone may be, against a [`floor`] of the noise beside it; a [`track`]
//! gathers what is said about one tone; [`edges`] finds its beginning and
//! end; [`steady`] rejects voices and clicks. A tone that goes on is held
//! until it ends (`hold`): it is told as sounding all the time, and as one
//! beep in the end.
//!
//! **Boundary:** sound goes in and only times, tones and levels come out.
//! The types that travel ([`heard`]) are always there; the listening itself
//! is the feature `beep`, which only the worker has.
//!
//! # Units
//! Monotonic milliseconds of the caller's clock, hertz, decibels. Samples
//! are full scale at ±1. Noise density is one-sided.

pub mod heard;

#[cfg(feature = "beep")]
pub mod bank;
#[cfg(feature = "beep")]
pub mod channels;
#[cfg(feature = "beep")]
pub mod clock;
#[cfg(feature = "beep")]
mod ear_state;
#[cfg(feature = "beep")]
pub mod edges;
#[cfg(feature = "beep")]
pub mod floor;
#[cfg(feature = "beep")]
mod given;
#[cfg(all(test, feature = "beep"))]
mod goes_on;
#[cfg(feature = "beep")]
mod hold;
#[cfg(feature = "beep")]
mod lasting;
#[cfg(feature = "beep")]
mod listener;
#[cfg(feature = "beep")]
pub mod resample;
#[cfg(feature = "beep")]
mod ring;
#[cfg(feature = "beep")]
mod split;
#[cfg(feature = "beep")]
pub mod steady;
#[cfg(feature = "beep")]
mod tame;
#[cfg(feature = "beep")]
mod track;
#[cfg(feature = "beep")]
mod vital;

pub use heard::{
    Beep, EarState, GATE_HZ, HIGHEST, Hearing, LEAST_MARGIN_DB, LOWEST, Lasts, Onset, OwnTone,
    Sounding, ToneGate, Trouble,
};
#[cfg(feature = "beep")]
pub use listener::Listener;

/// Samples a second on which everything is computed.
#[cfg(feature = "beep")]
pub const RATE: f64 = 16_000.0;
