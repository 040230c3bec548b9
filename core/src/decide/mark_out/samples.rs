//! Invented tasks for this module's tests.

use super::{Limits, MarkOutTask, NoDrill, NoDrillReason};
use crate::units::{Millimetres, Offset};

/// Both half widths 820, gap 180 to 450, inner 260, spacing from 150.
pub(super) fn task(heads: usize) -> MarkOutTask {
    MarkOutTask {
        heads,
        half_left: Millimetres(820.0),
        half_right: Millimetres(820.0),
        hole_radius: Millimetres(9.0),
        limits: Limits {
            inner: Millimetres(260.0),
            corner_gap_least: Millimetres(180.0),
            corner_gap_greatest: Millimetres(450.0),
            spacing_least: Millimetres(150.0),
            spacing_greatest: None,
            odd_head_within: Millimetres(40.0),
            clearance: Millimetres(3.0),
        },
        no_drill: Vec::new(),
        locks: Vec::new(),
        old_holes: Vec::new(),
    }
}

/// A lamp from one place to another.
pub(super) fn area(from: f64, to: f64) -> NoDrill {
    NoDrill {
        from: Offset(from),
        to: Offset(to),
        why: NoDrillReason::Lamp,
    }
}
