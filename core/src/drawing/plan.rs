//! The bumper's shape from above, as a sweep found it, with the figures that
//! a tape along the face needs.

use super::bumper::LETTER;
use super::dimension::{Dimension, Figure, length, text};
use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, line};
use crate::estimate::rake::Turn;
use crate::estimate::shape::PlanCurve;
use crate::job::{JobState, along_known, corner_angle, plan_curve};
use crate::text::msg;
use crate::units::Degrees;

/// Points of the outline.
const POINTS: usize = 60;

/// A mark on the shape.
struct OnShape {
    label: String,
    /// Its place on the drawing.
    at: At,
    /// Straight and along the face from the centre line, mm.
    straight: f64,
    along: f64,
    /// Where the face looks there, + to the right.
    turn: Option<Degrees>,
}

/// Draws the shape from above with the marks that it reaches, the vehicle
/// upward; `None` without a sweep. In millimetres, true to scale. Each mark
/// has its distance from the centre line along the face and straight, and
/// its corner angle where that is known.
#[must_use]
pub fn shape_from_above(job: &JobState) -> Option<Drawing> {
    let curve = plan_curve(job)?;
    let outline: Vec<(f64, f64)> = curve
        .outline(POINTS)
        .iter()
        .map(|[x, y]| (x.0, -y.0))
        .collect();
    let marks = marks_on(job, &curve);
    let ends = outline
        .iter()
        .map(|p| p.0)
        .chain(marks.iter().map(|m| m.at.0));
    let (least, most) = ends.fold((0.0_f64, 0.0_f64), |(a, b), x| (a.min(x), b.max(x)));
    let unit = (most - least) * LETTER;
    let (left, right) = (least - unit * 1.4, most + unit * 1.4);
    let highest = outline.iter().map(|p| p.1).fold(0.0, f64::min);
    let top = highest - unit * 1.6;
    let mut items = vec![line(Pen::Outline, &outline)];
    for knot in curve.knots() {
        let (x, y) = curve.place(knot.along);
        items.push(Item::Circle {
            pen: Pen::Solid,
            centre: At(x.value.0, -y.value.0),
            radius: unit * 0.12,
        });
    }
    for mark in &marks {
        items.extend(mark.draw(unit));
    }
    let lowest = outline.iter().map(|p| p.1).fold(0.0, f64::max);
    let mut foot = lowest + unit * 3.1;
    for row in rows(&marks) {
        foot += row.above(unit);
        items.extend(row.draw(foot, left, unit));
        foot += unit * 0.5;
    }
    // Behind everything else.
    items.insert(
        0,
        line(Pen::Centre, &[(0.0, top + unit * 0.3), (0.0, foot)]),
    );
    let bottom = foot + unit * 0.3;
    Some(Drawing {
        from: At(left, top),
        size: At(right - left, bottom - top),
        title: msg("drawing-plan-title"),
        items,
    })
}

fn marks_on(job: &JobState, curve: &PlanCurve) -> Vec<OnShape> {
    let offsets = job.marks.iter().flat_map(|marks| &marks.offsets);
    let mark = |(spot, offset): (usize, &crate::units::Offset)| {
        let along = along_known(curve, *offset)?.value;
        let (x, y) = curve.place(along);
        Some(OnShape {
            label: job.spots.get(spot)?.label.clone(),
            at: At(x.value.0, -y.value.0),
            straight: offset.0,
            along: along.0,
            turn: match corner_angle(job, spot) {
                Turn::Known(turn) => Some(turn.value),
                Turn::NotKnown => None,
            },
        })
    };
    offsets.enumerate().filter_map(mark).collect()
}

impl OnShape {
    /// The way that the face looks there, with the label at its end.
    fn draw(&self, unit: f64) -> [Item; 2] {
        let turn = self.turn.unwrap_or_default();
        let (dx, dy) = (turn.sin(), turn.cos());
        let on = |reach: f64| (self.at.0 + dx * unit * reach, self.at.1 + dy * unit * reach);
        let end = on(2.1);
        [
            line(Pen::Ink, &[on(-0.4), on(1.3)]),
            text(
                Lettering::Strong,
                At(end.0, end.1 + unit * 0.4),
                Anchor::Middle,
                unit * 1.1,
                Words::Literal(self.label.clone()),
            ),
        ]
    }

    fn figure(&self, says: String) -> Figure {
        Figure {
            at: self.at.0,
            says,
        }
    }
}

/// The figures below the shape, row by row.
fn rows(marks: &[OnShape]) -> Vec<Dimension> {
    if marks.is_empty() {
        return Vec::new();
    }
    let row = |key: &'static str, say: &dyn Fn(&OnShape) -> Option<String>| {
        let figures = marks
            .iter()
            .filter_map(|mark| Some(mark.figure(say(mark)?)));
        Dimension::from_centre(msg(key), figures.collect())
    };
    let mut rows = vec![
        row("drawing-along-face", &|mark| {
            Some(length(mark.along.round()))
        }),
        row("drawing-straight", &|mark| Some(length(mark.straight))),
    ];
    let angles = row("drawing-corner-angles", &|mark| {
        Some(format!("{:.0}°", mark.turn?.0.abs()))
    });
    if !angles.figures.is_empty() {
        rows.push(Dimension {
            stations: angles.figures.iter().map(|figure| figure.at).collect(),
            from_centre: false,
            ..angles
        });
    }
    rows
}
