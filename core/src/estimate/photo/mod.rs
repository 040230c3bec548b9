//! Measuring from photos: mark cards are found in pixels, then solved for
//! places in millimetres.
//!
//! # Where to start
//! `decode` turns a file into a picture's brightness, `detect::look` finds
//! the mark [`card`]s in it: [`seen::PhotoSeen`]. Crosses carry the measure,
//! never the corners of the code: blur and ink move those. On the way a
//! saddle becomes a `cross` with its directions, four of them a `group`
//! with a `code`, and `refine` fits each.
//!
//! # Pixels
//! x to the right, y downward, and the centre of the first pixel is (0, 0):
//! an image of width w spans x from -0.5 to w - 0.5.

#[cfg(feature = "photo")]
mod beside;
pub mod card;
#[cfg(feature = "photo")]
mod code;
#[cfg(feature = "photo")]
mod cross;
#[cfg(feature = "photo")]
pub mod decode;
#[cfg(feature = "photo")]
pub mod detect;
#[cfg(feature = "photo")]
mod erf;
#[cfg(feature = "photo")]
mod group;
#[cfg(feature = "photo")]
mod homography;
#[cfg(feature = "photo")]
mod light;
#[cfg(feature = "photo")]
pub mod luma;
#[cfg(feature = "photo")]
mod refine;
pub mod seen;
pub mod tag36h11;
