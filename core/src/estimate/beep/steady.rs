//! What tells a beep from a voice, a click, a rattle: it is one steady tone
//! with a sudden beginning.

use super::edges::{BLOCK_MS, Blocks, NOISE_POWER, Span, shift};

/// Energy over the noise density that a beep has at least, plain ratio
/// (14.5 dB): noise alone reaches it once in days.
pub const LEAST_ENERGY: f64 = 28.0;
/// Energy that chance finds at each jump in phase.
const JUMP_ENERGY: f64 = 6.0;
/// Shortest beep, milliseconds.
pub const SHORTEST_MS: f64 = 48.0;
/// Share of the energy at the tone that one steady tone explains.
const LEAST_EXPLAINED: f64 = 0.55;
/// The parts of a beep are at one frequency within this, hertz, and within
/// what their own noise allows.
const WANDER_HZ: f64 = 12.0;
/// Power just before a beep is at most this share of its own.
const QUIET_BEFORE: f64 = 0.1;
/// Power after a beep and its echo is at most this share of its own.
const QUIET_AFTER: f64 = 0.3;
/// ... or this many times the noise's.
const NOISE: f64 = 5.0;
/// Blocks that are looked at before and after.
const BESIDE: usize = 12;
/// Blocks that a beep may take to swell.
const SWELL: usize = 2;
/// Blocks of the quietest stretch before and after.
const HUSH: usize = 4;

/// Why a tone is no beep.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoBeep {
    /// Too little of it.
    Faint,
    /// Too short.
    Short,
    /// Its energy comes in bursts or wanders: a click, a rattle.
    Uneven,
    /// Its frequency wanders: a voice.
    Wanders,
    /// It swells out of sound that was there before.
    Swells,
    /// It fades into sound that stays.
    Stays,
}

/// Judges a span of some blocks against noise of so many times the power
/// expected; a span that starts with the first block of
/// all sound is not asked for its beginning.
///
/// # Errors
/// Why it is no beep.
pub fn judge(blocks: &Blocks, span: &Span, noise: f64, cut: bool) -> Result<(), NoBeep> {
    let jumps = JUMP_ENERGY * (span.runs.len() - 1) as f64;
    if span.energy - jumps < LEAST_ENERGY * noise {
        return Err(NoBeep::Faint);
    }
    let count = span.to - span.from;
    if (count as f64) * BLOCK_MS < SHORTEST_MS {
        return Err(NoBeep::Short);
    }
    // What is there beyond the noise, and how far chance moves it.
    let present = (blocks.power(span.from, span.to) - noise) * NOISE_POWER * count as f64;
    let chance = (noise * (noise * count as f64 + 2.0 * span.energy)).sqrt();
    if span.energy < LEAST_EXPLAINED * (present - 2.0 * chance) {
        return Err(NoBeep::Uneven);
    }
    if wanders(blocks, span, noise) {
        return Err(NoBeep::Wanders);
    }
    let power = span.power();
    let before = span.from.saturating_sub(SWELL);
    let quiet = hush(blocks, before.saturating_sub(BESIDE), before);
    if !cut && quiet > (QUIET_BEFORE * power).max(NOISE * noise) {
        return Err(NoBeep::Swells);
    }
    let after = span.to + SWELL;
    let quiet = hush(blocks, after, after + BESIDE);
    if quiet > (QUIET_AFTER * power).max(NOISE * noise) {
        return Err(NoBeep::Stays);
    }
    Ok(())
}

/// Mean power of the quietest stretch; nothing where there is none.
fn hush(blocks: &Blocks, from: usize, to: usize) -> f64 {
    let to = to.min(blocks.sums.len());
    let stretches = (from..(to + 1).saturating_sub(HUSH)).map(|at| blocks.power(at, at + HUSH));
    let least = stretches.fold(f64::INFINITY, f64::min);
    if least.is_finite() { least } else { 0.0 }
}

/// Compares the frequencies of two halves, and of each run.
fn wanders(blocks: &Blocks, span: &Span, noise: f64) -> bool {
    let middle = usize::midpoint(span.from, span.to);
    let mut parts = vec![(span.from, middle), (middle, span.to)];
    if span.runs.len() > 1 {
        parts.extend(&span.runs);
    }
    let found: Vec<(f64, f64)> = parts
        .iter()
        .map(|&(from, to)| {
            let seconds = (to - from) as f64 * BLOCK_MS / 1000.0;
            let energy = (span.power() * (to - from) as f64 / noise).max(1.0);
            // Cramer-Rao bound of a frequency (D. C. Rife, R. R. Boorstyn, 1974).
            let u = (1.5 / energy).sqrt() / (core::f64::consts::PI * seconds);
            (shift(&blocks.sums[from..to]), u)
        })
        .collect();
    let apart =
        |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).abs() > WANDER_HZ + 3.0 * a.1.hypot(b.1);
    found.iter().any(|a| found.iter().any(|b| apart(a, b)))
}
