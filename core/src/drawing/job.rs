//! The drawing of a job as far as it has come.

use super::{BumperView, Drawing, Item, MarkView, Words, bumper_from_behind};
use crate::decide::mark_out::Plan;
use crate::job::{HalfWidths, JobState, half_widths, ring_choices};
use crate::units::{Millimetres, Offset};

/// Half width that is drawn before anything was typed, mm.
const BLANK_HALF: Millimetres = Millimetres(860.0);

/// The bumper with what was typed so far, without marks.
#[must_use]
pub fn half_width_drawing(job: &JobState) -> Drawing {
    let (half_left, half_right) = halves(job);
    let mut drawing = bumper_from_behind(&BumperView {
        half_left,
        half_right,
        marks: Vec::new(),
        no_drill: areas(job),
    });
    if matches!(half_widths(job), HalfWidths::Open { .. }) {
        // Nobody measured this one: no figures.
        drawing
            .items
            .retain(|item| !matches!(item, Item::Text { .. }));
    }
    drawing
}

fn halves(job: &JobState) -> (Millimetres, Millimetres) {
    match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => (left, right),
        HalfWidths::Open { .. } => (BLANK_HALF, BLANK_HALF),
    }
}

/// The bumper with its marks and, once chosen, the ring sets. Without marks
/// it is the bumper alone.
#[must_use]
pub fn marks_drawing(job: &JobState) -> Drawing {
    marks_drawing_with(job, None)
}

/// The same with one mark, by its spot, at another place: as it is dragged.
#[must_use]
pub fn marks_drawing_with(job: &JobState, moved: Option<(usize, Offset)>) -> Drawing {
    let Some(marks) = &job.marks else {
        return half_width_drawing(job);
    };
    let mut offsets = marks.offsets.clone();
    if let Some((spot, to)) = moved
        && let Some(place) = offsets.get_mut(spot)
    {
        *place = to;
    }
    let views = job
        .spots
        .iter()
        .zip(&offsets)
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
        no_drill: areas(job),
    })
}

/// The bumper with a plan that was not taken yet.
#[must_use]
pub fn plan_drawing(job: &JobState, plan: &Plan) -> Drawing {
    let (half_left, half_right) = halves(job);
    let marks = job
        .spots
        .iter()
        .zip(&plan.marks)
        .map(|(spot, at)| MarkView {
            label: spot.label.clone(),
            at: *at,
            below: None,
        });
    bumper_from_behind(&BumperView {
        half_left,
        half_right,
        marks: marks.collect(),
        no_drill: areas(job),
    })
}

/// Areas to keep clear of, as measured.
fn areas(job: &JobState) -> Vec<(Offset, Offset)> {
    let no_drill = &job.mark_out.no_drill;
    no_drill.iter().map(|area| (area.from, area.to)).collect()
}
