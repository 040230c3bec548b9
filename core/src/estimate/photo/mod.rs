//! Measuring from photos: mark cards are found in pixels, then solved for
//! places in millimetres.
//!
//! # Where to start
//! `decode` turns a file into a picture's brightness, `detect::look` finds
//! the mark [`card`]s in it: [`seen::PhotoSeen`]. Crosses carry the measure,
//! never the corners of the code: blur and ink move those. On the way a
//! saddle becomes a `cross` with its directions, four of them a `group`
//! with a `code`, and `refine` fits each.
//! [`scene::solve_photos`] solves one to six photos together,
//! [`measured::measure`] gives the figures between marks
//! ([`result::Measured`]), [`against::against_plan`] holds them against the
//! plan, [`heads::on_face`] brings taps onto the face;
//! [`outcome::outcome`] does all of it. Without cards,
//! [`plane`] measures short distances.
//!
//! # Pixels
//! x to the right, y downward, and the centre of the first pixel is (0, 0):
//! an image of width w spans x from -0.5 to w - 0.5.

pub mod against;
#[cfg(feature = "photo")]
pub mod bends;
#[cfg(feature = "photo")]
mod beside;
#[cfg(feature = "photo")]
pub mod bundle;
#[cfg(feature = "photo")]
pub mod camera;
pub mod card;
#[cfg(feature = "photo")]
pub mod centre;
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
pub mod fault;
#[cfg(feature = "photo")]
pub mod frame;
#[cfg(feature = "photo")]
mod gate;
#[cfg(feature = "photo")]
mod group;
#[cfg(feature = "photo")]
mod group_cut;
#[cfg(feature = "photo")]
pub mod heads;
#[cfg(feature = "photo")]
mod homography;
#[cfg(feature = "photo")]
mod join;
#[cfg(feature = "photo")]
mod light;
#[cfg(feature = "photo")]
pub mod luma;
#[cfg(feature = "photo")]
pub mod measured;
#[cfg(feature = "photo")]
pub mod normal;
#[cfg(feature = "photo")]
pub mod outcome;
#[cfg(feature = "photo")]
pub mod plane;
#[cfg(feature = "photo")]
pub mod pose;
#[cfg(feature = "photo")]
mod refine;
pub mod result;
#[cfg(feature = "photo")]
pub mod scene;
pub mod seen;
#[cfg(feature = "photo")]
mod soft;
#[cfg(feature = "photo")]
pub mod start;
#[cfg(feature = "photo")]
pub mod surface;
pub mod tag36h11;
