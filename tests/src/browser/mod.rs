//! A phone for the tests: real Chromium at phone size with fed sensors.
//!
//! [`Server`] serves the app, [`Phone`] opens it. A journey reads as what the
//! fitter does: `phone.tap_named("Start a job")`,
//! `phone.type_into("Left", "880")`, `phone.hold_at_face(-4.2)`,
//! `phone.wait_for("faces down", 5)`. Every tap is a real touch and fails if
//! the target is hidden, covered, disabled or smaller than 48 px. At its end
//! a phone fails the test on any console error or uncaught exception.

// A harness fails its test by panicking with what it saw.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod cdp;
mod daylight;
mod files;
mod kills;
mod launch;
mod phone;
mod picture;
mod processes;
mod sensors;
mod server;
mod sound;
mod tab;
mod touch;
mod trace;

pub use kills::lost_over_kills;
pub use launch::PhoneSetup;
pub use phone::Phone;
pub use picture::Shot;
pub use processes::{browser_pid, memory_mib};
pub use sensors::{Attitude, SensorState};
pub use server::Server;
pub use trace::frames_ms;
