//! The gate of the obstacle learn: read anew before every run.

use rakeline::driver::{Intent, LearnIntent};
use rakeline::steps::book;
use rakeline_core::job::{LearnedEvent, Object, ShiftTried, StepStands, step_path};
use rakeline_core::learn::{Outcome, Phase, Source, Ways, Why};
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::learn::{at_the_gate, cycle, fact, last, listen, say, started, to_quiet};

fn phase(bench: &Bench) -> Option<Phase> {
    bench.app.drafts.learn.run.as_ref().map(|run| run.phase)
}

/// Puts the result away and tries to begin without the gate.
fn begins_without_the_gate(bench: &mut Bench) -> bool {
    assert_eq!(bench.job().learned.gate, None);
    say(bench, LearnIntent::Done);
    say(bench, LearnIntent::Start);
    bench.app.drafts.learn.is_on()
}

#[test]
fn after_a_run_that_is_over_the_gate_is_read_anew() {
    let mut learned = started(Ways::Both);
    to_quiet(&mut learned);
    listen(&mut learned, 4_500.0);
    assert_eq!(last(&learned), Outcome::Learned);
    assert!(!begins_without_the_gate(&mut learned));
    let mut failed = started(Ways::Hand);
    say(&mut failed, LearnIntent::In(Source::Tap));
    failed.pass(Millis(1_500.0));
    say(&mut failed, LearnIntent::Stop);
    assert_eq!(last(&failed), Outcome::Failed(Why::Cancelled));
    assert!(!begins_without_the_gate(&mut failed));
    assert_eq!(failed.notice(), Some("refused-learn-gate"));
    // Given up before anything happened: also then somebody got up.
    let mut untouched = started(Ways::Hand);
    say(&mut untouched, LearnIntent::Stop);
    assert!(!begins_without_the_gate(&mut untouched));
    fact(&mut untouched, LearnedEvent::GateHeeded);
    say(&mut untouched, LearnIntent::Start);
    assert!(untouched.app.drafts.learn.is_on());
}

#[test]
fn the_press_after_a_run_reads_the_gate_and_begins() {
    let mut bench = started(Ways::Hand);
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(1_500.0));
    say(&mut bench, LearnIntent::Stop);
    let first = bench.job().learned.gate;
    assert_eq!(first, None);
    say(&mut bench, LearnIntent::Again);
    assert!(bench.app.drafts.learn.is_on());
    assert!(bench.job().learned.gate.is_some(), "heeded by that press");
}

#[test]
fn a_run_that_is_on_is_begun_anew_by_one_tap_under_its_gate() {
    let mut bench = started(Ways::Both);
    cycle(&mut bench, 1);
    let gate = bench.job().learned.gate;
    bench.phone.speech.take();
    say(&mut bench, LearnIntent::Again);
    assert_eq!(phase(&bench), Some(Phase::Ready));
    assert_eq!(bench.job().learned.gate, gate);
    assert_eq!(last(&bench), Outcome::Failed(Why::Cancelled));
    assert!(
        bench.phone.speech.take().is_empty(),
        "no word of the old run"
    );
    // The new one is a whole one.
    to_quiet(&mut bench);
    listen(&mut bench, 4_500.0);
    assert_eq!(last(&bench), Outcome::Learned);
    assert_eq!(bench.job().learned.attempts.len(), 2);
}

#[test]
fn a_gate_that_lapsed_in_the_run_is_read_before_it_begins_anew() {
    let mut bench = started(Ways::Hand);
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(1_500.0));
    bench.phone.clock.advance(Millis(3.0 * 3_600_000.0));
    say(&mut bench, LearnIntent::Again);
    assert!(!bench.app.drafts.learn.is_on());
    assert_eq!(bench.job().learned.gate, None);
}

#[test]
fn undo_of_a_step_brings_no_gate_back() {
    let mut bench = at_the_gate();
    fact(&mut bench, LearnedEvent::ObjectPicked(Object::Rack));
    say(&mut bench, LearnIntent::WaysChosen(Ways::Hand));
    say(&mut bench, LearnIntent::Start);
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(1_000.0));
    say(&mut bench, LearnIntent::Stop);
    // The step before was made with the gate heeded.
    bench.send(Intent::Undo);
    assert_eq!(bench.job().learned.gate, None);
}

#[test]
fn a_key_in_the_quiet_time_is_no_silence() {
    for key in [
        LearnIntent::Change(Source::Key),
        LearnIntent::Out(Source::Key),
        LearnIntent::In(Source::Key),
    ] {
        let mut bench = started(Ways::Both);
        to_quiet(&mut bench);
        listen(&mut bench, 1_500.0);
        say(&mut bench, key.clone());
        let why = Phase::Failed(Why::LeftReverse);
        assert_eq!(phase(&bench), Some(why), "{key:?}");
        listen(&mut bench, 5_000.0);
        assert_eq!(last(&bench), Outcome::Failed(Why::LeftReverse), "{key:?}");
    }
}

#[test]
fn a_shift_said_to_be_enough_under_another_sheet_closes_no_learn() {
    let mut bench = at_the_gate();
    fact(&mut bench, LearnedEvent::ShiftTried(ShiftTried::Enough));
    let job = bench.job();
    assert_eq!(
        rakeline_core::job::learn_headline(job).key,
        "learn-shift-enough"
    );
    let mut other = job.clone();
    if let Some(control_box) = &mut other.kit.control_box {
        control_box.zone_shift = None;
    }
    assert_eq!(
        rakeline_core::job::learn_headline(&other).key,
        "learn-ignores-nothing"
    );
    assert!(!rakeline_core::job::learn_done(&other));
}

#[test]
fn what_came_of_the_zone_shift_is_not_asked_again_among_the_steps() {
    let mut bench = at_the_gate();
    let stands = |bench: &Bench| {
        let path = step_path(bench.job(), book());
        let mut steps = path.into_iter().flat_map(|stage| stage.steps);
        let step = steps.find(|step| step.sheet.name.0 == "zone-shift");
        step.map(|step| (step.stands, step.missing.len()))
    };
    fact(&mut bench, LearnedEvent::ShiftTried(ShiftTried::NotTried));
    assert_eq!(stands(&bench), Some((StepStands::Due, 1)));
    for came in [ShiftTried::NotEnough, ShiftTried::Enough] {
        fact(&mut bench, LearnedEvent::ShiftTried(came));
        assert_eq!(stands(&bench), Some((StepStands::Done, 0)), "{came:?}");
    }
}
