//! What a camera writes beside the pixels: Exif, read only.

use std::io::Cursor;

use exif::{Field, In, Reader, Tag, Value};

use super::seen::{Exif, Origin};

/// Focal lengths that a phone or a camera can have, mm.
const FOCAL: core::ops::RangeInclusive<f64> = 1.0..=2_000.0;

/// Reads focal length, orientation and size of a JPEG, PNG or WebP file
/// whose pixels are `size` as stored. Unreadable data counts as none.
#[must_use]
pub fn beside(bytes: &[u8], size: (usize, usize)) -> Exif {
    let none = Exif {
        orientation: 1,
        ..Exif::default()
    };
    let Ok(exif) = Reader::new().read_from_container(&mut Cursor::new(bytes)) else {
        return none;
    };
    let field = |tag| exif.get_field(tag, In::PRIMARY);
    let whole = |tag| field(tag).and_then(|field| field.value.get_uint(0));
    let focal_mm = field(Tag::FocalLength).and_then(ratio);
    let focal_35mm = whole(Tag::FocalLengthIn35mmFilm)
        .map(f64::from)
        .filter(|focal| FOCAL.contains(focal));
    let orientation = whole(Tag::Orientation)
        .and_then(|tag| u16::try_from(tag).ok())
        .filter(|tag| (1..=8).contains(tag))
        .unwrap_or(1);
    let written = whole(Tag::PixelXDimension).zip(whole(Tag::PixelYDimension));
    let origin = if focal_mm.is_none() && focal_35mm.is_none() {
        Origin::Unknown
    } else if written.is_some_and(|written| !same_size(written, size)) {
        Origin::Changed
    } else {
        Origin::Camera
    };
    Exif {
        focal_35mm,
        focal_mm,
        orientation,
        origin,
    }
}

/// Whether the size that was written is the picture's; an editor that turns
/// a picture may leave it lying.
fn same_size(written: (u32, u32), size: (usize, usize)) -> bool {
    let written = (written.0 as usize, written.1 as usize);
    written == size || written == (size.1, size.0) || written == (0, 0)
}

fn ratio(field: &Field) -> Option<f64> {
    let Value::Rational(values) = &field.value else {
        return None;
    };
    let value = values.first()?.to_f64();
    FOCAL.contains(&value).then_some(value)
}
