//! How listening stands: loudness, what is wrong, what sounds, and up to when
//! all was told.

use super::bank::LENGTHS;
use super::given::WAIT;
use super::heard::{EarState, LEAST_MARGIN_DB, Lasts, Onset, Sounding, Trouble};
use super::listener::{LOOK_AFTER, Listener};
use super::track::{SAME_HZ, Track};

impl Listener {
    /// How listening stands now.
    #[must_use]
    pub fn state(&self) -> EarState {
        let now = self.ring.end();
        let kit = &self.kit;
        let noise = self.bank.noise_at(kit.tone_hz).unwrap_or(1e-15);
        let margin_db = 10.0 * (kit.power * kit.length_ms / 1000.0 / noise).log10();
        let trouble = if self.vital.silent() {
            Some(Trouble::Silent)
        } else if self.vital.clipping() {
            Some(Trouble::Clipping)
        } else if margin_db < LEAST_MARGIN_DB {
            Some(Trouble::TooNoisy)
        } else {
            None
        };
        let latest = LENGTHS[LENGTHS.len() - 1] as u64 * 5 / 4 + LOOK_AFTER + WAIT;
        // A tone that the gate does not let through holds nothing up.
        let open = self.tracks.iter().filter(|track| self.counts(track));
        let waiting = self.given.first_waiting();
        let settled = open
            .map(|track| track.from)
            .chain(waiting)
            .fold(now.saturating_sub(latest), u64::min);
        let passing = self
            .held
            .iter()
            .filter(|held| self.gate.passes(held.tone_hz));
        let settled_ms = passing
            .map(|held| held.start_ms)
            .fold(self.ms(settled), f64::min);
        EarState {
            level_db: self.vital.level_db(),
            margin_db,
            trouble,
            sounding: self.sounding(),
            settled_ms,
            unbroken_since_ms: self.since_ms.max(self.whole_ms),
        }
    }

    /// Whether the gate may let a track through once its tone is known well.
    fn counts(&self, track: &Track) -> bool {
        let tone_hz = track.best.tone_hz;
        let near = [tone_hz - SAME_HZ, tone_hz, tone_hz + SAME_HZ];
        near.into_iter().any(|tone_hz| self.gate.passes(tone_hz))
    }

    /// The tone that sounds now: one that goes on before one that may.
    fn sounding(&self) -> Option<Sounding> {
        let now = self.ring.end();
        let passing = self
            .held
            .iter()
            .filter(|held| self.gate.passes(held.tone_hz));
        let goes_on = passing.min_by(|a, b| a.start_ms.total_cmp(&b.start_ms));
        if let Some(held) = goes_on {
            return Some(Sounding {
                since_ms: held.start_ms,
                until_ms: self.ms(held.to.max(self.since)),
                tone_hz: held.tone_hz,
                lasts: match held.onset {
                    Onset::Heard => Lasts::GoesOn,
                    Onset::CutByStart => Lasts::GoesOnFromBefore,
                },
            });
        }
        self.tracks
            .iter()
            .filter(|track| track.sounds(now) && self.gate.passes(track.best.tone_hz))
            .max_by(|a, b| a.best.ratio.total_cmp(&b.best.ratio))
            .map(|track| Sounding {
                since_ms: self.ms(track.onset.map_or(track.from, |(from, _)| from)),
                until_ms: self.ms(now),
                tone_hz: track.best.tone_hz,
                lasts: Lasts::NotSure,
            })
    }
}
