//! The bumper seen from behind: outline, centre line, tape crosses, and
//! dimensions as a draughtsman puts them. True to scale from left to right;
//! heights are only indicated until one is measured.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, area, line};
use crate::text::msg;
use crate::units::{Millimetres, Offset};

/// A mark as the drawing shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkView {
    /// The head's label.
    pub label: String,
    /// Where it is.
    pub at: Offset,
    /// A second line under the label, such as the ring set.
    pub below: Option<Words>,
}

/// What of a bumper is drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct BumperView {
    /// Centre line to the left outer edge.
    pub half_left: Millimetres,
    /// Centre line to the right outer edge.
    pub half_right: Millimetres,
    /// Marks from left to right.
    pub marks: Vec<MarkView>,
    /// Areas where nothing may be drilled.
    pub no_drill: Vec<(Offset, Offset)>,
}

/// Share of the drawing's width that a letter is high: about 16 pixels on a
/// phone held upright.
const LETTER: f64 = 0.046;

/// A figure is so wide for its height, with the space beside it.
const FIGURE_WIDE: f64 = 0.6;

/// Draws the bumper from behind with its marks.
///
/// # Units
/// Millimetres of the bumper itself; 0, 0 is the centre line at the height
/// of the marks.
#[must_use]
pub fn bumper_from_behind(view: &BumperView) -> Drawing {
    let (left, right) = (-view.half_left.0, view.half_right.0);
    let width = right - left;
    let unit = width * LETTER;
    let margin = unit * 0.9;
    let (top, bottom) = (-unit * 3.0, unit * 3.4);
    let mut items = outline(left, right, top, bottom);
    for (from, to) in &view.no_drill {
        items.push(area(
            Pen::Shut,
            &[(from.0, top), (to.0, top), (to.0, bottom), (from.0, bottom)],
        ));
    }
    items.push(line(
        Pen::Centre,
        &[(0.0, top - unit * 1.6), (0.0, bottom + unit * 2.6)],
    ));
    items.extend(view.marks.iter().flat_map(|mark| tape_cross(mark, unit)));
    items.extend(spacing_dimensions(view, top - unit * 2.2, top, unit));
    items.extend(edge_dimensions(view, bottom + unit * 1.9, bottom, unit));
    Drawing {
        from: At(left - margin, top - unit * 4.0),
        size: At(width + 2.0 * margin, bottom - top + unit * 7.0),
        title: msg("drawing-bumper-title").count("heads", view.marks.len() as i64),
        items,
    }
}

fn outline(left: f64, right: f64, top: f64, bottom: f64) -> Vec<Item> {
    let round = (bottom - top) * 0.22;
    let mut points = Vec::new();
    let corners = [
        (right - round, top + round, -90.0),
        (right - round, bottom - round, 0.0),
        (left + round, bottom - round, 90.0),
        (left + round, top + round, 180.0),
    ];
    for (x, y, start) in corners {
        for step in 0..=4 {
            let angle = f64::to_radians(start + 22.5 * f64::from(step));
            points.push((x + round * angle.cos(), y + round * angle.sin()));
        }
    }
    vec![
        area(Pen::Outline, &points),
        line(
            Pen::Faint,
            &[(left, top + round * 0.9), (right, top + round * 0.9)],
        ),
    ]
}

fn tape_cross(mark: &MarkView, unit: f64) -> Vec<Item> {
    let (x, long, wide) = (mark.at.0, unit * 1.15, unit * 0.22);
    let bar = |half_w: f64, half_h: f64| {
        area(
            Pen::Tape,
            &[
                (x - half_w, -half_h),
                (x + half_w, -half_h),
                (x + half_w, half_h),
                (x - half_w, half_h),
            ],
        )
    };
    let mut items = vec![
        bar(long, wide),
        bar(wide, long),
        Item::Text {
            lettering: Lettering::Strong,
            at: At(x, unit * 2.3),
            anchor: Anchor::Middle,
            size: unit * 1.25,
            words: Words::Literal(mark.label.clone()),
        },
    ];
    if let Some(below) = &mark.below {
        items.push(Item::Text {
            lettering: Lettering::Blue,
            at: At(x, unit * 3.2),
            anchor: Anchor::Middle,
            size: unit * 0.8,
            words: below.clone(),
        });
    }
    items
}

/// One dimension line with ticks and figures between neighbouring stations.
fn chain(stations: &[f64], y: f64, from: f64, unit: f64) -> Vec<Item> {
    let (Some(first), Some(last)) = (stations.first(), stations.last()) else {
        return Vec::new();
    };
    let beyond = if y < from { -unit * 0.5 } else { unit * 0.5 };
    let mut items = vec![line(Pen::Thin, &[(*first, y), (*last, y)])];
    for &x in stations {
        items.push(line(Pen::Thin, &[(x, from), (x, y + beyond)]));
        let tick = unit * 0.3;
        items.push(line(
            Pen::Thin,
            &[(x - tick, y + tick), (x + tick, y - tick)],
        ));
    }
    for pair in stations.windows(2) {
        let gap = pair[1] - pair[0];
        let figure = whole(gap);
        // A narrow gap has a small figure, never one over its neighbour's.
        let fits = gap.abs() / (figure.len() as f64 * FIGURE_WIDE);
        items.push(Item::Text {
            lettering: Lettering::Plain,
            at: At((pair[0] + pair[1]) / 2.0, y - unit * 0.4),
            anchor: Anchor::Middle,
            size: unit.min(fits),
            words: Words::Literal(figure),
        });
    }
    items
}

fn spacing_dimensions(view: &BumperView, y: f64, from: f64, unit: f64) -> Vec<Item> {
    let stations: Vec<f64> = view.marks.iter().map(|mark| mark.at.0).collect();
    chain(&stations, y, from, unit)
}

fn edge_dimensions(view: &BumperView, y: f64, from: f64, unit: f64) -> Vec<Item> {
    let (Some(first), Some(last)) = (view.marks.first(), view.marks.last()) else {
        return chain(&[-view.half_left.0, 0.0, view.half_right.0], y, from, unit);
    };
    let mut items = chain(&[-view.half_left.0, first.at.0], y, from, unit);
    items.extend(chain(&[last.at.0, view.half_right.0], y, from, unit));
    items
}

fn whole(mm: f64) -> String {
    format!("{:.0}", mm.abs())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn four() -> BumperView {
        let marks = [-690.0, -230.0, 230.0, 690.0];
        BumperView {
            half_left: Millimetres(870.0),
            half_right: Millimetres(870.0),
            marks: marks
                .iter()
                .enumerate()
                .map(|(i, &x)| MarkView {
                    label: (i + 1).to_string(),
                    at: Offset(x),
                    below: None,
                })
                .collect(),
            no_drill: Vec::new(),
        }
    }

    fn texts(drawing: &Drawing) -> Vec<String> {
        drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Text {
                    words: Words::Literal(text),
                    ..
                } => Some(text.clone()),
                _ => None,
            })
            .collect()
    }

    #[test]
    fn every_gap_and_both_corner_gaps_carry_their_figure() {
        let shown = texts(&bumper_from_behind(&four()));
        assert_eq!(shown.iter().filter(|t| *t == "460").count(), 3);
        assert_eq!(shown.iter().filter(|t| *t == "180").count(), 2);
    }

    #[test]
    fn figures_of_eight_heads_stand_beside_each_other() {
        let mut view = four();
        let at = [-600.0, -450.0, -300.0, -150.0, 150.0, 300.0, 450.0, 470.0];
        view.marks = at
            .iter()
            .map(|&x| MarkView {
                label: "8".to_owned(),
                at: Offset(x),
                below: None,
            })
            .collect();
        let drawing = bumper_from_behind(&view);
        let mut figures: Vec<(f64, f64)> = Vec::new();
        for item in &drawing.items {
            if let Item::Text {
                lettering: Lettering::Plain,
                at,
                size,
                words: Words::Literal(text),
                ..
            } = item
                && at.1 < 0.0
            {
                let half = size * FIGURE_WIDE * text.len() as f64 / 2.0;
                figures.push((at.0 - half, at.0 + half));
            }
        }
        assert_eq!(figures.len(), 7);
        for pair in figures.windows(2) {
            assert!(pair[0].1 <= pair[1].0 + 1e-9, "{pair:?}");
        }
    }

    #[test]
    fn tape_crosses_stand_at_their_offsets() {
        let drawing = bumper_from_behind(&four());
        let centres: Vec<f64> = drawing
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Area {
                    pen: Pen::Tape,
                    points,
                } => Some(points.iter().map(|p| p.0).sum::<f64>() / 4.0),
                _ => None,
            })
            .collect();
        assert_eq!(centres.len(), 8);
        assert!((centres[0] + 690.0).abs() < 1e-9);
        assert!((centres[7] - 690.0).abs() < 1e-9);
    }

    #[test]
    fn everything_lies_inside_the_frame() {
        let drawing = bumper_from_behind(&four());
        let inside = |p: &At| {
            p.0 >= drawing.from.0
                && p.0 <= drawing.from.0 + drawing.size.0
                && p.1 >= drawing.from.1
                && p.1 <= drawing.from.1 + drawing.size.1
        };
        for item in &drawing.items {
            match item {
                Item::Line { points, .. } | Item::Area { points, .. } => {
                    assert!(points.iter().all(inside), "{item:?}");
                }
                Item::Circle { centre, .. } | Item::Text { at: centre, .. } => {
                    assert!(inside(centre), "{item:?}");
                }
                Item::Squares { .. } => panic!("{item:?}"),
            }
        }
    }
}
