//! A photo that finds no room: it is not taken twice, and not lost.

use rakeline::driver::{Intent, PhotoIntent, PhotoPolicy, PictureFrom, Shows, WorkshopIntent};
use rakeline::platform::{Picture, StorageFault};
use rakeline::route::Step;
use rakeline_core::job::{PhotoOf, Whose};
use rakeline_core::steps::StepName;

use crate::bench::Bench;
use crate::scenario;

fn photo(bench: &mut Bench, shows: Shows, side: u32) {
    bench.phone.camera.gives(Picture {
        bytes: vec![0xff, 0xd8, 1, 2],
        width: side,
        height: side,
    });
    bench.send(Intent::Photo(PhotoIntent::Ask(shows, PictureFrom::Camera)));
}

fn why(bench: &Bench) -> Option<&str> {
    let photos = &bench.app.drafts.photos;
    photos.not_stored(&bench.job().id).map(|why| &*why.key)
}

#[test]
fn a_photo_that_finds_no_room_waits_over_the_steps_and_is_stored_when_there_is_room() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.phone.storage.fill();
    photo(&mut bench, Shows::Behind(Whose::Bumper), 30);
    assert_eq!(bench.notice(), Some("level-not-stored"));
    assert_eq!(why(&bench), Some("storage-full"));
    bench.send(Intent::Photo(PhotoIntent::StoreAgain));
    assert_eq!(why(&bench), Some("storage-full"), "still none");
    bench.send(Intent::GoStep(Step::Faces));
    bench.send(Intent::GoStep(Step::Behind));
    assert_eq!(why(&bench), Some("storage-full"), "it waits");
    bench.phone.storage.heal();
    bench.send(Intent::Photo(PhotoIntent::StoreAgain));
    assert_eq!(why(&bench), None);
    assert_eq!(bench.job().behind.photos.len(), 1);
    assert_eq!(bench.phone.storage.blobs().len(), 1);
    // Once more does nothing.
    bench.send(Intent::Photo(PhotoIntent::StoreAgain));
    assert_eq!(bench.job().behind.photos.len(), 1);
}

#[test]
fn a_photo_that_finds_no_room_can_be_given_up() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.phone.storage.fill();
    photo(&mut bench, Shows::Behind(Whose::Bumper), 30);
    bench.send(Intent::Photo(PhotoIntent::GiveUp));
    bench.phone.storage.heal();
    bench.send(Intent::Photo(PhotoIntent::StoreAgain));
    assert_eq!(why(&bench), None);
    assert!(bench.job().behind.photos.is_empty());
}

#[test]
fn where_only_the_original_finds_no_room_the_copy_is_the_photo() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::GoStep(Step::Sheet));
    let originals = WorkshopIntent::Photos(PhotoPolicy::Originals);
    bench.send(Intent::Workshop(originals));
    bench.phone.storage.fail_picture(2, StorageFault::Full);
    let step = PhotoOf::Step(StepName("damage".to_owned()));
    photo(&mut bench, Shows::Job(step), 4_000);
    assert_eq!(bench.notice(), Some("photo-copy-only"));
    assert_eq!(bench.job().photos.len(), 1);
    assert_eq!(bench.job().photos[0].original, None);
    assert_eq!(
        bench.phone.storage.blobs(),
        [bench.job().photos[0].blob.clone()]
    );
    assert_eq!(why(&bench), None);
}
