//! Beeps and chimes.

use super::RATE;
use crate::tilt_sim::rng::Rng;

/// A steady tone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tone {
    /// When it begins, milliseconds.
    pub start_ms: f64,
    /// How long it lasts.
    pub length_ms: f64,
    /// Frequency.
    pub hertz: f64,
    /// Amplitude.
    pub size: f64,
}

/// Amplitude of a tone of this length with this E/N0, E its energy and N0
/// the one-sided noise density.
#[must_use]
pub fn amplitude_for(e_n0_db: f64, length_ms: f64, density: f64) -> f64 {
    (2.0 * 10f64.powf(e_n0_db / 10.0) * density / (length_ms / 1000.0)).sqrt()
}

/// Adds a tone with edges of 2 ms to samples of `rate`; what is before the
/// first or after the last is lost.
pub fn add_tone(samples: &mut [f32], rate: f64, tone: &Tone, rng: &mut Rng) {
    let phase = rng.uniform(0.0, core::f64::consts::TAU);
    let (from, count) = (
        tone.start_ms / 1000.0 * rate,
        tone.length_ms / 1000.0 * rate,
    );
    let edge = 0.002 * rate;
    let first = from.ceil().max(0.0) as usize;
    let last = ((from + count).floor().max(0.0) as usize).min(samples.len());
    for (at, sample) in samples.iter_mut().enumerate().take(last).skip(first) {
        let since = at as f64 - from;
        let ramp = (since / edge).min((count - since) / edge).clamp(0.0, 1.0);
        let angle = phase + core::f64::consts::TAU * tone.hertz * since / rate;
        *sample += (tone.size * ramp * angle.sin()) as f32;
    }
}

/// Adds a chime of one or two struck notes with their overtones, none of
/// which comes within 60 Hz of `not_hertz`.
pub fn add_chime(samples: &mut [f32], start_ms: f64, not_hertz: f64, rng: &mut Rng) {
    let overtones = [(1.0, 1.0), (2.0, 0.4), (2.76, 0.25), (4.1, 0.1)];
    let first = loop {
        let hertz = rng.uniform(520.0, 1_600.0);
        let clear = |at: f64| {
            overtones
                .iter()
                .all(|(times, _)| (at * times - not_hertz).abs() > 60.0)
        };
        if clear(hertz) && clear(hertz * 0.8) {
            break hertz;
        }
    };
    let notes = if rng.share() < 0.5 { 1 } else { 2 };
    for note in 0..notes {
        let hertz = if note == 0 { first } else { first * 0.8 };
        let from = (start_ms / 1000.0 + 0.45 * f64::from(note)) * RATE;
        let decay = rng.uniform(0.15, 0.6) * RATE;
        for (times, share) in overtones {
            let size = 0.05 * share;
            let steps = samples
                .iter_mut()
                .skip(from as usize)
                .take((6.0 * decay) as usize);
            for (at, sample) in steps.enumerate() {
                let swell = (at as f64 / (0.003 * RATE)).min(1.0);
                let angle = core::f64::consts::TAU * hertz * times * at as f64 / RATE;
                let now = size * swell * (-(at as f64) / decay).exp() * angle.sin();
                *sample += now as f32;
            }
        }
    }
}
