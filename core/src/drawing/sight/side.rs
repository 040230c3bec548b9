//! The picture from the side: the vehicle at the left, the ground below, a
//! bar lying across in each square.

use super::above::{cross, metres};
use super::squares::squares;
use super::{Probe, Scene};
use crate::decide::coverage::{Area, View, map};
use crate::drawing::{Anchor, At, Drawing, Item, Lettering, Pen, area, line};
use crate::text::msg;
use crate::units::Millimetres;

/// Height shown, mm.
const HEIGHT: f64 = 1200.0;
/// Shown of the vehicle, mm.
const BODY: f64 = 300.0;
/// Room for figures, mm.
const FOOT: f64 = 220.0;
const MARGIN: f64 = 460.0;
const FIGURE: f64 = 118.0;
const EVERY: f64 = 500.0;

pub(super) fn drawing(scene: &Scene) -> Drawing {
    let cell = scene.cell.0;
    let found = map(
        scene.heads,
        View::Side,
        Area {
            columns_from: Millimetres(0.0),
            columns_to: Millimetres(scene.depth),
            rows_from: Millimetres(0.0),
            rows_to: Millimetres(HEIGHT),
            cell: scene.cell,
        },
        &scene.air,
    );
    let mut items = squares(&found, |column, row| {
        [column as f64 * cell, -(row as f64 + 1.0) * cell]
    });
    items.extend(figures(scene.depth));
    items.extend(vehicle(scene));
    if let Some(Probe::Side(behind, height)) = scene.probe {
        items.extend(cross(behind, -height));
    }
    Drawing {
        from: At(-BODY - 20.0, -HEIGHT - 20.0),
        size: At(scene.depth + BODY + MARGIN, HEIGHT + FOOT + 20.0),
        title: msg("sight-side-title"),
        items,
    }
}

fn figures(depth: f64) -> Vec<Item> {
    let mut items = vec![line(Pen::Outline, &[(-BODY, 0.0), (depth + 120.0, 0.0)])];
    let text = |x: f64, y: f64, anchor: Anchor, value: f64| Item::Text {
        lettering: Lettering::Plain,
        at: At(x, y),
        anchor,
        size: FIGURE,
        words: metres(value),
    };
    for step in 1..=(depth / EVERY).round() as u32 {
        let x = f64::from(step) * EVERY;
        items.push(line(Pen::Faint, &[(x, 0.0), (x, -HEIGHT)]));
        items.push(line(Pen::Thin, &[(x - 28.0, 28.0), (x + 28.0, -28.0)]));
        items.push(text(x, 160.0, Anchor::Middle, x));
    }
    for step in 1..=(HEIGHT / EVERY) as u32 {
        let y = f64::from(step) * EVERY;
        items.push(line(Pen::Faint, &[(0.0, -y), (depth, -y)]));
        items.push(text(depth + 40.0, -y + 40.0, Anchor::Start, y));
    }
    items
}

fn vehicle(scene: &Scene) -> Vec<Item> {
    let low = scene.all.first().map_or(400.0, |head| head.height.0);
    let foot = (low - 250.0).max(120.0);
    let body = [
        (-BODY, -foot),
        (-60.0, -foot),
        (0.0, -foot - 60.0),
        (0.0, -low - 150.0),
        (-70.0, -low - 220.0),
        (-110.0, -HEIGHT - 40.0),
        (-BODY, -HEIGHT - 40.0),
    ];
    let mut items = vec![area(Pen::Paper, &body)];
    for head in scene.heads {
        let (x, y) = (-head.forward.0, -head.height.0);
        let reach = 420.0;
        let tip = (x + reach * head.aim.cos(), y - reach * head.aim.sin());
        items.push(line(Pen::Ink, &[(x, y), tip]));
        items.push(Item::Circle {
            pen: Pen::Solid,
            centre: At(x, y),
            radius: 26.0,
        });
    }
    items
}
