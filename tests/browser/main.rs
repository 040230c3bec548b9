//! Journeys in real Chromium at phone size.

mod harness;
mod quick_path;
