//! Sensors that fail, lie or fall silent, and a phone that lies elsewhere.

use rakeline::driver::{Intent, Phase};
use rakeline::platform::{Clock, MotionEvent, MotionFault, SourceName, Visibility};
use rakeline_core::sample::RawSample;
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::scenario::{self, FACES};

fn at_the_faces() -> Bench {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench
}

fn phase(bench: &Bench) -> &Phase {
    &bench.app.reading.as_ref().expect("reading").phase
}

/// The key of why nothing is read.
fn why(bench: &Bench) -> &str {
    match phase(bench) {
        Phase::NotTaken(why) | Phase::NoSensor(why) => &why.key,
        other => panic!("{other:?} gives no reason"),
    }
}

fn pulled(bench: &Bench, xyz: [f64; 3]) -> RawSample {
    RawSample::Acceleration {
        at: bench.phone.clock.monotonic(),
        xyz,
        step: 0.1,
    }
}

#[test]
fn a_sensor_without_figures_is_named_and_nothing_is_read() {
    let mut bench = at_the_faces();
    for _ in 0..200 {
        let sample = bench.euler(f64::NAN, 0.0);
        bench.sample(sample);
    }
    assert_eq!(why(&bench), "sample-not-a-number");
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
    bench.hold_to(FACES[0]);
    assert_eq!(bench.readings(), [1, 0, 0, 0], "it heals by itself");
}

#[test]
fn a_sensor_without_gravity_is_named_and_nothing_is_read() {
    let mut bench = at_the_faces();
    for _ in 0..200 {
        let sample = pulled(&bench, [0.0, 0.0, 0.0]);
        bench.sample(sample);
    }
    assert_eq!(why(&bench), "sample-zero-length");
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
}

#[test]
fn figures_that_end_while_settling_are_not_held_on_to() {
    let mut bench = at_the_faces();
    bench.carry(Millis(600.0));
    bench.rest_on(FACES[0], Millis(400.0));
    for _ in 0..200 {
        let sample = bench.euler(f64::NAN, f64::NAN);
        bench.sample(sample);
    }
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
    assert_eq!(why(&bench), "sample-not-a-number");
}

#[test]
fn a_phone_put_down_flat_is_no_bumper_and_the_next_mark_is_read_after_it() {
    let mut bench = at_the_faces();
    bench.rest_on(90.0, Millis(2500.0));
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
    assert_eq!(why(&bench), "face-not-a-bumper");
    bench.hold_to(FACES[0]);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
}

#[test]
fn a_phone_left_on_the_last_mark_is_not_read_twice() {
    let mut bench = at_the_faces();
    bench.hold_to(FACES[0]);
    bench.rest_on(FACES[0], Millis(20_000.0));
    bench.pass(Millis(20_000.0));
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
    assert_eq!(phase(&bench), &Phase::OnLastMark);
    bench.hold_to(FACES[1]);
    assert_eq!(bench.readings(), [1, 1, 0, 0]);
}

#[test]
fn a_phone_that_never_rests_is_not_read() {
    let mut bench = at_the_faces();
    bench.carry(Millis(12_000.0));
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
}

#[test]
fn a_source_that_reports_on_change_is_read_while_it_is_silent() {
    let mut bench = at_the_faces();
    bench.carry(Millis(600.0));
    bench.rest_on(FACES[0], Millis(100.0));
    bench.pass(Millis(2000.0));
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
}

#[test]
fn a_phone_that_falls_silent_on_the_next_mark_is_read_there() {
    let mut bench = at_the_faces();
    bench.hold_to(-6.0);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
    let there = bench.euler(90.0, 0.0);
    bench.sample(there);
    bench.pass(Millis(3000.0));
    assert_eq!(bench.readings(), [1, 1, 0, 0]);
}

#[test]
fn a_window_that_nobody_saw_is_thrown_away() {
    let mut bench = at_the_faces();
    bench.carry(Millis(600.0));
    bench.rest_on(FACES[0], Millis(500.0));
    assert!(matches!(phase(&bench), Phase::Settling(_)));
    bench.show(Visibility::Hidden);
    bench.pass(Millis(30_000.0));
    bench.show(Visibility::Shown);
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
    bench.rest_on(FACES[0], Millis(1500.0));
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
}

#[test]
fn each_fault_says_what_to_do_and_typing_still_works() {
    let faults = [
        (MotionFault::PermissionRefused, "motion-permission-refused"),
        (MotionFault::NoSensor, "motion-no-sensor"),
        (MotionFault::InsecureContext, "motion-insecure-context"),
        (MotionFault::Stopped, "motion-stopped"),
    ];
    for (fault, key) in faults {
        let mut bench = Bench::new();
        bench.phone.motion.fail_starts(Some(fault));
        scenario::to_faces(&mut bench);
        bench.pass(Millis(200.0));
        assert_eq!(why(&bench), key);
        let down = rakeline_core::job::Facing::Down;
        scenario::type_face(&mut bench, "3.0", down, "");
        assert_eq!(bench.readings(), [1, 0, 0, 0]);
        assert_eq!(why(&bench), key, "the next mark says so too");
    }
}

#[test]
fn a_sensor_that_was_refused_is_asked_again_by_a_tap() {
    let mut bench = Bench::new();
    let refused = MotionFault::PermissionRefused;
    bench.phone.motion.fail_starts(Some(refused));
    scenario::to_faces(&mut bench);
    bench.pass(Millis(200.0));
    bench.phone.motion.fail_starts(None);
    bench.send(Intent::StartReading);
    bench.hold_to(FACES[0]);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
}

#[test]
fn a_sensor_that_stopped_and_came_back_goes_on_at_its_mark() {
    let mut bench = at_the_faces();
    bench.hold_to(FACES[0]);
    bench
        .phone
        .motion
        .feed(MotionEvent::Fault(MotionFault::Stopped));
    bench.pass(Millis(200.0));
    assert_eq!(why(&bench), "motion-stopped");
    let source = MotionEvent::Using(SourceName::Acceleration);
    bench.phone.motion.feed(source);
    bench.hold_to(FACES[1]);
    assert_eq!(bench.readings(), [1, 1, 0, 0]);
}

#[test]
fn a_chosen_mark_whose_phone_lies_silent_for_long_is_read_later() {
    let mut bench = at_the_faces();
    bench.hold_to(FACES[0]);
    bench.send(Intent::ChooseSpot(3));
    bench.pass(Millis(30_000.0));
    bench.hold_to(FACES[3]);
    assert_eq!(bench.readings(), [1, 0, 0, 1]);
}

#[test]
fn a_sensor_started_again_reads_the_mark_that_is_shown() {
    let mut bench = at_the_faces();
    bench.send(Intent::ChooseSpot(2));
    bench
        .phone
        .motion
        .feed(MotionEvent::Fault(MotionFault::Stopped));
    bench.pass(Millis(200.0));
    bench.send(Intent::StartReading);
    bench.hold_to(FACES[2]);
    assert_eq!(bench.readings(), [0, 0, 1, 0]);
}

#[test]
fn after_a_restart_at_the_faces_typing_counts_for_the_first_open_mark() {
    let mut bench = at_the_faces();
    bench.hold_to(FACES[0]);
    let mut bench = bench.killed();
    assert!(!bench.phone.motion.running(), "a tap starts the sensor");
    assert_eq!(phase(&bench), &Phase::Off);
    let down = rakeline_core::job::Facing::Down;
    scenario::type_face(&mut bench, "1.6", down, "");
    assert_eq!(bench.readings(), [1, 1, 0, 0]);
    bench.send(Intent::StartReading);
    bench.hold_to(FACES[2]);
    assert_eq!(bench.readings(), [1, 1, 1, 0]);
}
