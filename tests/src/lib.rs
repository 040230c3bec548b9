//! What Rakeline's tests and benches share.
//!
//! Suites: `published` (figures with their source), `workflow` (whole jobs on
//! the memory platform), `browser` (journeys in real Chromium, see
//! [`browser`]), `tidy` (rules about the text of the sources).

pub mod again_cases;
#[cfg(feature = "browser")]
pub mod browser;
pub mod cabin;
pub mod coverage_plans;
pub mod fault_cases;
pub mod kit_cases;
pub mod markout;
pub mod oracle;
pub mod peer;
pub mod photo_solve;
pub mod printed;
pub mod tilt_sim;

pub use rakeline_scene as scene;
pub use rakeline_scene::dice;
