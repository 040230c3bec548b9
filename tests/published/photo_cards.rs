//! Mark cards in rendered photos against their truth, and OpenCV on the
//! same photos: G. Bradski, "The OpenCV Library" (2000), its ArUco detector
//! with the dictionary APRILTAG_36h11 and its `cornerSubPix`.

use std::path::PathBuf;

use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::detect::{Flow, look};
use rakeline_core::estimate::photo::luma::Luma;
use rakeline_core::estimate::photo::seen::PhotoSeen;
use rakeline_tests::peer;
use rakeline_tests::scene::cases::{Light, many, ten};
use rakeline_tests::scene::judge::{judge, rms};
use rakeline_tests::scene::{file, render, texture};

/// Root mean square on an axis that a cross may be off, pixels.
const NORMAL: f64 = 0.06;
const LOW: f64 = 0.15;

pub(crate) fn seen(luma: &Luma) -> PhotoSeen {
    look(luma, &mut |_| Flow::Go).expect("nobody stops it")
}

pub(crate) fn written(name: &str, bytes: &[u8]) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("photo");
    std::fs::create_dir_all(&folder).expect("a folder for photos");
    let path = folder.join(name);
    std::fs::write(&path, bytes).expect("the photo is written");
    path
}

#[test]
fn ten_photos_are_seen_to_hundredths_of_a_pixel_and_at_least_as_well_as_by_opencv() {
    let mut photos = Vec::new();
    for case in ten() {
        let shot = render(&case.scene);
        let bytes = file::jpeg(&case.scene, &shot, case.wrapping).expect("a JPEG");
        let path = written(&format!("{}.jpg", case.name.replace(' ', "-")), &bytes);
        let luma = decode(&bytes).expect("our own JPEG");
        assert_eq!(
            (luma.width(), luma.height()),
            case.scene.size,
            "{}",
            case.name
        );
        let verdict = judge(&seen(&luma), &shot.truth);
        photos.push((case, path, shot.truth, verdict));
    }
    let asked: Vec<_> = photos
        .iter()
        .map(|(_, path, truth, _)| (path.as_path(), truth))
        .collect();
    let (_, peers) = peer::opencv(&asked, 1).expect("an answer");
    let mut all = Vec::new();
    for ((case, _, truth, verdict), peer) in photos.iter().zip(&peers) {
        let name = &case.name;
        let limit = match case.light {
            Light::Normal => NORMAL,
            Light::Low => LOW,
        };
        assert_eq!(verdict.false_codes, 0, "{name}");
        assert_eq!(verdict.found, verdict.there, "{name}");
        let known = |code: &u16| truth.cards.iter().any(|card| card.code == *code);
        let by_opencv = peer.codes.iter().filter(|code| known(code)).count();
        assert!(
            verdict.found >= by_opencv,
            "{name}: OpenCV found {by_opencv}"
        );
        let (own, theirs) = (verdict.rms(), rms(&peer.off));
        assert!(own <= limit, "{name}: {own} px");
        assert!(own <= theirs, "{name}: {own} px, cornerSubPix {theirs} px");
        all.extend(verdict.normal.iter().copied());
    }
    let normal = (all.iter().map(|x| x * x).sum::<f64>() / all.len() as f64).sqrt();
    assert!(
        (0.6..=1.3).contains(&normal),
        "errors over their u: {normal}"
    );
}

/// A corner inside a code, near where a cross should stand, gives a reading
/// with one module misread: it must not take the place of the cross.
#[test]
fn eight_cards_in_one_photo_are_found_each_by_its_own_crosses() {
    let mut cases = many().into_iter();
    let case = cases
        .find(|case| case.name == "eight cards")
        .expect("such a scene");
    let shot = render(&case.scene);
    let bytes = file::jpeg(&case.scene, &shot, case.wrapping).expect("a JPEG");
    let verdict = judge(&seen(&decode(&bytes).expect("our own JPEG")), &shot.truth);
    assert_eq!((verdict.there, verdict.found), (8, 8));
    assert!(verdict.rms() < NORMAL, "{} px", verdict.rms());
}

#[test]
fn no_card_is_seen_where_there_is_none() {
    let size = (640, 480);
    for seed in 0..12 {
        let grey = texture::without_cards(seed, size);
        let luma = Luma::new(size.0, size.1, grey).expect("a picture");
        let seen = seen(&luma);
        assert_eq!((seen.cards, seen.faults), (vec![], vec![]), "seed {seed}");
    }
}

#[test]
fn looking_can_be_stopped() {
    let size = (640, 480);
    let luma = Luma::new(size.0, size.1, texture::without_cards(1, size)).expect("a picture");
    let mut heard = Vec::new();
    let outcome = look(&luma, &mut |share| {
        heard.push(share.0);
        if share.0 > 0.3 { Flow::Stop } else { Flow::Go }
    });
    assert!(outcome.is_err());
    assert!(heard.windows(2).all(|two| two[0] <= two[1]), "{heard:?}");
}
