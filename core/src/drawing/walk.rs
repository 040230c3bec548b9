//! The walk test from above, to scale: the bumper at the top, the points
//! below it, each with what sounded there; and the gate in one picture.
//!
//! What sounded is told by shape: nothing is a cross, far one ring, middle
//! two, near a filled disc; a point without a tap is empty.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, area, line};
use crate::decide::walk_test::Sounded;
use crate::job::{JobState, WalkTest, walk_area};
use crate::order;
use crate::text::msg;
use crate::units::Millimetres;

/// More points than this are drawn without numbers.
const NUMBERED: usize = 24;

/// Draws a test of a job; `next` is the point that is walked now. `None`
/// where the width is not known.
#[must_use]
pub fn walk_plan(job: &JobState, test: &WalkTest, next: Option<usize>) -> Option<Drawing> {
    let area = walk_area(job).ok()?;
    let (left, right) = (-area.half_left.0, area.half_right.0);
    let deepest = test.points.iter().map(|p| p.behind.0).fold(500.0, f64::max);
    let unit = (right - left) * 0.04;
    let mut items = vec![
        // The vehicle's rear, cut off above.
        line(
            Pen::Outline,
            &[
                (left, -3.0 * unit),
                (left, 0.0),
                (right, 0.0),
                (right, -3.0 * unit),
            ],
        ),
        line(
            Pen::Centre,
            &[(0.0, -3.0 * unit), (0.0, deepest + 2.0 * unit)],
        ),
    ];
    items.extend(heads(job, unit));
    items.extend(object(job));
    items.extend(rows(test, right, unit));
    for (index, _) in test.points.iter().enumerate() {
        items.extend(point(test, index, next == Some(index), unit));
    }
    Some(Drawing {
        from: At(left - unit, -3.0 * unit),
        size: At(right - left + 5.6 * unit, deepest + 6.0 * unit),
        title: msg("drawing-walk-title").count("points", test.points.len() as i64),
        items,
    })
}

fn heads(job: &JobState, unit: f64) -> Vec<Item> {
    let offsets = job.marks.iter().flat_map(|marks| &marks.offsets);
    offsets
        .zip(&job.spots)
        .flat_map(|(offset, spot)| {
            let x = offset.0;
            let body = [
                (x - unit * 0.4, -unit * 0.4),
                (x + unit * 0.4, -unit * 0.4),
                (x + unit * 0.4, 0.0),
                (x - unit * 0.4, 0.0),
            ];
            [
                area(Pen::Solid, &body),
                text(
                    Lettering::Strong,
                    At(x, -unit * 0.9),
                    Anchor::Middle,
                    unit,
                    &spot.label,
                ),
            ]
        })
        .collect()
}

fn object(job: &JobState) -> Option<Item> {
    let object = job.walk.learned.as_ref()?;
    let (x, half, reach) = (object.across.0, object.half_width.0, object.reaches.0);
    let corners = [
        (x - half, 0.0),
        (x + half, 0.0),
        (x + half, reach),
        (x - half, reach),
    ];
    Some(area(Pen::Shut, &corners))
}

/// How far behind each row is, at the right edge.
fn rows(test: &WalkTest, right: f64, unit: f64) -> Vec<Item> {
    let mut behind: Vec<f64> = test.points.iter().map(|p| p.behind.0).collect();
    order::sort_by(&mut behind, f64::total_cmp);
    behind.dedup_by(|a, b| (*a - *b).abs() < 1.9 * unit);
    behind
        .into_iter()
        .flat_map(|y| {
            let words = format!("{y:.0}");
            let at = At(right + 1.2 * unit, y + 0.35 * unit);
            [
                line(Pen::Thin, &[(right + 0.2 * unit, y), (right + unit, y)]),
                text(Lettering::Plain, at, Anchor::Start, unit, &words),
            ]
        })
        .collect()
}

fn point(test: &WalkTest, index: usize, is_next: bool, unit: f64) -> Vec<Item> {
    let Some(place) = test.points.get(index) else {
        return Vec::new();
    };
    let many = test.points.len() > NUMBERED;
    let radius = if many { unit * 0.42 } else { unit * 0.85 };
    let (x, y) = (place.across.0, place.behind.0);
    let ring = |pen, radius| Item::Circle {
        pen,
        centre: At(x, y),
        radius,
    };
    let mut items = Vec::new();
    if is_next {
        items.push(ring(Pen::Ink, radius * 1.7));
    }
    match test.at_point(index) {
        None => items.push(ring(Pen::Outline, radius)),
        Some(Sounded::Nothing) => {
            let d = radius;
            items.push(line(Pen::Wrong, &[(x - d, y - d), (x + d, y + d)]));
            items.push(line(Pen::Wrong, &[(x - d, y + d), (x + d, y - d)]));
        }
        Some(Sounded::Far) => {
            items.push(ring(Pen::Outline, radius));
            items.push(ring(Pen::Solid, radius * 0.25));
        }
        Some(Sounded::Middle) => {
            items.push(ring(Pen::Outline, radius));
            items.push(ring(Pen::Outline, radius * 0.5));
            items.push(ring(Pen::Solid, radius * 0.2));
        }
        Some(Sounded::Near) => items.push(ring(Pen::Solid, radius)),
    }
    if !many {
        let at = At(x + radius * 1.3, y - radius * 0.9);
        let number = (index + 1).to_string();
        items.push(text(Lettering::Strong, at, Anchor::Start, unit, &number));
    }
    items
}

fn text(lettering: Lettering, at: At, anchor: Anchor, size: f64, words: &str) -> Item {
    Item::Text {
        lettering,
        at,
        anchor,
        size,
        words: Words::Literal(words.to_owned()),
    }
}

/// What has to be so behind the vehicle, in one picture from above; the
/// figures are those of the list beside it.
#[must_use]
pub fn walk_gate() -> Drawing {
    let half = Millimetres(850.0).0;
    let mut items = vec![
        // Nobody here: from the bumper to the wall.
        area(
            Pen::Shut,
            &[(-half, 0.0), (half, 0.0), (half, 1500.0), (-half, 1500.0)],
        ),
        line(
            Pen::Outline,
            &[(-half, -1900.0), (-half, 0.0), (half, 0.0), (half, -1900.0)],
        ),
        line(Pen::Outline, &[(-1900.0, 1500.0), (1900.0, 1500.0)]),
        line(Pen::Thin, &[(-1900.0, 1560.0), (1900.0, 1560.0)]),
    ];
    for side in [-1.0, 1.0] {
        let x = side * (half - 110.0);
        let wheel = [
            (x - 90.0, -1300.0),
            (x + 90.0, -1300.0),
            (x + 90.0, -650.0),
            (x - 90.0, -650.0),
        ];
        items.push(area(Pen::Solid, &wheel));
        for (edge, out) in [(-1300.0, -200.0), (-650.0, 200.0)] {
            let chock = [(x - 90.0, edge), (x + 90.0, edge), (x, edge + out)];
            items.push(area(Pen::Tape, &chock));
        }
    }
    // The pole, held from the side.
    items.push(line(Pen::Ink, &[(1420.0, 760.0), (560.0, 760.0)]));
    items.push(Item::Circle {
        pen: Pen::Ink,
        centre: At(500.0, 760.0),
        radius: 60.0,
    });
    items.push(Item::Circle {
        pen: Pen::Paper,
        centre: At(1560.0, 760.0),
        radius: 150.0,
    });
    // The fused feed to the box's trigger: a fuse in its line.
    items.push(line(Pen::Ink, &[(-1850.0, -1500.0), (-half, -1500.0)]));
    items.push(area(
        Pen::Solid,
        &[
            (-1480.0, -1560.0),
            (-1180.0, -1560.0),
            (-1180.0, -1440.0),
            (-1480.0, -1440.0),
        ],
    ));
    let figures = [
        (-1330.0, -1620.0, "5"),
        (0.0, -1350.0, "1"),
        (-half - 130.0, -900.0, "2"),
        (1560.0, 480.0, "3"),
        (-200.0, 1050.0, "4"),
    ];
    for (x, y, figure) in figures {
        items.push(text(
            Lettering::Blue,
            At(x, y),
            Anchor::Middle,
            260.0,
            figure,
        ));
    }
    Drawing {
        from: At(-1900.0, -1900.0),
        size: At(3800.0, 3560.0),
        title: msg("drawing-walk-gate-title"),
        items,
    }
}

#[cfg(test)]
mod tests {
    use chrono::DateTime;

    use super::*;
    use crate::job::{Field, JobEvent, JobId, WalkEvent, WalkKind, apply};
    use crate::kit;

    fn walked(kind: WalkKind, taps: &[Sounded]) -> JobState {
        let at = DateTime::parse_from_rfc3339("2026-03-12T15:00:00+01:00").unwrap();
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let mut job = JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at);
        for field in [Field::HalfLeft, Field::HalfRight] {
            job.typed.insert(field, "900".to_owned());
        }
        let mut events = vec![WalkEvent::GateHeeded, WalkEvent::Started(kind)];
        events.extend(
            (0_u16..)
                .zip(taps)
                .map(|(point, sounded)| WalkEvent::Sounded {
                    point,
                    sounded: *sounded,
                }),
        );
        events.into_iter().fold(job, |job, event| {
            apply(&job, JobEvent::Walk(event), at).unwrap()
        })
    }

    fn drawn(job: &JobState) -> Drawing {
        let test = job.walk.test.as_ref().unwrap();
        walk_plan(job, test, test.next_point()).unwrap()
    }

    #[test]
    fn every_point_stands_to_scale_and_inside_the_frame() {
        for kind in [WalkKind::Nine, WalkKind::Grid] {
            let job = walked(kind, &[Sounded::Near, Sounded::Nothing]);
            let drawing = drawn(&job);
            let inside = |p: &At| {
                p.0 >= drawing.from.0
                    && p.0 <= drawing.from.0 + drawing.size.0
                    && p.1 >= drawing.from.1
                    && p.1 <= drawing.from.1 + drawing.size.1
            };
            for place in &job.walk.test.as_ref().unwrap().points {
                assert!(inside(&At(place.across.0, place.behind.0)));
            }
        }
    }

    #[test]
    fn what_sounded_is_told_by_shape() {
        let shapes = |sounded| {
            let items = drawn(&walked(WalkKind::Nine, &[sounded])).items;
            let pens = |wanted| {
                let such = items.iter().filter(|item| match item {
                    Item::Circle { pen, .. } | Item::Line { pen, .. } => *pen == wanted,
                    _ => false,
                });
                such.count()
            };
            (pens(Pen::Outline), pens(Pen::Solid), pens(Pen::Wrong))
        };
        let all = Sounded::ALL.map(shapes);
        for (one, other) in [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)] {
            assert_ne!(all[one], all[other]);
        }
    }
}
