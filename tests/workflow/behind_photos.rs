//! Photos of the look behind: kept beside the record, named on the job
//! sheet, taken out and brought back.

use rakeline::driver::{Intent, PhotoIntent, PictureFrom, Shows};
use rakeline::platform::{CameraFault, Picture};
use rakeline::route::Step;
use rakeline::texts::say;
use rakeline_core::job::{self, Whose};
use rakeline_core::report::{Block, job_sheet};

use crate::bench::Bench;
use crate::scenario;

fn at_behind() -> Bench {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::GoStep(Step::Behind));
    bench
}

fn photo(bench: &mut Bench, said: PhotoIntent) {
    bench.send(Intent::Photo(said));
}

/// Takes a photo of the bumper or one head's place; gives its key.
fn taken(bench: &mut Bench, whose: Whose) -> String {
    bench.phone.camera.gives(Picture {
        bytes: vec![1, 2, 3],
        width: 640,
        height: 480,
    });
    bench.phone.clock.advance(rakeline_core::units::Millis(5.0));
    photo(
        bench,
        PhotoIntent::Ask(Shows::Behind(whose), PictureFrom::Camera),
    );
    let kept = job::behind_photos(bench.job(), whose).last();
    kept.expect("a photo").blob.clone()
}

fn on_the_sheet(bench: &Bench) -> Vec<String> {
    let now = bench.job().changed;
    let document = job_sheet(bench.job(), now, "UTC");
    let blocks = document.sections.into_iter().flat_map(|s| s.blocks);
    blocks
        .flat_map(|block| match block {
            Block::Lines(lines) => lines.iter().map(say).collect(),
            _ => Vec::new(),
        })
        .filter(|line| line.starts_with("Photo: "))
        .collect()
}

#[test]
fn photos_of_bumper_and_head_are_kept_with_the_job_and_named_on_its_sheet() {
    let mut bench = at_behind();
    let bumper = taken(&mut bench, Whose::Bumper);
    let head = taken(&mut bench, Whose::Spot(1));
    assert_eq!(job::blobs_of(bench.job()), [bumper.clone(), head.clone()]);
    assert_eq!(bench.phone.storage.blobs(), [bumper.clone(), head]);
    let sizes = bench.job().behind.photos.iter();
    assert!(sizes.map(|p| (p.width, p.height)).all(|s| s == (640, 480)));
    let lines = on_the_sheet(&bench);
    assert!(lines[0].contains("whole bumper"), "{lines:?}");
    assert!(lines[1].contains("head 2"), "{lines:?}");
    let mut bench = bench.killed();
    photo(&mut bench, PhotoIntent::Look(bumper.clone()));
    let found = bench.app.drafts.photos.found(&bumper);
    assert_eq!(found, Some(&Ok("memory:3".to_owned())));
    bench.send(Intent::GoStep(Step::Measures));
    assert_eq!(bench.phone.camera.shown(), 0);
}

#[test]
fn a_photo_that_was_taken_out_comes_back_with_undo() {
    let mut bench = at_behind();
    let key = taken(&mut bench, Whose::Bumper);
    photo(&mut bench, PhotoIntent::Drop(key.clone()));
    assert!(bench.job().behind.photos.is_empty());
    assert_eq!(bench.notice(), Some("behind-photo-out"));
    bench.send(Intent::Undo);
    assert_eq!(job::blobs_of(bench.job()), std::slice::from_ref(&key));
    assert_eq!(bench.phone.storage.blobs(), [key]);
}

#[test]
fn a_file_that_is_no_picture_and_a_full_phone_are_said_and_nothing_is_kept() {
    let mut bench = at_behind();
    let before = bench.job().clone();
    bench.phone.camera.refuses_file(CameraFault::NotAPicture);
    let ask = || PhotoIntent::Ask(Shows::Behind(Whose::Bumper), PictureFrom::Files);
    photo(&mut bench, ask());
    assert_eq!(bench.notice(), Some("camera-not-a-picture"));
    bench.phone.storage.fill();
    bench.phone.camera.gives(Picture {
        bytes: vec![1],
        width: 1,
        height: 1,
    });
    photo(&mut bench, ask());
    assert_eq!(bench.notice(), Some("level-not-stored"));
    assert_eq!(*bench.job(), before);
}

#[test]
fn a_chooser_that_was_closed_and_a_picture_that_is_gone_change_nothing() {
    let mut bench = at_behind();
    photo(
        &mut bench,
        PhotoIntent::Ask(Shows::Behind(Whose::Bumper), PictureFrom::Files),
    );
    assert!(bench.job().behind.photos.is_empty());
    photo(&mut bench, PhotoIntent::Look("behind-0-0".to_owned()));
    let found = bench.app.drafts.photos.found("behind-0-0");
    let why = found.expect("an answer").as_ref().unwrap_err();
    assert_eq!(why.key, "level-photo-gone");
}

#[test]
fn a_moved_mark_takes_the_photo_of_its_old_place_along() {
    let mut bench = at_behind();
    taken(&mut bench, Whose::Bumper);
    taken(&mut bench, Whose::Spot(0));
    scenario::type_half_widths(&mut bench, "900", "900");
    bench.send(Intent::ShowMarks);
    let left = bench.job().behind.photos.iter();
    let left: Vec<Whose> = left.map(|photo| photo.whose).collect();
    assert_eq!(left, [Whose::Bumper]);
}
