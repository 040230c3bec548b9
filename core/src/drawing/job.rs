//! The drawing of a job as far as it has come.

use super::{BumperView, Drawing, Item, MarkView, RowView, Words, bumper_from_behind};
use crate::decide::mark_out::Plan;
use crate::job::{HalfWidths, JobState, half_widths, row_from_line_words, sets_taken};
use crate::text::msg;
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
        row: None,
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
        row: row(job),
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
        row: row(job),
    })
}

/// The height of the marks, with the line it was measured from and the
/// ground in words below the drawing.
fn row(job: &JobState) -> Option<RowView> {
    let row = job.mark_out.row?;
    let ground = row
        .above_ground
        .map(|height| msg("drawing-row-ground").mm("mm", height.0));
    let says = row_from_line_words(job).into_iter().chain(ground);
    Some(RowView {
        from_line: row.from_line,
        says: says.collect(),
    })
}

/// Areas to keep clear of, as measured.
fn areas(job: &JobState) -> Vec<(Offset, Offset)> {
    let no_drill = &job.mark_out.no_drill;
    no_drill.iter().map(|area| (area.from, area.to)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::mark_out::PlanKind;
    use crate::drawing::Item;
    use crate::job::{Field, JobEvent, JobId, apply, plans};
    use crate::kit;

    fn fresh() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let at = chrono::DateTime::parse_from_rfc3339("2026-03-12T09:30:00+01:00").unwrap();
        JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at)
    }

    fn literals(drawing: &Drawing) -> Vec<&str> {
        let items = drawing.items.iter();
        items
            .filter_map(|item| match item {
                Item::Text {
                    words: Words::Literal(text),
                    ..
                } => Some(text.as_str()),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn a_job_without_anything_draws_a_bumper_without_marks() {
        let job = fresh();
        assert_eq!(marks_drawing(&job), half_width_drawing(&job));
        let blank = &half_width_drawing(&job);
        assert_eq!(
            blank.title,
            crate::text::msg("drawing-bumper-title").count("heads", 0)
        );
    }

    #[test]
    fn half_widths_that_cannot_be_used_draw_the_blank_bumper() {
        let mut job = fresh();
        let blank = half_width_drawing(&job);
        for text in ["wide", "-1", "1e999", "34.2"] {
            job.typed.insert(Field::HalfLeft, text.to_owned());
            job.typed.insert(Field::HalfRight, text.to_owned());
            assert_eq!(half_width_drawing(&job), blank, "{text}");
        }
    }

    #[test]
    fn marks_show_every_label_and_keep_the_half_widths_planned_with() {
        let mut job = fresh();
        for field in [Field::HalfLeft, Field::HalfRight] {
            job.typed.insert(field, "860".to_owned());
        }
        let planned = JobEvent::MarksPlanned {
            half_left: Millimetres(860.0),
            half_right: Millimetres(860.0),
            kind: PlanKind::Symmetric,
            offsets: plans(&job).unwrap().unwrap().symmetric.marks.clone(),
        };
        let changed = job.changed;
        let mut job = apply(&job, planned, changed).unwrap();
        let drawing = marks_drawing(&job);
        for label in ["1", "2", "3", "4"] {
            assert!(literals(&drawing).contains(&label));
        }
        job.typed.insert(Field::HalfLeft, "900".to_owned());
        assert_eq!(marks_drawing(&job), drawing);
    }
}
