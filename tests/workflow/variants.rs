//! A whole job for each kind of vehicle and kit: the path leads through its
//! own steps, none is left blocked for good, and the sheet says the rest.

use rakeline::driver::{Intent, Sheets};
use rakeline::steps::book;
use rakeline_core::job::{
    BehindEvent, JobEvent, JobState, StepStands, StepsEvent, WaitEvent, may_skip, step_path,
};
use rakeline_core::kit::Material;
use rakeline_core::steps::{Question, StepName, StepSheet, Truth};
use rakeline_core::units::Millis;
use rakeline_tests::printed::Printed;

use crate::bench::Bench;
use crate::fitting::{fit, ready_to_drill};

/// Steps of the job, each with how it stands.
fn steps(job: &JobState) -> Vec<(StepSheet, StepStands)> {
    let path = step_path(job, book());
    let steps = path.into_iter().flat_map(|stage| stage.steps);
    steps
        .map(|step| (step.sheet.clone(), step.stands))
        .collect()
}

fn names(job: &JobState) -> Vec<String> {
    let steps = steps(job).into_iter();
    steps.map(|(sheet, _)| sheet.name.0).collect()
}

/// Does every step that can be done, one after the other; waits run to their
/// end. What only another screen does is skipped with a reason.
fn through(bench: &mut Bench) {
    loop {
        let due = steps(bench.job()).into_iter().find(|(sheet, stands)| {
            let skips = sheet.screen.is_none() || may_skip(bench.job(), sheet).is_ok();
            *stands == StepStands::Due && skips
        });
        let Some((sheet, _)) = due else { return };
        let before = bench.job().steps.ended.len();
        let name = sheet.name.clone();
        if let Some(minutes) = sheet.wait() {
            let start = WaitEvent::Started(name.clone(), minutes);
            fit(bench, JobEvent::Wait(start));
            bench.pass(Millis(f64::from(minutes) * 60_000.0));
        }
        let ended = match sheet.screen {
            None => StepsEvent::Done(name),
            Some(_) => StepsEvent::Skipped(name, "done elsewhere".to_owned()),
        };
        fit(bench, JobEvent::Steps(ended));
        let after = bench.job().steps.ended.len();
        assert!(
            after > before,
            "{} does not end: {:?}",
            sheet.name.0,
            bench.notice()
        );
    }
}

fn answered(bench: &mut Bench, question: Question, truth: Truth) {
    let answered = StepsEvent::Answered(question, truth);
    fit(bench, JobEvent::Steps(answered));
}

/// A job with these answers, taken to its sheet; its path has the first
/// steps and not the others.
fn variant(name: &str, prepare: impl Fn(&mut Bench), has: &[&str], has_not: &[&str]) {
    let mut bench = ready_to_drill();
    prepare(&mut bench);
    let listed = names(bench.job());
    let is_listed = |step: &str| listed.iter().any(|other| other == step);
    for step in has {
        assert!(is_listed(step), "{name}: {step} is missing");
    }
    for step in has_not {
        assert!(!is_listed(step), "{name}: {step} does not belong to it");
    }
    through(&mut bench);
    for (sheet, stands) in steps(bench.job()) {
        let ended = matches!(stands, StepStands::Done | StepStands::Skipped(_));
        // The fuse at the take-off is not left out.
        let open = sheet.name == StepName("supply".to_owned());
        assert!(ended || open, "{name}: {} is {stands:?}", sheet.name.0);
    }
    bench.send(Intent::MakeSheets(Sheets::Workshop));
    let files = bench.phone.share.files();
    let file = files.last().expect("a file");
    let text = Printed::new("variants", &file.bytes).texts().concat();
    assert!(text.contains("not done, done elsewhere"), "{name}: {text}");
}

#[test]
fn a_metal_bumper_has_its_primer() {
    let metal = |bench: &mut Bench| {
        let chosen = BehindEvent::MaterialChosen(Material::Metal);
        fit(bench, JobEvent::Behind(chosen));
    };
    variant(
        "metal",
        metal,
        &["primer-dry", "heads-in"],
        &["paint", "bumper-away"],
    );
    variant("plastic", |_| (), &["heads-in"], &["primer-dry"]);
}

#[test]
fn a_load_carriers_box_goes_inside_the_cabin() {
    let carrier = |bench: &mut Bench| answered(bench, Question::LoadCarrier, Truth::Yes);
    variant("carrier", carrier, &["box-place-cabin"], &["box-place"]);
}

#[test]
fn a_tow_bar_brings_the_obstacle_learn_and_none_takes_it_away() {
    let with = |bench: &mut Bench| answered(bench, Question::TowBar, Truth::Yes);
    variant("tow bar", with, &["obstacle-learn", "walk-test"], &[]);
    let without = |bench: &mut Bench| answered(bench, Question::TowBar, Truth::No);
    variant(
        "no tow bar",
        without,
        &["walk-test"],
        &["obstacle-learn", "zone-shift"],
    );
}

#[test]
fn painted_heads_have_their_colour_their_paint_and_its_cure() {
    let painted = |bench: &mut Bench| answered(bench, Question::Painted, Truth::Yes);
    variant(
        "painted",
        painted,
        &["colour", "paint", "paint-cured"],
        &["primer-dry"],
    );
}

#[test]
fn a_bumper_that_comes_off_is_read_first_and_put_on_again() {
    let off = |bench: &mut Bench| answered(bench, Question::BumperOff, Truth::Yes);
    variant(
        "off",
        off,
        &["face-first", "bumper-away", "bumper-back"],
        &["paint"],
    );
}

#[test]
fn radar_and_camera_have_their_zones_and_their_scans() {
    let none = |bench: &mut Bench| answered(bench, Question::Assistance, Truth::No);
    let scans = ["camera-zones", "assistance-before", "assistance-after"];
    variant("assistance", |_| (), &scans, &[]);
    variant("no assistance", none, &["usual-load"], &scans);
}

#[test]
fn a_speaker_has_its_place_and_its_volume() {
    let speaker = ["speaker-place", "volume", "trim-off", "no-wire-seen"];
    variant("speaker", |_| (), &speaker, &[]);
    let bare = |bench: &mut Bench| answered(bench, Question::Trim, Truth::No);
    variant("no trim", bare, &["no-wire-seen"], &["trim-off"]);
}
