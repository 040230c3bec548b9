//! Loudness, silence and clipping of what the microphone gives.

/// A sample is at full scale from here on.
const FULL: f32 = 0.99;
/// Share of samples at full scale that is clipping.
const CLIPPED_SHARE: f32 = 0.002;
/// Nothing is louder than this in digital silence.
const NOTHING: f32 = 1e-6;
/// So much of nothing between sounds was lost on its way: a room is never so
/// still, and a beep of the kit is longer. Seconds (our own figure).
const HOLE: f32 = 0.02;
/// Time over which clipping is counted, seconds.
const WHILE: f32 = 1.0;
/// Time over which loudness is shown, seconds.
const METER: f32 = 0.1;
/// What is shown for silence, decibels.
const QUIETEST_DB: f64 = -120.0;

/// Running figures of the raw samples.
#[derive(Clone, Debug)]
pub struct Vital {
    rate: f32,
    power: f32,
    clipped: f32,
    silent_for: f32,
    /// Samples of nothing in a row.
    nothing: u32,
}

impl Vital {
    pub fn new(rate: f64) -> Self {
        Self {
            rate: rate as f32,
            power: 0.0,
            clipped: 0.0,
            silent_for: 0.0,
            nothing: 0,
        }
    }

    /// Takes samples; tells how many of them there were when a hole in the
    /// sound was over, or was still on.
    pub fn push(&mut self, samples: &[f32]) -> Option<usize> {
        let mut whole_from = None;
        let (meter, clip) = (1.0 / (METER * self.rate), 1.0 / (WHILE * self.rate));
        for (sample, until) in samples.iter().zip(1..) {
            let size = sample.abs();
            self.power += meter * (size * size - self.power);
            self.clipped += clip * (f32::from(u8::from(size >= FULL)) - self.clipped);
            if size > NOTHING {
                self.silent_for = 0.0;
                self.nothing = 0;
            } else {
                self.nothing = self.nothing.saturating_add(1);
                if self.nothing as f32 >= HOLE * self.rate {
                    whole_from = Some(until);
                }
            }
        }
        if self.silent_for < 10.0 * WHILE {
            let all_silent = samples.iter().all(|sample| sample.abs() <= NOTHING);
            if all_silent {
                self.silent_for += samples.len() as f32 / self.rate;
            }
        }
        whole_from
    }

    /// Loudness against a sine at full scale, decibels.
    pub fn level_db(&self) -> f64 {
        (10.0 * (2.0 * f64::from(self.power)).log10()).max(QUIETEST_DB)
    }

    pub fn silent(&self) -> bool {
        self.silent_for >= WHILE
    }

    pub fn clipping(&self) -> bool {
        self.clipped > CLIPPED_SHARE
    }
}
