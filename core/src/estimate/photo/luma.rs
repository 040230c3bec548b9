//! The brightness of a picture, all that detection looks at.

use super::seen::Exif;

/// An upright picture's brightness, sRGB-coded.
#[derive(Clone, Debug, PartialEq)]
pub struct Luma {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
    /// What the camera wrote beside the pixels.
    pub exif: Exif,
}

impl Luma {
    /// A picture of rows from the top; `None` unless there is one byte a
    /// pixel and at least one pixel.
    #[must_use]
    pub fn new(width: usize, height: usize, pixels: Vec<u8>) -> Option<Self> {
        let fits = width > 0 && height > 0 && width.checked_mul(height) == Some(pixels.len());
        fits.then_some(Self {
            width,
            height,
            pixels,
            exif: Exif::default(),
        })
    }

    /// Pixels across.
    #[must_use]
    pub fn width(&self) -> usize {
        self.width
    }

    /// Pixels down.
    #[must_use]
    pub fn height(&self) -> usize {
        self.height
    }

    /// Rows from the top, one byte a pixel.
    #[must_use]
    pub fn pixels(&self) -> &[u8] {
        &self.pixels
    }

    /// A row; empty where there is none.
    #[must_use]
    pub fn row(&self, y: usize) -> &[u8] {
        self.pixels
            .get(y * self.width..(y + 1) * self.width)
            .unwrap_or_default()
    }
}
