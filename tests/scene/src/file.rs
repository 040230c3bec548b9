//! A photo file as a phone makes it: JPEG with what the camera writes.

use std::io::Cursor;

use exif::experimental::Writer;
use exif::{Field, In, Rational, Tag, Value};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

use super::{Scene, Shot};

/// How a file is written.
#[derive(Clone, Copy, Debug)]
pub struct Wrapping {
    /// JPEG quality, 1 to 100.
    pub quality: u8,
    /// Whether it is progressive.
    pub scans: Scans,
    /// Orientation tag; the pixels are stored turned accordingly.
    pub orientation: u16,
    /// Whether a place is written.
    pub place: Place,
}

/// How the scans of a JPEG are laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scans {
    /// One after the other rows.
    Baseline,
    /// Coarse first.
    Progressive,
}

/// Whether the file says where it was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// It does.
    Written,
    /// It does not.
    Left,
}

impl Default for Wrapping {
    fn default() -> Self {
        Self {
            quality: 92,
            scans: Scans::Baseline,
            orientation: 1,
            place: Place::Left,
        }
    }
}

/// Upright rows as they are stored under an orientation tag (Exif 2.32,
/// 4.6.4): what stands at row 0 and column 0 of the file.
#[must_use]
pub fn stored(size: (usize, usize), grey: &[u8], orientation: u16) -> ((usize, usize), Vec<u8>) {
    let (width, height) = size;
    let lying = orientation >= 5;
    let (columns, lines) = if lying { (height, width) } else { size };
    let mut out = Vec::with_capacity(grey.len());
    for line in 0..lines {
        for column in 0..columns {
            let (x, y) = match orientation {
                2 => (width - 1 - column, line),
                3 => (width - 1 - column, height - 1 - line),
                4 => (column, height - 1 - line),
                5 => (line, column),
                6 => (width - 1 - line, column),
                7 => (width - 1 - line, height - 1 - column),
                8 => (line, height - 1 - column),
                _ => (column, line),
            };
            out.push(grey[y * width + x]);
        }
    }
    ((columns, lines), out)
}

/// A JPEG of a shot; `None` when the encoder refuses (sizes above 65,535).
#[must_use]
pub fn jpeg(scene: &Scene, shot: &Shot, wrapping: Wrapping) -> Option<Vec<u8>> {
    let (size, grey) = stored(shot.size, &shot.grey, wrapping.orientation);
    let beside = beside(scene.focal_35mm, size, wrapping)?;
    encode(size, &grey, wrapping, Some(&beside))
}

/// A JPEG of grey rows, in colour as phones make it, a little warm.
#[must_use]
pub fn encode(
    size: (usize, usize),
    grey: &[u8],
    wrapping: Wrapping,
    beside: Option<&[u8]>,
) -> Option<Vec<u8>> {
    let colours: Vec<u8> = grey.iter().flat_map(|&grey| [grey, 124, 131]).collect();
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, wrapping.quality);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.set_progressive(wrapping.scans == Scans::Progressive);
    if let Some(beside) = beside {
        encoder.add_exif_metadata(beside).ok()?;
    }
    let side = |length: usize| u16::try_from(length).ok();
    encoder
        .encode(&colours, side(size.0)?, side(size.1)?, ColorType::Ycbcr)
        .ok()?;
    Some(out)
}

/// What a camera writes: a TIFF block.
#[must_use]
pub fn beside(focal_35mm: f64, size: (usize, usize), wrapping: Wrapping) -> Option<Vec<u8>> {
    let field = |tag, value| Field {
        tag,
        ifd_num: In::PRIMARY,
        value,
    };
    let long = |value: usize| Value::Long(vec![u32::try_from(value).unwrap_or(0)]);
    let share = |num, denom| Rational { num, denom };
    // A sensor of 1/1.3 inch: its diagonal against that of 35 mm film.
    let focal = (focal_35mm / 3.6 * 100.0).round() as u32;
    let mut fields = vec![
        field(Tag::Make, Value::Ascii(vec![b"Rendered".to_vec()])),
        field(Tag::Orientation, Value::Short(vec![wrapping.orientation])),
        field(Tag::FocalLength, Value::Rational(vec![share(focal, 100)])),
        field(
            Tag::FocalLengthIn35mmFilm,
            Value::Short(vec![focal_35mm.round() as u16]),
        ),
        field(Tag::PixelXDimension, long(size.0)),
        field(Tag::PixelYDimension, long(size.1)),
    ];
    if wrapping.place == Place::Written {
        let degrees = |value| Value::Rational(vec![share(value, 1), share(12, 1), share(34, 1)]);
        fields.push(field(
            Tag::GPSLatitudeRef,
            Value::Ascii(vec![b"N".to_vec()]),
        ));
        fields.push(field(Tag::GPSLatitude, degrees(47)));
        fields.push(field(
            Tag::GPSLongitudeRef,
            Value::Ascii(vec![b"E".to_vec()]),
        ));
        fields.push(field(Tag::GPSLongitude, degrees(9)));
    }
    let mut writer = Writer::new();
    for field in &fields {
        writer.push_field(field);
    }
    let mut out = Cursor::new(Vec::new());
    writer.write(&mut out, false).ok()?;
    Some(out.into_inner())
}
