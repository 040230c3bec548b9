//! Bad poses, wrong phones, sensors that stop, contradict or saturate.

use rakeline::driver::{Intent, Measure};
use rakeline::platform::{MotionEvent, MotionFault, SourceName, Visibility};
use rakeline::route::Step;
use rakeline_core::estimate::ground::GroundHow;
use rakeline_core::estimate::rake::Side;
use rakeline_core::estimate::zero::Phone;
use rakeline_core::estimate::zero::poses::Pose;
use rakeline_core::job::{self};
use rakeline_core::units::Millis;
use rakeline_tests::tilt_sim::{on_face, on_table};

use crate::bench::Bench;
use crate::scenario;

use crate::hand::*;

#[test]
fn bad_poses_are_named_and_nothing_of_them_is_kept() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    hold(&mut bench, on_face(back(), Side::Back, 20.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("zero-bad-surface-leans"));
    hold(&mut bench, on_face(back(), Side::Back, WALL, 30.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("zero-bad-not-upright"));
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("zero-bad-wrong-way-up"));
    assert_eq!(pose_asked(&bench), Some(Pose::BackUpright));
    assert!(bench.app.drafts.zero.poses.is_empty());
    hold(&mut bench, wall_pose(Pose::BackUpright), 1600.0);
    assert_eq!(pose_asked(&bench), Some(Pose::BackUpsideDown));
    assert_eq!(bench.app.settings.phone.zeroing, None);
}

#[test]
fn another_phone_or_case_does_not_use_this_zeroing() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    zero_on_the_wall(&mut bench);
    assert!(matches!(bench.job().phone, Phone::Zeroed(_)));
    bench.send(Intent::OnDevice("Another phone".to_owned()));
    bench.send(Intent::GoStep(Step::Faces));
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(bench.job().phone, Phone::Unzeroed);
    // And once this phone has read, the first one's zeroing must not.
    bench.send(Intent::OnDevice("Memory phone".to_owned()));
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("refused-other-phone"));
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
    measure(&mut bench, Measure::ReadAllAgain);
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
    assert!(matches!(bench.job().phone, Phone::Zeroed(_)));
    measure(&mut bench, Measure::CaseNamed("thick".to_owned()));
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("refused-phone-changed"));
}

#[test]
fn a_board_that_was_not_turned_or_not_flat_is_refused() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Ground));
    measure(&mut bench, Measure::BoardStart);
    hold(&mut bench, on_face(back(), Side::Back, 0.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("ground-not-flat"));
    let [right, forward, _] = ground_up();
    for _ in 0..2 {
        hold(&mut bench, on_table(back(), [right, forward], 0.0), 1600.0);
    }
    assert_eq!(refusal(&bench).as_deref(), Some("ground-not-turned"));
    assert_eq!(bench.job().ground.how, GroundHow::LooksLevel);
}

#[test]
fn two_readings_that_contradict_each_other_widen_the_interval() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for rake in [-4.0, -8.0] {
        measure(&mut bench, Measure::ReadOnceMore(0));
        hold(&mut bench, on_face(back(), Side::Back, rake, 0.0), 1600.0);
    }
    let spot = &bench.job().spots[0];
    let said = job::repeats_at(bench.job(), spot).expect("flagged");
    assert_eq!(said.key, "repeats-contradict");
    let estimate = job::rake_at(bench.job(), spot).expect("read");
    assert!(estimate.rake.expanded().0 > 10.0, "{estimate:?}");
}

#[test]
fn a_magnet_near_the_phone_is_found_by_the_closing_error() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    sweep(&mut bench, 3.0);
    let fault = bench.app.drafts.sweep.fault.as_ref().expect("refused");
    assert_eq!(fault.key, "sweep-closing-too-far");
    assert_eq!(job::sweep(bench.job()), None);
}

#[test]
fn a_source_without_azimuth_says_so_in_a_sweep() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Corners));
    measure(&mut bench, Measure::SweepStart);
    hold(&mut bench, on_face(back(), Side::Back, -3.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("sweep-no-azimuth"));
}

#[test]
fn a_sensor_that_stops_during_zeroing_loses_no_pose() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    hold(&mut bench, wall_pose(Pose::BackUpright), 1600.0);
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 300.0);
    bench
        .phone
        .motion
        .feed(MotionEvent::Fault(MotionFault::Stopped));
    bench.pass(Millis(400.0));
    assert_eq!(refusal(&bench).as_deref(), Some("motion-stopped"));
    assert_eq!(bench.app.drafts.zero.poses.len(), 1);
    bench
        .phone
        .motion
        .feed(MotionEvent::Using(SourceName::Acceleration));
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 1600.0);
    assert_eq!(bench.app.drafts.zero.poses.len(), 2);
}

#[test]
fn a_hidden_tab_throws_the_window_away_and_keeps_the_poses() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    hold(&mut bench, wall_pose(Pose::BackUpright), 1600.0);
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 400.0);
    bench.show(Visibility::Hidden);
    rest(&mut bench, wall_pose(Pose::BackUpsideDown), 200.0);
    bench.show(Visibility::Shown);
    assert_eq!(bench.app.drafts.zero.poses.len(), 1);
    rest(&mut bench, wall_pose(Pose::BackUpsideDown), 1600.0);
    assert_eq!(bench.app.drafts.zero.poses.len(), 2);
}

#[test]
fn saturated_figures_are_no_pose() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    for _ in 0..100 {
        feed(&mut bench, [0.0, 19.6, 0.0]);
    }
    assert_eq!(refusal(&bench).as_deref(), Some("sample-saturated"));
    assert!(bench.app.drafts.zero.poses.is_empty());
}

#[test]
fn a_sensor_of_one_reading_a_second_takes_its_time_and_is_taken() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for _ in 0..7 {
        let sample = bench.euler(94.0, 0.0);
        bench.sample(sample);
        bench.pass(Millis(980.0));
    }
    assert_eq!(bench.readings()[0], 1);
}
