//! The ear: frames in, beeps and how well it hears out.

use super::RATE;
use super::bank::{Bank, Peak, TICK};
use super::edges::{BLOCK, Blocks, Span};
use super::given::{Done, Given, Ripening};
use super::heard::{Beep, Hearing, Onset, OwnTone, ToneGate};
use super::hold::{HOLD_AFTER, Held, LOOK_EVERY, MOST_HELD, Stands};
use super::resample::Resampler;
use super::ring::Ring;
use super::split::{Split, has_ended, split};
use super::steady::{NoBeep, judge};
use super::tame::Tame;
use super::track::Track;
use super::vital::Vital;

/// Frames whose time differs by more from what is expected are a new start, ms.
const GAP_MS: f64 = 60.0;
/// Share of a smaller difference that is taken over at once.
const SLEW: f64 = 0.02;
/// Tones that are followed at once.
const MOST_TRACKS: usize = 12;
/// How long after its first window a tone is looked at, and again while it
/// sounds, samples.
pub(super) const LOOK_AFTER: u64 = 2_000;
/// A tone that sounds and stands out no more is a part of the noise, samples.
const LINE: u64 = 32_000;
/// Where the noise is judged before a beep was heard, hertz.
const USUAL_HZ: f64 = 3_000.0;
/// Power and length of a beep that is taken for the kit's before one was
/// heard: 40 dB below full scale for a tenth of a second.
const USUAL_POWER: f64 = 0.5e-4;
const USUAL_MS: f64 = 100.0;

/// A beep tells of the kit's by no more than this of its length.
const LONGEST_MS: f64 = 1_000.0;

/// What is known of the kit's beep.
#[derive(Clone, Copy, Debug)]
pub(super) struct KitBeep {
    pub(super) power: f64,
    pub(super) length_ms: f64,
    pub(super) tone_hz: f64,
}

/// Hears beeps in a stream of sound; uses the same memory for a minute and
/// for a day.
pub struct Listener {
    rate: f64,
    resampler: Resampler,
    tame: Tame,
    pub(super) vital: Vital,
    pub(super) ring: Ring,
    pub(super) bank: Bank,
    pub(super) tracks: Vec<Track>,
    pub(super) held: Vec<Held>,
    pub(super) given: Given,
    pub(super) gate: ToneGate,
    pub(super) kit: KitBeep,
    /// Ring index and time of the first sample without a gap since.
    pub(super) since: u64,
    pub(super) since_ms: f64,
    /// When the last hole in the sound was over.
    pub(super) whole_ms: f64,
    /// Input samples since.
    taken: u64,
    clean: Vec<f32>,
    even: Vec<f32>,
    fresh: Vec<f32>,
    peaks: Vec<Peak>,
}

impl Listener {
    /// An ear for mono frames of `rate` samples a second (8,000 to 96,000).
    #[must_use]
    pub fn new(rate: f64) -> Self {
        Self {
            rate,
            resampler: Resampler::new(rate),
            tame: Tame::new(),
            vital: Vital::new(rate),
            ring: Ring::new(),
            bank: Bank::new(),
            tracks: Vec::with_capacity(MOST_TRACKS),
            held: Vec::with_capacity(MOST_HELD),
            given: Given::default(),
            gate: ToneGate::Any,
            kit: KitBeep {
                power: USUAL_POWER,
                length_ms: USUAL_MS,
                tone_hz: USUAL_HZ,
            },
            since: 0,
            since_ms: f64::NAN,
            whole_ms: f64::NAN,
            taken: 0,
            clean: Vec::new(),
            even: Vec::new(),
            fresh: Vec::new(),
            peaks: Vec::new(),
        }
    }

    /// From now on only these tones count.
    pub fn set_gate(&mut self, gate: ToneGate) {
        self.gate = gate;
        if let ToneGate::Near(tone_hz) = gate {
            self.kit.tone_hz = tone_hz;
        }
    }

    /// Beeps like this tone of our own do not count.
    pub fn own_tone(&mut self, own: OwnTone) {
        self.given.own_tone(own);
    }

    /// Takes mono frames, the first of which was heard at `first_ms`.
    pub fn push(&mut self, frames: &[f32], first_ms: f64) -> Hearing {
        self.follow_time(first_ms);
        self.clean.clear();
        self.clean.extend(frames.iter().map(|sample| {
            if sample.is_finite() {
                sample.clamp(-1.0, 1.0)
            } else {
                0.0
            }
        }));
        if let Some(lost) = self.vital.push(&self.clean) {
            let samples = self.taken as f64 + lost as f64;
            self.whole_ms = self.since_ms + samples * 1000.0 / self.rate;
        }
        self.taken += frames.len() as u64;
        self.even.clear();
        self.resampler.push(&self.clean, &mut self.even);
        let mut fresh = std::mem::take(&mut self.fresh);
        fresh.clear();
        self.tame.push(&self.even, &mut fresh);
        let mut beeps = Vec::new();
        let mut rest = &fresh[..];
        while !rest.is_empty() {
            let into = (self.ring.end() - self.since) as usize % TICK;
            let (now, later) = rest.split_at((TICK - into).min(rest.len()));
            self.ring.push(now);
            rest = later;
            if (self.ring.end() - self.since).is_multiple_of(TICK as u64) {
                self.tick(&mut beeps);
            }
        }
        self.fresh = fresh;
        Hearing {
            beeps,
            state: self.state(),
        }
    }

    /// Small differences are the jitter of who brings the frames; large
    /// ones are sound that is missing.
    fn follow_time(&mut self, first_ms: f64) {
        let expected = self.since_ms + self.taken as f64 * 1000.0 / self.rate;
        let off = first_ms - expected;
        if off.abs() <= GAP_MS {
            self.since_ms += SLEW * off;
            return;
        }
        self.resampler = Resampler::new(self.rate);
        self.tame = Tame::new();
        self.since = self.ring.end();
        self.since_ms = first_ms;
        self.whole_ms = first_ms;
        self.taken = 0;
        self.tracks.clear();
    }

    pub(super) fn ms(&self, index: u64) -> f64 {
        self.since_ms + (index as f64 - self.since as f64) * 1000.0 / RATE
    }

    fn tick(&mut self, beeps: &mut Vec<Beep>) {
        let now = self.ring.end();
        let mut peaks = std::mem::take(&mut self.peaks);
        peaks.clear();
        self.bank.look(&self.ring, self.since, &mut peaks);
        for peak in &peaks {
            self.note(peak, now);
        }
        self.peaks = peaks;
        for at in (0..self.tracks.len()).rev() {
            if self.tracks[at].due <= now {
                let track = self.tracks.swap_remove(at);
                if let Some(track) = self.examine(track, now) {
                    self.tracks.push(track);
                }
            }
        }
        if (now - self.since).is_multiple_of(LOOK_EVERY) {
            self.follow_held();
        }
        self.given.forget(now, self.ms(now));
        for one in self.given.release(now, self.gate) {
            self.kit = KitBeep {
                power: one.power,
                length_ms: one.beep.length_ms().min(LONGEST_MS),
                tone_hz: one.beep.tone_hz,
            };
            beeps.push(one.beep);
        }
    }

    /// Gives a peak to its track, or starts one.
    fn note(&mut self, peak: &Peak, now: u64) {
        let explained = self.given.explains(peak.from, peak.to, peak.tone_hz);
        if explained || self.held.iter().any(|held| held.is_at(peak.tone_hz)) {
            return;
        }
        if let Some(track) = self
            .tracks
            .iter_mut()
            .find(|track| track.is_at(peak.tone_hz))
        {
            track.add(peak);
            return;
        }
        if self.tracks.len() >= MOST_TRACKS {
            let weakest = self
                .tracks
                .iter()
                .enumerate()
                .min_by(|(_, a), (_, b)| a.best.ratio.total_cmp(&b.best.ratio));
            match weakest {
                Some((at, weakest)) if weakest.best.ratio < peak.ratio => {
                    self.tracks.swap_remove(at);
                }
                _ => return,
            }
        }
        let mut track = Track::new(peak);
        track.due = now + LOOK_AFTER;
        self.tracks.push(track);
    }

    /// Looks for the beginning and end of a track's tone; the track goes on
    /// while it sounds.
    fn examine(&mut self, mut track: Track, now: u64) -> Option<Track> {
        if track.is_voice() {
            self.given.reject(Done {
                from: track.from,
                to: track.last,
                tone_hz: track.best.tone_hz,
                energy: 0.0,
            });
            return None;
        }
        let dealt_with = self.given.last_end(track.best.tone_hz);
        let Split {
            blocks,
            spans,
            tone_hz,
        } = split(&self.ring, &track, self.since.max(dealt_with));
        track.tone_hz = tone_hz;
        let mut goes_on = false;
        for (at, span) in spans.iter().enumerate() {
            let last = at + 1 == spans.len();
            if last && !has_ended(&blocks, span) {
                goes_on = true;
                let begin = *track.onset.get_or_insert_with(|| self.begin(&blocks, span));
                let noise = blocks.noise(&spans);
                if blocks.at(span.to) >= begin.0 + HOLD_AFTER
                    && judge(&blocks, span, noise, span.from <= 2).is_ok()
                    && self.hold(&track, span, begin)
                {
                    return None;
                }
                break;
            }
            let known = track.onset.take();
            let known = known.filter(|(from, _)| blocks.reaches(span, *from));
            let (from, onset) = known.unwrap_or_else(|| self.begin(&blocks, span));
            self.ended(&track, &blocks, (&spans, span), tone_hz, (from, onset));
        }
        if goes_on && now < track.last + LINE {
            track.due = now + LOOK_AFTER;
            return Some(track);
        }
        None
    }

    /// Follows a tone that goes on by itself; `false` where too many are.
    fn hold(&mut self, track: &Track, span: &Span, (from, onset): (u64, Onset)) -> bool {
        let full = self.held.len() >= MOST_HELD;
        if full {
            let outside = |held: &Held| !self.gate.passes(held.tone_hz);
            let Some(at) = self.held.iter().position(outside) else {
                return false;
            };
            self.held.swap_remove(at);
        }
        let begin = (from, self.ms(from), onset);
        let density = track.best.density;
        self.held
            .push(Held::new(span, track.tone_hz, density, begin));
        true
    }

    /// Looks which of the tones that go on have ended.
    fn follow_held(&mut self) {
        for at in (0..self.held.len()).rev() {
            let Stands::Ended(to) = self.held[at].stands(&self.ring, self.since) else {
                continue;
            };
            let mut held = self.held.swap_remove(at);
            held.to = to;
            let done = Done {
                from: held.from,
                to,
                tone_hz: held.tone_hz,
                energy: held.energy(),
            };
            self.given.wait(Ripening {
                done,
                beep: Beep {
                    start_ms: held.start_ms,
                    end_ms: self.ms(to).max(held.start_ms),
                    tone_hz: held.tone_hz,
                    snr_db: 10.0 * held.energy().log10(),
                    onset: held.onset,
                },
                power: held.mean_square(),
            });
        }
    }

    fn begin(&self, blocks: &Blocks, span: &Span) -> (u64, Onset) {
        let from = blocks.at(span.from);
        let cut = from < self.since + 2 * BLOCK as u64;
        (from, if cut { Onset::CutByStart } else { Onset::Heard })
    }

    fn ended(
        &mut self,
        track: &Track,
        blocks: &Blocks,
        (spans, span): (&[Span], &Span),
        tone_hz: f64,
        begin: (u64, Onset),
    ) {
        let (from, onset) = begin;
        let done = Done {
            from,
            to: blocks.at(span.to),
            tone_hz,
            energy: span.energy,
        };
        // Two tracks may turn out to be one tone.
        if self.given.has_beep(&done) {
            return;
        }
        let whole = span.from > 2;
        let judged = judge(blocks, span, blocks.noise(spans), !whole);
        if judged.is_err() {
            // What is too faint or too short may be a part of what is not.
            if !matches!(judged, Err(NoBeep::Faint | NoBeep::Short)) {
                self.given.reject(done);
            }
            return;
        }
        self.given.wait(Ripening {
            done,
            beep: Beep {
                start_ms: self.ms(from),
                end_ms: self.ms(done.to),
                tone_hz,
                snr_db: 10.0 * span.energy.log10(),
                onset,
            },
            power: span.power() * track.best.density * RATE / BLOCK as f64,
        });
    }
}
