//! What the listener makes of sound, and how that compares with the truth.

use rakeline_core::estimate::beep::{Beep, Listener, ToneGate};

use super::RATE;
use super::noise::{Kind, Noise, density_at};
use super::tones::{Tone, add_tone, amplitude_for};
use crate::tilt_sim::rng::Rng;

/// Milliseconds of the batches in which frames are handed over.
pub const BATCH_MS: f64 = 80.0;

/// Beeps in sound at [`RATE`], any tone.
#[must_use]
pub fn hear(samples: &[f32]) -> Vec<Beep> {
    hear_at(samples, RATE, ToneGate::Any)
}

/// Beeps in sound at a rate through a gate.
#[must_use]
pub fn hear_at(samples: &[f32], rate: f64, gate: ToneGate) -> Vec<Beep> {
    let mut listener = Listener::new(rate);
    listener.set_gate(gate);
    hear_in(&mut listener, samples, rate)
}

/// Hands sound that begins at time 0 to a listener in batches.
pub fn hear_in(listener: &mut Listener, samples: &[f32], rate: f64) -> Vec<Beep> {
    let batch = (rate * BATCH_MS / 1000.0) as usize;
    let mut beeps = Vec::new();
    for (at, frames) in samples.chunks(batch).enumerate() {
        let first_ms = (at * batch) as f64 * 1000.0 / rate;
        beeps.extend(listener.push(frames, first_ms).beeps);
    }
    beeps
}

/// The beep that is this tone, if it was heard.
#[must_use]
pub fn heard_as<'a>(beeps: &'a [Beep], tone: &Tone) -> Option<&'a Beep> {
    beeps.iter().find(|beep| {
        let end = tone.start_ms + tone.length_ms;
        let both = beep.end_ms.min(end) - beep.start_ms.max(tone.start_ms);
        both > 0.5 * tone.length_ms && (beep.tone_hz - tone.hertz).abs() <= 40.0
    })
}

/// How many tones of one length were heard.
#[derive(Clone, Copy, Debug, Default)]
pub struct Hits {
    /// Tones sounded.
    pub sounded: usize,
    /// Of them heard.
    pub heard: usize,
}

impl Hits {
    /// Share heard, per cent.
    #[must_use]
    pub fn percent(&self) -> f64 {
        100.0 * self.heard as f64 / self.sounded.max(1) as f64
    }
}

/// Tones in one stretch of noise.
const TONES: usize = 20;
/// Noise before the first tone, milliseconds.
const LEAD_MS: f64 = 1_500.0;

/// A stretch of noise with tones of 2 to 4 kHz, `pause_ms` between them.
fn stretch(
    noise: &mut Noise,
    rng: &mut Rng,
    length_ms: f64,
    e_n0_db: f64,
    pause_ms: f64,
) -> (Vec<f32>, Vec<Tone>) {
    let period = length_ms + pause_ms;
    let whole_ms = LEAD_MS + TONES as f64 * period + 3_000.0;
    let mut samples = noise.take((whole_ms * RATE / 1000.0) as usize);
    let alone = samples[..4 * RATE as usize].to_vec();
    let tones: Vec<Tone> = (0..TONES)
        .map(|at| {
            let hertz = rng.uniform(2_000.0, 4_000.0);
            Tone {
                start_ms: LEAD_MS + at as f64 * period + rng.uniform(0.0, 200.0),
                length_ms,
                hertz,
                size: amplitude_for(e_n0_db, length_ms, density_at(&alone, hertz)),
            }
        })
        .collect();
    for tone in &tones {
        add_tone(&mut samples, RATE, tone, rng);
    }
    (samples, tones)
}

/// Sounds at least `least` tones of a length at an E/N0 in a noise.
#[must_use]
pub fn hits(kind: Kind, length_ms: f64, e_n0_db: f64, least: usize, seed: u64) -> Hits {
    let mut noise = Noise::new(kind, seed);
    let mut rng = Rng::new(seed ^ 0x51);
    let mut hits = Hits::default();
    while hits.sounded < least {
        let (samples, tones) = stretch(&mut noise, &mut rng, length_ms, e_n0_db, 1_700.0);
        let beeps = hear(&samples);
        hits.sounded += tones.len();
        hits.heard += tones
            .iter()
            .filter(|tone| heard_as(&beeps, tone).is_some())
            .count();
    }
    hits
}

/// How far begin and end of what was heard lie off, milliseconds.
#[must_use]
pub fn edges(length_ms: f64, e_n0_db: f64, least: usize, seed: u64) -> (Vec<f64>, Vec<f64>) {
    let mut noise = Noise::new(Kind::White, seed);
    let mut rng = Rng::new(seed ^ 0x77);
    let (mut begins, mut ends) = (Vec::new(), Vec::new());
    while begins.len() < least {
        let (samples, tones) = stretch(&mut noise, &mut rng, length_ms, e_n0_db, 1_000.0);
        let beeps = hear(&samples);
        for tone in &tones {
            // A tone that was missed is off by all it can be.
            let (begin, end) = heard_as(&beeps, tone).map_or((length_ms, length_ms), |beep| {
                let end = tone.start_ms + tone.length_ms;
                (
                    (beep.start_ms - tone.start_ms).abs(),
                    (beep.end_ms - end).abs(),
                )
            });
            begins.push(begin);
            ends.push(end);
        }
    }
    (begins, ends)
}

/// Beeps in a run.
pub const CYCLES: usize = 10;

/// A run: ten beeps of one length at one tone, then seconds of silence.
/// The tone is learnt from the first. Gives how many were counted.
#[must_use]
pub fn run(kind: Kind, length_ms: f64, e_n0_db: f64, seed: u64) -> usize {
    let mut rng = Rng::new(seed);
    let kit = rng.uniform(2_000.0, 4_000.0);
    let mut samples = Noise::new(kind, seed ^ 0x99).take(46 * RATE as usize);
    let size = amplitude_for(
        e_n0_db,
        length_ms,
        density_at(&samples[..4 * RATE as usize], kit),
    );
    for at in 0..CYCLES {
        let tone = Tone {
            start_ms: 2_000.0 + 3_500.0 * at as f64 + rng.uniform(0.0, 800.0),
            length_ms,
            hertz: kit,
            size,
        };
        add_tone(&mut samples, RATE, &tone, &mut rng);
    }
    let mut listener = Listener::new(RATE);
    let batch = (RATE * BATCH_MS / 1000.0) as usize;
    let mut counted = 0;
    for (at, frames) in samples.chunks(batch).enumerate() {
        let heard = listener.push(frames, at as f64 * BATCH_MS);
        for beep in heard.beeps {
            if counted == 0 {
                listener.set_gate(ToneGate::Near(beep.tone_hz));
            }
            counted += 1;
        }
    }
    counted
}

/// What was heard where there was no beep.
#[derive(Clone, Debug, Default)]
pub struct False {
    /// Minutes listened.
    pub minutes: f64,
    /// Beeps heard.
    pub beeps: Vec<Beep>,
}

impl False {
    /// Events a minute, any tone.
    #[must_use]
    pub fn any(&self) -> f64 {
        self.beeps.len() as f64 / self.minutes
    }

    /// Events a minute that pass the gate of one tone.
    #[must_use]
    pub fn at(&self, kit: f64) -> f64 {
        let gate = ToneGate::Near(kit);
        let passed = self.beeps.iter().filter(|beep| gate.passes(beep.tone_hz));
        passed.count() as f64 / self.minutes
    }

    /// Mean and greatest over kits of 2 to 4 kHz.
    #[must_use]
    pub fn over_kits(&self) -> (f64, f64) {
        let all: Vec<f64> = (0..50)
            .map(|at| self.at(2_000.0 + 40.0 * f64::from(at)))
            .collect();
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        (mean, all.iter().copied().fold(0.0, f64::max))
    }
}

/// Listens for so many minutes to sound that `next` gives in batches.
pub fn false_events(minutes: f64, mut next: impl FnMut(usize) -> Vec<f32>) -> False {
    let mut listener = Listener::new(RATE);
    let batch = (RATE * BATCH_MS / 1000.0) as usize;
    let batches = (minutes * 60_000.0 / BATCH_MS) as usize;
    let mut beeps = Vec::new();
    for at in 0..batches {
        beeps.extend(listener.push(&next(batch), at as f64 * BATCH_MS).beeps);
    }
    False { minutes, beeps }
}
