//! The bumper seen from behind: outline, centre line, tape crosses, and
//! dimensions as a draughtsman puts them: from the centre line, head to
//! head, to the outer edges. True to scale from left to right, and up and
//! down from the marks to the line that their height was measured from; how
//! high the bumper is is only indicated.

use super::dimension::{Dimension, FIGURE_WIDE, Figure, length, text};
use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, area, line};
use crate::order;
use crate::text::{Message, msg};
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

/// The height of the marks as the drawing shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct RowView {
    /// From the line across to the marks: + up, - down.
    pub from_line: Millimetres,
    /// Lines below the drawing: from which line, how high above the ground.
    pub says: Vec<Message>,
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
    /// Height of the marks, once it is measured.
    pub row: Option<RowView>,
}

/// Share of the drawing's width that a letter is high: about 16 pixels on a
/// phone held upright.
pub(super) const LETTER: f64 = 0.05;

/// A line across farther from the marks than this is drawn nearer, with a
/// break in its dimension, in letters.
const LINE_FARTHEST: f64 = 6.0;

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
    // y grows downward: a line below which the marks lie is above them.
    let across = view.row.as_ref().map(|row| Across::new(row, unit));
    let level = across.as_ref().map_or(0.0, |across| across.y);
    let top = (-unit * 3.0).min(level - unit * 0.8);
    let bottom = (unit * 3.4).max(level + unit * 0.8);
    let mut items = outline(left, right, top, bottom);
    for (from, to) in &view.no_drill {
        items.extend(shut(from.0, to.0, top, bottom, unit));
    }
    let below = across.as_ref().is_some_and(|across| across.y > 0.0);
    let mut tops = top;
    let mut dimensions = Vec::new();
    if !view.marks.is_empty() {
        let at: Vec<f64> = view.marks.iter().map(|mark| mark.at.0).collect();
        let gaps = Dimension {
            caption: Some(msg("drawing-head-to-head")),
            ..Dimension::chain(at.clone())
        };
        let y = top - unit * 0.9;
        dimensions.extend(witnesses(&at, top, y - unit * 0.3));
        dimensions.extend(gaps.draw(y, left, unit));
        let gaps_top = y - gaps.above(unit);
        let figures = at.iter().map(|x| Figure::length(*x, *x)).collect();
        let running = Dimension::from_centre(msg("drawing-from-centre"), figures);
        let y = gaps_top - unit * 0.6;
        dimensions.extend(running.draw(y, left, unit));
        tops = y - running.above(unit);
    }
    let (edges, feet) = edge_dimensions(view, bottom, unit);
    dimensions.extend(edges);
    let room = view
        .marks
        .windows(2)
        .map(|pair| (pair[1].at - pair[0].at).0.abs());
    let room = room.fold(f64::INFINITY, f64::min);
    let crosses: Vec<Item> = view
        .marks
        .iter()
        .flat_map(|mark| tape_cross(mark, unit, below, room))
        .collect();
    let (from, to) = (tops - unit * 0.2, feet + unit * 0.3);
    items.extend(centre_line(from, to, dimensions.iter().chain(&crosses)));
    let mut foot = feet + unit * 0.5;
    let mut margin_left = margin;
    if let (Some(row), Some(across)) = (&view.row, &across) {
        items.extend(across.draw(row, left, right, unit));
        margin_left = unit * 2.9;
        for says in &row.says {
            foot += unit * 1.1;
            let words = Words::Message(says.clone());
            let at = At(left, foot);
            items.push(text(
                Lettering::Plain,
                at,
                Anchor::Start,
                unit * 0.85,
                words,
            ));
        }
    }
    items.extend(crosses);
    items.extend(dimensions);
    let high = tops - unit * 0.3;
    Drawing {
        from: At(left - margin_left, high),
        size: At(width + margin_left + margin, foot + unit * 0.4 - high),
        title: msg("drawing-bumper-title").count("heads", view.marks.len() as i64),
        items,
    }
}

/// The centre line, with a gap where a figure stands on it.
fn centre_line<'a>(from: f64, to: f64, figures: impl Iterator<Item = &'a Item>) -> Vec<Item> {
    let mut gaps: Vec<(f64, f64)> = figures.filter_map(on_the_centre).collect();
    order::sort_by(&mut gaps, |a, b| a.0.total_cmp(&b.0));
    let mut items = Vec::new();
    let mut y = from;
    for (above, below) in gaps.into_iter().chain([(to, to)]) {
        if above > y {
            items.push(line(Pen::Centre, &[(0.0, y), (0.0, above)]));
        }
        y = y.max(below);
    }
    items
}

/// From where to where a figure covers the centre line, if it does.
fn on_the_centre(item: &Item) -> Option<(f64, f64)> {
    let Item::Text {
        at,
        anchor: Anchor::Middle,
        size,
        words: Words::Literal(says),
        ..
    } = item
    else {
        return None;
    };
    let half = says.chars().count() as f64 * FIGURE_WIDE * size / 2.0;
    (at.0.abs() < half).then_some((at.1 - size * 0.9, at.1 + size * 0.2))
}

/// The line that the height was measured from, on the drawing.
struct Across {
    /// Where it lies.
    y: f64,
    /// Whether it lies there to scale.
    to_scale: bool,
}

impl Across {
    fn new(row: &RowView, unit: f64) -> Self {
        let (true_y, most) = (row.from_line.0, unit * LINE_FARTHEST);
        Self {
            y: true_y.clamp(-most, most),
            to_scale: true_y.abs() <= most,
        }
    }

    /// The line, and its distance from the marks at the left.
    fn draw(&self, row: &RowView, left: f64, right: f64, unit: f64) -> Vec<Item> {
        let x = left - unit * 0.45;
        let out = left - unit * 0.8;
        let tick = unit * 0.3;
        let mut items = vec![
            line(Pen::Faint, &[(left, self.y), (right, self.y)]),
            line(Pen::Thin, &[(out, self.y), (left, self.y)]),
            line(Pen::Thin, &[(out, 0.0), (left, 0.0)]),
        ];
        let middle = self.y / 2.0;
        if self.to_scale {
            items.push(line(Pen::Thin, &[(x, 0.0), (x, self.y)]));
        } else {
            let zig = unit * 0.25;
            let sign = self.y.signum();
            items.push(line(
                Pen::Thin,
                &[
                    (x, 0.0),
                    (x, middle - sign * zig),
                    (x - zig, middle - sign * zig / 2.0),
                    (x + zig, middle + sign * zig / 2.0),
                    (x, middle + sign * zig),
                    (x, self.y),
                ],
            ));
        }
        for y in [0.0, self.y] {
            items.push(line(
                Pen::Thin,
                &[(x - tick, y + tick), (x + tick, y - tick)],
            ));
        }
        let figure = length(row.from_line.0);
        let fits = unit * 1.75 / (figure.len() as f64 * FIGURE_WIDE);
        let size = unit.min(fits);
        items.push(text(
            Lettering::Plain,
            At(left - unit * 1.05, middle + size * 0.35),
            Anchor::End,
            size,
            Words::Literal(figure),
        ));
        items
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
    vec![area(Pen::Outline, &points)]
}

/// An area where nothing may be drilled, hatched, so that it is told without
/// its colour.
fn shut(from: f64, to: f64, top: f64, bottom: f64, unit: f64) -> Vec<Item> {
    let mut items = vec![area(
        Pen::Shut,
        &[(from, top), (to, top), (to, bottom), (from, bottom)],
    )];
    // Lines x + y = c, rising to the right, cut at the area's sides.
    let step = unit * 0.9;
    let mut c = from + top + step / 2.0;
    while c < to + bottom {
        let start = (c - bottom).max(from);
        let end = (c - top).min(to);
        if end > start {
            items.push(line(Pen::Thin, &[(start, c - start), (end, c - end)]));
        }
        c += step;
    }
    items
}

/// A cross of tape with its label on the side away from the line across.
/// What stands below it is no wider than the room between neighbours.
fn tape_cross(mark: &MarkView, unit: f64, line_below: bool, room: f64) -> Vec<Item> {
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
    let fits = |words: &str| room / (words.chars().count() as f64 * FIGURE_WIDE);
    let (label, below) = if line_below {
        (-2.0, -1.25)
    } else {
        (2.3, 3.2)
    };
    let mut items = vec![
        bar(long, wide),
        bar(wide, long),
        text(
            Lettering::Strong,
            At(x, unit * label),
            Anchor::Middle,
            (unit * if line_below { 1.0 } else { 1.25 }).min(fits(&mark.label)),
            Words::Literal(mark.label.clone()),
        ),
    ];
    if let Some(words) = &mark.below {
        let fits = match words {
            Words::Literal(words) => fits(words),
            Words::Message(_) => f64::INFINITY,
        };
        items.push(text(
            Lettering::Blue,
            At(x, unit * below),
            Anchor::Middle,
            fits.min(unit * 0.8),
            words.clone(),
        ));
    }
    items
}

/// Lines from the thing to its dimension.
fn witnesses(at: &[f64], from: f64, to: f64) -> Vec<Item> {
    at.iter()
        .map(|x| line(Pen::Thin, &[(*x, from), (*x, to)]))
        .collect()
}

/// Corner gaps and half widths below the bumper, and how far down they reach.
fn edge_dimensions(view: &BumperView, bottom: f64, unit: f64) -> (Vec<Item>, f64) {
    let (left, right) = (-view.half_left.0, view.half_right.0);
    let mut items = Vec::new();
    let mut y = bottom + unit * 1.6;
    if let (Some(first), Some(last)) = (view.marks.first(), view.marks.last()) {
        items.extend(witnesses(&[first.at.0, last.at.0], bottom, y + unit * 0.4));
        for corner in [vec![left, first.at.0], vec![last.at.0, right]] {
            items.extend(Dimension::chain(corner).draw(y, left, unit));
        }
        y += unit * 1.7;
    }
    items.extend(witnesses(&[left, right], bottom, y + unit * 0.4));
    items.extend(Dimension::chain(vec![left, 0.0, right]).draw(y, left, unit));
    (items, y)
}

#[cfg(test)]
mod tests {
    use super::super::dimension::tests::{boxes, overlaps};
    use super::*;

    fn bumper(half: f64, marks: &[f64]) -> BumperView {
        BumperView {
            half_left: Millimetres(half),
            half_right: Millimetres(half),
            marks: marks
                .iter()
                .enumerate()
                .map(|(i, &x)| MarkView {
                    label: (i + 1).to_string(),
                    at: Offset(x),
                    below: Some(Words::Literal("14".to_owned())),
                })
                .collect(),
            no_drill: Vec::new(),
            row: None,
        }
    }

    fn four() -> BumperView {
        bumper(870.0, &[-690.0, -230.0, 230.0, 690.0])
    }

    fn with_row(from_line: f64) -> BumperView {
        BumperView {
            row: Some(RowView {
                from_line: Millimetres(from_line),
                says: vec![msg("sheet-row-on")],
            }),
            ..four()
        }
    }

    fn texts(drawing: &Drawing) -> Vec<String> {
        boxes(drawing).into_iter().map(|(says, _)| says).collect()
    }

    fn count(drawing: &Drawing, figure: &str) -> usize {
        texts(drawing).iter().filter(|text| *text == figure).count()
    }

    #[test]
    fn every_gap_both_corner_gaps_and_both_half_widths_carry_their_figure() {
        let drawing = bumper_from_behind(&four());
        assert_eq!(count(&drawing, "460"), 3);
        assert_eq!(count(&drawing, "180"), 2);
        assert_eq!(count(&drawing, "870"), 2);
    }

    #[test]
    fn every_mark_has_its_distance_from_the_centre_line_over_it() {
        let drawing = bumper_from_behind(&four());
        let over = |x: f64, figure: &str| {
            drawing.items.iter().any(|item| {
                matches!(item, Item::Text { at, words: Words::Literal(says), .. }
                    if at.0 == x && says == figure)
            })
        };
        for (x, figure) in [
            (-690.0, "690"),
            (-230.0, "230"),
            (230.0, "230"),
            (690.0, "690"),
        ] {
            assert!(over(x, figure), "{figure} at {x}");
        }
        let captions = ["drawing-from-centre", "drawing-head-to-head"];
        for key in captions {
            assert!(drawing.items.iter().any(|item| {
                matches!(item, Item::Text { words: Words::Message(said), .. } if said.key == key)
            }));
        }
    }

    #[test]
    fn half_widths_alone_carry_their_figures() {
        let drawing = bumper_from_behind(&bumper(870.5, &[]));
        assert_eq!(texts(&drawing), ["870.5", "870.5"]);
    }

    #[test]
    fn nothing_lies_over_anything_with_two_to_eight_heads() {
        let crowded = [-600.0, -450.0, -300.0, -150.0, 150.0, 300.0, 450.0, 470.0];
        let cases = [
            bumper(880.0, &[-300.0, 300.0]),
            bumper(880.0, &[-680.0, 0.0, 680.0]),
            four(),
            bumper(
                880.0,
                &[-679.0, -485.0, -291.0, -97.0, 97.0, 291.0, 485.0, 679.0],
            ),
            bumper(870.0, &crowded),
            bumper(540.0, &[-360.0, -210.0, -60.0, 100.0, 250.0, 400.0]),
            with_row(-70.0),
            with_row(20.0),
            with_row(-1000.0),
            with_row(160.0),
        ];
        for view in cases {
            let drawing = bumper_from_behind(&view);
            assert_eq!(overlaps(&drawing), [], "{view:?}");
        }
    }

    /// Height of the least letter in pixels where the drawing is so wide.
    fn least_letter(drawing: &Drawing, pixels: f64) -> f64 {
        let sizes = drawing.items.iter().filter_map(|item| match item {
            Item::Text { size, .. } => Some(size * pixels / drawing.size.0),
            _ => None,
        });
        sizes.fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn figures_are_sixteen_pixels_high_on_a_phone_of_412() {
        // The page leaves 376 of them to the drawing.
        for view in [
            four(),
            with_row(-70.0),
            bumper(
                880.0,
                &[-679.0, -485.0, -291.0, -97.0, 97.0, 291.0, 485.0, 679.0],
            ),
        ] {
            let drawing = bumper_from_behind(&view);
            assert!(least_letter(&drawing, 376.0) >= 12.5);
            for item in &drawing.items {
                if let Item::Text {
                    lettering: Lettering::Plain,
                    size,
                    words: Words::Literal(says),
                    ..
                } = item
                {
                    let pixels = size * 376.0 / drawing.size.0;
                    assert!(pixels >= 14.5, "{says}: {pixels}");
                }
            }
        }
    }

    #[test]
    fn the_height_of_the_row_is_drawn_to_scale_with_its_figure() {
        for (from_line, at) in [(-70.0, -70.0), (45.0, 45.0)] {
            let drawing = bumper_from_behind(&with_row(from_line));
            assert_eq!(count(&drawing, &format!("{}", f64::abs(from_line))), 1);
            let across = drawing.items.iter().any(|item| {
                matches!(item, Item::Line { pen: Pen::Faint, points }
                    if points.iter().all(|point| point.1 == at))
            });
            assert!(across, "a line at {at}");
        }
    }

    #[test]
    fn a_line_far_from_the_marks_is_drawn_nearer_with_a_break() {
        let drawing = bumper_from_behind(&with_row(-1000.0));
        assert_eq!(count(&drawing, "1000"), 1);
        let broken = |item: &Item| matches!(item, Item::Line { pen: Pen::Thin, points } if points.len() == 6);
        assert!(drawing.items.iter().any(broken));
        let near = bumper_from_behind(&with_row(-70.0));
        assert!(!near.items.iter().any(broken));
    }

    #[test]
    fn an_area_to_keep_clear_of_is_hatched_inside_its_ends() {
        let mut view = four();
        let plain = bumper_from_behind(&view).items.len();
        view.no_drill = vec![(Offset(-60.0), Offset(200.0))];
        let drawing = bumper_from_behind(&view);
        assert!(drawing.items.len() > plain + 4, "more than its edge");
        let hatch = drawing.items.iter().filter_map(|item| match item {
            Item::Line {
                pen: Pen::Thin,
                points,
            } if points[0].1 > points[1].1
                && points[0].0 > -61.0
                && points[1].0 < 201.0
                && (points[0].0 - points[1].0).abs() > 60.0 =>
            {
                Some(points)
            }
            _ => None,
        });
        assert!(hatch.count() >= 3);
    }

    #[test]
    fn the_centre_line_runs_through_no_figure() {
        let middle = |drawing: &Drawing| -> Vec<(f64, f64)> {
            drawing.items.iter().filter_map(on_the_centre).collect()
        };
        let centre = |drawing: &Drawing| -> Vec<(f64, f64)> {
            let lines = drawing.items.iter().filter_map(|item| match item {
                Item::Line {
                    pen: Pen::Centre,
                    points,
                } => Some((points[0].1, points[1].1)),
                _ => None,
            });
            lines.collect()
        };
        // Four heads have the middle gap's figure on it, and three a head.
        for view in [four(), bumper(880.0, &[-680.0, 0.0, 680.0])] {
            let drawing = bumper_from_behind(&view);
            let (figures, pieces) = (middle(&drawing), centre(&drawing));
            assert!(!figures.is_empty() && pieces.len() > 1, "{pieces:?}");
            for (above, below) in figures {
                let clear = |&(from, to): &(f64, f64)| to <= above || from >= below;
                assert!(pieces.iter().all(clear), "{pieces:?} {above} {below}");
            }
        }
        assert_eq!(centre(&bumper_from_behind(&bumper(870.0, &[]))).len(), 1);
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
        for view in [four(), with_row(-70.0), with_row(900.0), bumper(870.0, &[])] {
            let drawing = bumper_from_behind(&view);
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
            for (says, sides) in boxes(&drawing) {
                assert!(inside(&At(sides[0], sides[1])), "{says}: {sides:?}");
                assert!(inside(&At(sides[2], sides[3])), "{says}: {sides:?}");
            }
        }
    }
}
