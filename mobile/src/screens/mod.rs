//! One file a step. A screen reads the state and sends intents; it decides
//! and computes nothing.

mod check;
mod edit_marks;
mod faces;
mod full_size;
mod jobs;
mod keep_clear;
mod marks;
mod measures;
mod opening;
mod rings;
mod sheet;
mod typed_face;

pub use check::Check;
pub use faces::Faces;
pub use jobs::{Jobs, job_title};
pub use marks::Marks;
pub use measures::Measures;
pub use opening::Opening;
pub use rings::Rings;
pub use sheet::Sheet;
