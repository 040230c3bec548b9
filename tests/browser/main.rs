//! Journeys in real Chromium at phone size.

// A journey fails by panicking with what it saw.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod full_size;
mod harness;
mod quick_path;
