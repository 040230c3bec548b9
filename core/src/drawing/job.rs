//! The drawing of a job as far as it has come.

use super::{BumperView, Drawing, MarkView, Words, bumper_from_behind};
use crate::job::{HalfWidths, JobState, half_widths, sets_taken};
use crate::units::{Millimetres, Offset};

/// Half width that is drawn before anything was typed, mm.
const BLANK_HALF: Millimetres = Millimetres(860.0);

/// The bumper with what was typed so far, without marks.
#[must_use]
pub fn half_width_drawing(job: &JobState) -> Drawing {
    let (half_left, half_right) = match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => (left, right),
        HalfWidths::Open { .. } => (BLANK_HALF, BLANK_HALF),
    };
    bumper_from_behind(&BumperView {
        half_left,
        half_right,
        marks: Vec::new(),
        no_drill: areas(job),
    })
}

/// The bumper with its marks and, once chosen, the ring sets. Without marks
/// it is the bumper alone.
#[must_use]
pub fn marks_drawing(job: &JobState) -> Drawing {
    let Some(marks) = &job.marks else {
        return half_width_drawing(job);
    };
    let views = job
        .spots
        .iter()
        .zip(&marks.offsets)
        .zip(sets_taken(job))
        .map(|((spot, at), taken)| MarkView {
            label: spot.label.clone(),
            at: *at,
            below: taken.map(|taken| Words::Literal(taken.set.ring)),
        })
        .collect();
    bumper_from_behind(&BumperView {
        half_left: marks.half_left,
        half_right: marks.half_right,
        marks: views,
        no_drill: areas(job),
    })
}

fn areas(job: &JobState) -> Vec<(Offset, Offset)> {
    let areas = job.behind.no_drill.iter();
    areas.map(|area| (area.from, area.to)).collect()
}
