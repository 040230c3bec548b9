//! Decisions: from estimates and a kit sheet to what is drilled and fitted.

pub mod coverage;
pub mod drill;
pub mod leads;
pub mod look_behind;
pub mod mark_out;
pub mod parts;
pub mod ring_set;
pub mod supply;
pub mod walk_test;
