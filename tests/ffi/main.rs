//! The core for other languages gives what the core gives, in each of them.
//!
//! `vectors` computes a list of named results in Rust; the scripts beside it
//! compute the same list through the generated bindings, Python here and
//! Kotlin in `cargo xtask android-check`. All compare with the list kept in
//! `tests/fixtures/ffi/expected.txt`.

// A test fails by panicking with what it saw.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod core_says;
mod fixtures;
mod python;
mod vectors;
