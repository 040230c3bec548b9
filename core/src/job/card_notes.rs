//! What the measures of a photo look like, drawn on it.

use super::card_photos::CardPhotos;
use super::card_words::label;
use super::job_photos::{Note, PicturePlace};
use super::state::JobState;
use crate::estimate::photo::result::{BAR, Outcome, View};
use crate::order;
use crate::units::COVERAGE_95;

/// Letters of words on a picture as a share of its width: their height with
/// the gap to the next row, and the width of one. The widest that draws them,
/// the screen's, is meant.
const ROW: f64 = 0.062;
const LETTER: f64 = 0.032;
/// Words keep that far from each other, as a share of the width.
const APART: f64 = 0.02;

/// A photo's size and the way from its pixels to places on the picture.
struct Frame {
    wide: f64,
    high: f64,
}

impl Frame {
    fn across(&self, x: f64) -> f64 {
        ((x + 0.5) / self.wide).clamp(0.0, 1.0)
    }

    fn down(&self, y: f64) -> f64 {
        ((y + 0.5) / self.high).clamp(0.0, 1.0)
    }

    fn place(&self, [x, y]: [f64; 2], lower: f64) -> PicturePlace {
        PicturePlace {
            x: self.across(x) as f32,
            y: (self.down(y) + lower * self.row()).clamp(0.0, 1.0) as f32,
        }
    }

    /// Height of a row of words as a share of the picture's height.
    fn row(&self) -> f64 {
        ROW * self.wide / self.high
    }
}

/// What is drawn on a photo: marks with their offsets below them, gaps with
/// their ± above, a bar of true length. Words never lie on other words.
#[must_use]
pub fn notes_on(job: &JobState, photo: usize) -> Vec<Note> {
    let CardPhotos {
        photos, outcome, ..
    } = &job.card_photos;
    let (Some(photo), Some(outcome), Some(view)) = (
        photos.get(photo),
        outcome.as_ref(),
        outcome.as_ref().and_then(|all| all.views.get(photo)),
    ) else {
        return Vec::new();
    };
    let frame = Frame {
        wide: f64::from(photo.seen.width).max(1.0),
        high: f64::from(photo.seen.height).max(1.0),
    };
    let heights = view.marks.iter().map(|(_, [_, y])| frame.down(*y));
    let top = heights.clone().fold(1.0, f64::min);
    let bottom = heights.fold(0.0, f64::max);
    let mut notes = Vec::new();
    let mut above = Vec::new();
    for (left, right, words) in gaps(outcome, view) {
        notes.push(Note::Arrow(
            frame.place(left, -0.6),
            frame.place(right, -0.6),
        ));
        let middle = f64::midpoint(frame.across(left[0]), frame.across(right[0]));
        above.push((middle, words));
    }
    let mut below = Vec::new();
    for (mark, place) in &view.marks {
        let edge = [place[0] + frame.wide * 0.008, place[1]];
        notes.push(Note::Circle(
            frame.place(*place, 0.0),
            frame.place(edge, 0.0),
        ));
        below.push((frame.across(place[0]), mark_words(job, outcome, *mark)));
    }
    let rows = |first: f64, step: f64| move |row: usize| first + step * row as f64;
    let row = frame.row();
    let (above, _) = laid_out(above, rows(top - 0.9 * row, -row));
    let (below, used) = laid_out(below, rows(bottom + 1.2 * row, row));
    notes.extend(above);
    notes.extend(below);
    if let Some([from, to]) = view.bar {
        let under = used as f64 + 0.8;
        let level = |[x, _]: [f64; 2]| PicturePlace {
            x: frame.across(x) as f32,
            y: (bottom + under * row).clamp(0.0, 1.0) as f32,
        };
        notes.push(Note::Arrow(level(from), level(to)));
        let words = format!("{:.0} mm", BAR.0);
        let at = |row_from: f64| move |_| row_from;
        notes.extend(
            laid_out(
                vec![(level(from).x.into(), words)],
                at(bottom + (under + 0.9) * row),
            )
            .0,
        );
    }
    notes
}

/// Words about these middles, left to right, each in the first row that has
/// room for it; with how many rows it took.
fn laid_out(mut words: Vec<(f64, String)>, height: impl Fn(usize) -> f64) -> (Vec<Note>, usize) {
    order::sort_by(&mut words, |a, b| a.0.total_cmp(&b.0));
    let mut ends: Vec<f64> = Vec::new();
    let mut notes = Vec::new();
    for (middle, words) in words {
        let wide = words.chars().count() as f64 * LETTER;
        let from = (middle - wide / 2.0).clamp(0.0, (1.0 - wide).max(0.0));
        let free = ends.iter().position(|end| *end + APART <= from);
        let row = free.unwrap_or(ends.len());
        match ends.get_mut(row) {
            Some(end) => *end = from + wide,
            None => ends.push(from + wide),
        }
        let at = PicturePlace {
            x: from as f32,
            y: height(row).clamp(0.0, 1.0) as f32,
        };
        notes.push(Note::Words(at, words));
    }
    (notes, ends.len())
}

fn mark_words(job: &JobState, outcome: &Outcome, mark: usize) -> String {
    let straight = outcome.measured.marks.iter().find(|m| m.mark == mark);
    match straight.and_then(|m| m.straight) {
        Some(s) => format!(
            "{}: {:+.0} ± {:.1}",
            label(job, mark),
            s.value.0,
            s.u.0 * COVERAGE_95
        ),
        None => label(job, mark),
    }
}

/// Gaps between seen marks: their ends, pixels, and what they measure.
fn gaps<'a>(
    outcome: &'a Outcome,
    view: &'a View,
) -> impl Iterator<Item = ([f64; 2], [f64; 2], String)> + 'a {
    let place = |mark: usize| view.marks.iter().find(|m| m.0 == mark).map(|m| m.1);
    outcome.measured.gaps.iter().filter_map(move |gap| {
        let mm = gap.straight.unwrap_or(gap.chord);
        let words = format!("{:.1} ± {:.1}", mm.value.0, mm.expanded().0);
        Some((place(gap.left)?, place(gap.right)?, words))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_marks_that_stand_close_take_more_rows_and_stay_inside() {
        let marks = [0.30, 0.36, 0.42, 0.99].map(|x| (x, "2: -208 ± 0.7".to_owned()));
        let (notes, rows) = laid_out(marks.to_vec(), |row| 0.5 + 0.08 * row as f64);
        assert_eq!(rows, 3);
        let wide = 13.0 * LETTER;
        let boxes: Vec<(f64, f64)> = notes
            .iter()
            .map(|note| match note {
                Note::Words(at, _) => (f64::from(at.x), f64::from(at.y)),
                other => panic!("{other:?}"),
            })
            .collect();
        for (i, a) in boxes.iter().enumerate() {
            assert!(a.0 >= 0.0 && a.0 + wide <= 1.0 + 1e-6);
            for b in &boxes[i + 1..] {
                let apart = (a.0 - b.0).abs() >= wide || (a.1 - b.1).abs() > 0.05;
                assert!(apart, "{a:?} {b:?}");
            }
        }
    }
}
