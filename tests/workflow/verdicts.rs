//! The ring set at a spot: sure, a close call, or not served.

use rakeline::driver::{Intent, SETTINGS_KEY};
use rakeline::platform::memory::MemoryPlatform;
use rakeline::texts::say;
use rakeline_core::decide::ring_set::{RingSet, Verdict};
use rakeline_core::job::{
    Facing, SETTLED_BY_GROUND, kit_says, ring_choice, rings_headline, ways_to_settle,
};
use rakeline_core::report::job_sheet;
use rakeline_core::steps::StepName;

use crate::bench::Bench;
use crate::scenario;
use crate::sheet_text::text_of;

/// A phone whose kit used last takes aims from 0 to 24 degrees.
fn with_wide_limits() -> Bench {
    let phone = MemoryPlatform::new();
    let mut sheet: serde_json::Value =
        serde_json::from_str(include_str!("../../assets/kits/plain-four.json")).expect("a sheet");
    sheet["aim"] = serde_json::json!({ "least": 0, "greatest": 24, "target": 12 });
    let kit = rakeline_core::kit::parse(&sheet.to_string()).expect("a good sheet");
    let settings = serde_json::json!({ "last_kit": kit, "fitter": "" });
    phone.storage.plant(SETTINGS_KEY, &settings.to_string());
    Bench::on(phone)
}

fn verdict(bench: &Bench, spot: usize) -> Verdict {
    let job = bench.job();
    ring_choice(job, &job.spots[spot]).expect("read").verdict
}

#[test]
fn a_typed_angle_on_wide_limits_is_sure() {
    let mut bench = with_wide_limits();
    scenario::to_faces(&mut bench);
    scenario::type_face(&mut bench, "6.0", Facing::Up, "0.2");
    let sure = Verdict::Sure {
        set: RingSet::ring("2"),
    };
    assert_eq!(verdict(&bench, 0), sure);
    assert_eq!(say(&rings_headline(bench.job())), "1 sure, 3 not read");
}

#[test]
fn an_unzeroed_phone_leaves_a_close_call_that_names_what_settles_it() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.hold_to(-1.2);
    let Verdict::CloseCall {
        proposed, settle, ..
    } = verdict(&bench, 0)
    else {
        panic!("{:?}", verdict(&bench, 0));
    };
    assert!(proposed.is_some(), "a set for now");
    let keys: Vec<&str> = settle.iter().map(|way| &*way.key).collect();
    assert!(keys.contains(&"ring-settle-zero"), "{keys:?}");
}

#[test]
fn a_close_call_of_a_fine_gauge_is_settled_by_how_the_ground_lies() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    scenario::type_face(&mut bench, "6.1", Facing::Down, "0.3");
    assert!(matches!(verdict(&bench, 0), Verdict::CloseCall { .. }));
    let keys = |bench: &Bench| -> Vec<String> {
        let ways = ways_to_settle(bench.job());
        ways.into_iter().map(|way| way.key.to_string()).collect()
    };
    assert_eq!(keys(&bench), [SETTLED_BY_GROUND]);
    // The second mark was read with a coarse one.
    scenario::type_face(&mut bench, "6.1", Facing::Down, "4");
    assert_eq!(keys(&bench), [SETTLED_BY_GROUND, "ring-settle-finer-gauge"]);
}

#[test]
fn how_a_ring_seats_is_told_of_the_rings_that_go_in() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    let told = |bench: &Bench| kit_says(bench.job(), &StepName("heads-in".to_owned()));
    // Only the sheet's first ring says how it seats.
    assert_eq!(told(&bench).len(), 1, "no ring is taken yet");
    for _ in 0..4 {
        scenario::type_face(&mut bench, "5.5", Facing::Down, "0.2");
    }
    assert_eq!(told(&bench), [], "another ring goes in everywhere");
}

#[test]
fn a_spot_that_the_kit_cannot_serve_says_which_face_angles_it_can() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    scenario::type_face(&mut bench, "30", Facing::Down, "0.2");
    let Verdict::CannotBeServed { serves, what_to_do } = verdict(&bench, 0) else {
        panic!("{:?}", verdict(&bench, 0));
    };
    assert!(!serves.is_empty());
    assert!(serves.iter().all(|(from, to)| from < to && from.0 > -30.0));
    assert_eq!(what_to_do.key, "ring-do-face-too-far-down");
    let job = bench.job();
    let choice = ring_choice(job, &job.spots[0]).expect("read");
    let (from, to) = serves[0];
    let words = say(&choice.reason());
    let range = format!("faces down {:.1}° to faces up {:.1}°", -from.0, to.0);
    assert!(words.contains(&range), "{words} has no {range}");
    let text = text_of(&job_sheet(job, job.changed, "Europe/Paris"));
    assert!(text.contains("no ring set of this kit serves this spot"));
}

#[test]
fn a_face_read_by_phone_and_typed_afterwards_counts_as_typed() {
    let mut bench = with_wide_limits();
    scenario::to_faces(&mut bench);
    bench.hold_to(2.0);
    assert!(matches!(verdict(&bench, 0), Verdict::CloseCall { .. }));
    bench.send(Intent::ChooseSpot(0));
    scenario::type_face(&mut bench, "2.0", Facing::Up, "0.2");
    assert!(matches!(verdict(&bench, 0), Verdict::Sure { .. }));
    let job = bench.job();
    let text = text_of(&job_sheet(job, job.changed, "Europe/Paris"));
    assert!(!text.contains("not zeroed"));
}
