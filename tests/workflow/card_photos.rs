//! Photos of mark cards on the scripted phone: from the files to distances
//! held against the plan.

use std::path::Path;

use rakeline::driver::{CameraState, CardsIntent, GuideIntent, Intent, PictureFrom};
use rakeline::platform::{CameraFault, Picture, cleaned};
use rakeline::route::Step;
use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::fault::PhotoFault;
use rakeline_core::estimate::photo::result::{Tap, U_CENTRED, U_TAP};
use rakeline_core::job::{self, CardPhotosEvent, Note, ShapeFrom};
use rakeline_core::units::Millis;
use rakeline_scene::Truth;
use rakeline_scene::cases::{three, usual};

use crate::bench::Bench;
use crate::scenario;

/// One of the rendered photos that are kept as files.
pub fn photo(name: &str) -> Picture {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/photo");
    let bytes = std::fs::read(folder.join(name)).expect("the photo");
    cleaned(bytes).expect("a picture")
}

/// What is true of them.
fn truth() -> Truth {
    let [_, middle, _] = three(&usual(41, (1_600, 1_200), 1_600.0), 1_600.0);
    middle.truth()
}

pub fn at_cards() -> Bench {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::CheckLine("250".to_owned()));
    bench.send(Intent::GoStep(Step::Cards));
    bench
}

pub fn give(bench: &mut Bench, name: &str) {
    bench.phone.camera.gives(photo(name));
    bench.phone.clock.advance(Millis(5.0));
    bench.send(Intent::Cards(CardsIntent::Ask(PictureFrom::Camera)));
}

pub fn trouble(bench: &Bench) -> Option<&str> {
    let trouble = bench.app.drafts.cards.trouble.as_ref();
    trouble.map(|message| message.key.as_ref())
}

fn guide(bench: &mut Bench, said: GuideIntent) {
    bench.send(Intent::Cards(CardsIntent::Guide(said)));
}

#[test]
fn the_live_picture_names_the_cards_it_sees_and_a_kept_one_is_measured_on() {
    let mut bench = at_cards();
    bench.phone.camera.gives(photo("middle.jpg"));
    guide(&mut bench, GuideIntent::Start);
    let draft = bench.app.drafts.guide.clone();
    assert_eq!(draft.camera, CameraState::Live);
    let told = job::guide(bench.job(), draft.seen.as_deref());
    assert_eq!(told.from.key, "guide-from-left");
    assert!(told.ready, "{:?}", told.lines);
    assert_eq!(
        bench.job().card_photos.photos.len(),
        0,
        "a look keeps nothing"
    );
    // No further frame came: it says so and waits.
    assert_eq!(
        draft.trouble.map(|why| why.key),
        Some("camera-not-yet".into())
    );
    bench.phone.camera.gives(photo("left.jpg"));
    guide(&mut bench, GuideIntent::Look);
    let seen = bench.app.drafts.guide.seen.clone();
    let told = job::guide(bench.job(), seen.as_deref());
    assert!(!told.ready, "its outer card is missing");
    assert!(told.lines.iter().any(|line| line.key == "guide-missing"));
    bench.phone.camera.gives(photo("middle.jpg"));
    guide(&mut bench, GuideIntent::Shoot);
    assert_eq!(bench.job().card_photos.photos.len(), 1);
    assert!(bench.job().card_photos.outcome.is_some());
    let told = job::guide(bench.job(), None);
    assert_eq!(told.from.key, "guide-from-middle");
    bench.send(Intent::GoStep(Step::Check));
    assert!(!bench.phone.camera.runs(), "the camera is free again");
}

#[test]
fn without_a_camera_the_live_view_says_so_and_a_photo_can_still_be_chosen() {
    let mut bench = at_cards();
    bench.phone.camera.fail(CameraFault::Refused);
    guide(&mut bench, GuideIntent::Start);
    let camera = bench.app.drafts.guide.camera.clone();
    assert!(matches!(camera, CameraState::No(why) if why.key == "camera-refused"));
    guide(&mut bench, GuideIntent::Stop);
    assert_eq!(bench.app.drafts.guide.camera, CameraState::Off);
}

#[test]
fn three_photos_measure_the_marks_and_are_kept_with_what_was_measured() {
    let mut bench = at_cards();
    for name in ["left.jpg", "middle.jpg", "right.jpg"] {
        give(&mut bench, name);
        assert_eq!(trouble(&bench), None, "{name}");
    }
    let state = &bench.job().card_photos;
    assert_eq!(state.photos.len(), 3);
    for photo in &state.photos {
        assert_eq!(photo.seen.exif.focal_35mm, Some(26.0), "the lens is known");
    }
    let measured = &state.outcome.as_ref().expect("figures").measured;
    let truth = truth();
    assert_eq!(measured.gaps.len(), 3);
    for gap in &measured.gaps {
        let off = gap.chord.value.0 - truth.chord(gap.left, gap.right);
        assert!(off.abs() < 1.0, "{gap:?}: {off}");
        assert!(off.abs() < 1.3 * gap.chord.expanded().0, "{gap:?}: {off}");
        let off = gap.along.value.0 - truth.along(gap.left, gap.right);
        assert!(off.abs() < 1.5, "{gap:?}: {off}");
    }
    let lines = job::mark_lines(bench.job());
    assert_eq!(lines.len(), 4);
    assert!(lines.iter().all(|line| line.against.is_some()));
    // The shape from above takes the place of the corner angles, on demand.
    let chosen = CardPhotosEvent::ShapeChosen(ShapeFrom::Photos);
    bench.send(Intent::Cards(CardsIntent::Said(chosen)));
    assert!(job::plan_curve(bench.job()).is_some());
    // Kept with its figures for the check and the job sheet.
    bench.send(Intent::Cards(CardsIntent::Keep(1)));
    let kept = &bench.job().photos[0];
    assert_eq!(kept.blob, bench.job().card_photos.photos[1].blob);
    assert!(
        kept.notes
            .iter()
            .any(|note| matches!(note, Note::Words(_, words) if words == "100 mm"))
    );
    assert!(bench.saved());
    // One photo less: solved anew with the two.
    let blob = bench.job().card_photos.photos[0].blob.clone();
    let dropped = CardPhotosEvent::Dropped(blob);
    bench.send(Intent::Cards(CardsIntent::Said(dropped)));
    let state = &bench.job().card_photos;
    assert_eq!(state.photos.len(), 2);
    let views = state.outcome.as_ref().map(|outcome| outcome.views.len());
    assert_eq!(views, Some(2));
    bench.send(Intent::Undo);
    assert_eq!(bench.job().card_photos.photos.len(), 3);
}

/// Millimetres between the outer marks, straight.
fn wide(bench: &Bench) -> f64 {
    let outcome = bench.job().card_photos.outcome.as_ref();
    outcome.expect("figures").measured.width.chord.value.0
}

#[test]
fn a_check_line_typed_on_another_screen_counts_in_the_photos_of_this_job_only() {
    let mut bench = at_cards();
    for name in ["left.jpg", "middle.jpg", "right.jpg"] {
        give(&mut bench, name);
    }
    let as_printed = wide(&bench);
    bench.send(Intent::GoStep(Step::Marks));
    bench.send(Intent::CheckLine("245".to_owned()));
    let smaller = wide(&bench);
    assert!((smaller / as_printed - 0.98).abs() < 1e-4, "{smaller}");
    let first = bench.job().clone();
    // A new sheet, measured while another job is open.
    bench.send(Intent::GoJobs);
    scenario::to_marks(&mut bench);
    assert_ne!(bench.job().id, first.id);
    bench.send(Intent::CheckLine("251".to_owned()));
    bench.send(Intent::GoJobs);
    bench.send(Intent::OpenJob(first.id.clone()));
    bench.send(Intent::GoStep(Step::Cards));
    assert_eq!(bench.job().id, first.id);
    assert_eq!(bench.job().card_photos.print(), first.card_photos.print());
    let blob = bench.job().card_photos.photos[0].blob.clone();
    let dropped = CardPhotosEvent::Dropped(blob);
    bench.send(Intent::Cards(CardsIntent::Said(dropped)));
    let again = wide(&bench);
    assert!((again - smaller).abs() < 2.0, "{again} {smaller}");
}

#[test]
fn a_photo_without_cards_does_not_void_the_others() {
    let mut bench = at_cards();
    give(&mut bench, "left.jpg");
    give(&mut bench, "middle.jpg");
    let before = wide(&bench);
    let white = image::GrayImage::from_pixel(1_600, 1_200, image::Luma([180]));
    let mut bytes = std::io::Cursor::new(Vec::new());
    white
        .write_to(&mut bytes, image::ImageFormat::Png)
        .expect("a picture");
    let empty = cleaned(bytes.into_inner()).expect("a picture");
    bench.phone.camera.gives(empty);
    bench.phone.clock.advance(Millis(5.0));
    bench.send(Intent::Cards(CardsIntent::Ask(PictureFrom::Files)));
    let state = &bench.job().card_photos;
    assert_eq!(state.photos.len(), 3);
    assert!((wide(&bench) - before).abs() < 1e-6);
    let views = &state.outcome.as_ref().expect("figures").views;
    assert_eq!(views.len(), 3);
    assert!(views[2].marks.is_empty() && !views[1].marks.is_empty());
}

#[test]
fn a_tapped_head_and_a_tapped_line_are_placed_on_the_face() {
    let mut bench = at_cards();
    give(&mut bench, "left.jpg");
    give(&mut bench, "middle.jpg");
    let tip = |bench: &Bench, mark: usize| {
        let state = &bench.job().card_photos;
        let view = &state.outcome.as_ref().expect("figures").views[1];
        let mut marks = view.marks.iter();
        marks.find(|m| m.0 == mark).expect("the mark is seen").1
    };
    let (left, right) = (tip(&bench, 0), tip(&bench, 3));
    let tap = |[x, y]: [f64; 2]| Tap {
        photo: 1,
        x,
        y,
        u: U_TAP,
    };
    // A head tapped on its mark is where the mark is.
    let at = tip(&bench, 1);
    for event in [
        CardPhotosEvent::HeadTapped(1, tap(at)),
        CardPhotosEvent::LineTapped(tap(left)),
        CardPhotosEvent::LineTapped(tap(right)),
    ] {
        bench.send(Intent::Cards(CardsIntent::Said(event)));
    }
    let outcome = bench.job().card_photos.outcome.clone().expect("figures");
    let mark = outcome.measured.marks.iter().find(|m| m.mark == 1);
    let straight = mark.and_then(|m| m.straight).expect("straight is known");
    let head = outcome.heads[0].at;
    assert!(
        (head.straight.value.0 - straight.value.0).abs() < 1.0,
        "{head:?}"
    );
    assert!(!outcome.below_line.is_empty());
    let outside = CardPhotosEvent::LineTapped(tap([-40.0, 10.0]));
    bench.send(Intent::Cards(CardsIntent::Said(outside)));
    assert_eq!(bench.job().card_photos.taps.line.len(), 2);
}

/// The middle photo as a screenshot, a fitted head painted into it.
fn with_head(at: [f64; 2], radius: f64) -> Picture {
    let bytes = photo("middle.jpg").bytes;
    let luma = decode(&bytes).expect("a JPEG");
    let (width, height) = (luma.width() as u32, luma.height() as u32);
    let grey = luma.pixels().to_vec();
    let mut image = image::GrayImage::from_raw(width, height, grey).expect("its pixels");
    for (x, y, pixel) in image.enumerate_pixels_mut() {
        let out = (f64::from(x) - at[0]).hypot(f64::from(y) - at[1]);
        let black = (radius + 0.5 - out).clamp(0.0, 1.0);
        pixel.0[0] = (f64::from(pixel.0[0]) * (1.0 - black) + 25.0 * black) as u8;
    }
    let mut png = std::io::Cursor::new(Vec::new());
    image
        .write_to(&mut png, image::ImageFormat::Png)
        .expect("a PNG");
    cleaned(png.into_inner()).expect("a picture")
}

#[test]
fn a_tap_beside_a_heads_middle_comes_to_it() {
    let mut bench = at_cards();
    give(&mut bench, "left.jpg");
    let middle = [780.4, 560.7];
    // 26 mm of flange at the scale there.
    bench.phone.camera.gives(with_head(middle, 8.9));
    bench.phone.clock.advance(Millis(5.0));
    bench.send(Intent::Cards(CardsIntent::Ask(PictureFrom::Camera)));
    let beside = Tap {
        photo: 1,
        x: middle[0] + 3.0,
        y: middle[1] - 2.0,
        u: U_TAP,
    };
    let tapped = CardPhotosEvent::HeadTapped(1, beside);
    bench.send(Intent::Cards(CardsIntent::Said(tapped)));
    let taps = &bench.job().card_photos.taps.heads;
    assert_eq!(taps.len(), 1);
    let (head, tap) = taps[0];
    assert_eq!((head, tap.u), (1, U_CENTRED));
    let off = (tap.x - middle[0]).hypot(tap.y - middle[1]);
    assert!(off < 0.3, "{tap:?}");
    // Where nothing is round the tap counts, and that is said.
    let bare = Tap {
        x: 1_000.0,
        y: 1_000.0,
        ..beside
    };
    let tapped = CardPhotosEvent::HeadTapped(2, bare);
    bench.send(Intent::Cards(CardsIntent::Said(tapped)));
    let taps = &bench.job().card_photos.taps.heads;
    assert_eq!(taps[1], (2, bare));
}

#[test]
fn a_photo_over_which_the_worker_died_is_looked_at_again() {
    let mut bench = at_cards();
    bench.phone.work.die_next();
    give(&mut bench, "middle.jpg");
    assert_eq!(trouble(&bench), Some("work-stopped"));
    assert!(bench.job().card_photos.photos.is_empty());
    bench.send(Intent::Cards(CardsIntent::Again));
    assert_eq!(trouble(&bench), None);
    assert_eq!(bench.job().card_photos.photos.len(), 1);
}

#[test]
fn looking_is_stopped_and_begun_again() {
    let mut bench = at_cards();
    bench.phone.work.wait_next();
    give(&mut bench, "middle.jpg");
    assert!(bench.app.drafts.cards.under_way().is_some());
    bench.send(Intent::Cards(CardsIntent::Stop));
    assert_eq!(bench.phone.work.waiting(), 0);
    assert_eq!(trouble(&bench), Some("cards-stopped"));
    bench.send(Intent::Cards(CardsIntent::Again));
    assert_eq!(bench.job().card_photos.photos.len(), 1);
}

#[test]
fn what_is_no_photo_is_named_with_what_to_do() {
    let heic = cleaned(b"\0\0\0\x18ftypheic\0\0\0\0mif1".to_vec());
    assert_eq!(heic, Err(CameraFault::File(PhotoFault::Heic)));
    let mut bench = at_cards();
    bench
        .phone
        .camera
        .refuses_file(CameraFault::File(PhotoFault::Heic));
    bench.send(Intent::Cards(CardsIntent::Ask(PictureFrom::Files)));
    assert_eq!(trouble(&bench), Some("photo-heic"));
    let broken = Picture {
        bytes: photo("middle.jpg").bytes[..40_000].to_vec(),
        width: 1_600,
        height: 1_200,
    };
    bench.phone.camera.gives(broken);
    bench.send(Intent::Cards(CardsIntent::Ask(PictureFrom::Files)));
    assert_eq!(trouble(&bench), Some("photo-cut-short"));
    assert!(bench.job().card_photos.photos.is_empty());
}
