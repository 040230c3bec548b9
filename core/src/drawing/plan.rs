//! The bumper's shape from above, as a sweep found it.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, line};
use crate::job::{JobState, along_known, plan_curve};
use crate::text::msg;

/// Points of the outline.
const POINTS: usize = 60;

/// Draws the shape from above with the marks that it reaches, the vehicle
/// upward; `None` without a sweep. In millimetres, true to scale.
#[must_use]
pub fn shape_from_above(job: &JobState) -> Option<Drawing> {
    let curve = plan_curve(job)?;
    let outline: Vec<(f64, f64)> = curve
        .outline(POINTS)
        .iter()
        .map(|[x, y]| (x.0, -y.0))
        .collect();
    let left = outline.iter().map(|p| p.0).fold(0.0, f64::min) - 120.0;
    let right = outline.iter().map(|p| p.0).fold(0.0, f64::max) + 120.0;
    let top = outline.iter().map(|p| p.1).fold(0.0, f64::min) - 160.0;
    let bottom = 170.0;
    let mut items = vec![
        line(Pen::Outline, &outline),
        line(Pen::Centre, &[(0.0, top + 20.0), (0.0, 90.0)]),
    ];
    for knot in curve.knots() {
        let (x, y) = curve.place(knot.along);
        items.push(Item::Circle {
            pen: Pen::Solid,
            centre: At(x.value.0, -y.value.0),
            radius: 9.0,
        });
    }
    let marks = job.marks.iter().flat_map(|marks| &marks.offsets);
    for (spot, offset) in job.spots.iter().zip(marks) {
        let Some(along) = along_known(&curve, *offset) else {
            continue;
        };
        let (x, y) = curve.place(along.value);
        items.push(line(
            Pen::Ink,
            &[
                (x.value.0, -y.value.0 - 26.0),
                (x.value.0, -y.value.0 + 26.0),
            ],
        ));
        items.push(Item::Text {
            lettering: Lettering::Strong,
            at: At(x.value.0, -y.value.0 + 88.0),
            anchor: Anchor::Middle,
            size: 58.0,
            words: Words::Literal(spot.label.clone()),
        });
    }
    Some(Drawing {
        from: At(left, top),
        size: At(right - left, bottom - top),
        title: msg("drawing-plan-title"),
        items,
    })
}
