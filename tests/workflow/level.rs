//! The camera level: photo, attitude, line, and what may be missing.

use rakeline::driver::{Intent, LevelIntent, Measure};
use rakeline::platform::memory::MemoryPlatform;
use rakeline::platform::{CameraFault, Picture};
use rakeline::route::Step;
use rakeline_core::job::{self};
use rakeline_core::sample::STANDARD_GRAVITY;
use rakeline_core::units::{Degrees, Millis};

use crate::bench::Bench;
use crate::scenario;

use crate::hand::*;

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
    assert!((level.value.0 - 5.0).abs() < 1e-6);
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
    assert!(level.value.0.abs() < 1e-9);
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

#[test]
fn a_dropped_photo_is_cleaned_up_at_a_later_start_and_a_kept_one_stays() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Level));
    for _ in 0..2 {
        bench.phone.camera.gives(picture());
        measure(&mut bench, Measure::Level(LevelIntent::Choose));
        bench.pass(Millis(50.0));
    }
    let [kept, dropped] = &bench.job().measuring.photos[..] else {
        panic!("two photos");
    };
    let (kept, dropped) = (kept.blob.clone(), dropped.blob.clone());
    measure(
        &mut bench,
        Measure::Level(LevelIntent::Drop(dropped.clone())),
    );
    assert_eq!(bench.phone.storage.blobs().len(), 2, "there is a way back");
    // Soon after, another page may still take the step back.
    let soon = bench.killed();
    assert_eq!(soon.phone.storage.blobs().len(), 2);
    bench.phone.clock.advance(Millis(25.0 * 3_600_000.0));
    let later = bench.killed();
    assert_eq!(later.phone.storage.blobs(), std::slice::from_ref(&kept));
    assert_eq!(later.job().measuring.photos[0].blob, kept);
}

#[test]
fn pictures_of_a_deleted_job_stay_as_long_as_it_can_come_back_and_all_while_one_is_unreadable() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Level));
    bench.phone.camera.gives(picture());
    measure(&mut bench, Measure::Level(LevelIntent::Choose));
    let blob = bench.job().measuring.photos[0].blob.clone();
    assert_eq!(job::blobs_of(bench.job()), std::slice::from_ref(&blob));
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    bench.phone.clock.advance(Millis(25.0 * 3_600_000.0));
    let deleted = bench.killed();
    assert_eq!(deleted.phone.storage.blobs(), std::slice::from_ref(&blob));
    // Its record broken: it may be the one that needs the picture.
    deleted.phone.storage.plant(&format!("trash/{}", id.0), "{");
    assert_eq!(deleted.killed().phone.storage.blobs().len(), 1);
}
