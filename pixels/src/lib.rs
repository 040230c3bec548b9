//! The loops over every pixel or code of a photo, and nothing else: the rest of
//! Rakeline is built for size, this is built for speed.
//!
//! # Pixels
//! x to the right, y downward, and the centre of the first pixel is (0, 0).

mod saddle;
mod scans;
mod sharpness;
mod upright;

pub use saddle::{RADIUS, Rows, Saddle, halved, saddles};
pub use scans::scans_are_whole;
pub use sharpness::sharpness;
pub use upright::upright;
