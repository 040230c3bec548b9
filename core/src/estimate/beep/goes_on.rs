//! Tones that go on, through the whole ear.

use std::f64::consts::TAU;

use super::{Beep, Hearing, Lasts, Listener, Onset, RATE, ToneGate};

const KIT: f64 = 2_150.0;
/// A batch of the microphone, milliseconds.
const BATCH_MS: f64 = 80.0;

/// How a tone sounds at a moment, so many seconds after it began.
type Voice = fn(f64) -> f64;

fn pure(t: f64) -> f64 {
    0.02 * (TAU * KIT * t).sin()
}

/// A buzzer: overtones, and a pitch that is not quite steady.
fn buzzer(t: f64) -> f64 {
    let phase = TAU * KIT * t + 0.4 * (TAU * 3.1 * t).sin();
    0.02 * (phase.sin() + 0.3 * (2.0 * phase).sin() + 0.2 * (3.0 * phase).sin())
}

/// A phone that is moved: the tone swells and fades by 6 dB.
fn moved(t: f64) -> f64 {
    (0.75 + 0.25 * (TAU * 0.4 * t).sin()) * pure(t)
}

/// A pitch that creeps by 10 Hz, up and down.
fn creeps(t: f64) -> f64 {
    let phase = TAU * KIT * t + 10.0 / 0.1 * (1.0 - (TAU * 0.1 * t).cos());
    0.02 * phase.sin()
}

/// Just loud enough to be heard in the noise.
fn faint(t: f64) -> f64 {
    0.01 * pure(t)
}

struct Cabin {
    listener: Listener,
    seed: u64,
    heard: Vec<(f64, Hearing)>,
}

impl Cabin {
    fn new(gate: ToneGate) -> Self {
        let mut listener = Listener::new(RATE);
        listener.set_gate(gate);
        Self {
            listener,
            seed: 9,
            heard: Vec::new(),
        }
    }

    fn noise(&mut self) -> f64 {
        let mut sum = 0.0;
        for _ in 0..4 {
            let next = self.seed.wrapping_mul(6_364_136_223_846_793_005);
            self.seed = next.wrapping_add(1);
            sum += (self.seed >> 33) as f64 / f64::from(1_u32 << 31) - 0.5;
        }
        0.001 * sum
    }

    /// Sound from one time to another with a tone from `tone.0` to `tone.1`,
    /// seconds.
    fn hear(&mut self, (from, to): (f64, f64), tone: (f64, f64), voice: Voice) {
        let batch = (RATE * BATCH_MS / 1000.0) as usize;
        for at in 0..((to - from) * 1000.0 / BATCH_MS).round() as usize {
            let first = from + at as f64 * BATCH_MS / 1000.0;
            let frames: Vec<f32> = (0..batch)
                .map(|n| {
                    let t = first + n as f64 / RATE;
                    let on = (tone.0..tone.1).contains(&t);
                    let sound = if on { voice(t - tone.0) } else { 0.0 };
                    (sound + self.noise()) as f32
                })
                .collect();
            let hearing = self.listener.push(&frames, 1000.0 * first);
            self.heard.push((1000.0 * first + BATCH_MS, hearing));
        }
    }

    fn beeps(&self) -> Vec<Beep> {
        let heard = self.heard.iter();
        heard.flat_map(|(_, heard)| heard.beeps.clone()).collect()
    }

    /// Never a silence between two times, milliseconds, and said to go on.
    fn goes_on(&self, from: f64, to: f64, begin: f64, lasts: Lasts, name: &str) {
        for (at, heard) in &self.heard {
            if (from..to).contains(at) {
                let state = heard.state;
                let sounding = state.sounding.map(|sounding| sounding.lasts);
                assert_eq!(sounding, Some(lasts), "{name} at {at}: {state:?}");
                assert!(
                    state.settled_ms <= begin + 60.0,
                    "{name} at {at}: {state:?}"
                );
                assert_eq!(heard.beeps, [], "{name} at {at}");
            }
        }
    }
}

#[test]
fn a_tone_that_goes_on_is_never_a_silence_and_one_beep_in_the_end() {
    let voices: [(&str, Voice); 4] = [
        ("pure", pure),
        ("buzzer", buzzer),
        ("moved", moved),
        ("creeps", creeps),
    ];
    for (name, voice) in voices {
        for length in [4.0, 26.0] {
            let mut cabin = Cabin::new(ToneGate::Near(KIT));
            let end = 3.0 + length;
            cabin.hear((0.0, end + 4.0), (3.0, end), voice);
            cabin.goes_on(5_000.0, 1000.0 * end, 3_000.0, Lasts::GoesOn, name);
            let beeps = cabin.beeps();
            assert_eq!(beeps.len(), 1, "{name}: {beeps:#?}");
            let beep = beeps[0];
            assert!((beep.start_ms - 3_000.0).abs() < 60.0, "{name}: {beep:?}");
            assert!(
                (beep.end_ms - 1000.0 * end).abs() < 250.0,
                "{name}: {beep:?}"
            );
            assert_eq!(beep.onset, Onset::Heard, "{name}");
            // After it a silence is one again.
            let state = cabin.heard.last().unwrap().1.state;
            assert_eq!(state.sounding, None, "{name}");
            assert!(state.settled_ms > 1000.0 * end, "{name}: {state:?}");
        }
    }
}

#[test]
fn a_tone_at_the_edge_of_hearing_is_told_in_parts_that_follow_at_once() {
    for length in [4.0, 26.0] {
        let mut cabin = Cabin::new(ToneGate::Near(KIT));
        let end = 3.0 + length;
        cabin.hear((0.0, end + 4.0), (3.0, end), faint);
        // The run takes parts less than 250 ms apart for one sound.
        let mut until = 3_000.0;
        for beep in cabin.beeps() {
            assert!((beep.start_ms - until).abs() < 200.0, "{beep:?} {until}");
            until = beep.end_ms;
        }
        assert!((until - 1000.0 * end).abs() < 250.0, "{until} of {end}");
    }
}

#[test]
fn a_tone_that_was_there_before_goes_on_from_before() {
    let mut cabin = Cabin::new(ToneGate::Any);
    cabin.hear((0.0, 16.0), (-5.0, 12.0), pure);
    let lasts = Lasts::GoesOnFromBefore;
    cabin.goes_on(2_500.0, 12_000.0, 0.0, lasts, "from before");
    let beeps = cabin.beeps();
    assert_eq!(beeps.len(), 1, "{beeps:#?}");
    assert_eq!(beeps[0].onset, Onset::CutByStart);
}

#[test]
fn a_hole_in_the_sound_does_not_end_a_tone_that_goes_on() {
    let mut cabin = Cabin::new(ToneGate::Near(KIT));
    cabin.hear((0.0, 14.0), (2.0, 24.0), pure);
    cabin.hear((14.4, 28.0), (2.0, 24.0), pure);
    cabin.goes_on(4_000.0, 24_000.0, 2_000.0, Lasts::GoesOn, "hole");
    let beeps = cabin.beeps();
    assert_eq!(beeps.len(), 1, "{beeps:#?}");
    assert!((beeps[0].start_ms - 2_000.0).abs() < 60.0, "{beeps:?}");
    assert!((beeps[0].end_ms - 24_000.0).abs() < 250.0, "{beeps:?}");
}

#[test]
fn a_tone_that_the_gate_keeps_out_holds_nothing_up() {
    let mut cabin = Cabin::new(ToneGate::Near(900.0));
    cabin.hear((0.0, 12.0), (2.0, 11.0), pure);
    for (at, heard) in cabin.heard.iter().filter(|(at, _)| *at > 4_000.0) {
        assert_eq!(heard.state.sounding, None);
        assert!(heard.state.settled_ms > at - 2_000.0, "{at}: {heard:?}");
    }
    assert_eq!(cabin.beeps(), []);
}

#[test]
fn quick_beeps_with_pauses_are_no_tone_that_goes_on() {
    let mut cabin = Cabin::new(ToneGate::Near(KIT));
    let quick: Voice = |t| if t % 0.3 < 0.15 { pure(t) } else { 0.0 };
    cabin.hear((0.0, 12.0), (2.0, 8.0), quick);
    let on = |heard: &&(f64, Hearing)| {
        let sounding = heard.1.state.sounding;
        sounding.is_some_and(|sounding| sounding.lasts != Lasts::NotSure)
    };
    assert_eq!(cabin.heard.iter().filter(on).count(), 0);
    assert!(cabin.beeps().len() >= 19, "{:?}", cabin.beeps().len());
}
