//! The face seen from the side, as a line against the ground line, with the
//! direction in which a head would point.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, line};
use crate::text::msg;
use crate::units::Degrees;

/// Draws a face of the given rake (elevation of its outward normal, + faces
/// up) from the side: the vehicle to the left, behind it to the right.
/// With `aim`, the head's axis is drawn too.
///
/// Angles are drawn true.
#[must_use]
pub fn face_from_side(rake: Degrees, aim: Option<Degrees>) -> Drawing {
    const GROUND: f64 = 172.0;
    const SPOT: (f64, f64) = (110.0, 84.0);
    const REACH: f64 = 240.0;
    let held = Degrees(rake.0.clamp(-60.0, 60.0));
    let (sin, cos) = (held.sin(), held.cos());
    let along = |t: f64| (SPOT.0 + t * sin, SPOT.1 + t * cos);
    let ray = |angle: Degrees| (SPOT.0 + REACH * angle.cos(), SPOT.1 - REACH * angle.sin());
    let mut items = vec![line(Pen::Outline, &[(0.0, GROUND), (380.0, GROUND)])];
    items.extend((0..12).map(|i| {
        let x = 18.0 + 32.0 * f64::from(i);
        line(Pen::Thin, &[(x, GROUND), (x - 10.0, GROUND + 12.0)])
    }));
    items.push(line(Pen::Faint, &[SPOT, (370.0, SPOT.1)]));
    items.push(line(Pen::Outline, &[along(-62.0), along(62.0)]));
    let shown = aim.unwrap_or(held);
    items.push(line(Pen::Ink, &[SPOT, ray(shown)]));
    if aim.is_some() {
        items.push(line(Pen::Thin, &[SPOT, ray(held)]));
    }
    items.push(Item::Circle {
        pen: Pen::Solid,
        centre: At(SPOT.0, SPOT.1),
        radius: 4.5,
    });
    let label = |at: (f64, f64), key: &'static str| Item::Text {
        lettering: Lettering::Plain,
        at: At(at.0, at.1),
        anchor: Anchor::Start,
        size: 15.0,
        words: Words::Message(msg(key)),
    };
    items.push(label((12.0, 40.0), "drawing-face-bumper"));
    let level_at = if shown.0 >= 0.0 {
        SPOT.1 + 18.0
    } else {
        SPOT.1 - 8.0
    };
    items.push(label((316.0, level_at), "drawing-face-level"));
    items.push(label((12.0, GROUND - 8.0), "drawing-face-ground"));
    Drawing {
        from: At(0.0, 8.0),
        size: At(380.0, 184.0),
        title: msg("drawing-face-title"),
        items,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ink(drawing: &Drawing) -> (At, At) {
        drawing
            .items
            .iter()
            .find_map(|item| match item {
                Item::Line {
                    pen: Pen::Ink,
                    points,
                } => Some((points[0], points[1])),
                _ => None,
            })
            .unwrap()
    }

    #[test]
    fn a_face_that_faces_down_points_below_level() {
        let (from, to) = ink(&face_from_side(Degrees(-10.0), None));
        assert!(to.1 > from.1, "y grows downward");
        let drawn = ((from.1 - to.1) / (to.0 - from.0)).atan().to_degrees();
        assert!((drawn + 10.0).abs() < 1e-9);
    }

    #[test]
    fn with_a_ring_the_aim_is_drawn_true() {
        let (from, to) = ink(&face_from_side(Degrees(-10.0), Some(Degrees(4.0))));
        let drawn = ((from.1 - to.1) / (to.0 - from.0)).atan().to_degrees();
        assert!((drawn - 4.0).abs() < 1e-9);
    }

    #[test]
    fn a_face_that_faces_down_leans_over_its_foot() {
        let drawing = face_from_side(Degrees(-10.0), None);
        let face = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Line {
                    pen: Pen::Outline,
                    points,
                } => Some(points.clone()),
                _ => None,
            })
            .nth(1)
            .unwrap();
        let (upper, lower) = (face[0], face[1]);
        assert!(upper.1 < lower.1);
        assert!(
            upper.0 > lower.0,
            "its top stands further back from the car"
        );
    }
}
