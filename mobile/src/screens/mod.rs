//! One file a step. A screen reads the state and sends intents; it decides
//! and computes nothing.

mod check;
mod corners;
mod edit_marks;
mod faces;
mod full_size;
mod ground;
mod jobs;
mod keep_clear;
mod level;
mod marks;
mod measures;
mod opening;
mod phone_form;
mod rings;
mod sheet;
mod typed_face;
mod zero;

pub use check::Check;
pub use corners::Corners;
pub use faces::Faces;
pub use ground::GroundScreen;
pub use jobs::{Jobs, job_title};
pub use level::Level;
pub use marks::Marks;
pub use measures::Measures;
pub use opening::Opening;
pub use rings::Rings;
pub use sheet::Sheet;
pub use zero::Zero;
