//! The obstacle learn from the gate to the job sheet.

use rakeline::driver::{Ear, Intent, LearnIntent};
use rakeline::platform::{MicrophoneFault, Pulse, Tone, Visibility};
use rakeline::route::Step;
use rakeline_core::estimate::beep::{Beep, EarState, Hearing, Lasts, Onset, Sounding};
use rakeline_core::job::{Ignores, JobEvent, LearnedEvent, Object, ignores};
use rakeline_core::learn::{Cause, Doubt, Outcome, Source, Ways, Why};
use rakeline_core::report::job_sheet;
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::scenario;
use crate::sheet_text::text_of;

/// The kit's tone on its sheet.
pub const TONE: f64 = 2_150.0;
/// The microphone is behind by so much.
pub const BEHIND: f64 = 300.0;

pub fn say(bench: &mut Bench, said: LearnIntent) {
    bench.send(Intent::Learn(said));
}

pub fn fact(bench: &mut Bench, event: LearnedEvent) {
    bench.send(Intent::Fit(Box::new(JobEvent::Learned(event))));
}

pub fn now(bench: &Bench) -> f64 {
    bench.phone.platform().clock.monotonic().0
}

/// The microphone, up to that time, with what it heard.
pub fn hear(bench: &mut Bench, settled: f64, beeps: Vec<Beep>, sounding: Option<Sounding>) {
    bench.phone.microphone.heard(Hearing {
        beeps,
        state: EarState {
            level_db: -40.0,
            margin_db: 30.0,
            trouble: None,
            sounding,
            settled_ms: settled,
            unbroken_since_ms: 0.0,
        },
    });
    bench.settle();
}

pub fn from_to(start: f64, end: f64, hertz: f64) -> Beep {
    Beep {
        start_ms: start,
        end_ms: end,
        tone_hz: hertz,
        snr_db: 30.0,
        onset: Onset::Heard,
    }
}

/// Time goes by with a microphone that hears nothing.
pub fn listen(bench: &mut Bench, time: f64) {
    let mut left = time;
    while left > 0.0 {
        let step = left.min(100.0);
        bench.pass(Millis(step));
        left -= step;
        let settled = now(bench) - BEHIND;
        hear(bench, settled, Vec::new(), None);
    }
}

/// The kit beeps for 150 ms; it is told when it has settled.
pub fn beep(bench: &mut Bench, hertz: f64) {
    let start = now(bench);
    listen(bench, 400.0);
    let settled = now(bench) - BEHIND;
    hear(
        bench,
        settled,
        vec![from_to(start, start + 150.0, hertz)],
        None,
    );
}

/// A job on the screen of the learn, with the gate heeded.
pub fn at_the_gate() -> Bench {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::GoStep(Step::Learn));
    let tow_bar = Object::RemovableTowBar;
    fact(&mut bench, LearnedEvent::ObjectPicked(tow_bar));
    fact(&mut bench, LearnedEvent::GateHeeded);
    bench
}

/// A run that is on, counted this way.
pub fn started(ways: Ways) -> Bench {
    let mut bench = at_the_gate();
    say(&mut bench, LearnIntent::WaysChosen(ways));
    if ways != Ways::Hand {
        say(&mut bench, LearnIntent::Listen);
        assert!(bench.phone.microphone.running());
        let settled = now(&bench) - BEHIND;
        hear(&mut bench, settled, Vec::new(), None);
    }
    say(&mut bench, LearnIntent::Start);
    assert!(bench.app.drafts.learn.is_on());
    assert!(bench.phone.wake.held());
    listen(&mut bench, 500.0);
    bench
}

/// One cycle with so many beeps, out of reverse again.
pub fn cycle(bench: &mut Bench, beeps: u32) {
    say(bench, LearnIntent::In(Source::Tap));
    for _ in 0..beeps {
        listen(bench, 300.0);
        beep(bench, TONE);
        listen(bench, 500.0);
    }
    listen(bench, 900.0);
    say(bench, LearnIntent::Out(Source::Tap));
    listen(bench, 1_500.0);
}

/// Until the beep of the sixth cycle was heard.
pub fn to_quiet(bench: &mut Bench) {
    for _ in 0..5 {
        cycle(bench, 1);
    }
    say(bench, LearnIntent::In(Source::Tap));
    listen(bench, 300.0);
    beep(bench, TONE);
}

pub fn sheet(bench: &Bench) -> String {
    let at = bench.phone.platform().clock.now();
    text_of(&job_sheet(bench.job(), at, "UTC"))
}

pub fn last(bench: &Bench) -> Outcome {
    let attempt = bench.job().learned.attempts.last();
    attempt.expect("an attempt").proof.outcome
}

#[test]
fn a_run_of_beeps_and_silence_is_learned_and_stands_on_the_sheet() {
    let mut bench = started(Ways::Both);
    to_quiet(&mut bench);
    listen(&mut bench, 4_500.0);
    assert_eq!(last(&bench), Outcome::Learned);
    assert!(!bench.phone.wake.held());
    assert_eq!(ignores(bench.job()), Ignores::This(Object::RemovableTowBar));
    let proof = &bench.job().learned.attempts[0].proof;
    assert_eq!((proof.confirmed, proof.heard()), (6, 6));
    assert!(bench.saved());
    let sheet = sheet(&bench);
    assert!(sheet.contains("Obstacle learn"), "{sheet}");
    assert!(sheet.contains("6 of 6 cycles confirmed"), "{sheet}");
    assert!(
        sheet.contains("now ignores the removable tow bar"),
        "{sheet}"
    );
    let stored = bench.killed();
    assert_eq!(stored.job().learned, bench.job().learned);
}

#[test]
fn several_beeps_in_one_engagement_count_once() {
    let mut bench = started(Ways::Both);
    for beeps in [1, 3, 2, 4, 1] {
        cycle(&mut bench, beeps);
    }
    say(&mut bench, LearnIntent::In(Source::Tap));
    listen(&mut bench, 300.0);
    beep(&mut bench, TONE);
    listen(&mut bench, 4_500.0);
    assert_eq!(last(&bench), Outcome::Learned);
    assert_eq!(bench.job().learned.attempts[0].proof.cycles.len(), 6);
}

#[test]
fn a_beep_in_the_quiet_time_fails_and_one_tap_starts_again() {
    let mut bench = started(Ways::Both);
    to_quiet(&mut bench);
    listen(&mut bench, 2_000.0);
    beep(&mut bench, TONE);
    listen(&mut bench, 2_500.0);
    let Outcome::Failed(Why::BeepInQuiet { after }) = last(&bench) else {
        panic!("{:?}", last(&bench));
    };
    assert!((2_000.0..2_600.0).contains(&after.0), "{after:?}");
    assert_eq!(ignores(bench.job()), Ignores::NotKnown);
    let sheet = sheet(&bench);
    assert!(
        sheet.contains("not known what the control box ignores"),
        "{sheet}"
    );
    say(&mut bench, LearnIntent::Again);
    assert!(bench.app.drafts.learn.is_on());
    assert!(bench.phone.wake.held());
    to_quiet(&mut bench);
    listen(&mut bench, 2_000.0);
    beep(&mut bench, TONE + 300.0);
    listen(&mut bench, 2_500.0);
    assert_eq!(last(&bench), Outcome::Learned, "another tone does not fail");
    assert_eq!(bench.job().learned.attempts.len(), 2);
}

#[test]
fn a_hidden_app_interrupts_and_the_microphone_is_let_go() {
    let mut bench = started(Ways::Both);
    cycle(&mut bench, 1);
    bench.show(Visibility::Hidden);
    assert_eq!(last(&bench), Outcome::Interrupted(Cause::Hidden));
    assert!(!bench.phone.microphone.running() && !bench.phone.wake.held());
    bench.show(Visibility::Shown);
    bench.pass(Millis(5_000.0));
    assert!(!bench.app.drafts.learn.is_on(), "never resumed");
    assert_eq!(ignores(bench.job()), Ignores::NotKnown);
    fact(&mut bench, LearnedEvent::Cleared);
    assert_eq!(ignores(bench.job()), Ignores::Cleared);
}

#[test]
fn a_kill_leaves_an_interrupted_run_with_what_it_had() {
    let mut bench = started(Ways::Both);
    cycle(&mut bench, 1);
    cycle(&mut bench, 1);
    let found = bench.killed();
    assert_eq!(last(&found), Outcome::Interrupted(Cause::Killed));
    assert!(!found.app.drafts.learn.is_on());
    assert_eq!(found.job().learned.attempts[0].proof.cycles.len(), 2);
    assert_eq!(found.job().learned.gate, None, "the gate is asked again");
    assert!(found.saved());
}

#[test]
fn by_taps_alone_it_is_by_hand_and_not_confirmed() {
    let mut bench = started(Ways::Hand);
    assert!(!bench.phone.microphone.running());
    for _ in 0..5 {
        say(&mut bench, LearnIntent::In(Source::Tap));
        bench.pass(Millis(1_500.0));
        say(&mut bench, LearnIntent::Change(Source::Key));
        bench.pass(Millis(1_500.0));
    }
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(800.0));
    say(&mut bench, LearnIntent::Seen);
    bench.pass(Millis(4_100.0));
    assert_eq!(last(&bench), Outcome::ByHand);
    let heard = bench.phone.sound.take();
    let count = |tone| heard.iter().filter(|t| **t == tone).count();
    assert_eq!(
        (count(Tone::In), count(Tone::Out), count(Tone::Done)),
        (6, 5, 1)
    );
    assert!(bench.phone.vibration.take().contains(&Pulse::In));
    assert!(
        bench
            .phone
            .speech
            .take()
            .iter()
            .any(|words| words.contains("last"))
    );
    assert!(sheet(&bench).contains("By hand, not confirmed"));
}

#[test]
fn a_refused_microphone_leaves_the_taps() {
    let mut bench = at_the_gate();
    say(&mut bench, LearnIntent::Listen);
    say(&mut bench, LearnIntent::Start);
    assert!(!bench.app.drafts.learn.is_on(), "not before it listens");
    bench.phone.microphone.lose(MicrophoneFault::Refused);
    bench.settle();
    let why = MicrophoneFault::Refused.message();
    let draft = &bench.app.drafts.learn;
    assert_eq!((draft.ways, draft.ear.clone()), (Ways::Hand, Ear::No(why)));
    say(&mut bench, LearnIntent::Start);
    assert!(bench.app.drafts.learn.is_on());
}

#[test]
fn a_microphone_that_is_taken_away_in_the_run_leaves_no_proof() {
    let mut bench = started(Ways::Both);
    to_quiet(&mut bench);
    bench.phone.microphone.lose(MicrophoneFault::Taken);
    bench.settle();
    bench.pass(Millis(4_500.0));
    assert_eq!(last(&bench), Outcome::ByHand);
    let doubts = &bench.job().learned.attempts[0].proof.doubts;
    assert_eq!(doubts, &[Doubt::MicrophoneLost]);
}

#[test]
fn the_microphone_alone_counts_by_pauses_and_is_not_confirmed() {
    let mut bench = started(Ways::Microphone);
    for _ in 0..6 {
        beep(&mut bench, TONE);
        listen(&mut bench, 2_500.0);
    }
    listen(&mut bench, 2_000.0);
    assert_eq!(last(&bench), Outcome::ByHand);
    let proof = &bench.job().learned.attempts[0].proof;
    assert_eq!(proof.doubts, [Doubt::ReverseNotSeen]);
    let perhaps = Ignores::PerhapsThis(Object::RemovableTowBar);
    assert_eq!(ignores(bench.job()), perhaps);
}

#[test]
fn a_beep_that_is_still_on_holds_the_end_back() {
    let mut bench = started(Ways::Both);
    to_quiet(&mut bench);
    listen(&mut bench, 3_000.0);
    // A long beep began before the end and sounds beyond it.
    let start = now(&bench);
    for _ in 0..14 {
        bench.pass(Millis(100.0));
        let on = Sounding {
            since_ms: start + 200.0,
            until_ms: now(&bench),
            tone_hz: TONE,
            lasts: Lasts::NotSure,
        };
        let settled = now(&bench) - BEHIND;
        hear(&mut bench, settled, Vec::new(), Some(on));
    }
    assert!(bench.app.drafts.learn.is_on());
    let (settled, end) = (now(&bench) - BEHIND, now(&bench) - 200.0);
    hear(&mut bench, settled, vec![from_to(start, end, TONE)], None);
    listen(&mut bench, 2_500.0);
    assert!(matches!(
        last(&bench),
        Outcome::Failed(Why::BeepInQuiet { .. })
    ));
}

#[test]
fn a_slip_is_taken_back_within_two_seconds_and_kept_after() {
    let mut bench = started(Ways::Hand);
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(300.0));
    say(&mut bench, LearnIntent::Out(Source::Tap));
    assert!(!bench.app.drafts.learn.is_on(), "too fast");
    assert!(bench.job().learned.attempts.is_empty(), "not yet sure");
    bench.pass(Millis(1_500.0));
    say(&mut bench, LearnIntent::Undo);
    assert!(bench.app.drafts.learn.is_on());
    say(&mut bench, LearnIntent::Out(Source::Tap));
    bench.pass(Millis(1_400.0));
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(200.0));
    say(&mut bench, LearnIntent::Out(Source::Tap));
    bench.pass(Millis(2_300.0));
    assert!(matches!(last(&bench), Outcome::Failed(Why::TooFast { .. })));
    say(&mut bench, LearnIntent::Undo);
    assert!(!bench.app.drafts.learn.is_on());
}

#[test]
fn leaving_the_screen_stops_the_run_and_says_so() {
    let mut bench = started(Ways::Hand);
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(1_000.0));
    bench.back();
    assert_eq!(last(&bench), Outcome::Failed(Why::Cancelled));
    assert!(!bench.phone.wake.held());
    assert_eq!(ignores(bench.job()), Ignores::NotKnown);
}

#[test]
fn a_run_given_up_before_anything_happened_leaves_nothing() {
    let mut bench = started(Ways::Hand);
    say(&mut bench, LearnIntent::Stop);
    assert!(bench.job().learned.attempts.is_empty());
    assert_eq!(bench.job().learned.running, None);
    assert_eq!(ignores(bench.job()), Ignores::Nothing);
}

#[test]
fn taking_a_step_back_does_not_take_a_run_back() {
    let mut bench = started(Ways::Hand);
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(1_000.0));
    say(&mut bench, LearnIntent::Stop);
    bench.send(Intent::Undo);
    assert_eq!(bench.job().learned.gate, None, "the gate is a step");
    assert_eq!(last(&bench), Outcome::Failed(Why::Cancelled));
}
