//! Dimensions as a draughtsman puts them: chains between stations, running
//! figures from the centre line. Figures that would touch go to rows of
//! their own; none is left out and none lies over another.

use super::{Anchor, At, Item, Lettering, Pen, Words, line};
use crate::order;
use crate::text::Message;

/// A figure is so wide for its height, with the space beside it.
pub(super) const FIGURE_WIDE: f64 = 0.62;
/// From row to row of figures, in letters.
const ROW: f64 = 1.15;
/// From the dimension line to the foot of its first row, in letters.
const FOOT: f64 = 0.4;
/// Height of a caption, in letters.
const CAPTION: f64 = 0.8;
/// A caption with the space above and below it, in letters.
const CAPTION_ROOM: f64 = 1.2;

/// A figure over its place.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Figure {
    /// Its middle, mm.
    pub at: f64,
    /// What it says.
    pub says: String,
}

impl Figure {
    /// A length in whole millimetres, with one decimal where it has one.
    pub(super) fn length(at: f64, mm: f64) -> Self {
        let says = length(mm);
        Self { at, says }
    }

    fn half(&self, unit: f64) -> f64 {
        self.says.chars().count() as f64 * FIGURE_WIDE * unit / 2.0
    }
}

/// A length as it stands on the drawing.
pub(super) fn length(mm: f64) -> String {
    let mm = mm.abs();
    if (mm - mm.round()).abs() < 0.05 {
        format!("{mm:.0}")
    } else {
        format!("{mm:.1}")
    }
}

/// The row of each figure, from the dimension line outward: the first one
/// where it touches none that stands there. Figures come from left to right.
fn rows(figures: &[Figure], unit: f64) -> Vec<usize> {
    let mut ends: Vec<f64> = Vec::new();
    let mut place = |figure: &Figure| {
        let (from, to) = (figure.at - figure.half(unit), figure.at + figure.half(unit));
        let free = ends.iter().position(|end| *end <= from);
        let row = free.unwrap_or(ends.len());
        match ends.get_mut(row) {
            Some(end) => *end = to,
            None => ends.push(to),
        }
        row
    };
    figures.iter().map(&mut place).collect()
}

/// A dimension line with its figures above it.
pub(super) struct Dimension {
    /// What it is, above its figures.
    pub caption: Option<Message>,
    /// Where it has ticks, mm, left to right.
    pub stations: Vec<f64>,
    /// Its figures, left to right.
    pub figures: Vec<Figure>,
    /// Whether it runs outward from the centre line.
    pub from_centre: bool,
}

impl Dimension {
    /// Gaps between neighbouring stations.
    pub(super) fn chain(stations: Vec<f64>) -> Self {
        let gaps = stations.windows(2);
        let figures =
            gaps.map(|pair| Figure::length(f64::midpoint(pair[0], pair[1]), pair[1] - pair[0]));
        Self {
            figures: figures.collect(),
            caption: None,
            stations,
            from_centre: false,
        }
    }

    /// Distances from the centre line, each figure over its place.
    pub(super) fn from_centre(caption: Message, figures: Vec<Figure>) -> Self {
        let mut stations: Vec<f64> = figures.iter().map(|figure| figure.at).collect();
        if !stations.contains(&0.0) {
            stations.push(0.0);
        }
        order::sort_by(&mut stations, f64::total_cmp);
        Self {
            caption: Some(caption),
            stations,
            figures,
            from_centre: true,
        }
    }

    /// How far it reaches above its line.
    pub(super) fn above(&self, unit: f64) -> f64 {
        let count = rows(&self.figures, unit)
            .iter()
            .max()
            .map_or(0, |row| row + 1);
        let caption = if self.caption.is_some() {
            CAPTION_ROOM
        } else {
            0.0
        };
        unit * (FOOT + ROW * count as f64 + caption)
    }

    /// Draws it with its line at `y`; `left` is where its caption begins.
    pub(super) fn draw(&self, y: f64, left: f64, unit: f64) -> Vec<Item> {
        let (Some(first), Some(last)) = (self.stations.first(), self.stations.last()) else {
            return Vec::new();
        };
        let mut items = vec![line(Pen::Thin, &[(*first, y), (*last, y)])];
        for x in &self.stations {
            let tick = unit * 0.3;
            items.push(line(
                Pen::Thin,
                &[(x - tick, y + tick), (x + tick, y - tick)],
            ));
        }
        let placed = rows(&self.figures, unit);
        let foot = |row: usize| y - unit * (FOOT + ROW * row as f64);
        for (figure, row) in self.figures.iter().zip(&placed) {
            if *row > 0 {
                let to = foot(*row) + unit * 0.1;
                items.push(line(Pen::Thin, &[(figure.at, y), (figure.at, to)]));
            }
        }
        if self.from_centre {
            items.push(Item::Circle {
                pen: Pen::Paper,
                centre: At(0.0, y),
                radius: unit * 0.22,
            });
        }
        for (figure, row) in self.figures.iter().zip(placed) {
            items.push(text(
                Lettering::Plain,
                At(figure.at, foot(row)),
                Anchor::Middle,
                unit,
                Words::Literal(figure.says.clone()),
            ));
        }
        if let Some(caption) = &self.caption {
            let top = y - self.above(unit);
            items.push(text(
                Lettering::Plain,
                At(left, top + unit * 0.95),
                Anchor::Start,
                unit * CAPTION,
                Words::Message(caption.clone()),
            ));
        }
        items
    }
}

pub(super) fn text(lettering: Lettering, at: At, anchor: Anchor, size: f64, words: Words) -> Item {
    Item::Text {
        lettering,
        at,
        anchor,
        size,
        words,
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::super::Drawing;
    use super::*;

    /// Boxes of all texts: left, top, right, bottom; words of the text file
    /// are left out, their length is not known here.
    pub(in super::super) fn boxes(drawing: &Drawing) -> Vec<(String, [f64; 4])> {
        let of = |item: &Item| {
            let Item::Text {
                at,
                anchor,
                size,
                words: Words::Literal(says),
                ..
            } = item
            else {
                return None;
            };
            let wide = says.chars().count() as f64 * 0.6 * size;
            let left = match anchor {
                Anchor::Start => at.0,
                Anchor::Middle => at.0 - wide / 2.0,
                Anchor::End => at.0 - wide,
            };
            let sides = [left, at.1 - 0.75 * size, left + wide, at.1];
            Some((says.clone(), sides))
        };
        drawing.items.iter().filter_map(of).collect()
    }

    /// Pairs of texts that lie over each other.
    pub(in super::super) fn overlaps(drawing: &Drawing) -> Vec<(String, String)> {
        let all = boxes(drawing);
        let mut found = Vec::new();
        for (k, (one, a)) in all.iter().enumerate() {
            for (other, b) in &all[k + 1..] {
                let apart = a[2] <= b[0] + 1e-9
                    || b[2] <= a[0] + 1e-9
                    || a[3] <= b[1] + 1e-9
                    || b[3] <= a[1] + 1e-9;
                if !apart {
                    found.push((one.clone(), other.clone()));
                }
            }
        }
        found
    }

    #[test]
    fn figures_that_would_touch_go_to_rows_of_their_own() {
        let figure = |at: f64| Figure::length(at, 123.0);
        let far = [0.0, 300.0, 600.0].map(figure);
        assert_eq!(rows(&far, 80.0), [0, 0, 0]);
        let near = [0.0, 100.0, 200.0, 300.0].map(figure);
        assert_eq!(rows(&near, 80.0), [0, 1, 0, 1]);
        let one_place = [0.0, 1.0, 2.0].map(figure);
        assert_eq!(rows(&one_place, 80.0), [0, 1, 2]);
    }

    #[test]
    fn a_length_shows_its_decimal_only_where_it_has_one() {
        assert_eq!(length(-870.0), "870");
        assert_eq!(length(870.5), "870.5");
        assert_eq!(length(229.999_999), "230");
    }
}
