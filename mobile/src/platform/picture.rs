//! A picture without its location: everything that a camera writes beside
//! the pixels goes, but which way up it is to be shown, and its focal length
//! with the size that belongs to it. Nothing is decoded.

use img_parts::jpeg::Jpeg;
use img_parts::{Bytes, ImageEXIF};

use rakeline_core::estimate::photo::fault::PhotoFault;

use super::{CameraFault, Picture, jpeg_file};

/// Takes location, maker's notes and thumbnails out of a JPEG, PNG or WebP
/// file.
///
/// # Errors
/// [`CameraFault::File`] for an empty, too large or HEIC file and for too many
/// pixels, [`CameraFault::NotAPicture`] for anything else.
pub fn cleaned(bytes: Vec<u8>) -> Result<Picture, CameraFault> {
    // ISO base media (ISO/IEC 14496-12, 4.3): HEIC, AVIF, or a film.
    if bytes.get(4..8) == Some(b"ftyp") {
        return Err(CameraFault::File(PhotoFault::Heic));
    }
    PhotoFault::of_file(bytes.len()).map_err(CameraFault::File)?;
    let picture = if bytes.starts_with(&[0xFF, 0xD8]) {
        jpeg(bytes)
    } else if bytes.starts_with(b"RIFF") {
        webp(&bytes)
    } else {
        png(bytes)
    };
    let picture = picture.ok_or(CameraFault::NotAPicture)?;
    let (width, height) = (u64::from(picture.width), u64::from(picture.height));
    PhotoFault::of_size(width, height).map_err(CameraFault::File)?;
    Ok(picture)
}

fn jpeg(bytes: Vec<u8>) -> Option<Picture> {
    let bytes = Bytes::from(bytes);
    let exif = Jpeg::from_bytes(bytes.clone()).ok()?.exif();
    let exif = exif.as_deref().and_then(Tiff::new);
    let turned = exif.as_ref().and_then(Tiff::orientation).unwrap_or(1);
    let lens = exif.as_ref().and_then(Tiff::lens);
    let clean = jpeg_file::only_the_picture(&bytes)?;
    let mut jpeg = Jpeg::from_bytes(Bytes::from(clean)).ok()?;
    let mut segments = jpeg.segments().iter();
    let frame = segments.find(|segment| jpeg_file::is_frame(segment.marker()))?;
    let size = frame.contents().get(1..5)?;
    let height = u32::from(u16::from_be_bytes([size[0], size[1]]));
    let width = u32::from(u16::from_be_bytes([size[2], size[3]]));
    if turned != 1 || lens.is_some() {
        jpeg.set_exif(Some(Bytes::from(only_needed(turned, lens))));
    }
    let (width, height) = if turned >= 5 {
        (height, width)
    } else {
        (width, height)
    };
    Some(Picture {
        bytes: jpeg.encoder().bytes().to_vec(),
        width,
        height,
    })
}

/// What a PNG file begins with (ISO/IEC 15948, 5.2).
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";
/// Chunks that are the picture and how it is shown (ISO/IEC 15948, 11). What
/// others hold is not known: they go.
const PNG_PICTURE: [&[u8; 4]; 13] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sBIT", b"sRGB",
    b"cICP", b"bKGD", b"pHYs",
];

/// Only the chunks that are the picture. Their check sums are not looked at:
/// who shows the picture does that.
fn png(bytes: Vec<u8>) -> Option<Picture> {
    let four = |at: usize| -> Option<[u8; 4]> { bytes.get(at..at + 4)?.try_into().ok() };
    if !bytes.starts_with(PNG) || four(12)? != *b"IHDR" {
        return None;
    }
    let size = |at: usize| four(at).map(u32::from_be_bytes);
    let (width, height) = (size(16)?, size(20)?);
    let mut clean = PNG.to_vec();
    let mut at = PNG.len();
    loop {
        // Length of the contents, kind, contents, check sum: kept as they are.
        let kind = four(at + 4)?;
        let end = usize::try_from(size(at)?).ok()?.checked_add(at + 12)?;
        let chunk = bytes.get(at..end)?;
        if PNG_PICTURE.contains(&&kind) {
            clean.extend_from_slice(chunk);
        }
        if kind == *b"IEND" {
            break;
        }
        at = end;
    }
    Some(Picture {
        bytes: clean,
        width,
        height,
    })
}

/// Chunks of a WebP file that are the picture (RFC 9649, 2.7).
const WEBP_PICTURE: [&[u8; 4]; 5] = [b"VP8X", b"ICCP", b"ALPH", b"VP8 ", b"VP8L"];
/// Flags of what is written beside the pixels: Exif and XMP.
const WEBP_BESIDE: u8 = 0b1100;

/// Only the chunks that are the picture.
fn webp(bytes: &[u8]) -> Option<Picture> {
    if bytes.get(8..12)? != b"WEBP" {
        return None;
    }
    // What stands behind the end that the file says is none of it.
    let says: [u8; 4] = bytes.get(4..8)?.try_into().ok()?;
    let end = usize::try_from(u32::from_le_bytes(says)).ok()?;
    let end = end.checked_add(8)?.min(bytes.len());
    let bytes = bytes.get(..end)?;
    let mut clean = b"RIFF\0\0\0\0WEBP".to_vec();
    let mut size = None;
    let mut at = 12;
    while at + 8 <= bytes.len() {
        let kind: &[u8; 4] = bytes.get(at..at + 4)?.try_into().ok()?;
        let length: [u8; 4] = bytes.get(at + 4..at + 8)?.try_into().ok()?;
        let length = usize::try_from(u32::from_le_bytes(length)).ok()?;
        let end = (at + 8).checked_add(length)?;
        let content = bytes.get(at + 8..end)?;
        if WEBP_PICTURE.contains(&kind) {
            size = size.or_else(|| webp_size(kind, content));
            let from = clean.len();
            clean.extend_from_slice(bytes.get(at..end)?);
            if kind == b"VP8X" {
                *clean.get_mut(from + 8)? &= !WEBP_BESIDE;
            }
            if length % 2 == 1 {
                clean.push(0);
            }
        }
        at = end + length % 2;
    }
    let whole = u32::try_from(clean.len() - 8).ok()?;
    clean.get_mut(4..8)?.copy_from_slice(&whole.to_le_bytes());
    let (width, height) = size?;
    Some(Picture {
        bytes: clean,
        width,
        height,
    })
}

/// Size in the first chunk (RFC 9649, 2.7.1; RFC 6386, 9.1; RFC 9649, 3.4).
fn webp_size(kind: &[u8; 4], content: &[u8]) -> Option<(u32, u32)> {
    let number = |at: usize, bytes: usize| {
        let part = content.get(at..at + bytes)?;
        Some(
            part.iter()
                .rev()
                .fold(0u32, |sum, b| (sum << 8) | u32::from(*b)),
        )
    };
    match kind {
        b"VP8X" => Some((number(4, 3)? + 1, number(7, 3)? + 1)),
        b"VP8 " => Some((number(6, 2)? & 0x3FFF, number(8, 2)? & 0x3FFF)),
        b"VP8L" => {
            let both = number(1, 4)?;
            Some(((both & 0x3FFF) + 1, ((both >> 14) & 0x3FFF) + 1))
        }
        _ => None,
    }
}

/// Tag of the orientation (Exif 2.32, 4.6.4): 1 upright to 8.
const ORIENTATION: u16 = 0x0112;
/// Where the directory of the photo's own tags is.
const DIRECTORY: u16 = 0x8769;
/// Width, height and the focal length as on 35 mm film, in that directory.
const OF_LENS: [u16; 3] = [0xA002, 0xA003, 0xA405];

/// A TIFF block as it is read.
struct Tiff<'a> {
    bytes: &'a [u8],
    big: bool,
}

impl<'a> Tiff<'a> {
    fn new(bytes: &'a [u8]) -> Option<Self> {
        let big = match bytes.get(..2)? {
            b"MM" => true,
            b"II" => false,
            _ => return None,
        };
        Some(Self { bytes, big })
    }

    fn number(&self, at: usize, size: usize) -> Option<u32> {
        let part = self.bytes.get(at..at.checked_add(size)?)?;
        let add = |sum: u32, byte: &u8| (sum << 8) | u32::from(*byte);
        Some(if self.big {
            part.iter().fold(0, add)
        } else {
            part.iter().rev().fold(0, add)
        })
    }

    /// A whole number of a directory, of two bytes or four.
    fn entry(&self, directory: usize, tag: u16) -> Option<u32> {
        let entries = (self.number(directory, 2)? as usize).min(200);
        let mut places = (0..entries).map(|entry| directory + 2 + 12 * entry);
        let at = places.find(|at| self.number(*at, 2) == Some(u32::from(tag)))?;
        match self.number(at + 2, 2)? {
            3 => self.number(at + 8, 2),
            4 => self.number(at + 8, 4),
            _ => None,
        }
    }

    fn first(&self) -> Option<usize> {
        usize::try_from(self.number(4, 4)?).ok()
    }

    fn orientation(&self) -> Option<u16> {
        let turned = u16::try_from(self.entry(self.first()?, ORIENTATION)?).ok()?;
        (1..=8).contains(&turned).then_some(turned)
    }

    /// Width, height and focal length as on 35 mm film, where the last is
    /// there.
    fn lens(&self) -> Option<[u32; 3]> {
        let directory = usize::try_from(self.entry(self.first()?, DIRECTORY)?).ok()?;
        let read = |tag| self.entry(directory, tag).unwrap_or_default();
        let lens = OF_LENS.map(read);
        (lens[2] > 0).then_some(lens)
    }
}

/// The orientation in a TIFF block, from its first directory.
#[cfg(test)]
fn orientation(tiff: &[u8]) -> Option<u16> {
    Tiff::new(tiff)?.orientation()
}

/// A TIFF block with the orientation, and what tells the lens: without it
/// nothing can be measured from the photo as well.
fn only_needed(turned: u16, lens: Option<[u32; 3]>) -> Vec<u8> {
    let mut tiff = b"MM\0\x2A\0\0\0\x08\0".to_vec();
    tiff.push(if lens.is_some() { 2 } else { 1 });
    tiff.extend(ORIENTATION.to_be_bytes());
    tiff.extend([0, 3, 0, 0, 0, 1]);
    tiff.extend(turned.to_be_bytes());
    tiff.extend([0, 0]);
    if let Some(lens) = lens {
        // Behind this directory: 8 of the head, 2, two entries, 4.
        const BEHIND: u32 = 8 + 2 + 2 * 12 + 4;
        tiff.extend(DIRECTORY.to_be_bytes());
        tiff.extend([0, 4, 0, 0, 0, 1]);
        tiff.extend(BEHIND.to_be_bytes());
        tiff.extend([0, 0, 0, 0, 0, 3]);
        for (tag, value) in OF_LENS.into_iter().zip(lens) {
            tiff.extend(tag.to_be_bytes());
            tiff.extend([0, 4, 0, 0, 0, 1]);
            tiff.extend(value.to_be_bytes());
        }
    }
    tiff.extend([0, 0, 0, 0]);
    tiff
}

#[cfg(test)]
mod tests {
    use super::*;

    /// SOI, APP1 with Exif, SOF0 of 640 x 480, SOS, EOI.
    fn camera_file(exif: &[u8]) -> Vec<u8> {
        let mut file = vec![0xFF, 0xD8, 0xFF, 0xE1];
        let size = u16::try_from(exif.len() + 8).unwrap();
        file.extend(size.to_be_bytes());
        file.extend(b"Exif\0\0");
        file.extend(exif);
        file.extend([0xFF, 0xC0, 0, 11, 8, 0x01, 0xE0, 0x02, 0x80, 1, 1, 0x11, 0]);
        file.extend([0xFF, 0xDA, 0, 8, 1, 1, 0, 0, 63, 0, 1, 2, 3, 0xFF, 0xD9]);
        file
    }

    fn holds(bytes: &[u8], what: &[u8]) -> bool {
        bytes.windows(what.len()).any(|part| part == what)
    }

    #[test]
    fn the_location_goes_and_the_size_comes_from_the_header() {
        let mut exif = only_needed(1, None);
        exif.extend(b"GPS 54.4609 -3.0886");
        let picture = cleaned(camera_file(&exif)).unwrap();
        assert_eq!((picture.width, picture.height), (640, 480));
        assert!(!holds(&picture.bytes, b"GPS"));
        assert!(!holds(&picture.bytes, b"Exif"));
        assert!(holds(&picture.bytes, &[1, 2, 3]), "the pixels stay");
    }

    #[test]
    fn a_picture_taken_upright_is_still_shown_upright() {
        let mut exif = only_needed(6, None);
        exif.extend(b"GPS 54.4609");
        let picture = cleaned(camera_file(&exif)).unwrap();
        assert_eq!((picture.width, picture.height), (480, 640));
        assert!(!holds(&picture.bytes, b"GPS"));
        let again = Jpeg::from_bytes(Bytes::from(picture.bytes)).unwrap();
        assert_eq!(again.exif().and_then(|exif| orientation(&exif)), Some(6));
    }

    #[test]
    fn the_focal_length_stays_with_its_size() {
        let mut exif = only_needed(6, Some([4_032, 3_024, 26]));
        exif.extend(b"GPS 54.4609");
        let picture = cleaned(camera_file(&exif)).unwrap();
        assert!(!holds(&picture.bytes, b"GPS"));
        let again = Jpeg::from_bytes(Bytes::from(picture.bytes)).unwrap();
        let exif = again.exif().unwrap();
        let tiff = Tiff::new(&exif).unwrap();
        assert_eq!(tiff.orientation(), Some(6));
        assert_eq!(tiff.lens(), Some([4_032, 3_024, 26]));
        for end in 0..exif.len() {
            let part = Tiff::new(&exif[..end]);
            assert!(part.is_none_or(|part| part.lens().is_none_or(|lens| lens[2] == 26)));
        }
    }

    fn png_file(kinds: &[&[u8; 4]]) -> Vec<u8> {
        let mut file = PNG.to_vec();
        for kind in kinds {
            let contents: &[u8] = match *kind {
                b"IHDR" => &[0, 0, 2, 0x80, 0, 0, 1, 0xE0, 8, 2, 0, 0, 0],
                b"IEND" => b"",
                _ => b"54.4609",
            };
            file.extend(u32::try_from(contents.len()).unwrap().to_be_bytes());
            file.extend(*kind);
            file.extend(contents);
            file.extend([1, 2, 3, 4]);
        }
        file
    }

    #[test]
    fn a_png_keeps_its_pixels_and_loses_what_was_written_beside_them() {
        let file = png_file(&[b"IHDR", b"eXIf", b"IDAT", b"tEXt", b"IDAT", b"IEND"]);
        let picture = cleaned([&file[..], b"behind the end"].concat()).unwrap();
        assert_eq!((picture.width, picture.height), (640, 480));
        assert_eq!(
            picture.bytes,
            png_file(&[b"IHDR", b"IDAT", b"IDAT", b"IEND"])
        );
        for end in 0..file.len() {
            assert!(cleaned(file[..end].to_vec()).is_err(), "{end}");
        }
    }

    /// A second picture of the same form, with a place written in it.
    fn with_a_place() -> Vec<u8> {
        let mut exif = only_needed(1, None);
        exif.extend(b"GPS 54.4609 -3.0886");
        camera_file(&exif)
    }

    #[test]
    fn a_place_in_a_picture_behind_the_pictures_end_goes() {
        let plain = cleaned(camera_file(&only_needed(1, None))).unwrap();
        let file = [camera_file(&only_needed(1, None)), with_a_place()].concat();
        let picture = cleaned(file).unwrap();
        assert!(!holds(&picture.bytes, b"GPS"));
        assert_eq!(picture, plain);
    }

    #[test]
    fn a_film_behind_the_pictures_end_goes_with_its_place() {
        let film = b"\0\0\0\x18ftypmp42 moov +54.4609-003.0886/";
        let file = [&camera_file(&only_needed(6, None))[..], film].concat();
        let picture = cleaned(file).unwrap();
        assert!(!holds(&picture.bytes, b"54.4609"));
        assert!(!holds(&picture.bytes, b"ftyp"));
        assert!(picture.bytes.ends_with(&[0xFF, 0xD9]));
        assert!(holds(&picture.bytes, &[1, 2, 3]), "the pixels stay");
    }

    #[test]
    fn a_webp_loses_its_place_and_its_tags() {
        let chunk = |kind: &[u8; 4], content: &[u8]| {
            let mut chunk = kind.to_vec();
            chunk.extend(u32::try_from(content.len()).unwrap().to_le_bytes());
            chunk.extend(content);
            chunk.resize(chunk.len() + content.len() % 2, 0);
            chunk
        };
        // Flags with Exif and XMP, a canvas of 640 x 480.
        let canvas = [0b1100, 0, 0, 0, 127, 2, 0, 223, 1, 0];
        let body = [
            chunk(b"VP8X", &canvas),
            chunk(b"VP8L", b"\x2Fpixels"),
            chunk(b"EXIF", b"II GPS 54.4609"),
            chunk(b"XMP ", b"<x:GPSLatitude>54,27.6N"),
        ]
        .concat();
        let mut file = b"RIFF".to_vec();
        file.extend(u32::try_from(body.len() + 4).unwrap().to_le_bytes());
        file.extend(b"WEBP");
        file.extend(body);
        let picture = cleaned([&file[..], b"GPS behind"].concat()).unwrap();
        assert_eq!((picture.width, picture.height), (640, 480));
        assert!(!holds(&picture.bytes, b"GPS"));
        assert!(holds(&picture.bytes, b"pixels"));
        assert_eq!(picture.bytes[20] & 0b1100, 0, "the flags say so");
    }

    #[test]
    fn what_is_no_picture_is_refused() {
        for bytes in [
            b"\xFF".to_vec(),
            b"%PDF-1.7".to_vec(),
            vec![0xFF, 0xD8, 0xFF, 0xD9],
        ] {
            assert_eq!(cleaned(bytes), Err(CameraFault::NotAPicture));
        }
    }
}
