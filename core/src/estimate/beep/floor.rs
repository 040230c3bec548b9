//! The noise beside a tone: one-sided density from the neighbours in
//! frequency, in the recent past and in the same spectrum, and what this
//! very frequency did before.

/// Time over which the past is averaged, milliseconds.
const PAST_MS: f64 = 2_000.0;
/// A bin enters the past with at most this many times its average, so that
/// a beep does not raise its own floor.
const CLIP: f32 = 4.0;
/// Share of the time that a bin lies below its own lower quantile.
const QUANTILE: f32 = 0.25;
/// That quantile of exponentially spread power, over its mean: -ln(1 - 0.25).
const QUANTILE_OF_MEAN: f32 = 0.287_68;
/// How fast the quantile climbs while its bin stays above, nepers of power a second:
/// a steady line is a part of the floor after some ten seconds, a tone of three is not.
const CLIMB: f64 = 0.5;
/// Bins next to a tone that belong to it (of the padded spectrum).
pub const GUARD: usize = 6;

/// The floor of one length of window.
#[derive(Clone, Debug)]
pub struct Floor {
    span: usize,
    past: Vec<f32>,
    own: Vec<f32>,
    sums_past: Vec<f64>,
    sums_now: Vec<f64>,
    weight_least: f32,
    climb: f32,
    fall: f32,
    frames: u32,
}

impl Floor {
    /// For spectra of `bins`, one each `hop_ms`; neighbours reach `span` bins.
    pub fn new(bins: usize, span: usize, hop_ms: f64) -> Self {
        let climb = CLIMB * hop_ms / 1000.0;
        let fall = climb * f64::from((1.0 - QUANTILE) / QUANTILE);
        Self {
            span,
            past: vec![0.0; bins],
            own: vec![0.0; bins],
            sums_past: vec![0.0; bins + 1],
            sums_now: vec![0.0; bins + 1],
            weight_least: (hop_ms / PAST_MS) as f32,
            climb: climb.exp() as f32,
            fall: (-fall).exp() as f32,
            frames: 0,
        }
    }

    /// Makes ready to be asked about a spectrum of densities.
    pub fn look(&mut self, now: &[f32]) {
        sum_up(now, &mut self.sums_now);
        if self.frames == 0 {
            for bin in 0..now.len() {
                let beside = beside(&self.sums_now, bin, self.span);
                self.past[bin] = beside;
                self.own[bin] = beside * QUANTILE_OF_MEAN;
            }
        }
        sum_up(&self.past, &mut self.sums_past);
    }

    /// The noise density at a bin.
    pub fn density(&self, bin: usize) -> f32 {
        beside(&self.sums_past, bin, self.span).max(beside(&self.sums_now, bin, self.span))
    }

    /// The noise density at a bin as the recent past has it.
    pub fn past(&self, bin: usize) -> f32 {
        beside(&self.sums_past, bin, self.span)
    }

    /// What this bin itself usually has, as a mean density.
    pub fn own(&self, bin: usize) -> f32 {
        self.own[bin] / QUANTILE_OF_MEAN
    }

    /// Takes the spectrum into the past.
    pub fn learn(&mut self, now: &[f32]) {
        self.frames = self.frames.saturating_add(1);
        let weight = self.weight_least.max(1.0 / (self.frames as f32 + 1.0));
        for ((past, own), &power) in self.past.iter_mut().zip(&mut self.own).zip(now) {
            let clipped = power.min(CLIP * *past);
            *past += weight * (clipped - *past);
            *past = past.max(f32::MIN_POSITIVE);
            *own *= if power > *own { self.climb } else { self.fall };
            *own = own.max(f32::MIN_POSITIVE);
        }
    }
}

pub(super) fn sum_up(values: &[f32], sums: &mut [f64]) {
    let mut sum = 0.0;
    for (value, place) in values.iter().zip(&mut sums[1..]) {
        sum += f64::from(*value);
        *place = sum;
    }
}

/// Mean of the bins up to `span` away without those that belong to the tone.
pub(super) fn beside(sums: &[f64], bin: usize, span: usize) -> f32 {
    let last = sums.len() - 1;
    let run = |from: usize, to: usize| {
        let (from, to) = (from.min(last), to.min(last));
        (sums[to] - sums[from], to - from)
    };
    let (low, low_count) = run(bin.saturating_sub(span), bin.saturating_sub(GUARD));
    let (high, high_count) = run(bin + GUARD + 1, bin + span + 1);
    ((low + high) / (low_count + high_count).max(1) as f64) as f32
}
