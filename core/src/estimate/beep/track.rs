//! What is said about one tone until it ended.

use super::bank::{LENGTHS, Peak};
use super::heard::Onset;

/// Peaks this close belong to one tone, hertz.
pub const SAME_HZ: f64 = 30.0;

/// A tone that stands out, or did a moment ago.
#[derive(Clone, Debug)]
pub struct Track {
    /// The best peak.
    pub best: Peak,
    /// Its frequency as the last look had it, hertz.
    pub tone_hz: f64,
    /// First sample of the first window.
    pub from: u64,
    /// The shortest window that has shown it, and the end of the last such.
    pub shortest: usize,
    pub last: u64,
    /// When its end is looked for, sample index.
    pub due: u64,
    /// Peaks, weighted by their ratio, and those with a comb beside them.
    pub weight: f64,
    pub comb_weight: f64,
    /// Where it began, once that is known.
    pub onset: Option<(u64, Onset)>,
    /// How many windows have shown it.
    pub seen: u32,
}

impl Track {
    pub fn new(peak: &Peak) -> Self {
        let mut track = Self {
            best: *peak,
            tone_hz: peak.tone_hz,
            from: peak.from,
            shortest: peak.level,
            last: peak.to,
            due: 0,
            weight: 0.0,
            comb_weight: 0.0,
            onset: None,
            seen: 0,
        };
        track.add(peak);
        track
    }

    pub fn is_at(&self, tone_hz: f64) -> bool {
        (self.best.tone_hz - tone_hz).abs() <= SAME_HZ
    }

    pub fn add(&mut self, peak: &Peak) {
        if peak.ratio > self.best.ratio {
            self.best = *peak;
        }
        self.from = self.from.min(peak.from);
        if peak.level < self.shortest || (peak.level == self.shortest && peak.to > self.last) {
            self.shortest = peak.level;
            self.last = peak.to;
        }
        self.weight += peak.ratio;
        if peak.comb > 0 {
            self.comb_weight += peak.ratio;
        }
        self.seen += 1;
    }

    /// Whether it sounds at `now` and is no voice, as far as is known.
    pub fn sounds(&self, now: u64) -> bool {
        self.seen > 1 && !self.is_voice() && now < self.last + LENGTHS[self.shortest] as u64 / 2
    }

    /// Whether voices' combs stand beside most of it.
    pub fn is_voice(&self) -> bool {
        self.comb_weight > 0.4 * self.weight
    }
}
