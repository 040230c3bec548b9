//! The drawing of a job as far as it has come.

use super::{BumperView, Drawing, Item, MarkView, Words, bumper_from_behind};
use crate::job::{HalfWidths, JobState, half_widths, ring_choices};
use crate::units::Millimetres;

/// Half width that is drawn before anything was typed, mm.
const BLANK_HALF: Millimetres = Millimetres(860.0);

/// The bumper with what was typed so far, without marks.
#[must_use]
pub fn half_width_drawing(job: &JobState) -> Drawing {
    let bare = |half_left, half_right| {
        bumper_from_behind(&BumperView {
            half_left,
            half_right,
            marks: Vec::new(),
            no_drill: Vec::new(),
        })
    };
    match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => bare(left, right),
        HalfWidths::Open { .. } => {
            let mut blank = bare(BLANK_HALF, BLANK_HALF);
            // Nobody measured this one: no figures.
            blank
                .items
                .retain(|item| !matches!(item, Item::Text { .. }));
            blank
        }
    }
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
        .zip(ring_choices(job))
        .map(|((spot, at), choice)| MarkView {
            label: spot.label.clone(),
            at: *at,
            below: choice
                .as_ref()
                .and_then(|choice| choice.set())
                .map(|set| Words::Literal(set.ring.clone())),
        })
        .collect();
    bumper_from_behind(&BumperView {
        half_left: marks.half_left,
        half_right: marks.half_right,
        marks: views,
        no_drill: Vec::new(),
    })
}
