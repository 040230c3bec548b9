//! From the device's rate to [`RATE`], as a stream.
//!
//! Band-limited interpolation: every output sample is a Kaiser-windowed
//! sinc over the input around its own time (J. O. Smith, Digital Audio
//! Resampling, CCRMA). Nothing is shifted in time: output sample `k` is the
//! input's value at `k / RATE` seconds after its first sample.

use super::RATE;

/// Zero crossings of the sinc on each side.
const CROSSINGS: f64 = 12.0;
/// The same where the device is slower than [`RATE`]: what it has up to close
/// below its Nyquist frequency is to pass, and its image above is not.
const CROSSINGS_UP: f64 = 32.0;
/// Kaiser window's shape: about 80 dB.
const BETA: f64 = 8.0;
/// Share of the narrower Nyquist band that passes.
const PASS: f64 = 0.9;
/// The same where the device is slower than [`RATE`].
const PASS_UP: f64 = 0.95;
/// Positions between two input samples that the table holds.
const PHASES: usize = 256;

/// A stream of input samples on its way to [`RATE`].
#[derive(Clone, Debug)]
pub struct Resampler {
    /// Input samples an output sample.
    step: f64,
    /// Input samples to each side of an output sample.
    half: usize,
    /// One row of `2 half` weights a phase, and one more.
    table: Vec<f32>,
    /// Input that may still be needed.
    kept: Vec<f32>,
    /// Index of the first kept sample in the stream.
    first: u64,
    /// Output samples given.
    given: u64,
}

impl Resampler {
    /// For a stream of `rate` hertz.
    #[must_use]
    pub fn new(rate: f64) -> Self {
        let step = rate / RATE;
        let (pass, crossings) = if rate < RATE {
            (PASS_UP, CROSSINGS_UP)
        } else {
            (PASS, CROSSINGS)
        };
        // Cycles an input sample at which the band ends.
        let cut = 0.5 * pass * (RATE / rate).min(1.0);
        let half = (crossings / (2.0 * cut)).ceil() as usize;
        let mut table = Vec::with_capacity((PHASES + 1) * 2 * half);
        for phase in 0..=PHASES {
            let part = phase as f64 / PHASES as f64;
            let row: Vec<f64> = (0..2 * half)
                .map(|i| kernel(i as f64 - (half as f64 - 1.0) - part, cut, half as f64))
                .collect();
            let sum: f64 = row.iter().sum();
            table.extend(row.iter().map(|w| (w / sum) as f32));
        }
        Self {
            step,
            half,
            table,
            // Before the stream there was silence.
            kept: vec![0.0; half],
            first: 0,
            given: 0,
        }
    }

    /// Takes input and appends what is complete to `out`.
    pub fn push(&mut self, input: &[f32], out: &mut Vec<f32>) {
        self.kept.extend_from_slice(input);
        loop {
            // `first` counts from the silence before the stream.
            let at = self.given as f64 * self.step + self.half as f64;
            let whole = at.floor();
            let from = whole as u64 + 1 - self.half as u64 - self.first;
            let from = from as usize;
            let Some(window) = self.kept.get(from..from + 2 * self.half) else {
                break;
            };
            let phase = (at - whole) * PHASES as f64;
            let row = (phase.floor() as usize).min(PHASES - 1);
            let part = (phase - row as f64) as f32;
            let size = 2 * self.half;
            let weights = &self.table[row * size..(row + 2) * size];
            let (low, high) = weights.split_at(size);
            out.push(dot(window, low) * (1.0 - part) + dot(window, high) * part);
            self.given += 1;
        }
        let next = (self.given as f64 * self.step) as u64;
        let spare = (next.saturating_sub(self.first) as usize).min(self.kept.len());
        self.kept.drain(..spare);
        self.first += spare as u64;
    }
}

fn dot(a: &[f32], b: &[f32]) -> f32 {
    // Four sums, so that the additions need not wait for each other.
    let mut sums = [0.0f32; 4];
    let (a4, b4) = (a.chunks_exact(4), b.chunks_exact(4));
    let rest: f32 = a4
        .remainder()
        .iter()
        .zip(b4.remainder())
        .map(|(x, y)| x * y)
        .sum();
    for (x, y) in a4.zip(b4) {
        for i in 0..4 {
            sums[i] += x[i] * y[i];
        }
    }
    rest + sums.iter().sum::<f32>()
}

fn kernel(x: f64, cut: f64, half: f64) -> f64 {
    let r = x / half;
    if r.abs() >= 1.0 {
        return 0.0;
    }
    let angle = 2.0 * core::f64::consts::PI * cut * x;
    let sinc = if angle.abs() < 1e-9 {
        1.0
    } else {
        angle.sin() / angle
    };
    sinc * bessel_i0(BETA * (1.0 - r * r).sqrt())
}

/// Modified Bessel function of order zero by its power series.
pub(super) fn bessel_i0(x: f64) -> f64 {
    let quarter = x * x / 4.0;
    let (mut term, mut sum) = (1.0, 1.0);
    for k in 1..60 {
        term *= quarter / f64::from(k * k);
        sum += term;
        if term < 1e-12 * sum {
            break;
        }
    }
    sum
}
