//! Whole obstacle learns with sound for a microphone: the real ear listens.

use std::f64::consts::TAU;

use rakeline::driver::{Ear, LearnIntent};
use rakeline_core::job::{Ignores, ignores};
use rakeline_core::learn::{Cause, Doubt, Outcome, Source, Standing, Ways, Why};
use rakeline_core::units::Millis;
use rakeline_tests::tilt_sim::rng::Rng;

use crate::bench::Bench;
use crate::learn::{TONE, at_the_gate, last, now, say};

/// Samples a second of the device.
const RATE: f64 = 48_000.0;
/// Length of a batch, ms.
const BATCH: f64 = 40.0;

/// What the microphone gives.
#[derive(Clone, Copy, PartialEq)]
enum Sound {
    /// A quiet cabin.
    Quiet,
    /// The kit beeps.
    Beep,
    /// A hiss that drowns everything and clips.
    Hiss,
    /// Zeros only.
    Nothing,
    /// Frames that never come over.
    Lost,
    /// A radio with a tone of its own.
    Radio,
}

struct Cabin {
    bench: Bench,
    /// The device's next frame.
    frame: f64,
    rng: Rng,
}

impl Cabin {
    /// A run that is on, with a microphone that gives this before its start.
    fn started(before: Sound) -> Self {
        let mut bench = at_the_gate();
        say(&mut bench, LearnIntent::WaysChosen(Ways::Both));
        say(&mut bench, LearnIntent::Listen);
        let mut cabin = Self {
            bench,
            frame: 0.0,
            rng: Rng::new(9),
        };
        cabin.hear(before, 2_000.0);
        say(&mut cabin.bench, LearnIntent::Start);
        assert!(cabin.bench.app.drafts.learn.is_on());
        cabin
    }

    fn sample(&mut self, sound: Sound, at: f64) -> f32 {
        let noise = self.rng.normal(0.002);
        let tone = 0.02 * (TAU * TONE * at / RATE).sin();
        let radio = 0.02 * (TAU * 900.0 * at / RATE).sin();
        (match sound {
            Sound::Beep => noise + tone,
            Sound::Hiss => 400.0 * noise,
            Sound::Nothing => 0.0,
            Sound::Radio => noise + radio,
            Sound::Quiet | Sound::Lost => noise,
        }) as f32
    }

    /// Time goes by with this sound.
    fn hear(&mut self, sound: Sound, time: f64) {
        let batch = (RATE * BATCH / 1_000.0) as u32;
        for _ in 0..(time / BATCH).round() as u32 {
            let first = self.frame;
            let samples: Vec<f32> = (0..batch)
                .map(|at| self.sample(sound, first + f64::from(at)))
                .collect();
            self.bench.pass(Millis(BATCH));
            if sound == Sound::Lost {
                continue;
            }
            self.frame += f64::from(batch);
            let arrived = now(&self.bench);
            self.bench
                .phone
                .microphone
                .deliver(&samples, 1, first, arrived);
            self.bench.settle();
        }
    }

    /// Until the beep of the sixth cycle was heard.
    fn up_to_quiet(&mut self) {
        self.up_to_the_last();
        self.hear(Sound::Beep, 200.0);
    }

    /// Until the beep of the sixth cycle is due.
    fn up_to_the_last(&mut self) {
        for _ in 1..=5 {
            say(&mut self.bench, LearnIntent::In(Source::Tap));
            self.hear(Sound::Quiet, 400.0);
            self.hear(Sound::Beep, 200.0);
            self.hear(Sound::Quiet, 1_000.0);
            say(&mut self.bench, LearnIntent::Out(Source::Tap));
            self.hear(Sound::Quiet, 1_000.0);
        }
        say(&mut self.bench, LearnIntent::In(Source::Tap));
        self.hear(Sound::Quiet, 400.0);
    }

    fn doubts(&self) -> Vec<Doubt> {
        let attempt = self.bench.job().learned.attempts.last();
        attempt.expect("an attempt").proof.doubts.clone()
    }
}

#[test]
fn six_beeps_and_a_quiet_cabin_are_learned() {
    let mut cabin = Cabin::started(Sound::Quiet);
    cabin.up_to_quiet();
    cabin.hear(Sound::Quiet, 6_500.0);
    assert_eq!(last(&cabin.bench), Outcome::Learned);
    let proof = &cabin.bench.job().learned.attempts[0].proof;
    assert_eq!((proof.heard(), proof.confirmed), (6, 6));
}

#[test]
fn a_hole_in_the_quiet_time_is_no_proof() {
    for hole in [Sound::Nothing, Sound::Lost] {
        let mut cabin = Cabin::started(Sound::Quiet);
        cabin.up_to_quiet();
        cabin.hear(Sound::Quiet, 1_200.0);
        cabin.hear(hole, 200.0);
        cabin.hear(Sound::Quiet, 5_500.0);
        assert_eq!(last(&cabin.bench), Outcome::ByHand);
        assert_eq!(cabin.doubts(), [Doubt::Gap]);
    }
}

#[test]
fn a_hole_between_two_cycles_does_no_harm() {
    let mut cabin = Cabin::started(Sound::Quiet);
    cabin.hear(Sound::Nothing, 200.0);
    cabin.hear(Sound::Quiet, 400.0);
    cabin.up_to_quiet();
    cabin.hear(Sound::Quiet, 6_500.0);
    assert_eq!(last(&cabin.bench), Outcome::Learned);
}

#[test]
fn a_hiss_that_clips_in_the_quiet_time_is_no_proof() {
    let mut cabin = Cabin::started(Sound::Quiet);
    cabin.up_to_quiet();
    cabin.hear(Sound::Quiet, 1_200.0);
    cabin.hear(Sound::Hiss, 1_500.0);
    cabin.hear(Sound::Quiet, 5_000.0);
    assert_eq!(last(&cabin.bench), Outcome::ByHand);
    assert_eq!(cabin.doubts(), [Doubt::TooLoud]);
}

#[test]
fn silence_only_confirms_no_cycle() {
    let mut cabin = Cabin::started(Sound::Nothing);
    say(&mut cabin.bench, LearnIntent::In(Source::Tap));
    cabin.hear(Sound::Nothing, 14_000.0);
    assert_eq!(
        last(&cabin.bench),
        Outcome::Failed(Why::NoBeep { cycle: 1 })
    );
}

#[test]
fn silence_only_in_the_quiet_time_is_no_proof() {
    let mut cabin = Cabin::started(Sound::Quiet);
    cabin.up_to_quiet();
    cabin.hear(Sound::Quiet, 800.0);
    cabin.hear(Sound::Nothing, 6_500.0);
    assert_eq!(last(&cabin.bench), Outcome::ByHand);
    assert_eq!(cabin.doubts(), [Doubt::Gap]);
}

#[test]
fn a_box_that_sounds_without_a_pause_through_all_cycles_is_never_learned() {
    let mut cabin = Cabin::started(Sound::Quiet);
    for cycle in 1..=6 {
        say(&mut cabin.bench, LearnIntent::In(Source::Tap));
        if cycle == 1 {
            cabin.hear(Sound::Quiet, 400.0);
        }
        cabin.hear(Sound::Beep, 1_600.0);
        say(&mut cabin.bench, LearnIntent::Out(Source::Tap));
        cabin.hear(Sound::Beep, 1_000.0);
    }
    cabin.hear(Sound::Beep, 10_000.0);
    cabin.hear(Sound::Quiet, 8_000.0);
    let Outcome::Failed(Why::ToneOn { lasted }) = last(&cabin.bench) else {
        panic!("{:?}", last(&cabin.bench));
    };
    assert!(lasted.0 > 3_000.0, "{lasted:?}");
    let proof = &cabin.bench.job().learned.attempts[0].proof;
    assert_eq!(proof.standing(), Standing::NotKnown);
    assert!(proof.confirmed <= 1, "one tone, one cycle at most");
}

#[test]
fn a_tone_that_goes_on_in_the_last_cycle_fails_and_its_end_is_no_silence() {
    let mut cabin = Cabin::started(Sound::Quiet);
    cabin.up_to_the_last();
    cabin.hear(Sound::Beep, 25_000.0);
    cabin.hear(Sound::Quiet, 8_000.0);
    let Outcome::Failed(Why::ToneOn { lasted }) = last(&cabin.bench) else {
        panic!("{:?}", last(&cabin.bench));
    };
    assert!((3_000.0..4_500.0).contains(&lasted.0), "{lasted:?}");
    assert_eq!(ignores(cabin.bench.job()), Ignores::NotKnown);
}

#[test]
fn a_tone_that_begins_in_the_quiet_time_fails_while_it_still_sounds() {
    let mut cabin = Cabin::started(Sound::Quiet);
    cabin.up_to_quiet();
    cabin.hear(Sound::Quiet, 2_500.0);
    cabin.hear(Sound::Beep, 3_000.0);
    assert!(matches!(
        last(&cabin.bench),
        Outcome::Failed(Why::BeepInQuiet { .. })
    ));
}

#[test]
fn a_tone_that_was_there_before_the_run_confirms_nothing_and_is_told() {
    let mut cabin = Cabin::started(Sound::Beep);
    cabin.hear(Sound::Beep, 600.0);
    let Ear::On(ear) = &cabin.bench.app.drafts.learn.ear else {
        panic!("it listens");
    };
    let said = ear.trouble.as_ref().expect("what sounds").key.clone();
    assert_eq!(said, "hearing-tone-on");
    say(&mut cabin.bench, LearnIntent::In(Source::Tap));
    cabin.hear(Sound::Beep, 14_000.0);
    let cycle = 1;
    assert_eq!(last(&cabin.bench), Outcome::Failed(Why::NoBeep { cycle }));
}

#[test]
fn a_radio_with_a_tone_of_its_own_in_the_quiet_time_does_not_fail_it() {
    let mut cabin = Cabin::started(Sound::Quiet);
    cabin.up_to_quiet();
    cabin.hear(Sound::Quiet, 400.0);
    cabin.hear(Sound::Radio, 7_000.0);
    assert_eq!(last(&cabin.bench), Outcome::Learned);
}

#[test]
fn a_microphone_that_hangs_interrupts_in_a_cycle_and_in_the_quiet_time() {
    for in_quiet in [false, true] {
        let mut cabin = Cabin::started(Sound::Quiet);
        if in_quiet {
            cabin.up_to_quiet();
            cabin.hear(Sound::Quiet, 1_200.0);
        } else {
            say(&mut cabin.bench, LearnIntent::In(Source::Tap));
            cabin.hear(Sound::Quiet, 400.0);
        }
        cabin.hear(Sound::Lost, 1_000.0);
        let why = Outcome::Interrupted(Cause::NoSound);
        assert_eq!(last(&cabin.bench), why, "in quiet: {in_quiet}");
        cabin.hear(Sound::Quiet, 9_000.0);
        assert!(!cabin.bench.app.drafts.learn.is_on(), "never resumed");
        assert_eq!(ignores(cabin.bench.job()), Ignores::NotKnown);
        // Once more opens it anew.
        let starts = cabin.bench.phone.microphone.starts();
        say(&mut cabin.bench, LearnIntent::Again);
        assert_eq!(cabin.bench.phone.microphone.starts(), starts + 1);
    }
}
