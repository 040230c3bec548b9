//! Spectra of five lengths and what stands out of them.
//!
//! One length cannot serve: a short window hears a beep of 60 ms and misses
//! the faint one of a second, a long one the other way round. Each window
//! is a Hann window, moved on by a quarter of its length and padded to
//! twice its length with zeros, so that a tone between two bins loses
//! little.

use std::sync::Arc;

use realfft::num_complex::Complex32;
use realfft::{RealFftPlanner, RealToComplex};

use super::floor::{Floor, GUARD};
use super::lasting::Lasting;
use super::ring::Ring;
use super::{HIGHEST, LOWEST, RATE};

/// Lengths of the windows, samples: 64, 128, 256, 512, 1024 ms.
pub const LENGTHS: [usize; 5] = [1024, 2048, 4096, 8192, 16384];
/// Neighbours in frequency that make the floor, bins to each side.
const SPANS: [usize; 5] = [40, 48, 64, 96, 128];
/// Which of them says how loud the noise is.
const NOISE: usize = 1;
/// The shortest step between two windows, samples.
pub const TICK: usize = LENGTHS[0] / 4;
/// A bin is worth a closer look from so many times the floor on.
const STANDS_OUT: f32 = 13.0;
/// ... and from so many times what it usually has itself on.
const OVER_OWN: f32 = 5.0;
/// Most peaks that are looked at in one spectrum.
const MOST_PEAKS: usize = 6;
/// Voices have a comb of tones at their own spacing; where one is looked
/// for, hertz from the tone.
const COMB_NEAR: f64 = 60.0;
const COMB_FAR: f64 = 460.0;
/// ... and what noise alone reaches once in a thousand spectra, over the
/// logarithm of the bins looked at.
const CHANCE: f32 = 7.0;
/// A neighbour counts for a comb when it has at least this share of the peak.
const COMB_SHARE: f32 = 0.05;
/// So many strong tones elsewhere are a voice's.
const CROWD: usize = 2;
/// Bins kept beside the band for its neighbours' sake, hertz.
const MARGIN: f64 = 470.0;

/// A tone that stands out of one spectrum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// Which length of [`LENGTHS`].
    pub level: usize,
    /// Index of the window's first sample.
    pub from: u64,
    /// Index after its last sample.
    pub to: u64,
    /// Frequency, hertz.
    pub tone_hz: f64,
    /// Power over the floor, plain ratio.
    pub ratio: f64,
    /// One-sided noise density beside the tone.
    pub density: f64,
    /// How many strong tones stand beside it at a voice's spacing.
    pub comb: usize,
}

struct Level {
    window: Vec<f32>,
    fft: Arc<dyn RealToComplex<f32>>,
    input: Vec<f32>,
    output: Vec<Complex32>,
    scratch: Vec<Complex32>,
    density: Vec<f32>,
    first_bin: usize,
    bin_hz: f64,
    scale: f32,
    floor: Floor,
}

/// All lengths.
pub struct Bank {
    levels: Vec<Level>,
    lasting: Lasting,
}

impl Bank {
    /// A bank that has heard nothing.
    #[must_use]
    pub fn new() -> Self {
        let mut planner = RealFftPlanner::new();
        let levels = LENGTHS
            .iter()
            .zip(SPANS)
            .map(|(&length, span)| Level::new(&mut planner, length, span))
            .collect();
        Self {
            levels,
            lasting: Lasting::default(),
        }
    }

    /// Looks at the windows that end with the ring's newest sample; `since`
    /// is the first sample that counts.
    pub fn look(&mut self, ring: &Ring, since: u64, peaks: &mut Vec<Peak>) {
        let end = ring.end();
        for (at, level) in self.levels.iter_mut().enumerate() {
            let length = LENGTHS[at] as u64;
            let due = (end - since).is_multiple_of(length / 4);
            if due && end >= since + length {
                level.spectrum(ring, end - length);
                if at == NOISE {
                    self.lasting.push(&level.density);
                }
                level.find(at, end, peaks);
            }
        }
    }

    /// Noise density at a tone as the recent past has it, or what came up just
    /// now and lasts.
    #[must_use]
    pub fn noise_at(&self, tone_hz: f64) -> Option<f64> {
        let level = &self.levels[NOISE];
        let bin = (tone_hz / level.bin_hz).round() as usize;
        let bin = bin.checked_sub(level.first_bin)?;
        let density = (bin < level.density.len()).then(|| level.floor.past(bin))?;
        let lasting = self.lasting.density(bin, SPANS[NOISE]);
        let density = lasting.map_or(density, |lasting| lasting.max(density));
        (density > 0.0).then_some(f64::from(density))
    }
}

/// One-sided densities of some samples through the window of a length of
/// [`LENGTHS`]: frequency of the first, step between them, and they
/// themselves.
#[must_use]
pub fn densities(samples: &[f32], level: usize) -> (f64, f64, Vec<f32>) {
    let mut ring = Ring::new();
    ring.push(samples);
    let mut planner = RealFftPlanner::new();
    let mut level = Level::new(&mut planner, LENGTHS[level], SPANS[level]);
    level.spectrum(&ring, 0);
    (
        level.first_bin as f64 * level.bin_hz,
        level.bin_hz,
        level.density,
    )
}

impl Default for Bank {
    fn default() -> Self {
        Self::new()
    }
}

impl Level {
    fn new(planner: &mut RealFftPlanner<f32>, length: usize, span: usize) -> Self {
        let window = hann(length);
        let energy: f32 = window.iter().map(|w| w * w).sum();
        let padded = 2 * length;
        let bin_hz = RATE / padded as f64;
        let first_bin = ((LOWEST - MARGIN) / bin_hz) as usize;
        let bins = ((HIGHEST + MARGIN) / bin_hz) as usize - first_bin;
        let fft = planner.plan_fft_forward(padded);
        Self {
            input: fft.make_input_vec(),
            output: fft.make_output_vec(),
            scratch: fft.make_scratch_vec(),
            density: vec![0.0; bins],
            floor: Floor::new(bins, span, length as f64 / 4.0 * 1000.0 / RATE),
            // |X|² of white noise is fs N0/2 times the window's energy.
            scale: 2.0 / (RATE as f32 * energy),
            window,
            fft,
            first_bin,
            bin_hz,
        }
    }

    fn spectrum(&mut self, ring: &Ring, from: u64) {
        let length = self.window.len();
        ring.copy(from, &mut self.input[..length]);
        for (sample, weight) in self.input.iter_mut().zip(&self.window) {
            *sample *= weight;
        }
        self.input[length..].fill(0.0);
        let done =
            self.fft
                .process_with_scratch(&mut self.input, &mut self.output, &mut self.scratch);
        debug_assert!(done.is_ok(), "the buffers have the lengths of the plan");
        let band = &self.output[self.first_bin..];
        for (density, value) in self.density.iter_mut().zip(band) {
            *density = value.norm_sqr() * self.scale;
        }
    }

    fn find(&mut self, level: usize, to: u64, peaks: &mut Vec<Peak>) {
        self.floor.look(&self.density);
        let mut found: Vec<(usize, f32)> = Vec::new();
        let first = ((LOWEST / self.bin_hz) as usize)
            .saturating_sub(self.first_bin)
            .max(1);
        let last = ((HIGHEST / self.bin_hz) as usize - self.first_bin).min(self.density.len() - 1);
        for bin in first..last {
            let power = self.density[bin];
            if power < STANDS_OUT * self.floor.past(bin)
                || power < self.density[bin - 1]
                || power <= self.density[bin + 1]
                || power < OVER_OWN * self.floor.own(bin)
            {
                continue;
            }
            let ratio = power / self.floor.density(bin);
            if ratio >= STANDS_OUT {
                found.push((bin, ratio));
            }
        }
        found.sort_by(|a, b| b.1.total_cmp(&a.1));
        for &(bin, ratio) in found.iter().take(MOST_PEAKS) {
            let [a, b, c] = [bin - 1, bin, bin + 1].map(|at| f64::from(self.density[at]).ln());
            let bend = a - 2.0 * b + c;
            let shift = if bend < 0.0 {
                (0.5 * (a - c) / bend).clamp(-0.5, 0.5)
            } else {
                0.0
            };
            peaks.push(Peak {
                level,
                from: to - self.window.len() as u64,
                to,
                tone_hz: ((self.first_bin + bin) as f64 + shift) * self.bin_hz,
                ratio: f64::from(ratio),
                density: f64::from(self.floor.density(bin)),
                comb: self.comb(bin) + self.crowd(bin, &found),
            });
        }
        self.floor.learn(&self.density);
    }

    /// Tones elsewhere that are no overtones: a voice has many at once.
    fn crowd(&self, bin: usize, found: &[(usize, f32)]) -> usize {
        let hertz = |bin: usize| (self.first_bin + bin) as f64 * self.bin_hz;
        let own = hertz(bin);
        let others = found.iter().filter(|(other, _)| {
            let other_hz = hertz(*other);
            let (low, high) = (own.min(other_hz), own.max(other_hz));
            let apart = (high - (high / low).round() * low).abs();
            apart > COMB_NEAR && self.density[*other] >= COMB_SHARE * self.density[bin]
        });
        let count = others.count();
        if count < CROWD { 0 } else { count }
    }

    /// Strong tones beside a peak at distances that voices have.
    fn comb(&self, bin: usize) -> usize {
        let near = ((COMB_NEAR / self.bin_hz) as usize).max(GUARD + 2);
        let far = (COMB_FAR / self.bin_hz) as usize;
        let last = self.density.len() - 2;
        // What noise alone reaches among so many bins, and a margin.
        let chance = ((2 * (far - near)) as f32).ln() + CHANCE;
        let least = (COMB_SHARE * self.density[bin]).max(chance * self.floor.past(bin));
        let strong = |at: &usize| {
            let [a, b, c] = [at - 1, *at, at + 1].map(|at| self.density[at]);
            b >= least && b >= a && b > c
        };
        let below =
            (bin.saturating_sub(far).max(1)..bin.saturating_sub(near).max(1)).filter(strong);
        let above = ((bin + near).min(last)..(bin + far).min(last)).filter(strong);
        below.count() + above.count()
    }
}

/// The Hann window of a length, periodic.
#[must_use]
pub fn hann(length: usize) -> Vec<f32> {
    (0..length)
        .map(|n| {
            let angle = 2.0 * core::f64::consts::PI * n as f64 / length as f64;
            (0.5 - 0.5 * angle.cos()) as f32
        })
        .collect()
}
