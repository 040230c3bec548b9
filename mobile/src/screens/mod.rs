//! One file a step. A screen reads the state and sends intents; it decides
//! and computes nothing.

mod behind;
mod check;
mod edit_marks;
mod faces;
mod full_size;
mod holes;
mod jobs;
mod keep_clear;
mod kit_edit;
mod kit_pick;
mod kit_quick;
mod kits;
mod loom;
mod marks;
mod measures;
mod opening;
mod parts;
mod ring_by_hand;
mod rings;
mod sheet;
mod supply;
mod typed_face;

pub use behind::Behind;
pub use check::Check;
pub use faces::Faces;
pub use holes::Holes;
pub use jobs::{Jobs, job_title};
pub use kit_edit::EditKit;
pub use kit_quick::QuickKit;
pub use kits::{Kit, Kits};
pub use loom::Loom;
pub use marks::Marks;
pub use measures::Measures;
pub use opening::Opening;
pub use parts::{Parts, Restock};
pub use rings::Rings;
pub use sheet::Sheet;
