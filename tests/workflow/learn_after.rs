//! What an obstacle learn leaves behind: the walk test after it, the job sheet
//! and the customer's page; what a run may not be taken for.

use rakeline::driver::{Ear, Intent, LearnIntent, Sheets, WalkIntent};
use rakeline::platform::{MicrophoneFault, Pulse, VolumeKeys};
use rakeline::route::Step;
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::estimate::beep::{EarState, Hearing, Trouble};
use rakeline_core::job::{
    Field, Ignores, JobEvent, Object, WalkEvent, WalkKind, ignores, learn_done, object_asked,
    walk_headline,
};
use rakeline_core::learn::{Doubt, Outcome, Source, Standing, Ways};
use rakeline_core::report::customer_sheet;
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::learn::{
    BEHIND, TONE, at_the_gate, beep, cycle, hear, last, listen, now, say, sheet, started, to_quiet,
};
use crate::sheet_text::text_of;

fn walk(bench: &mut Bench, event: WalkEvent) {
    bench.send(Intent::Fit(Box::new(JobEvent::Walk(event))));
}

/// A whole walk test, something sounding at every point.
fn walked(bench: &mut Bench) {
    walk(bench, WalkEvent::GateHeeded);
    bench.send(Intent::Walk(WalkIntent::Start(WalkKind::Nine)));
    let test = bench.job().walk.test.as_ref().expect("a test");
    for _ in 0..test.points.len() {
        bench.send(Intent::Walk(WalkIntent::Sounded(Sounded::Far)));
    }
}

fn customers_page(bench: &Bench) -> String {
    let at = bench.phone.platform().clock.now();
    text_of(&customer_sheet(bench.job(), at))
}

fn learned() -> Bench {
    let mut bench = started(Ways::Both);
    to_quiet(&mut bench);
    listen(&mut bench, 4_500.0);
    assert_eq!(last(&bench), Outcome::Learned);
    bench
}

/// A run that was stopped in its second cycle.
fn stopped() -> Bench {
    let mut bench = started(Ways::Both);
    cycle(&mut bench, 1);
    say(&mut bench, LearnIntent::In(Source::Tap));
    say(&mut bench, LearnIntent::Stop);
    bench
}

#[test]
fn six_beeps_of_one_engagement_by_sound_alone_are_never_learned() {
    let mut bench = started(Ways::Microphone);
    for _ in 0..6 {
        beep(&mut bench, TONE);
        listen(&mut bench, 800.0);
    }
    // Out of reverse: nothing beeps.
    listen(&mut bench, 6_000.0);
    assert_eq!(last(&bench), Outcome::ByHand);
    let proof = &bench.job().learned.attempts[0].proof;
    assert_eq!(proof.standing(), Standing::NotConfirmed);
    let sheet = sheet(&bench);
    assert!(sheet.contains("By sound alone, not confirmed"), "{sheet}");
    assert!(sheet.contains("of reverse were not seen"), "{sheet}");
}

#[test]
fn out_at_the_end_of_the_countdown_is_learned_all_the_same() {
    let mut bench = started(Ways::Both);
    to_quiet(&mut bench);
    // The countdown shows 0.0; the microphone is some tenths behind.
    listen(&mut bench, 3_800.0);
    let run = bench.app.drafts.learn.run.as_ref().expect("a run");
    assert_eq!(
        run.left(bench.phone.platform().clock.monotonic()),
        Some(Millis(0.0))
    );
    say(&mut bench, LearnIntent::Out(Source::Tap));
    assert!(bench.app.drafts.learn.is_on());
    listen(&mut bench, 500.0);
    assert_eq!(last(&bench), Outcome::Learned);
}

#[test]
fn sound_that_clips_and_drowns_the_kit_in_the_quiet_time_is_no_proof() {
    let mut bench = started(Ways::Both);
    to_quiet(&mut bench);
    listen(&mut bench, 1_000.0);
    bench.phone.microphone.heard(Hearing {
        beeps: Vec::new(),
        state: EarState {
            level_db: 0.0,
            margin_db: 6.0,
            trouble: Some(Trouble::Clipping),
            sounding: None,
            settled_ms: now(&bench) - BEHIND,
            unbroken_since_ms: 0.0,
        },
    });
    bench.settle();
    listen(&mut bench, 3_500.0);
    assert_eq!(last(&bench), Outcome::ByHand);
    let doubts = &bench.job().learned.attempts[0].proof.doubts;
    assert_eq!(doubts, &[Doubt::TooLoud]);
}

#[test]
fn a_run_voids_the_walk_before_it_and_the_next_begins_beside_the_object() {
    let mut bench = at_the_gate();
    bench.send(Intent::GoStep(Step::Walk));
    walked(&mut bench);
    assert_eq!(walk_headline(bench.job()).key, "walk-share-reached");
    bench.send(Intent::GoStep(Step::Learn));
    say(&mut bench, LearnIntent::WaysChosen(Ways::Hand));
    say(&mut bench, LearnIntent::Start);
    assert_eq!(walk_headline(bench.job()).key, "walk-share-reached");
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.pass(Millis(1_000.0));
    say(&mut bench, LearnIntent::Stop);
    assert_eq!(walk_headline(bench.job()).key, "walk-headline-void-learn");
    assert_eq!(object_asked(bench.job()), Some(Object::RemovableTowBar));
    bench.send(Intent::GoStep(Step::Walk));
    for (field, text) in [(Field::ObjectWidth, "60"), (Field::ObjectReach, "140")] {
        bench.send(Intent::Type(field, text.to_owned()));
    }
    // A printed page without the object's place would leave out its points.
    let print = || Intent::MakeSheets(Sheets::Walk(WalkKind::Nine));
    bench.send(print());
    assert_eq!(bench.notice(), Some("walk-object-first"));
    assert!(bench.phone.share.files().is_empty());
    walk(&mut bench, WalkEvent::ObjectLearned);
    bench.send(print());
    assert_eq!(bench.phone.share.files().len(), 1);
    walked(&mut bench);
    let test = bench.job().walk.test.as_ref().expect("a test");
    assert_eq!(test.points.len(), 12);
    // What it ignores is not known; what is seen now is.
    assert!(matches!(ignores(bench.job()), Ignores::Tested(_)));
    assert!(learn_done(bench.job()));
    let sheet = sheet(&bench);
    assert!(sheet.contains("walk-tested since"), "{sheet}");
    assert!(!sheet.contains("did not come to its end"), "{sheet}");
    let page = customers_page(&bench);
    assert!(page.contains("see the walk test"), "{page}");
}

#[test]
fn the_customers_page_says_what_is_ignored() {
    let learned = customers_page(&learned());
    assert!(
        learned.contains("The parking aid now ignores the removable tow bar"),
        "{learned}"
    );
    let not_known = customers_page(&stopped());
    assert!(
        not_known.contains("It is not known what the parking aid ignores"),
        "{not_known}"
    );
    let mut by_sound = started(Ways::Microphone);
    for _ in 0..6 {
        beep(&mut by_sound, TONE);
        listen(&mut by_sound, 2_000.0);
    }
    listen(&mut by_sound, 3_000.0);
    let perhaps = customers_page(&by_sound);
    assert!(perhaps.contains("that was not confirmed"), "{perhaps}");
    let mut cleared = stopped();
    walk(&mut cleared, WalkEvent::LearnCleared);
    let page = customers_page(&cleared);
    assert!(!page.contains("taught to ignore"), "{page}");
}

#[test]
fn the_sheet_names_every_cycle_its_source_and_the_tone() {
    let sheet = sheet(&learned());
    for words in [
        "Cycle | In | Out | Said by | Beeps",
        "| tap | 1",
        "Listened at 2150 Hz.",
    ] {
        assert!(sheet.contains(words), "{words}: {sheet}");
    }
    let mut by_hand = started(Ways::Hand);
    say(&mut by_hand, LearnIntent::In(Source::Key));
    say(&mut by_hand, LearnIntent::Stop);
    let sheet = crate::learn::sheet(&by_hand);
    assert!(sheet.contains("| key | 0"), "{sheet}");
    assert!(sheet.contains("0 of 6 cycles counted"), "{sheet}");
    assert!(!sheet.contains("Listened at"), "{sheet}");
}

#[test]
fn a_gate_of_hours_ago_is_heeded_again() {
    let mut bench = at_the_gate();
    bench.phone.clock.advance(Millis(3.0 * 3_600_000.0));
    say(&mut bench, LearnIntent::WaysChosen(Ways::Hand));
    say(&mut bench, LearnIntent::Start);
    assert!(!bench.app.drafts.learn.is_on());
    assert_eq!(bench.notice(), Some("refused-learn-gate"));
}

#[test]
fn after_a_lost_microphone_one_press_starts_again() {
    let mut bench = started(Ways::Both);
    bench.phone.microphone.lose(MicrophoneFault::Taken);
    bench.settle();
    say(&mut bench, LearnIntent::Stop);
    say(&mut bench, LearnIntent::Again);
    assert!(bench.phone.microphone.running());
    assert!(!bench.app.drafts.learn.is_on(), "not before it listens");
    let settled = now(&bench) - BEHIND;
    hear(&mut bench, settled, Vec::new(), None);
    assert!(bench.app.drafts.learn.is_on());
    assert!(matches!(bench.app.drafts.learn.ear, Ear::On(_)));
}

#[test]
fn the_volume_keys_count_only_while_a_run_is_on() {
    let mut bench = at_the_gate();
    assert_eq!(bench.phone.page.keys(), VolumeKeys::Loudness);
    say(&mut bench, LearnIntent::WaysChosen(Ways::Hand));
    say(&mut bench, LearnIntent::Start);
    assert_eq!(bench.phone.page.keys(), VolumeKeys::Count);
    say(&mut bench, LearnIntent::Stop);
    assert_eq!(bench.phone.page.keys(), VolumeKeys::Loudness);
}

#[test]
fn the_quiet_time_has_a_pulse_of_its_own() {
    let mut bench = started(Ways::Both);
    cycle(&mut bench, 1);
    let counted = bench.phone.vibration.take();
    assert!(counted.contains(&Pulse::Captured) && !counted.contains(&Pulse::Quiet));
    for _ in 0..4 {
        cycle(&mut bench, 1);
    }
    say(&mut bench, LearnIntent::In(Source::Tap));
    bench.phone.vibration.take();
    // The app was speaking until the tap: its echo is over when the kit beeps.
    listen(&mut bench, 300.0);
    beep(&mut bench, TONE);
    assert_eq!(bench.phone.vibration.take(), [Pulse::Quiet]);
}
