//! Measuring from photos: mark cards are found in pixels, then solved for
//! places in millimetres.
//!
//! # Where to start
//! A mark [`card`] is seen by its crosses: [`seen::PhotoSeen`]. Crosses
//! carry the measure, never the corners of the code: blur and ink move those.
//!
//! # Pixels
//! x to the right, y downward, and the centre of the first pixel is (0, 0):
//! an image of width w spans x from -0.5 to w - 0.5.

pub mod card;
#[cfg(feature = "photo")]
pub mod luma;
pub mod seen;
pub mod tag36h11;
