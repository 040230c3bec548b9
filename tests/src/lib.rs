//! What Rakeline's tests and benches share.
//!
//! Suites: `published` (figures with their source), `workflow` (whole jobs on
//! the memory platform), `browser` (journeys in real Chromium, see
//! [`browser`]), `tidy` (rules about the text of the sources).

#[cfg(feature = "browser")]
pub mod browser;
pub mod cabin;
pub mod coverage_plans;
pub mod dice;
pub mod kit_cases;
pub mod markout;
pub mod oracle;
pub mod photo_solve;
pub mod printed;
pub mod tilt_sim;
