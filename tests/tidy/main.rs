//! Rules about the text of the sources. Each rule is one module with one test
//! over the whole workspace and one that shows that it finds an offence.

// A rule fails by panicking with every offence it found.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod code;
mod ftl;
mod layering;
mod leftovers;
mod length;
mod literals;
mod paths;
mod purity;
mod readme;
mod sources;
mod steps;
mod texts;
mod words;
