//! Which side up: the ring as it belongs, arrow up, and upside down, with
//! where the head points both ways.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, line};
use crate::text::{Message, msg};
use crate::units::Degrees;

/// Draws a head on its ring twice, seen from the side: as it belongs and
/// upside down, with the two aims drawn true. + up.
#[must_use]
pub fn which_side_up(rake: Degrees, aim: Degrees, upside_down: Degrees) -> Drawing {
    let mut items = one(0.0, rake, aim, Pen::Ink, "drawing-side-right");
    items.extend(one(
        200.0,
        rake,
        upside_down,
        Pen::Wrong,
        "drawing-side-wrong",
    ));
    items.push(line(Pen::Thin, &[(195.0, 12.0), (195.0, 168.0)]));
    Drawing {
        from: At(0.0, 0.0),
        size: At(390.0, 180.0),
        title: msg("drawing-side-title")
            .deg("right", aim.0)
            .deg("wrong", upside_down.0),
        items,
    }
}

/// One head at `left`: the face, the ring as a wedge, the arrow, the axis.
fn one(left: f64, rake: Degrees, aim: Degrees, pen: Pen, words: &'static str) -> Vec<Item> {
    const MIDDLE: f64 = 96.0;
    const HALF: f64 = 44.0;
    let held = |angle: Degrees| Degrees(angle.0.clamp(-50.0, 50.0));
    let (rake, aim) = (held(rake), held(aim));
    // A face of that elevation leans so; its outward normal points right.
    let along = |angle: Degrees, t: f64| (left + 60.0 + t * angle.sin(), MIDDLE + t * angle.cos());
    // The head's flange stands square to its axis, clear of the face.
    let flange = |t: f64| {
        let (x, y) = along(aim, t);
        (x + 22.0 * aim.cos(), y - 22.0 * aim.sin())
    };
    let centre = flange(0.0);
    let tip = (centre.0 + 88.0 * aim.cos(), centre.1 - 88.0 * aim.sin());
    let wedge = [
        along(rake, -28.0),
        along(rake, 28.0),
        flange(28.0),
        flange(-28.0),
    ];
    let mut items = vec![
        line(
            Pen::Outline,
            &[along(rake, -HALF - 20.0), along(rake, HALF + 20.0)],
        ),
        Item::Area {
            pen: Pen::Tape,
            points: wedge.iter().map(|&(x, y)| At(x, y)).collect(),
        },
        line(Pen::Outline, &[flange(-30.0), flange(30.0)]),
        line(Pen::Faint, &[centre, (left + 186.0, centre.1)]),
        line(pen, &[centre, tip]),
    ];
    items.extend(arrow(left + 20.0, pen));
    let text = |at: (f64, f64), lettering, size, message: Message| Item::Text {
        lettering,
        at: At(at.0, at.1),
        anchor: Anchor::Start,
        size,
        words: Words::Message(message),
    };
    items.push(text(
        (left + 10.0, 20.0),
        Lettering::Strong,
        15.0,
        msg(words),
    ));
    items.push(text(
        (left + 10.0, 172.0),
        Lettering::Plain,
        15.0,
        crate::decide::ring_set::aim_words(aim),
    ));
    items
}

/// The arrow on the ring: up as it belongs, down when the ring is upside down.
fn arrow(x: f64, pen: Pen) -> Vec<Item> {
    let (from, tip, barb) = if pen == Pen::Wrong {
        (64.0, 128.0, 114.0)
    } else {
        (128.0, 64.0, 78.0)
    };
    vec![
        line(pen, &[(x, from), (x, tip)]),
        line(pen, &[(x - 8.0, barb), (x, tip), (x + 8.0, barb)]),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(drawing: &Drawing, wanted: Pen) -> f64 {
        let axis = drawing.items.iter().find_map(|item| match item {
            Item::Line { pen, points } if *pen == wanted => Some(points.clone()),
            _ => None,
        });
        let points = axis.unwrap();
        let (dx, dy) = (points[1].0 - points[0].0, points[0].1 - points[1].1);
        dy.atan2(dx).to_degrees()
    }

    #[test]
    fn both_ways_are_drawn_at_their_true_aim() {
        let drawing = which_side_up(Degrees(-6.0), Degrees(3.0), Degrees(-15.0));
        assert!((axis(&drawing, Pen::Ink) - 3.0).abs() < 1e-9);
        assert!((axis(&drawing, Pen::Wrong) + 15.0).abs() < 1e-9);
    }
}
