//! Level and plumb over a picture, with their figures at the ends.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, line};
use crate::job::PictureLine;
use crate::text::msg;
use crate::units::{Degrees, Estimate};

/// Draws level and plumb over a picture of this size, and the line that
/// the fitter laid, with its angle to level. Level and plumb do not cross:
/// plumb stands at the left edge, level runs beside it.
///
/// Angles are drawn true; `level` is anticlockwise from the picture's right,
/// and the laid line comes with its angle to level where that is known.
#[must_use]
pub fn level_over_picture(
    level: Estimate<Degrees>,
    laid: Option<(PictureLine, Option<Estimate<Degrees>>)>,
    (width, height): (f64, f64),
) -> Drawing {
    let (sin, cos) = (level.value.sin(), level.value.cos());
    let size = width * 0.045;
    let middle = (width * 0.57, height * 0.5);
    let reach = width * 0.36;
    let along = |t: f64| (middle.0 + t * cos, middle.1 - t * sin);
    let foot = (width * 0.09, height * 0.5);
    let rise = height * 0.3;
    let upright = |t: f64| (foot.0 - t * sin, foot.1 - t * cos);
    let mut items = vec![
        line(Pen::Paper, &[along(-reach), along(reach)]),
        line(Pen::Ink, &[along(-reach), along(reach)]),
        line(Pen::Paper, &[upright(-rise), upright(rise)]),
        line(Pen::Ink, &[upright(-rise), upright(rise)]),
    ];
    let figure = |key| {
        msg(key)
            .number("angle", level.value.0, 1)
            .deg("plus", level.expanded().0)
    };
    let label = |at: (f64, f64), anchor, words| Item::Text {
        lettering: Lettering::Blue,
        at: At(at.0, at.1),
        anchor,
        size,
        words,
    };
    let end = along(reach);
    items.push(label(
        (end.0, end.1 - size * 0.5),
        Anchor::End,
        Words::Message(figure("level-end")),
    ));
    let top = upright(rise);
    items.push(label(
        (top.0.max(width * 0.02), top.1 - size * 0.5),
        Anchor::Start,
        Words::Message(figure("plumb-end")),
    ));
    if let Some(([from, to], off)) = laid {
        let at = |p: [f64; 2]| (p[0] * width, p[1] * width);
        let (from, to) = (at(from), at(to));
        items.push(line(Pen::Wrong, &[from, to]));
        for end in [from, to] {
            items.push(Item::Circle {
                pen: Pen::Tape,
                centre: At(end.0, end.1),
                radius: size * 0.4,
            });
        }
        if let Some(off) = off {
            let right = if from.0 > to.0 { from } else { to };
            items.push(label(
                (right.0.min(width * 0.97), right.1 + size * 1.6),
                Anchor::End,
                Words::Message(
                    msg("level-line-end")
                        .number("angle", off.value.0, 1)
                        .deg("plus", off.expanded().0),
                ),
            ));
        }
    }
    Drawing {
        from: At(0.0, 0.0),
        size: At(width, height),
        title: msg("drawing-level-title"),
        items,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inks(drawing: &Drawing) -> Vec<(At, At)> {
        let ink = |item: &Item| match item {
            Item::Line {
                pen: Pen::Ink,
                points,
            } => Some((points[0], points[1])),
            _ => None,
        };
        drawing.items.iter().filter_map(ink).collect()
    }

    #[test]
    fn level_and_plumb_are_square_and_do_not_cross() {
        let lines = inks(&level_over_picture(
            Estimate::new(Degrees(7.0), Degrees(1.0)),
            None,
            (300.0, 400.0),
        ));
        let [level, plumb] = lines[..] else {
            panic!("two lines");
        };
        let run = |(a, b): (At, At)| (b.0 - a.0, b.1 - a.1);
        let (p, q) = (run(level), run(plumb));
        assert!((p.0 * q.0 + p.1 * q.1).abs() < 1e-9);
        assert!(p.1 < 0.0, "anticlockwise: its right end is up");
        assert!(plumb.0.0.max(plumb.1.0) < level.0.0);
    }
}
