//! A tone that goes on is followed by itself until it ends.
//!
//! The floor takes a steady line for noise after some seconds, as it should
//! for a whine; a control box that sounds without a pause would pass for a
//! silence. So a tone that has lasted is held: nothing but its own power at
//! its own frequency says that it sounds, across holes in the sound as well.

use super::RATE;
use super::edges::{BLOCK, Blocks, Span, energy_at, shift, spans};
use super::heard::Onset;
use super::ring::Ring;
use super::track::SAME_HZ;

/// A tone is held once it has sounded for so long, samples: longer than any
/// beep that is counted by its length (our own figure).
pub const HOLD_AFTER: u64 = 24_000;
/// Tones that are held at once.
pub const MOST_HELD: usize = 8;
/// It sounds while its power is at least this share of what it had.
const SOUNDS: f64 = 0.25;
/// How fast its power is followed.
const FOLLOWS: f64 = 0.1;
/// Fades shorter than this are no end, samples: a phone that is moved goes
/// through dips of the standing wave (our own figure).
const FADE: u64 = 6_400;
/// Energy over the noise that a look brings together, and its length, blocks.
const LOOK_ENERGY: f64 = 40.0;
const LOOK: (usize, usize) = (48, 200);
/// How often it is looked at, samples.
pub const LOOK_EVERY: u64 = 1_024;

/// A tone that is held.
#[derive(Clone, Debug)]
pub struct Held {
    /// Its frequency, hertz.
    pub tone_hz: f64,
    /// When it began, on the caller's clock: samples may be lost meanwhile.
    pub start_ms: f64,
    /// Whether its beginning was heard.
    pub onset: Onset,
    /// Index of its first sample, and after the last at which it was heard.
    pub from: u64,
    pub to: u64,
    /// Frequency as it began.
    first_hz: f64,
    density: f64,
    /// Energy in a block over the noise's.
    power: f64,
}

/// How a held tone stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    /// It sounds.
    On,
    /// It ended with this sample.
    Ended(u64),
}

impl Held {
    /// A tone of some blocks.
    pub fn new(span: &Span, tone_hz: f64, density: f64, begin: (u64, f64, Onset)) -> Self {
        let (from, start_ms, onset) = begin;
        Self {
            tone_hz,
            start_ms,
            onset,
            from,
            to: from,
            first_hz: tone_hz,
            density,
            power: span.power(),
        }
    }

    /// Whether something at that frequency is this tone.
    pub fn is_at(&self, tone_hz: f64) -> bool {
        (self.tone_hz - tone_hz).abs() <= SAME_HZ
    }

    /// Mean square of its samples.
    pub fn mean_square(&self) -> f64 {
        self.power * self.density * RATE / BLOCK as f64
    }

    /// Its energy over the noise's.
    pub fn energy(&self) -> f64 {
        self.power * ((self.to.saturating_sub(self.from)) as f64 / BLOCK as f64).max(1.0)
    }

    fn look(&self) -> usize {
        ((LOOK_ENERGY / self.power.max(1e-6)) as usize).clamp(LOOK.0, LOOK.1)
    }

    /// Looks whether it still sounds in the newest sound; sound before
    /// `since` is not joined to it.
    pub fn stands(&mut self, ring: &Ring, since: u64) -> Stands {
        let now = ring.end();
        let length = (self.look() * BLOCK) as u64;
        // Whole blocks reach one further.
        let Some(from) = now.checked_sub(length + BLOCK as u64) else {
            return Stands::On;
        };
        if from < since {
            // Not enough since the hole: a tone does not end in a hole.
            self.to = self.to.max(since);
            return Stands::On;
        }
        let end = now - BLOCK as u64;
        let blocks = Blocks::cut(ring, from, end, self.tone_hz, self.density);
        let by = shift(&blocks.sums);
        let power = energy_at(&blocks.sums, by) / blocks.sums.len().max(1) as f64;
        if power >= SOUNDS * self.power {
            self.power += FOLLOWS * (power - self.power);
            let moved = self.tone_hz + 0.5 * by;
            self.tone_hz = moved.clamp(self.first_hz - SAME_HZ, self.first_hz + SAME_HZ);
            self.to = now;
            return Stands::On;
        }
        if now < self.to + FADE {
            return Stands::On;
        }
        Stands::Ended(self.end(ring, since, length))
    }

    /// Where it ended: half a look before it was missed first.
    fn end(&self, ring: &Ring, since: u64, length: u64) -> u64 {
        let from = self.to.saturating_sub(2 * length).max(since);
        let now = ring.end() - BLOCK as u64;
        let blocks = Blocks::cut(ring, from, now, self.tone_hz, self.density);
        let found = spans(&blocks.sums);
        let reach = |span: &&Span| blocks.from + (span.from * BLOCK) as u64 <= self.to;
        let last = found.iter().rfind(reach);
        let to = last.map(|span| blocks.from + (span.to * BLOCK) as u64);
        to.unwrap_or_else(|| self.to.saturating_sub(length / 2))
            .max(self.from)
    }
}
