//! A tone and the silence around it: where it is looked for, at which
//! frequency, and whether it is over.

use super::RATE;
use super::edges::{BLOCK, Blocks, Span, energy_at, shift, spans};
use super::ring::Ring;
use super::track::Track;

/// Silence that ends a tone for good, blocks; and energy that a faint tone
/// would have brought meanwhile, had it gone on.
const ENDED: usize = 15;
const ENDED_ENERGY: f64 = 15.0;
/// Share of that energy at which it may go on after all.
const GOES_ON: f64 = 0.35;
/// How far chance moves the root of an energy: three standard deviations.
const CHANCE: f64 = 2.0;
/// How often a tone's frequency is made finer at most.
const REFINED: usize = 4;
/// Sound before a tone's first window that is looked at, samples.
const LEAD: u64 = 1_600;
/// A tone that begins within so many blocks of where it is looked for may
/// have begun before; how much further back it is looked for then, samples.
const OPEN: usize = 12;
const FURTHER: u64 = 9_000;
/// Longest stretch that is looked at, samples.
const STRETCH: u64 = 40_000;
/// Sound around a tone and the tones found in it.
pub struct Split {
    pub blocks: Blocks,
    pub spans: Vec<Span>,
    pub tone_hz: f64,
}

impl Split {
    fn new(ring: &Ring, (from, to): (u64, u64), tone_hz: f64, density: f64) -> Self {
        let blocks = Blocks::cut(ring, from, to, tone_hz, density);
        let spans = spans(&blocks.sums);
        Self {
            blocks,
            spans,
            tone_hz,
        }
    }

    fn energy(&self) -> f64 {
        self.spans.iter().map(|span| span.energy).sum()
    }
}

/// Sound around a track's tone, not before `earliest`, and the tones in it.
pub fn split(ring: &Ring, track: &Track, earliest: u64) -> Split {
    let now = ring.end();
    let earliest = earliest.max(now.saturating_sub(STRETCH));
    let mut from = track.from.saturating_sub(LEAD).max(earliest);
    loop {
        let split = split_from(ring, track, (from, now));
        let open = split.spans.first().is_some_and(|span| span.from < OPEN);
        if !open || from <= earliest {
            return split;
        }
        from = from.saturating_sub(FURTHER).max(earliest);
    }
}

/// The better of what the best peak says of the frequency and what the
/// last look made of it.
fn split_from(ring: &Ring, track: &Track, part: (u64, u64)) -> Split {
    let fresh = refined(ring, track, track.best.tone_hz, part);
    if (track.tone_hz - track.best.tone_hz).abs() < 0.01 {
        return fresh;
    }
    let again = refined(ring, track, track.tone_hz, part);
    if again.energy() > fresh.energy() {
        again
    } else {
        fresh
    }
}

/// Makes the frequency finer as long as that finds more: a tone a little
/// beside it falls apart into runs, and part of it seems to be all.
fn refined(ring: &Ring, track: &Track, tone_hz: f64, part: (u64, u64)) -> Split {
    let cut = |tone_hz| Split::new(ring, part, tone_hz, track.best.density);
    let mut split = cut(tone_hz);
    for _ in 0..REFINED {
        let spans = split.spans.iter();
        let Some(best) = spans.max_by(|a, b| a.energy.total_cmp(&b.energy)) else {
            break;
        };
        let by = shift(&split.blocks.sums[best.from..best.to]);
        let seconds = ((best.to - best.from) * BLOCK) as f64 / RATE;
        if by.abs() * seconds < 0.04 {
            break;
        }
        let finer = cut(split.tone_hz + by);
        if finer.energy() <= split.energy() {
            break;
        }
        split = finer;
    }
    split
}

/// Whether the last tone in some blocks is over for good.
pub fn has_ended(blocks: &Blocks, span: &Span) -> bool {
    let after = blocks.sums.get(span.to + 2..).unwrap_or_default();
    // Had the tone gone on, it would have brought at least so much: chance
    // may have made it look stronger than it is.
    let power = (span.energy.sqrt() - CHANCE).max(1.0).powi(2) / (span.to - span.from) as f64;
    let missed = power * after.len() as f64;
    if after.len() < ENDED || missed < ENDED_ENERGY {
        return false;
    }
    let enough = (4.0 * ENDED_ENERGY / power) as usize;
    let after = &after[..after.len().min(enough.max(ENDED))];
    energy_at(after, shift(after)) < GOES_ON * power * after.len() as f64
}
