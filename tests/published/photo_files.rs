//! Photo files as they come, whole and broken.

use std::io::Cursor;

use image::{GrayImage, ImageFormat};
use rakeline_core::estimate::photo::decode::{PhotoFault, decode};
use rakeline_core::estimate::photo::fault::{LARGEST_FILE, MOST_PIXELS};
use rakeline_core::estimate::photo::seen::{Exif, Origin};
use rakeline_tests::dice::Dice;
use rakeline_tests::scene::cases::usual;
use rakeline_tests::scene::file::{Place, Scans, Wrapping, beside, encode, jpeg};
use rakeline_tests::scene::judge::judge;
use rakeline_tests::scene::{Scene, Shot, render};

use crate::photo_cards::seen;

/// A small photo: two cards, near.
fn near() -> (Scene, Shot) {
    let mut scene = usual(31, (800, 600), 900.0);
    scene.cards.drain(..1);
    scene.cards.pop();
    let shot = render(&scene);
    (scene, shot)
}

fn file(wrapping: Wrapping) -> Vec<u8> {
    let (scene, shot) = near();
    jpeg(&scene, &shot, wrapping).expect("a JPEG")
}

/// The file with another size in its frame header.
fn resized(mut bytes: Vec<u8>, width: u16, height: u16) -> Vec<u8> {
    let frame = bytes
        .windows(4)
        .position(|four| four[0] == 0xFF && four[1] == 0xC0 && four[2] == 0)
        .expect("a frame header");
    bytes[frame + 5..frame + 7].copy_from_slice(&height.to_be_bytes());
    bytes[frame + 7..frame + 9].copy_from_slice(&width.to_be_bytes());
    bytes
}

fn as_image(format: ImageFormat) -> (Vec<u8>, Shot) {
    let (_, shot) = near();
    let (width, height) = (shot.size.0 as u32, shot.size.1 as u32);
    let picture = GrayImage::from_raw(width, height, shot.grey.clone()).expect("a picture");
    // WebP knows no grey pictures.
    let picture = image::DynamicImage::ImageLuma8(picture).into_rgb8();
    let mut out = Cursor::new(Vec::new());
    picture.write_to(&mut out, format).expect("an encoder");
    (out.into_inner(), shot)
}

#[test]
fn every_orientation_gives_the_same_upright_picture() {
    let (scene, shot) = near();
    for orientation in 1..=8 {
        let wrapping = Wrapping {
            orientation,
            ..Wrapping::default()
        };
        let luma = decode(&jpeg(&scene, &shot, wrapping).expect("a JPEG")).expect("readable");
        assert_eq!((luma.width(), luma.height()), shot.size);
        assert_eq!(luma.exif.orientation, orientation);
        let verdict = judge(&seen(&luma), &shot.truth);
        assert_eq!((verdict.found, verdict.there), (2, 2), "{orientation}");
        assert!(verdict.rms() < 0.06, "{orientation}: {}", verdict.rms());
    }
}

#[test]
fn a_progressive_jpeg_is_read_as_a_baseline_one() {
    let progressive = Wrapping {
        scans: Scans::Progressive,
        ..Wrapping::default()
    };
    let one = decode(&file(Wrapping::default())).expect("baseline");
    let other = decode(&file(progressive)).expect("progressive");
    let apart = one.pixels().iter().zip(other.pixels());
    let most = apart.map(|(a, b)| a.abs_diff(*b)).max();
    assert!(most <= Some(2), "{most:?}");
}

#[test]
fn focal_length_and_place_are_told_apart() {
    let luma = decode(&file(Wrapping {
        place: Place::Written,
        ..Wrapping::default()
    }))
    .expect("readable");
    let Exif {
        focal_35mm,
        focal_mm,
        origin,
        ..
    } = luma.exif;
    assert_eq!((focal_35mm, origin), (Some(26.0), Origin::Camera));
    assert!(focal_mm.is_some_and(|focal| (focal - 7.22).abs() < 0.01));
}

#[test]
fn a_cropped_photo_says_that_it_was_changed() {
    let (scene, shot) = near();
    let wrapping = Wrapping::default();
    let written = beside(scene.focal_35mm, shot.size, wrapping).expect("Exif");
    let part = &shot.grey[..shot.size.0 * 400];
    let cropped = encode((shot.size.0, 400), part, wrapping, Some(&written));
    let luma = decode(&cropped.expect("a JPEG")).expect("readable");
    assert_eq!(luma.exif.origin, Origin::Changed);
}

#[test]
fn a_screenshot_is_read_and_says_that_no_camera_made_it() {
    for format in [ImageFormat::Png, ImageFormat::WebP] {
        let (bytes, shot) = as_image(format);
        let luma = decode(&bytes).expect("readable");
        assert_eq!(luma.exif.origin, Origin::Unknown);
        assert_eq!(judge(&seen(&luma), &shot.truth).found, 2);
    }
}

#[test]
fn a_file_that_ends_too_early_is_refused() {
    let bytes = file(Wrapping::default());
    for share in [0.02, 0.3, 0.9] {
        let part = &bytes[..(bytes.len() as f64 * share) as usize];
        assert_eq!(decode(part), Err(PhotoFault::CutShort), "{share}");
    }
    let (png, _) = as_image(ImageFormat::Png);
    assert!(decode(&png[..png.len() / 2]).is_err());
    let (webp, _) = as_image(ImageFormat::WebP);
    assert!(decode(&webp[..webp.len() / 2]).is_err());
}

#[test]
fn a_damaged_file_gives_no_wrong_card() {
    let (_, shot) = near();
    let whole = file(Wrapping::default());
    let mut dice = Dice(77);
    for _ in 0..12 {
        let mut bytes = whole.clone();
        for _ in 0..1 + dice.below(20) {
            let at = dice.below(bytes.len());
            bytes[at] ^= 1 << dice.below(8);
        }
        let Ok(luma) = decode(&bytes) else {
            continue;
        };
        let seen = seen(&luma);
        if (seen.width, seen.height) == (800, 600) && seen.exif.orientation == 1 {
            let verdict = judge(&seen, &shot.truth);
            assert_eq!(verdict.false_codes, 0);
            let most = verdict.off.iter().map(|[x, y]| x.hypot(*y));
            assert!(most.fold(0.0, f64::max) < 1.0);
        }
    }
}

#[test]
fn other_files_are_named_with_what_to_do() {
    for (bytes, fault, key) in [
        (&b""[..], PhotoFault::Empty, "photo-empty"),
        (
            b"%PDF-1.7 and more",
            PhotoFault::OtherType,
            "photo-other-type",
        ),
        (
            b"GIF89a and more",
            PhotoFault::OtherType,
            "photo-other-type",
        ),
        (
            b"\0\0\0\x18ftypheic\0\0\0\0mif1",
            PhotoFault::Heic,
            "photo-heic",
        ),
    ] {
        assert_eq!(decode(bytes), Err(fault.clone()));
        assert_eq!(fault.message().key, key);
    }
}

#[test]
fn a_picture_of_no_size_is_refused() {
    for (width, height) in [(0, 600), (800, 0), (0, 0)] {
        let bytes = resized(file(Wrapping::default()), width, height);
        assert_eq!(decode(&bytes), Err(PhotoFault::Empty), "{width} {height}");
    }
}

#[test]
fn a_header_of_65535_squared_is_refused_before_memory_is_asked_for() {
    let size = (65_535u64, 65_535u64);
    let refused = Err(PhotoFault::TooManyPixels { size });
    let jpeg = resized(file(Wrapping::default()), 65_535, 65_535);
    assert_eq!(decode(&jpeg), refused);
    // A PNG of the same size in its header, checksum and all.
    let mut png = b"\x89PNG\r\n\x1a\n\0\0\0\x0DIHDR".to_vec();
    png.extend(65_535u32.to_be_bytes());
    png.extend(65_535u32.to_be_bytes());
    png.extend([8, 2, 0, 0, 0]);
    png.extend(checksum(&png[12..29]).to_be_bytes());
    png.extend(b"\0\0\0\0IDAT\x35\xAF\x06\x1E");
    assert_eq!(decode(&png), refused);
    assert!(size.0 * size.1 > MOST_PIXELS);
}

/// PNG specification, annex D: CRC-32.
fn checksum(bytes: &[u8]) -> u32 {
    let step = |crc: u32, byte: &u8| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            if crc & 1 == 1 {
                0xEDB8_8320 ^ (crc >> 1)
            } else {
                crc >> 1
            }
        })
    };
    !bytes.iter().fold(u32::MAX, step)
}

#[test]
fn a_file_larger_than_the_limit_is_refused() {
    let bytes = vec![0xFFu8; LARGEST_FILE + 1];
    let fault = decode(&bytes).expect_err("too large");
    assert_eq!(fault.message().key, "photo-file-too-large");
}
