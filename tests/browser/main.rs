//! Journeys in real Chromium at phone size.

// A journey fails by panicking with what it saw.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod again;
mod cards;
mod fitter;
mod full_size;
mod harness;
mod hearing;
mod holes;
mod job_photos;
mod jobs;
mod kept;
mod kit;
mod learn;
mod learn_ten;
mod mark_out;
mod paper;
mod pictures;
mod quick_path;
mod quick_sheet;
mod sensors;
mod sight;
mod storage;
mod trouble;
mod typing;
mod walk;
mod whole;
mod whole_job;
mod zeroing;
