//! Photos at steps and of finished heads: kept as copies, drawn on, on the
//! job sheet, without the place where they were taken.

use std::path::Path;

use rakeline::driver::{
    Intent, PhotoIntent, PhotoPolicy, PictureFrom, Sheets, Shows, WorkshopIntent,
};
use rakeline::platform::{CameraFault, Picture, cleaned};
use rakeline::route::Step;
use rakeline::texts::say;
use rakeline_core::estimate::photo::fault::{LARGEST_FILE, PhotoFault};
use rakeline_core::job::{
    self, JOB_PHOTOS_GREATEST, JobEvent, Note, PhotoEvent, PhotoOf, PicturePlace, Whose,
};
use rakeline_core::steps::StepName;
use rakeline_core::units::Millis;
use rakeline_scene::file::{Place, Wrapping, beside, encode};
use rakeline_tests::printed::Printed;

use crate::bench::Bench;
use crate::scenario;

fn at_sheet() -> Bench {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::GoStep(Step::Sheet));
    bench
}

/// A file as a phone makes it, with the place in it, upright after a turn.
fn file(size: (usize, usize), orientation: u16) -> Vec<u8> {
    let wrapping = Wrapping {
        place: Place::Written,
        orientation,
        ..Wrapping::default()
    };
    let grey: Vec<u8> = (0..size.0 * size.1)
        .map(|at| {
            if ((at % size.0) / 40).is_multiple_of(2) {
                60
            } else {
                200
            }
        })
        .collect();
    let beside = beside(26.0, size, wrapping).expect("what a camera writes");
    encode(size, &grey, wrapping, Some(&beside)).expect("a file")
}

fn take(bench: &mut Bench, of: PhotoOf, picture: Picture) {
    bench.phone.camera.gives(picture);
    bench.phone.clock.advance(Millis(5.0));
    bench.send(Intent::Photo(PhotoIntent::Ask(
        Shows::Job(of),
        PictureFrom::Camera,
    )));
}

fn little() -> Picture {
    cleaned(file((320, 240), 1)).expect("a picture")
}

fn large() -> Picture {
    Picture {
        bytes: vec![7; 5_000],
        width: 4_000,
        height: 3_000,
    }
}

fn at_step() -> PhotoOf {
    PhotoOf::Step(StepName("damage".to_owned()))
}

fn pdf(bench: &mut Bench, sheets: Sheets, name: &str) -> Printed {
    bench.send(Intent::MakeSheets(sheets));
    let files = bench.phone.share.files();
    Printed::new(name, &files.last().expect("a file").bytes)
}

#[test]
fn a_large_photo_is_kept_as_a_copy_and_its_original_where_the_workshop_wants_it() {
    let mut bench = at_sheet();
    take(&mut bench, at_step(), large());
    let photo = &bench.job().photos[0];
    assert_eq!((photo.width, photo.height), (1_600, 1_200));
    assert_eq!(photo.original, None);
    assert_eq!(
        bench.phone.storage.blobs(),
        std::slice::from_ref(&photo.blob)
    );

    let policy = WorkshopIntent::Photos(PhotoPolicy::Originals);
    bench.send(Intent::Workshop(policy));
    take(&mut bench, at_step(), large());
    let photo = &bench.job().photos[1];
    let original = photo.original.clone().expect("an original");
    let kept = bench.phone.storage.picture(&original);
    assert_eq!(kept.map(|bytes| bytes.len()), Some(5_000));
    assert_eq!(bench.phone.storage.blobs().len(), 3);
    let bench = bench.killed();
    assert_eq!(bench.job().photos.len(), 2);
}

#[test]
fn all_heads_are_photographed_in_one_go_and_stand_on_both_sheets_by_their_labels() {
    let mut bench = at_sheet();
    assert_eq!(job::heads_without_photo(bench.job()), [0, 1, 2, 3]);
    for head in 0..4 {
        take(&mut bench, PhotoOf::Head(head), little());
    }
    assert!(job::heads_without_photo(bench.job()).is_empty());
    for (sheets, name) in [
        (Sheets::Customer, "photos-customer"),
        (Sheets::Workshop, "photos-workshop"),
    ] {
        let printed = pdf(&mut bench, sheets, name);
        let text = printed.texts().concat();
        for label in ["Head 1", "Head 2", "Head 3", "Head 4"] {
            assert!(text.contains(label), "{label} is not in\n{text}");
        }
        assert_eq!(printed.pictures(), 4);
        assert!(!printed.holds(b"GPS"));
        assert_eq!(printed.faults().unwrap_or_default(), "");
    }
}

#[test]
fn a_photo_taken_sideways_stands_upright_on_paper() {
    let mut bench = at_sheet();
    let picture = cleaned(file((320, 240), 6)).expect("a picture");
    assert_eq!((picture.width, picture.height), (240, 320));
    take(&mut bench, PhotoOf::Head(0), picture);
    let printed = pdf(&mut bench, Sheets::Workshop, "photos-sideways");
    assert_eq!(printed.picture_sizes(), [(240, 320)]);
}

#[test]
fn what_is_drawn_on_a_photo_is_on_paper_and_can_be_taken_back() {
    let mut bench = at_sheet();
    take(&mut bench, PhotoOf::Head(0), little());
    let blob = bench.job().photos[0].blob.clone();
    let place = |x, y| PicturePlace { x, y };
    let notes = [
        Note::Arrow(place(0.1, 0.1), place(0.5, 0.5)),
        Note::Circle(place(0.5, 0.5), place(0.6, 0.5)),
        Note::Words(place(0.2, 0.8), "pushed home".to_owned()),
    ];
    for note in notes {
        let noted = PhotoEvent::Noted(blob.clone(), note);
        bench.send(Intent::Fit(Box::new(JobEvent::Photo(noted))));
    }
    let text = pdf(&mut bench, Sheets::Workshop, "photos-drawn").texts();
    assert!(text.concat().contains("pushed home"));
    let back = PhotoEvent::NoteDropped(blob);
    bench.send(Intent::Fit(Box::new(JobEvent::Photo(back))));
    assert_eq!(bench.job().photos[0].notes.len(), 2);
    bench.send(Intent::Undo);
    assert_eq!(bench.job().photos[0].notes.len(), 3);
}

#[test]
fn a_photo_taken_out_comes_back_with_undo() {
    let mut bench = at_sheet();
    take(&mut bench, at_step(), little());
    let blob = bench.job().photos[0].blob.clone();
    bench.send(Intent::Photo(PhotoIntent::Drop(blob)));
    assert!(bench.job().photos.is_empty());
    bench.send(Intent::Undo);
    assert_eq!(bench.job().photos.len(), 1);
}

#[test]
fn a_photo_that_is_gone_from_the_store_leaves_a_frame_that_says_so() {
    let mut bench = at_sheet();
    let broken = Picture {
        bytes: b"no picture at all".to_vec(),
        width: 640,
        height: 480,
    };
    take(&mut bench, PhotoOf::Head(0), broken);
    let printed = pdf(&mut bench, Sheets::Workshop, "photos-gone");
    assert!(printed.texts().concat().contains("photo not on this phone"));
}

#[test]
fn two_hundred_photos_are_kept_and_the_next_is_refused_in_words() {
    let mut bench = at_sheet();
    for _ in 0..JOB_PHOTOS_GREATEST {
        take(&mut bench, at_step(), little());
    }
    assert_eq!(bench.job().photos.len(), JOB_PHOTOS_GREATEST);
    take(&mut bench, at_step(), little());
    assert_eq!(bench.job().photos.len(), JOB_PHOTOS_GREATEST);
    assert_eq!(bench.notice(), Some("photo-too-many"));
}

#[test]
fn an_empty_file_and_a_heic_file_are_named() {
    assert_eq!(
        cleaned(Vec::new()),
        Err(CameraFault::File(PhotoFault::Empty))
    );
    let heic = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic".to_vec();
    assert_eq!(cleaned(heic), Err(CameraFault::File(PhotoFault::Heic)));
    let mut bench = at_sheet();
    bench
        .phone
        .camera
        .refuses_file(CameraFault::File(PhotoFault::Heic));
    let ask = PhotoIntent::Ask(Shows::Job(at_step()), PictureFrom::Files);
    bench.send(Intent::Photo(ask));
    assert_eq!(bench.notice(), Some("photo-heic"));
    assert!(bench.job().photos.is_empty());
}

#[test]
fn a_file_that_is_too_large_is_told_with_its_size_and_fifty_megapixels_are_taken() {
    let refused = cleaned(vec![0xFF; LARGEST_FILE + 1_000_000]).expect_err("too large");
    let words = say(&refused.message());
    assert!(words.contains("65.0 MB; at most 64 MB"), "{words}");
    let (wide, high) = (8_192, 6_144);
    let picture = cleaned(file((wide, high), 1)).expect("50 megapixels");
    assert_eq!((picture.width, picture.height), (8_192, 6_144));
    let mut bench = at_sheet();
    take(&mut bench, PhotoOf::Head(0), picture);
    assert_eq!(bench.notice(), None);
    assert_eq!(bench.job().photos.len(), 1);
}

#[test]
fn notes_on_a_dark_photo_are_seen_in_black_and_white() {
    let mut bench = at_sheet();
    let dark = encode((320, 240), &[12; 320 * 240], Wrapping::default(), None);
    take(
        &mut bench,
        PhotoOf::Head(0),
        cleaned(dark.expect("a file")).expect("a picture"),
    );
    let light = |bench: &mut Bench, name: &str| {
        let printed = pdf(bench, Sheets::Workshop, name);
        let pages = printed.images();
        let greys = pages.iter().map(|page| pgm(page));
        greys
            .map(|page| page.iter().filter(|grey| **grey > 200).count())
            .sum::<usize>()
    };
    let before = light(&mut bench, "photos-dark");
    let blob = bench.job().photos[0].blob.clone();
    let place = |x, y| PicturePlace { x, y };
    for note in [
        Note::Arrow(place(0.1, 0.1), place(0.5, 0.5)),
        Note::Circle(place(0.5, 0.5), place(0.6, 0.5)),
        Note::Words(place(0.9, 0.95), "scratch".to_owned()),
    ] {
        let noted = PhotoEvent::Noted(blob.clone(), note);
        bench.send(Intent::Fit(Box::new(JobEvent::Photo(noted))));
    }
    let after = light(&mut bench, "photos-dark-noted");
    // At 300 dots an inch the white edges and the field of the words are
    // some thousands of dots.
    assert!(after > before + 5_000, "{before} light dots, then {after}");
}

/// The grey values of an image (Netpbm, pgm(5), raw).
fn pgm(path: &Path) -> Vec<u8> {
    let bytes = std::fs::read(path).expect("an image");
    let head: usize = bytes
        .split_inclusive(|byte| *byte == b'\n')
        .take(3)
        .map(<[u8]>::len)
        .sum();
    bytes[head..].to_vec()
}

#[test]
fn a_photo_stays_with_its_job_when_that_is_left_before_the_camera_gives_it() {
    let mut bench = at_sheet();
    let id = bench.job().id.clone();
    bench.phone.camera.gives(little());
    let shows = Shows::Job(PhotoOf::Head(1));
    let ask = Intent::Photo(PhotoIntent::Ask(shows, PictureFrom::Camera));
    bench.at_once([ask, Intent::GoJobs]);
    assert_eq!(bench.app.job(), None);
    bench.send(Intent::OpenJob(id.clone()));
    assert_eq!(bench.job().photos.len(), 1);
    let blob = bench.job().photos[0].blob.clone();
    assert_eq!(bench.phone.storage.blobs(), std::slice::from_ref(&blob));
    // It is in the record and not only on the screen.
    let bench = bench.killed();
    assert_eq!(bench.app.jobs[0].blobs, [blob]);
    assert_eq!(bench.app.jobs[0].id, id);
}

#[test]
fn a_photo_goes_into_its_own_job_while_another_one_is_on_the_screen() {
    let mut bench = at_sheet();
    let first = bench.job().id.clone();
    bench.phone.camera.gives(little());
    let shows = Shows::Job(PhotoOf::Head(0));
    let ask = Intent::Photo(PhotoIntent::Ask(shows, PictureFrom::Camera));
    let other = bench.new_id();
    bench.at_once([ask, Intent::GoJobs, Intent::StartJob(other.clone())]);
    assert_eq!(bench.job().id, other);
    assert!(bench.job().photos.is_empty());
    assert!(bench.saved());
    bench.send(Intent::GoJobs);
    bench.send(Intent::OpenJob(first));
    assert_eq!(bench.job().photos.len(), 1);
}

#[test]
fn originals_of_the_look_behind_are_kept_where_the_workshop_wants_them() {
    let mut bench = at_sheet();
    let policy = WorkshopIntent::Photos(PhotoPolicy::Originals);
    bench.send(Intent::Workshop(policy));
    bench.phone.camera.gives(large());
    let shows = Shows::Behind(Whose::Bumper);
    let ask = PhotoIntent::Ask(shows, PictureFrom::Camera);
    bench.send(Intent::Photo(ask));
    let photo = bench.job().behind.photos[0].clone();
    let original = photo.original.expect("an original");
    let kept = bench.phone.storage.picture(&original);
    assert_eq!(kept.map(|bytes| bytes.len()), Some(5_000));
    assert_eq!(job::blobs_of(bench.job()), [photo.blob, original]);
}

#[test]
fn the_logo_stands_at_the_head_of_the_sheet() {
    let mut bench = at_sheet();
    bench.phone.camera.gives(little());
    bench.send(Intent::Workshop(WorkshopIntent::AskLogo));
    let logo = bench.app.settings.logo.clone().expect("a logo");
    assert_eq!(bench.phone.storage.blobs(), [logo.blob]);
    let mut bench = bench.killed();
    let printed = pdf(&mut bench, Sheets::Customer, "photos-logo");
    assert_eq!(printed.pictures(), 1);
    bench.send(Intent::Workshop(WorkshopIntent::DropLogo));
    let printed = pdf(&mut bench, Sheets::Customer, "photos-no-logo");
    assert_eq!(printed.pictures(), 0);
}
