//! From a file's bytes to an upright picture's brightness.
//!
//! Sizes are read from the header and held to the limits before any pixel
//! memory is asked for.

use std::io::Cursor;

use image::codecs::png::PngDecoder;
use image::codecs::webp::WebPDecoder;
use image::{DynamicImage, ImageDecoder};
use rakeline_pixels::{scans_are_whole, upright};
use zune_jpeg::JpegDecoder;
use zune_jpeg::zune_core::bytestream::ZCursor;
use zune_jpeg::zune_core::colorspace::ColorSpace;
use zune_jpeg::zune_core::options::DecoderOptions;

use super::beside::beside;
use super::fault::MOST_PIXELS;
pub use super::fault::PhotoFault;
use super::luma::Luma;

/// Most bytes that a picture's pixels may take on the way: four channels of
/// so many pixels.
const MOST_BYTES: u64 = 4 * MOST_PIXELS;

/// The file types that are read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Jpeg,
    Png,
    WebP,
}

/// Decodes a JPEG (baseline or progressive), PNG or WebP file into an upright
/// picture's brightness.
///
/// # Errors
/// [`PhotoFault`]; its message says what to do.
pub fn decode(bytes: &[u8]) -> Result<Luma, PhotoFault> {
    PhotoFault::of_file(bytes.len())?;
    let (width, height, pixels) = match kind(bytes)? {
        Kind::Jpeg => jpeg(bytes, ColorSpace::Luma)?,
        Kind::Png => luma(picture(PngDecoder::new(Cursor::new(bytes)))?),
        Kind::WebP => luma(picture(WebPDecoder::new(Cursor::new(bytes)))?),
    };
    let exif = beside(bytes, (width, height));
    let (width, height, pixels) = upright((width, height), pixels, exif.orientation);
    let mut luma =
        Luma::new(width, height, pixels).ok_or_else(|| PhotoFault::Damaged("size".to_owned()))?;
    luma.exif = exif;
    Ok(luma)
}

/// Decodes a JPEG, PNG or WebP file into rows of red, green and blue, as they
/// lie in the file, with the orientation tag that turns them upright.
///
/// # Errors
/// [`PhotoFault`]; its message says what to do.
pub fn colours(bytes: &[u8]) -> Result<(Pixels, u16), PhotoFault> {
    PhotoFault::of_file(bytes.len())?;
    let rgb = |picture: DynamicImage| {
        let size = (picture.width() as usize, picture.height() as usize);
        (size.0, size.1, picture.into_rgb8().into_raw())
    };
    let pixels = match kind(bytes)? {
        Kind::Jpeg => jpeg(bytes, ColorSpace::RGB)?,
        Kind::Png => rgb(picture(PngDecoder::new(Cursor::new(bytes)))?),
        Kind::WebP => rgb(picture(WebPDecoder::new(Cursor::new(bytes)))?),
    };
    let turned = beside(bytes, (pixels.0, pixels.1)).orientation;
    Ok((pixels, turned))
}

fn kind(bytes: &[u8]) -> Result<Kind, PhotoFault> {
    let brand = |at: usize| bytes.get(at..at + 4);
    if bytes.is_empty() {
        Err(PhotoFault::Empty)
    } else if bytes.starts_with(&[0xFF, 0xD8, 0xFF]) {
        Ok(Kind::Jpeg)
    } else if bytes.starts_with(b"\x89PNG\r\n\x1a\n") {
        Ok(Kind::Png)
    } else if brand(0) == Some(b"RIFF") && brand(8) == Some(b"WEBP") {
        Ok(Kind::WebP)
    } else if brand(4) == Some(b"ftyp") {
        // ISO base media: HEIC, AVIF, or a film.
        Err(PhotoFault::Heic)
    } else {
        Err(PhotoFault::OtherType)
    }
}

/// Width, height and rows.
pub type Pixels = (usize, usize, Vec<u8>);

fn jpeg(bytes: &[u8], wanted: ColorSpace) -> Result<Pixels, PhotoFault> {
    let (width, height) = jpeg_size(bytes).ok_or(PhotoFault::CutShort)?;
    PhotoFault::of_size(width.into(), height.into())?;
    if !jpeg_ends(bytes) {
        return Err(PhotoFault::CutShort);
    }
    let damaged = |fault: &dyn core::fmt::Debug| PhotoFault::Damaged(short(&format!("{fault:?}")));
    // For measuring strict: what is damaged is refused, not shown as far as it
    // goes, where cards may stand beside their places.
    let options = DecoderOptions::default()
        .set_strict_mode(wanted == ColorSpace::Luma)
        .jpeg_set_out_colorspace(wanted)
        .set_max_width(usize::from(u16::MAX))
        .set_max_height(usize::from(u16::MAX));
    let mut decoder = JpegDecoder::new_with_options(ZCursor::new(bytes), options);
    decoder.decode_headers().map_err(|fault| damaged(&fault))?;
    let size = decoder.dimensions();
    if size != Some((usize::from(width), usize::from(height))) {
        return Err(PhotoFault::Damaged("two sizes".to_owned()));
    }
    if decoder.output_colorspace() != Some(wanted) {
        return Err(PhotoFault::Damaged("colours".to_owned()));
    }
    if wanted == ColorSpace::Luma && !scans_are_whole(bytes) {
        return Err(PhotoFault::Damaged("shifted".to_owned()));
    }
    let pixels = decoder.decode().map_err(|fault| damaged(&fault))?;
    Ok((width.into(), height.into(), pixels))
}

/// A decoder's words, held short enough for a screen.
fn short(words: &str) -> String {
    words.chars().take(80).collect()
}

/// The segments of a JPEG up to its first scan: marker and content.
fn segments(bytes: &[u8]) -> impl Iterator<Item = (u8, &[u8], usize)> {
    let mut at = 2;
    core::iter::from_fn(move || {
        while bytes.get(at)? == &0xFF && bytes.get(at + 1)? == &0xFF {
            at += 1;
        }
        let marker = *bytes.get(at + 1).filter(|_| bytes[at] == 0xFF)?;
        let length = usize::from(u16::from_be_bytes([
            *bytes.get(at + 2)?,
            *bytes.get(at + 3)?,
        ]));
        let content = bytes.get(at + 4..at + 2 + length)?;
        at += 2 + length;
        Some((marker, content, at))
    })
}

/// Width and height of the first frame header (ITU-T T.81, B.2.2).
fn jpeg_size(bytes: &[u8]) -> Option<(u16, u16)> {
    let (_, frame, _) = segments(bytes).find(|(marker, ..)| {
        (0xC0..=0xCF).contains(marker) && !matches!(marker, 0xC4 | 0xC8 | 0xCC)
    })?;
    let size: [u8; 4] = frame.get(1..5)?.try_into().ok()?;
    Some((
        u16::from_be_bytes([size[2], size[3]]),
        u16::from_be_bytes([size[0], size[1]]),
    ))
}

/// Whether the end of the image stands after the first scan: inside coded
/// data 0xFF is followed by 0 or a restart marker only.
fn jpeg_ends(bytes: &[u8]) -> bool {
    let Some((_, _, scan)) = segments(bytes).find(|(marker, ..)| *marker == 0xDA) else {
        return false;
    };
    bytes
        .get(scan..)
        .is_some_and(|data| data.windows(2).any(|two| two == [0xFF, 0xD9]))
}

/// A picture by a decoder of the `image` crate.
fn picture<D: ImageDecoder>(
    decoder: Result<D, image::ImageError>,
) -> Result<DynamicImage, PhotoFault> {
    let decoder = decoder.map_err(fault)?;
    let (width, height) = decoder.dimensions();
    PhotoFault::of_size(width.into(), height.into())?;
    if decoder.total_bytes() > MOST_BYTES {
        return Err(PhotoFault::TooManyPixels {
            size: (width.into(), height.into()),
        });
    }
    DynamicImage::from_decoder(decoder).map_err(fault)
}

fn luma(picture: DynamicImage) -> Pixels {
    let size = (picture.width() as usize, picture.height() as usize);
    (size.0, size.1, picture.into_luma8().into_raw())
}

fn fault(fault: image::ImageError) -> PhotoFault {
    match &fault {
        image::ImageError::IoError(io) if io.kind() == std::io::ErrorKind::UnexpectedEof => {
            PhotoFault::CutShort
        }
        other => PhotoFault::Damaged(short(&other.to_string())),
    }
}
