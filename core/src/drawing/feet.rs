//! The phone's back with its three feet, and where they go.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, line};
use crate::text::msg;

/// The phone's back in millimetres with the three feet: two one above the
/// other 40 mm apart, the third to the side at mid height, on masking tape
/// that protects the paint.
#[must_use]
pub fn feet_on_the_back() -> Drawing {
    let rect = |pen, from: (f64, f64), to: (f64, f64)| Item::Area {
        pen,
        points: vec![
            At(from.0, from.1),
            At(to.0, from.1),
            At(to.0, to.1),
            At(from.0, to.1),
        ],
    };
    let foot = |x: f64, y: f64| Item::Circle {
        pen: Pen::Solid,
        centre: At(x, y),
        radius: 4.0,
    };
    let label = |x: f64, y: f64, key: &'static str| Item::Text {
        lettering: Lettering::Plain,
        at: At(x, y),
        anchor: Anchor::Start,
        size: 8.0,
        words: Words::Message(msg(key)),
    };
    let items = vec![
        rect(Pen::Paper, (10.0, 6.0), (82.0, 156.0)),
        rect(Pen::Thin, (16.0, 12.0), (44.0, 44.0)),
        label(18.0, 30.0, "drawing-feet-camera"),
        rect(Pen::Tape, (94.0, 62.0), (112.0, 118.0)),
        foot(24.0, 70.0),
        foot(24.0, 110.0),
        foot(68.0, 90.0),
        line(Pen::Thin, &[(38.0, 70.0), (38.0, 110.0)]),
        line(Pen::Thin, &[(34.0, 70.0), (42.0, 70.0)]),
        line(Pen::Thin, &[(34.0, 110.0), (42.0, 110.0)]),
        Item::Text {
            lettering: Lettering::Strong,
            at: At(42.0, 93.0),
            anchor: Anchor::Start,
            size: 8.0,
            words: Words::Literal("40".to_owned()),
        },
        label(118.0, 84.0, "drawing-feet-tape"),
        label(118.0, 98.0, "drawing-feet-paint"),
    ];
    Drawing {
        from: At(0.0, 0.0),
        size: At(240.0, 162.0),
        title: msg("drawing-feet-title"),
        items,
    }
}

/// Three faces from the side, by how round they are: flat, rounded, tight.
#[must_use]
pub fn round_face(radius_mm: f64) -> Drawing {
    const HALF: f64 = 60.0;
    // Twice as round as it is, or the eye would not tell flat from rounded.
    let radius = (radius_mm / 4.0).max(70.0);
    let points: Vec<(f64, f64)> = (-20..=20)
        .map(|i| {
            let y = HALF * f64::from(i) / 20.0;
            let bulge = (radius * radius - y * y).max(0.0).sqrt() - radius;
            (50.0 + bulge, 66.0 + y)
        })
        .collect();
    Drawing {
        from: At(0.0, 0.0),
        size: At(100.0, 132.0),
        title: msg("drawing-round-title"),
        items: vec![
            line(Pen::Outline, &points),
            line(Pen::Ink, &[(56.0, 26.0), (56.0, 106.0)]),
        ],
    }
}
