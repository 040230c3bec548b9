//! Beginning and end of a tone of known frequency.
//!
//! Sound is turned down by the tone's frequency and summed over blocks of
//! 4 ms that fade into each other (a Hann window over two, so that neither
//! a strong tone elsewhere nor the engine leaks in; a run of blocks is flat
//! all the same); a run of blocks that holds the tone from its first to its last has
//! the energy |sum|²/n over the noise's (generalised likelihood of a
//! rectangular pulse of unknown phase: S. M. Kay, Fundamentals of
//! Statistical Signal Processing II, 1998, section 7.4). Blocks are split into such runs and silence so
//! that the energy less a fee a run is greatest, exactly, by dynamic
//! programming.

use std::sync::LazyLock;

use realfft::num_complex::Complex64;

use super::RATE;
use super::ring::Ring;

/// Samples of a block.
pub const BLOCK: usize = 64;
/// Milliseconds of a block.
pub const BLOCK_MS: f64 = BLOCK as f64 * 1000.0 / RATE;
/// Energy over the noise's that a further tone must bring.
const FEE: f64 = 14.0;
/// Energy that a change within a tone (a jump in phase) must bring.
const CHANGE_FEE: f64 = 6.0;
/// Shortest run, blocks.
const SHORTEST: usize = 4;
/// Longest run of one phase, blocks: a steady oscillator does not keep its
/// phase exactly for longer.
const LONGEST: usize = 260;
/// Parts of one tone differ in amplitude by no more than this ratio.
const ALIKE: f64 = 0.5;
/// Silences shorter than this within a tone are none, blocks.
const NO_SILENCE: usize = 6;

/// A tone that begins within so many blocks of the first was on before.
const OPEN: usize = 2;
/// Beginnings so close are one, samples.
const NEAR: u64 = 1_600;

/// Blocks beside a tone that are left out of the noise, and the fewest that
/// tell about it.
const BESIDE: usize = 4;
const LEAST_OUTSIDE: usize = 12;

/// ... and silences in which a faint tone would not have brought more energy.
const SILENCE_ENERGY: f64 = 10.0;
/// A block sticks out of so many on each side at so many times their median.
const AROUND: usize = 4;
const STICKS_OUT: f64 = 2.5;

/// Noise's mean power in one block: that of a Hann window over a flat one
/// of half its length.
pub const NOISE_POWER: f64 = 0.75;

/// Rising half of a Hann window of two blocks.
static RISE: LazyLock<[f32; BLOCK]> = LazyLock::new(|| {
    core::array::from_fn(|at| {
        let angle = core::f64::consts::PI * (at as f64 + 0.5) / BLOCK as f64;
        (0.5 - 0.5 * angle.cos()) as f32
    })
});

/// Sum over samples of `x[n] exp(-j w n)`: the discrete-time Fourier
/// transform at one frequency, as Goertzel's recursion gives it.
#[must_use]
pub fn tone_sum(samples: &[f32], rate: f64, tone_hz: f64) -> Complex64 {
    turn_down(samples, &mut Complex64::new(1.0, 0.0), turn(rate, tone_hz))
}

fn turn(rate: f64, tone_hz: f64) -> Complex64 {
    Complex64::from_polar(1.0, -2.0 * core::f64::consts::PI * tone_hz / rate)
}

fn turn_down(samples: &[f32], phase: &mut Complex64, turn: Complex64) -> Complex64 {
    let mut sum = Complex64::new(0.0, 0.0);
    for &sample in samples {
        sum += *phase * f64::from(sample);
        *phase *= turn;
    }
    // Rounding may not make it grow.
    *phase /= phase.norm();
    sum
}

/// Blocks of a stretch of sound at one tone, in units of the noise's
/// standard deviation.
#[derive(Clone, Debug)]
pub struct Blocks {
    /// Index of the first block's first sample.
    pub from: u64,
    /// Block sums.
    pub sums: Vec<Complex64>,
}

impl Blocks {
    /// Whole blocks from `from` to `to` against noise of a density.
    pub fn cut(ring: &Ring, from: u64, to: u64, tone_hz: f64, density: f64) -> Self {
        let from = from.max(ring.begin());
        let count = (to.saturating_sub(from)) as usize / BLOCK;
        let scale = (BLOCK as f64 * density * RATE / 2.0)
            .sqrt()
            .max(1e-30)
            .recip();
        let turn = turn(RATE, tone_hz);
        let mut phase = Complex64::new(1.0, 0.0);
        let (mut block, mut swelling) = ([0.0; BLOCK], [0.0; BLOCK]);
        let mut sums = Vec::with_capacity(count + 1);
        let mut rising = Complex64::new(0.0, 0.0);
        for at in 0..=count {
            ring.copy(from + (at * BLOCK) as u64, &mut block);
            for ((swelling, sample), weight) in swelling.iter_mut().zip(block).zip(RISE.iter()) {
                *swelling = sample * weight;
            }
            let mut copy = phase;
            let all = turn_down(&block, &mut phase, turn) * scale;
            let fades = all - turn_down(&swelling, &mut copy, turn) * scale;
            if at > 0 {
                sums.push(rising + fades);
            }
            rising = all - fades;
        }
        limit(&mut sums);
        Self {
            from: from + BLOCK as u64 / 2,
            sums,
        }
    }

    /// Index of a block's first sample.
    #[must_use]
    pub fn at(&self, block: usize) -> u64 {
        self.from + (block * BLOCK) as u64
    }

    /// Whether a span is the tone that is known to have begun there: it begins
    /// near it, or was on when the blocks began; and it ends after it.
    #[must_use]
    pub fn reaches(&self, span: &Span, begin: u64) -> bool {
        let near = begin.abs_diff(self.at(span.from)) < NEAR;
        begin < self.at(span.to) && (near || span.from <= OPEN)
    }

    /// Mean power of some blocks over the noise's.
    #[must_use]
    pub fn power(&self, from: usize, to: usize) -> f64 {
        let part = self.sums.get(from..to).unwrap_or_default();
        let sum: f64 = part.iter().map(Complex64::norm_sqr).sum();
        sum / (NOISE_POWER * part.len().max(1) as f64)
    }
}

/// Cuts blocks that stick out of their neighbours down to size: a drop or a
/// click in a tone is no part of it. A tone's own edges stay where they are.
fn limit(sums: &mut [Complex64]) {
    let sizes: Vec<f64> = sums.iter().map(|sum| sum.norm()).collect();
    let mut near = [0.0; 2 * AROUND + 1];
    for (at, sum) in sums.iter_mut().enumerate() {
        let from = at.saturating_sub(AROUND);
        let part = &sizes[from..(at + AROUND + 1).min(sizes.len())];
        let near = &mut near[..part.len()];
        near.copy_from_slice(part);
        let (_, middle, _) = near.select_nth_unstable_by(part.len() / 2, f64::total_cmp);
        let most = STICKS_OUT * *middle;
        if sizes[at] > most {
            *sum *= most / sizes[at];
        }
    }
}

impl Blocks {
    /// Mean power between the tones over what was expected of the noise,
    /// never less than 1: drops and gusts have more than their usual share.
    #[must_use]
    pub fn noise(&self, spans: &[Span]) -> f64 {
        let near = |at: usize| {
            spans
                .iter()
                .any(|s| s.from < at + BESIDE && at < s.to + BESIDE)
        };
        let outside = (0..self.sums.len()).filter(|at| !near(*at));
        let (mut sum, mut count) = (0.0, 0);
        for at in outside {
            sum += self.sums[at].norm_sqr();
            count += 1;
        }
        if count < LEAST_OUTSIDE {
            return 1.0;
        }
        (sum / (NOISE_POWER * count as f64)).max(1.0)
    }
}

/// A tone from block `from` to before block `to`.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// First block.
    pub from: usize,
    /// After the last block.
    pub to: usize,
    /// Energy over the noise density, plain ratio.
    pub energy: f64,
    /// Runs of one phase that it is made of.
    pub runs: Vec<(usize, usize)>,
}

impl Span {
    /// Mean power of the tone in a block.
    #[must_use]
    pub fn power(&self) -> f64 {
        self.energy / (self.to - self.from) as f64
    }
}

/// The tones in some blocks, in order.
#[must_use]
pub fn spans(sums: &[Complex64]) -> Vec<Span> {
    let mut spans: Vec<Span> = Vec::new();
    for (from, to, energy) in runs(sums) {
        if let Some(last) = spans.last_mut()
            && is_no_silence(last, (energy, to - from), from - last.to)
        {
            if alike((last.energy, last.to - last.from), (energy, to - from)) {
                last.to = to;
                last.energy += energy;
                last.runs.push((from, to));
                continue;
            }
            if from == last.to && energy < last.energy {
                // What rings on after a tone is not the tone.
                continue;
            }
            if from == last.to {
                spans.pop();
            }
        }
        spans.push(Span {
            from,
            to,
            energy,
            runs: vec![(from, to)],
        });
    }
    spans
}

/// Whether a silence between two runs is too short to tell that the tone was
/// away: a faint one would not have brought much in it.
fn is_no_silence(before: &Span, after: (f64, usize), blocks: usize) -> bool {
    let power = before.power().min(after.0 / after.1 as f64);
    blocks < NO_SILENCE || power * (blocks as f64) < SILENCE_ENERGY
}

/// Whether two runs, each an energy and blocks, may be of one amplitude.
fn alike(a: (f64, usize), b: (f64, usize)) -> bool {
    let power = |run: (f64, usize)| run.0 / run.1 as f64;
    let (low, high) = if power(a) < power(b) { (a, b) } else { (b, a) };
    // Standard deviation of an energy in noise: sqrt(1 + 2 E).
    let surely = (high.0 - 3.0 * (1.0 + 2.0 * high.0).sqrt()) / high.1 as f64;
    power(low) >= ALIKE * ALIKE * surely
}

/// The best split: runs with their energies, in order.
fn runs(sums: &[Complex64]) -> Vec<(usize, usize, f64)> {
    let count = sums.len();
    let mut ahead = Vec::with_capacity(count + 1);
    let mut sum = Complex64::new(0.0, 0.0);
    ahead.push(sum);
    for block in sums {
        sum += block;
        ahead.push(sum);
    }
    // Best total up to a block when it was silent before, or a run ended there.
    let mut silent = vec![0.0f64; count + 1];
    let mut ended = vec![f64::NEG_INFINITY; count + 1];
    let mut began = vec![0usize; count + 1];
    for to in 1..=count {
        silent[to] = silent[to - 1].max(ended[to - 1]);
        for from in to.saturating_sub(LONGEST)..(to + 1).saturating_sub(SHORTEST) {
            let before = (silent[from] - FEE).max(ended[from] - CHANGE_FEE);
            let total = before + energy(&ahead, from, to);
            if total > ended[to] {
                ended[to] = total;
                began[to] = from;
            }
        }
    }
    let mut found = Vec::new();
    let mut at = count;
    let mut in_run = ended[count] > silent[count];
    while at > 0 {
        if in_run {
            let from = began[at];
            found.push((from, at, energy(&ahead, from, at)));
            in_run = ended[from] - CHANGE_FEE > silent[from] - FEE;
            at = from;
        } else {
            in_run = ended[at - 1] > silent[at - 1];
            at -= 1;
        }
    }
    found.reverse();
    found
}

fn energy(ahead: &[Complex64], from: usize, to: usize) -> f64 {
    (ahead[to] - ahead[from]).norm_sqr() / (to - from) as f64
}

/// Energy of a tone so many hertz beside the frequency that some blocks were
/// turned down by.
#[must_use]
pub fn energy_at(sums: &[Complex64], by: f64) -> f64 {
    let turn = Complex64::from_polar(1.0, -2.0 * core::f64::consts::PI * by * BLOCK_MS / 1000.0);
    let mut phase = Complex64::new(1.0, 0.0);
    let mut sum = Complex64::new(0.0, 0.0);
    for block in sums {
        sum += block * phase;
        phase *= turn;
    }
    sum.norm_sqr() / sums.len().max(1) as f64
}

/// How far the tone in some blocks lies from the frequency they were turned
/// down by, hertz: the greatest of |sum x exp(-j w n)|.
#[must_use]
pub fn shift(sums: &[Complex64]) -> f64 {
    let seconds = sums.len() as f64 * BLOCK_MS / 1000.0;
    let step = 0.2 / seconds.max(1e-3);
    let power = |by: f64| energy_at(sums, by);
    let reach = 8;
    let (mut best, mut most) = (0, power(0.0));
    for at in (-reach..=reach).filter(|at| *at != 0) {
        let here = power(f64::from(at) * step);
        if here > most {
            (best, most) = (at, here);
        }
    }
    let [a, b, c] = [best - 1, best, best + 1].map(|at| power(f64::from(at) * step));
    let bend = a - 2.0 * b + c;
    let part = if bend < 0.0 {
        (0.5 * (a - c) / bend).clamp(-0.5, 0.5)
    } else {
        0.0
    };
    (f64::from(best) + part) * step
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_known_beginning_belongs_to_the_tone_that_reaches_back_to_it() {
        let blocks = Blocks {
            from: 10_000,
            sums: Vec::new(),
        };
        let span = |from: usize, to: usize| Span {
            from,
            to,
            energy: 50.0,
            runs: vec![(from, to)],
        };
        // On when the blocks began: also far back, never one that begins later.
        assert!(blocks.reaches(&span(0, 50), 2_000));
        assert!(!blocks.reaches(&span(0, 50), 14_000));
        assert!(!blocks.reaches(&span(0, 50), blocks.at(50)));
        // Begun within the blocks: only near by.
        assert!(blocks.reaches(&span(100, 150), blocks.at(90)));
        assert!(!blocks.reaches(&span(100, 150), 2_000));
    }
}
