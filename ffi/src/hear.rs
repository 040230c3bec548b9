//! Beeps in sound.

use rakeline_core::estimate::beep::{Listener, Onset, ToneGate};
use rakeline_core::text::msg;

use crate::Fault;

/// Lowest rate that is taken, samples a second.
const LEAST_RATE: f64 = 8_000.0;
/// Highest rate that is taken.
const MOST_RATE: f64 = 96_000.0;

/// A steady tone with a beginning and an end.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct Beep {
    /// When it began, milliseconds.
    pub start_ms: f64,
    /// When it ended.
    pub end_ms: f64,
    /// Its frequency, hertz.
    pub tone_hz: f64,
    /// Its energy over the noise beside it, decibels.
    pub snr_db: f64,
    /// Whether its beginning was heard.
    pub whole: bool,
}

/// What was heard.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct Heard {
    /// Beeps that ended, in order.
    pub beeps: Vec<Beep>,
    /// Every beep that ended before this time has been given, milliseconds.
    pub settled_ms: f64,
    /// How far a beep like the kit's would stand out, decibels.
    pub margin_db: f64,
}

/// Hears beeps in mono sound (full scale ±1) of `rate` samples a second, the
/// first of which was heard at `first_ms`; only those at `tone_hz`, if given.
///
/// # Errors
/// [`Fault::Invalid`] for a rate outside of 8 to 96 kHz or a time that is none.
#[uniffi::export]
pub fn hear_beeps(
    samples: &[f32],
    rate: f64,
    first_ms: f64,
    tone_hz: Option<f64>,
) -> Result<Heard, Fault> {
    if !(LEAST_RATE..=MOST_RATE).contains(&rate) || !first_ms.is_finite() {
        return Err(Fault::invalid(&msg("ffi-not-a-figure")));
    }
    let mut ear = Listener::new(rate);
    ear.set_gate(tone_hz.map_or(ToneGate::Any, ToneGate::Near));
    let mut heard = Heard {
        beeps: Vec::new(),
        settled_ms: first_ms,
        margin_db: 0.0,
    };
    // A tenth of a second at a time, as a microphone gives it.
    let part = (rate / 10.0) as usize;
    for (index, frames) in samples.chunks(part).enumerate() {
        let at = first_ms + (index * part) as f64 * 1_000.0 / rate;
        let came = ear.push(frames, at);
        heard.beeps.extend(came.beeps.iter().map(|beep| Beep {
            start_ms: beep.start_ms,
            end_ms: beep.end_ms,
            tone_hz: beep.tone_hz,
            snr_db: beep.snr_db,
            whole: beep.onset == Onset::Heard,
        }));
        heard.settled_ms = came.state.settled_ms;
        heard.margin_db = came.state.margin_db;
    }
    Ok(heard)
}
