//! The walk test from the gate to the job sheet: taps, the voice that leads,
//! a kill in the middle, heads one by one, a new learn.

use rakeline::driver::{Intent, WalkIntent, walk_head, walk_point};
use rakeline::platform::Tone;
use rakeline::route::Step;
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::job::{
    Answered, Field, JobEvent, WalkEvent, WalkKind, no_longer_seen, walk_headline,
};
use rakeline_core::report::job_sheet;
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::scenario;

fn walk(bench: &mut Bench, said: WalkIntent) {
    bench.send(Intent::Walk(said));
}

fn event(bench: &mut Bench, event: WalkEvent) {
    bench.send(Intent::Fit(Box::new(JobEvent::Walk(event))));
}

fn tap(bench: &mut Bench, sounded: Sounded) {
    walk(bench, WalkIntent::Sounded(sounded));
}

fn at_the_gate() -> Bench {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Walk));
    bench
}

fn under_way() -> Bench {
    let mut bench = at_the_gate();
    event(&mut bench, WalkEvent::GateHeeded);
    walk(&mut bench, WalkIntent::Start(WalkKind::Nine));
    bench
}

fn sheet(bench: &Bench) -> String {
    format!("{:?}", job_sheet(bench.job(), bench.job().changed, "UTC"))
}

#[test]
fn nothing_starts_before_the_gate() {
    let mut bench = at_the_gate();
    walk(&mut bench, WalkIntent::Start(WalkKind::Nine));
    assert_eq!(bench.notice(), Some("refused-walk-gate"));
    assert!(bench.job().walk.test.is_none());
    assert!(sheet(&bench).contains("walk-headline-not-done"));
}

#[test]
fn nine_taps_fill_the_job_sheet_with_what_was_measured() {
    let mut bench = under_way();
    for _ in 0..8 {
        tap(&mut bench, Sounded::Middle);
    }
    assert_eq!(walk_headline(bench.job()).key, "walk-headline-half-done");
    tap(&mut bench, Sounded::Nothing);
    assert_eq!(walk_headline(bench.job()).key, "walk-share-reached");
    assert_eq!(bench.phone.sound.take().last(), Some(&Tone::Done));
    let sheet = sheet(&bench);
    for key in [
        "sheet-walk-when",
        "sheet-walk-not-seen",
        "walk-share-source",
        "sheet-walk-caution",
    ] {
        assert!(sheet.contains(key), "{key}");
    }
    assert_eq!(walk_point(&bench.app), None);
    tap(&mut bench, Sounded::Near);
    assert_eq!(bench.job().walk.test.as_ref().unwrap().taps.len(), 9);
}

#[test]
fn a_point_out_of_turn_and_one_step_back() {
    let mut bench = under_way();
    walk(&mut bench, WalkIntent::Choose(6));
    tap(&mut bench, Sounded::Far);
    assert_eq!(walk_point(&bench.app), Some(0));
    let test = bench.job().walk.test.clone().unwrap();
    assert_eq!(test.at_point(6), Some(Sounded::Far));
    bench.send(Intent::Undo);
    assert_eq!(bench.job().walk.test.as_ref().unwrap().taps.len(), 0);
    assert!(bench.saved());
}

#[test]
fn a_kill_in_the_middle_leaves_it_half_done_and_says_so() {
    let mut bench = under_way();
    for _ in 0..4 {
        tap(&mut bench, Sounded::Near);
    }
    let mut bench = bench.killed();
    assert_eq!(walk_headline(bench.job()).key, "walk-headline-half-done");
    assert_eq!(walk_point(&bench.app), Some(4));
    assert!(sheet(&bench).contains("walk-headline-half-done"));
    tap(&mut bench, Sounded::Near);
    assert_eq!(bench.job().walk.test.as_ref().unwrap().taps.len(), 5);
}

#[test]
fn the_voice_leads_and_never_answers() {
    let mut bench = under_way();
    bench.phone.sound.take();
    walk(&mut bench, WalkIntent::Lead);
    assert!(said(&bench).contains("Point 1:"));
    assert!(bench.phone.wake.held());
    bench.pass(Millis(8200.0));
    assert!(said(&bench).contains("What sounds?"));
    assert_eq!(bench.phone.sound.take(), [Tone::Moving]);
    bench.pass(Millis(8200.0));
    assert!(said(&bench).contains("Point 1:"));
    assert!(bench.job().walk.test.as_ref().unwrap().taps.is_empty());
    tap(&mut bench, Sounded::Near);
    assert!(said(&bench).contains("Point 2:"));
    bench.send(Intent::GoStep(Step::Sheet));
    bench.pass(Millis(30_000.0));
    assert_eq!(said(&bench), "");
    assert!(!bench.phone.wake.held());
}

/// What was said since last asked.
fn said(bench: &Bench) -> String {
    bench.phone.speech.take().join(" ")
}

#[test]
fn heads_are_approached_in_order_and_swapped_plugs_are_named() {
    let mut bench = at_the_gate();
    event(&mut bench, WalkEvent::GateHeeded);
    for shown in [0, 2, 1, 3] {
        walk(&mut bench, WalkIntent::Answer(Answered::Shown(shown)));
    }
    assert_eq!(walk_head(&bench.app), None);
    let sheet = sheet(&bench);
    assert!(sheet.contains("heads-swapped"));
    assert!(!sheet.contains("sheet-open-heads-check"));
    walk(&mut bench, WalkIntent::Head(1));
    walk(&mut bench, WalkIntent::Answer(Answered::Shown(1)));
    assert_eq!(bench.job().walk.heads.len(), 4);
}

#[test]
fn a_new_learn_voids_the_walk_and_what_is_lost_is_told() {
    let mut bench = under_way();
    for _ in 0..9 {
        tap(&mut bench, Sounded::Near);
    }
    for (field, text) in [
        (Field::ObjectWhat, "tow ball"),
        (Field::ObjectWidth, "60"),
        (Field::ObjectReach, "140"),
    ] {
        bench.send(Intent::Type(field, text.to_owned()));
    }
    event(&mut bench, WalkEvent::ObjectLearned);
    assert!(sheet(&bench).contains("walk-headline-void-learn"));
    walk(&mut bench, WalkIntent::Start(WalkKind::Nine));
    assert_eq!(bench.notice(), Some("refused-walk-gate"));
    event(&mut bench, WalkEvent::GateHeeded);
    walk(&mut bench, WalkIntent::Start(WalkKind::Nine));
    tap(&mut bench, Sounded::Nothing);
    assert_eq!(no_longer_seen(bench.job()).len(), 1);
    let sheet = sheet(&bench);
    assert!(sheet.contains("walk-not-seen-at-object"));
    assert!(sheet.contains("sheet-walk-ignored"));
}

#[test]
fn the_grid_is_an_extra_with_a_point_a_square() {
    let mut bench = under_way();
    walk(&mut bench, WalkIntent::Start(WalkKind::Grid));
    let points = bench.job().walk.test.as_ref().unwrap().points.len();
    assert!(points > 100, "{points}");
}
