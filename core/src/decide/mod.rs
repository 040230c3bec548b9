//! Decisions: from estimates and a kit sheet to what is drilled and fitted.

pub mod mark_out;
pub mod ring_set;
