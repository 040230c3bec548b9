//! Parts of screens: they show what they are given and report what was done.

mod drawing;
mod field;
mod frame;
mod held;
mod not_stored;
mod notice;
mod path;
mod to_top;
mod typed;

pub use drawing::{DrawingView, Hatches, Mark, MarkSwatch, Swatch};
pub use field::{Entry, Focus, Kind};
pub use frame::Frame;
pub use held::{Figures, HeldBox};
pub use not_stored::NotStored;
pub use notice::NoticeBar;
pub use path::PathStrip;
pub use to_top::ToTop;
pub use typed::{AskedFields, Cautions, TypedEntry};
