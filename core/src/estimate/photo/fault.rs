//! Why a file gives no picture, and the limits that pictures are held to:
//! the same where a photo is kept and where it is measured in.

use crate::text::{Message, msg};

/// Largest file, bytes. A backup takes each picture whole: its largest entry
/// has to lie above this.
pub const LARGEST_FILE: usize = 64_000_000;
/// Most pixels of a picture.
pub const MOST_PIXELS: u64 = 100_000_000;

/// Why a file gives no picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PhotoFault {
    /// The file is larger than [`LARGEST_FILE`].
    FileTooLarge {
        /// Its bytes.
        bytes: usize,
    },
    /// The picture has more than [`MOST_PIXELS`].
    TooManyPixels {
        /// Its size.
        size: (u64, u64),
    },
    /// It has no pixels.
    Empty,
    /// A phone's HEIC or AVIF file, or a film.
    Heic,
    /// Neither JPEG nor PNG nor WebP.
    OtherType,
    /// The file ends too early.
    CutShort,
    /// The file is damaged.
    Damaged(String),
}

impl PhotoFault {
    /// What is wrong and what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        const MEGA: f64 = 1e6;
        match self {
            Self::FileTooLarge { bytes } => msg("photo-file-too-large")
                .number("size", *bytes as f64 / MEGA, 1)
                .number("limit", LARGEST_FILE as f64 / MEGA, 0),
            Self::TooManyPixels { size } => msg("photo-too-many-pixels")
                .text("size", format!("{} × {}", size.0, size.1))
                .number("limit", MOST_PIXELS as f64 / MEGA, 0),
            Self::Empty => msg("photo-empty"),
            Self::Heic => msg("photo-heic"),
            Self::OtherType => msg("photo-other-type"),
            Self::CutShort => msg("photo-cut-short"),
            Self::Damaged(why) => msg("photo-damaged").text("why", why.clone()),
        }
    }

    /// Holds the size of a file to the limit.
    ///
    /// # Errors
    /// [`PhotoFault::Empty`] and [`PhotoFault::FileTooLarge`].
    pub fn of_file(bytes: usize) -> Result<(), Self> {
        match bytes {
            0 => Err(Self::Empty),
            1..=LARGEST_FILE => Ok(()),
            _ => Err(Self::FileTooLarge { bytes }),
        }
    }

    /// Holds a picture's width and height to the limit.
    ///
    /// # Errors
    /// [`PhotoFault::Empty`] and [`PhotoFault::TooManyPixels`].
    pub fn of_size(width: u64, height: u64) -> Result<(), Self> {
        match width.checked_mul(height) {
            Some(0) => Err(Self::Empty),
            Some(1..=MOST_PIXELS) => Ok(()),
            _ => Err(Self::TooManyPixels {
                size: (width, height),
            }),
        }
    }
}
