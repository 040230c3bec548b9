//! Corner angles by a sweep, and photos with the level, on the scripted phone.

use rakeline::driver::{Intent, LevelIntent, Measure};
use rakeline::platform::memory::MemoryPlatform;
use rakeline::platform::{CameraFault, Picture};
use rakeline::route::Step;
use rakeline_core::estimate::rake::Side;
use rakeline_core::job::{self};
use rakeline_core::sample::{RawSample, STANDARD_GRAVITY};
use rakeline_core::units::{Degrees, Millis};
use rakeline_tests::tilt_sim::on_face;

use crate::bench::Bench;
use crate::scenario;

use crate::wrong_phone::*;

/// The phone's back on a face of this azimuth, by the orientation source.
fn hold_turned(bench: &mut Bench, alpha: f64, beta: f64) {
    for (alpha, beta, count) in [(alpha + 40.0, 50.0, 25), (alpha, beta, 80)] {
        for i in 0..count {
            let tremble = if count == 25 {
                f64::from(i % 7) * 4.0
            } else {
                0.0
            };
            let at = rakeline::platform::Clock::monotonic(&*bench.phone.clock);
            bench.sample(RawSample::Euler {
                at,
                alpha: Some(alpha),
                beta: beta + tremble,
                gamma: 0.0,
                step: Degrees(0.1),
            });
        }
    }
}

fn sweep(bench: &mut Bench, drift: f64) {
    bench.send(Intent::GoStep(Step::Corners));
    measure(bench, Measure::SweepStart);
    let places = [0.0, -28.0, -6.0, 6.0, 28.0, 0.0];
    for (step, turn) in places.into_iter().enumerate() {
        hold_turned(bench, turn + drift * step as f64, 93.0);
    }
}

#[test]
fn a_sweep_gives_corner_angles_and_spreads_what_it_missed() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    sweep(&mut bench, 0.4);
    let closed = job::sweep(bench.job()).expect("swept").expect("closed");
    assert!((closed.closing.0.abs() - 2.0).abs() < 0.2, "{closed:?}");
    let job::JobState { spots, .. } = bench.job();
    assert_eq!(spots.len(), 4);
    let turn = job::corner_angle(bench.job(), 3).estimate();
    assert!(
        (turn.value.0 - 28.0).abs() < 2.0 * turn.u.0 + 1.0,
        "{turn:?}"
    );
    assert_eq!(job::along_the_face(bench.job()).len(), 4);
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

fn picture() -> Picture {
    Picture {
        bytes: vec![1, 2, 3],
        width: 300,
        height: 400,
    }
}

#[test]
fn a_level_photo_is_kept_outside_the_record_with_its_attitude() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Level));
    assert!(bench.phone.camera.runs());
    // Rolled clockwise by 5 degrees.
    let (s, c) = 5f64.to_radians().sin_cos();
    for _ in 0..5 {
        feed(&mut bench, [-s, c, 0.0].map(|a| a * STANDARD_GRAVITY));
    }
    bench.pass(Millis(200.0));
    bench.phone.camera.gives(picture());
    measure(&mut bench, Measure::Level(LevelIntent::Take));
    let photo = bench.job().measuring.photos[0].clone();
    assert_eq!(
        bench.phone.storage.blobs(),
        std::slice::from_ref(&photo.blob)
    );
    let level = job::level_in_photo(bench.job(), &photo).expect("level");
    assert!((level.0 - 5.0).abs() < 1e-6);
    let rise = 0.8 * 8f64.to_radians().tan();
    let line = [[0.1, 0.7], [0.9, 0.7 - rise]];
    measure(&mut bench, Measure::Level(LevelIntent::Drag(line)));
    measure(&mut bench, Measure::Level(LevelIntent::Lay));
    let photo = &bench.job().measuring.photos[0];
    let said = job::line_on_photo(bench.job(), photo).expect("laid");
    assert_eq!(said.key, "with-plus-minus");
    let off = job::line_in_photo(bench.job(), photo, line).expect("laid");
    assert!((off.value.0 - 3.0).abs() < 1e-6);
    bench.send(Intent::GoStep(Step::Faces));
    assert!(!bench.phone.camera.runs());
    let again = bench.killed();
    assert_eq!(again.job().measuring.photos.len(), 1);
    assert_eq!(again.phone.storage.blobs().len(), 1);
}

#[test]
fn a_refused_camera_leaves_the_file_and_a_turned_screen_turns_level() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.phone.camera.fail(CameraFault::Refused);
    bench.send(Intent::GoStep(Step::Level));
    let camera = &bench.app.drafts.level.camera;
    assert!(
        matches!(camera, rakeline::driver::CameraState::No(why) if why.key == "camera-refused")
    );
    bench.phone.camera.gives(picture());
    measure(&mut bench, Measure::Level(LevelIntent::Choose));
    assert_eq!(bench.job().measuring.photos[0].held, None);
    let turned = LevelIntent::ScreenTurned(Degrees(90.0));
    measure(&mut bench, Measure::Level(turned));
    feed(&mut bench, [STANDARD_GRAVITY, 0.0, 0.0]);
    bench.pass(Millis(200.0));
    let level = rakeline::driver::live_level(&bench.app).expect("level");
    assert!(level.0.abs() < 1e-9);
}

#[test]
fn a_full_phone_says_that_the_photo_was_not_kept() {
    let mut bench = Bench::on(MemoryPlatform::new());
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Level));
    bench.phone.camera.gives(picture());
    bench.phone.storage.fill();
    measure(&mut bench, Measure::Level(LevelIntent::Take));
    assert_eq!(bench.notice(), Some("level-not-stored"));
    assert!(bench.job().measuring.photos.is_empty());
}
