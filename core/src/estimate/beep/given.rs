//! What was heard: beeps that wait until nothing stronger explains them, and
//! what is dealt with.

use super::HIGHEST;
use super::heard::{Beep, OwnTone, ToneGate};
use super::track::SAME_HZ;

/// A beep waits so long for a stronger one at the same time, samples: its
/// overtones are no beeps of their own.
pub const WAIT: u64 = 4_000;
/// How long it is remembered what was given, samples.
const REMEMBERED: u64 = 48_000;
const REMEMBERED_MS: f64 = 10_000.0;
/// How long our own tones may still come in after their end, ms: they sound
/// some tenths late on their way through the phone, and a garage rings on
/// (our own figure).
const ECHO_MS: f64 = 500.0;
/// How much earlier than told our own tones may come in, ms.
const EARLY_MS: f64 = 30.0;
/// A stretch at a tone that is dealt with.
#[derive(Clone, Copy, Debug)]
pub struct Done {
    pub from: u64,
    pub to: u64,
    pub tone_hz: f64,
    /// Its energy when it was a beep, else 0.
    pub energy: f64,
}

impl Done {
    fn is_near(&self, tone_hz: f64) -> bool {
        (self.tone_hz - tone_hz).abs() <= SAME_HZ
    }
}

/// A beep with what is asked of it before it is given.
#[derive(Clone, Copy, Debug)]
pub struct Ripening {
    pub done: Done,
    pub beep: Beep,
    /// Its mean square.
    pub power: f64,
}

/// What was heard in the last seconds.
#[derive(Clone, Debug, Default)]
pub struct Given {
    done: Vec<Done>,
    waiting: Vec<Ripening>,
    own: Vec<OwnTone>,
}

impl Given {
    pub fn own_tone(&mut self, own: OwnTone) {
        self.own.push(own);
    }

    /// This stretch at its tone is dealt with.
    pub fn reject(&mut self, done: Done) {
        self.done.push(Done {
            energy: 0.0,
            ..done
        });
    }

    pub fn wait(&mut self, one: Ripening) {
        self.done.push(one.done);
        self.waiting.push(one);
    }

    /// Whether what stands out from one sample to another is dealt with.
    pub fn explains(&self, from: u64, to: u64, tone_hz: f64) -> bool {
        let over = |done: &Done| done.from < to && from < done.to;
        self.done
            .iter()
            .any(|done| done.is_near(tone_hz) && over(done))
    }

    /// Whether a beep at this tone was found in this stretch already.
    pub fn has_beep(&self, one: &Done) -> bool {
        let over = |done: &Done| done.from < one.to && one.from < done.to;
        let mut beeps = self.done.iter().filter(|done| done.energy > 0.0);
        beeps.any(|done| done.is_near(one.tone_hz) && over(done))
    }

    /// The end of the last beep at a tone; 0 when there was none.
    pub fn last_end(&self, tone_hz: f64) -> u64 {
        let beeps = self.done.iter().filter(|done| done.energy > 0.0);
        let ends = beeps
            .filter(|done| done.is_near(tone_hz))
            .map(|done| done.to);
        ends.max().unwrap_or(0)
    }

    /// Where the first beep that still waits begins.
    pub fn first_waiting(&self) -> Option<u64> {
        self.waiting.iter().map(|one| one.done.from).min()
    }

    /// Forgets what is over: sample index and time.
    pub fn forget(&mut self, now: u64, now_ms: f64) {
        self.done.retain(|done| done.to + REMEMBERED > now);
        self.own.retain(|own| own.end_ms + REMEMBERED_MS > now_ms);
    }

    /// The beeps that nothing stronger can explain any more.
    pub fn release(&mut self, now: u64, gate: ToneGate) -> Vec<Ripening> {
        let ripe = |one: &Ripening| one.done.to + WAIT <= now;
        if !self.waiting.iter().any(ripe) {
            return Vec::new();
        }
        let (mut ripe, waiting): (Vec<Ripening>, Vec<Ripening>) =
            self.waiting.drain(..).partition(ripe);
        self.waiting = waiting;
        ripe.sort_by_key(|one| one.done.to);
        ripe.retain(|one| {
            let tone_hz = one.done.tone_hz;
            let counts = gate.passes(tone_hz) && tone_hz <= HIGHEST;
            counts && !self.drowns(&one.done, gate) && !self.is_own(&one.beep)
        });
        ripe
    }

    /// Whether a stronger tone sounded at the same time.
    fn drowns(&self, one: &Done, gate: ToneGate) -> bool {
        self.done.iter().any(|other| {
            let both = other
                .to
                .min(one.to)
                .saturating_sub(other.from.max(one.from));
            let shorter = (other.to - other.from).min(one.to - one.from);
            gate.passes(other.tone_hz) && other.energy > one.energy && both * 3 > shorter
        })
    }

    fn is_own(&self, beep: &Beep) -> bool {
        let start = beep.start_ms;
        self.own.iter().any(|own| {
            let meanwhile = start >= own.start_ms - EARLY_MS && start <= own.end_ms + ECHO_MS;
            let overtone = |tone: &f64| {
                let times = (beep.tone_hz / tone).round().max(1.0);
                (beep.tone_hz - times * tone).abs() <= SAME_HZ
            };
            meanwhile && (own.tones_hz.is_empty() || own.tones_hz.iter().any(overtone))
        })
    }
}
