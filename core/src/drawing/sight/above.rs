//! The picture from above: the vehicle's rear at the top, what is behind it
//! below.

use super::squares::squares;
use super::words::Summed;
use super::{Probe, Scene};
use crate::decide::coverage::{Area, View, map};
use crate::drawing::{Anchor, At, Drawing, Item, Lettering, Pen, Words, area, line};
use crate::job::plan_curve;
use crate::text::msg;
use crate::units::Millimetres;

/// Shown beside the vehicle on either side, mm.
const BESIDE: f64 = 500.0;
/// Shown of the vehicle, mm.
const BODY: f64 = 260.0;
/// Room for figures below, mm.
const FOOT: f64 = 220.0;
/// Room for figures at the left, mm.
const MARGIN: f64 = 460.0;
/// Height of figures and of labels, mm on the plan.
const FIGURE: f64 = 118.0;
const LABEL: f64 = 150.0;
/// Distance between the lines across, mm.
const EVERY: f64 = 500.0;

pub(super) fn drawing(scene: &Scene, summed: &Summed) -> Drawing {
    let [half_left, half_right] = scene.half_widths();
    let cell = scene.cell.0;
    let whole = |side: f64| ((side + BESIDE) / 100.0).ceil() * 100.0;
    let (left, right) = (-whole(half_left), whole(half_right));
    let found = map(
        scene.heads,
        View::Above(scene.target),
        Area {
            columns_from: Millimetres(left),
            columns_to: Millimetres(right),
            rows_from: Millimetres(0.0),
            rows_to: Millimetres(scene.depth),
            cell: scene.cell,
        },
        &scene.air,
    );
    let mut items = squares(&found, |column, row| {
        [left + column as f64 * cell, row as f64 * cell]
    });
    items.extend(lines_across(scene.depth, left, right));
    items.extend(vehicle(scene, half_left, half_right));
    items.extend(asked_about(scene, summed));
    items.extend(width(scene.depth, half_left, half_right));
    let top = -BODY - forward_most(scene);
    Drawing {
        from: At(left - MARGIN, top),
        size: At(right - left + MARGIN + 40.0, scene.depth + FOOT - top),
        title: msg("sight-above-title"),
        items,
    }
}

/// How far forward the bumper's ends stand.
fn forward_most(scene: &Scene) -> f64 {
    let outline = plan_curve(scene.job).map(|curve| curve.outline(9));
    let points = outline.into_iter().flatten();
    points.map(|[_, y]| y.0).fold(0.0, f64::max)
}

fn text(at: (f64, f64), anchor: Anchor, size: f64, words: Words) -> Item {
    Item::Text {
        lettering: if size > FIGURE {
            Lettering::Strong
        } else {
            Lettering::Plain
        },
        at: At(at.0, at.1),
        anchor,
        size,
        words,
    }
}

pub(super) fn metres(value: f64) -> Words {
    Words::Message(msg("sight-metres").number("metres", value / 1e3, 1))
}

fn lines_across(depth: f64, left: f64, right: f64) -> Vec<Item> {
    let mut items = vec![line(Pen::Thin, &[(left, 0.0), (left, depth)])];
    let steps = (depth / EVERY).round() as u32;
    for step in 1..=steps {
        let y = f64::from(step) * EVERY;
        items.push(line(Pen::Faint, &[(left, y), (right, y)]));
        items.push(line(
            Pen::Thin,
            &[(left - 30.0, y + 30.0), (left + 30.0, y - 30.0)],
        ));
        items.push(text(
            (left - 50.0, y + 30.0),
            Anchor::End,
            FIGURE,
            metres(y),
        ));
    }
    items
}

fn vehicle(scene: &Scene, half_left: f64, half_right: f64) -> Vec<Item> {
    let top = -BODY - forward_most(scene) - 10.0;
    let mut body = vec![(half_right, top), (-half_left, top)];
    match plan_curve(scene.job) {
        Some(curve) => body.extend(curve.outline(24).iter().map(|[x, y]| (x.0, -y.0))),
        None => body.extend([(-half_left, 0.0), (half_right, 0.0)]),
    }
    let mut items = vec![
        area(Pen::Paper, &body),
        line(Pen::Centre, &[(0.0, top), (0.0, scene.depth)]),
    ];
    for head in scene.all {
        let (x, y) = (head.offset.0, -head.forward.0);
        let shown = scene.heads.iter().any(|one| one.label == head.label);
        let pen = if shown { Pen::Ink } else { Pen::Faint };
        let tip = (x + 150.0 * head.turn.sin(), y + 150.0 * head.turn.cos());
        items.push(line(pen, &[(x - 45.0, y), (x + 45.0, y)]));
        items.push(line(pen, &[(x, y), tip]));
        items.push(text(
            (x, y - 60.0),
            Anchor::Middle,
            LABEL,
            Words::Literal(head.label.clone()),
        ));
    }
    items
}

/// The rectangle that is summed up, its gap and weakest place, the place
/// asked about.
fn asked_about(scene: &Scene, summed: &Summed) -> Vec<Item> {
    let of = &summed.area;
    let frame = |pen: Pen, left: f64, right: f64, near: f64, far: f64| {
        let (a, b) = ((left, near), (right, near));
        line(pen, &[a, b, (right, far), (left, far), a])
    };
    let mut items = vec![frame(
        Pen::Outline,
        of.columns_from.0,
        of.columns_to.0,
        of.rows_from.0,
        of.rows_to.0,
    )];
    if let Some(gap) = &summed.summary.gap {
        let (near, far) = (gap.near.0, gap.far.0);
        items.push(frame(Pen::Wrong, gap.left.0, gap.right.0, near, far));
    }
    if let Some(weakest) = &summed.summary.weakest {
        let (x, y) = (weakest.at.across.0, weakest.at.behind.0);
        items.push(area(
            Pen::Paper,
            &[(x, y - 55.0), (x + 55.0, y), (x, y + 55.0), (x - 55.0, y)],
        ));
    }
    if let Some(Probe::Above(x, y)) = scene.probe {
        items.extend(cross(x, y));
    }
    items
}

/// A place asked about.
pub(super) fn cross(x: f64, y: f64) -> [Item; 3] {
    [
        Item::Circle {
            pen: Pen::Paper,
            centre: At(x, y),
            radius: 62.0,
        },
        line(Pen::Ink, &[(x - 110.0, y), (x + 110.0, y)]),
        line(Pen::Ink, &[(x, y - 110.0), (x, y + 110.0)]),
    ]
}

fn width(depth: f64, half_left: f64, half_right: f64) -> Vec<Item> {
    let y = depth + 60.0;
    let mut items = vec![line(Pen::Thin, &[(-half_left, y), (half_right, y)])];
    for x in [-half_left, 0.0, half_right] {
        items.push(line(
            Pen::Thin,
            &[(x - 28.0, y + 28.0), (x + 28.0, y - 28.0)],
        ));
    }
    for (from, to) in [(-half_left, 0.0), (0.0, half_right)] {
        let words = msg("sheet-mm").number("mm", to - from, 0);
        items.push(text(
            ((from + to) / 2.0, y + 140.0),
            Anchor::Middle,
            FIGURE,
            Words::Message(words),
        ));
    }
    items
}
