//! A few photos kept as files: a change of the painter, of an encoder or of
//! a decoder does not go unseen. `tests/fixtures/photo/README.md` says where
//! they come from.

use std::path::{Path, PathBuf};

use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::seen::{Origin, PhotoSeen};
use rakeline_tests::scene::Look;
use rakeline_tests::scene::cases::{three, usual};
use rakeline_tests::scene::file::{Place, Scans, Wrapping, jpeg};
use rakeline_tests::scene::render;
use serde::{Deserialize, Serialize};

use crate::photo_cards::seen;

#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Kept {
    /// Code and true crosses of each card, pixels.
    cards: Vec<(u16, [[f64; 2]; 4])>,
}

const FILES: [&str; 4] = ["left.jpg", "middle.jpg", "right.jpg", "garage-upright.jpg"];

/// Narrowest cell of a cross from which on a card must be found, pixels; of
/// the outer card of `left.jpg`, with 2.2, OpenCV finds nothing either.
const CELL_DUE: f64 = 2.5;

/// Pixels across a card's cells where they are narrowest: the square of its
/// crosses is 68 mm wide, a cell 9 mm.
fn narrowest(crosses: &[[f64; 2]; 4]) -> f64 {
    let side = |n: usize, m: usize| [0, 1].map(|k: usize| crosses[m][k] - crosses[n][k]);
    let (x, y) = (side(0, 1), side(0, 3));
    let area = (x[0] * y[1] - x[1] * y[0]).abs();
    9.0 / 68.0 * area / x[0].hypot(x[1]).max(y[0].hypot(y[1]))
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/photo")
}

/// Writes the files anew; only by hand.
fn write() {
    let size = (1_600, 1_200);
    let [left, middle, right] = three(&usual(41, size, 1_600.0), 1_600.0);
    let mut garage = usual(42, (1_200, 1_600), 1_900.0);
    garage.look = Look {
        blur: 0.9,
        ..Look::DUSK
    };
    let plain = Wrapping {
        quality: 80,
        ..Wrapping::default()
    };
    let turned = Wrapping {
        orientation: 6,
        scans: Scans::Progressive,
        ..plain
    };
    let placed = Wrapping {
        place: Place::Written,
        ..plain
    };
    for (name, scene, wrapping) in [
        (FILES[0], left, plain),
        (FILES[1], middle, placed),
        (FILES[2], right, plain),
        (FILES[3], garage, turned),
    ] {
        let shot = render(&scene);
        let bytes = jpeg(&scene, &shot, wrapping).expect("a JPEG");
        std::fs::write(folder().join(name), bytes).expect("the photo is written");
        let rounded = |at: [f64; 2]| at.map(|x| (x * 1e4).round() / 1e4);
        let cards = shot.truth.cards.iter().filter(|card| card.whole);
        let kept = Kept {
            cards: cards
                .map(|card| (card.code, card.crosses.map(rounded)))
                .collect(),
        };
        let text = serde_json::to_string_pretty(&kept).expect("JSON");
        std::fs::write(folder().join(name).with_extension("json"), text + "\n").expect("truth");
    }
}

fn photo(name: &str) -> (PhotoSeen, Kept) {
    let bytes = std::fs::read(folder().join(name)).expect("the photo");
    let text = std::fs::read_to_string(folder().join(name).with_extension("json"));
    let kept = serde_json::from_str(&text.expect("its truth")).expect("JSON");
    (seen(&decode(&bytes).expect("a JPEG")), kept)
}

#[test]
fn the_kept_photos_are_seen_as_they_are() {
    if std::env::var_os("RAKELINE_WRITE_GOLDEN").is_some() {
        write();
    }
    for name in FILES {
        let (seen, kept) = photo(name);
        let codes: Vec<u16> = seen.cards.iter().map(|card| card.code).collect();
        for (code, crosses) in &kept.cards {
            let due = narrowest(crosses) >= CELL_DUE;
            assert!(codes.contains(code) || !due, "{name}: {code}");
        }
        assert_eq!(seen.exif.origin, Origin::Camera, "{name}");
        for card in &seen.cards {
            let known = kept.cards.iter().find(|(code, _)| *code == card.code);
            let (code, crosses) = known.expect("no card that is not there");
            for (cross, real) in card.crosses.iter().zip(crosses) {
                let off = (cross.x - real[0]).hypot(cross.y - real[1]);
                assert!(
                    off < 4.5 * cross.u,
                    "{name}, {code}: {off} px, u {}",
                    cross.u
                );
                assert!(off < 0.4, "{name}, {code}: {off} px");
            }
        }
    }
}
