//! Tables and pairs on a page: columns by what stands in them, heads again
//! on the next page.

use super::super::lettering::Face;
use super::lay::{Cursor, Means, SIDE, What};
use super::wrap::{lines, plain};
use crate::drawing::{Anchor, At};
use crate::text::Message;

/// Between two columns, in letterings.
const GAP: f64 = 0.8;

/// The share of the width that names of pairs take at most.
const NAMES: f64 = 0.36;

/// Names and values in two columns.
pub(super) fn pairs(cursor: &mut Cursor, pairs: &[(Message, Message)]) {
    let said: Vec<Vec<String>> = pairs
        .iter()
        .map(|(name, value)| vec![(cursor.say)(name), (cursor.say)(value)])
        .collect();
    let widest = said
        .iter()
        .map(|pair| cursor.face.width(&plain(&pair[0])) * cursor.body)
        .fold(0.0, f64::max);
    let gap = GAP * cursor.body;
    // A hair more, so that the widest name does not break by rounding.
    let names = (widest + gap + 0.01).min(cursor.width() * NAMES);
    let widths = [names, cursor.width() - names];
    let table = cursor.tag(Means::Table, None);
    for pair in &said {
        row(cursor, pair, &widths, table, Kind::Pair);
    }
}

/// A table with its heads.
pub(super) fn table(cursor: &mut Cursor, head: &[Message], rows: &[Vec<Message>]) {
    let said =
        |cells: &[Message]| -> Vec<String> { cells.iter().map(|m| (cursor.say)(m)).collect() };
    let head = said(head);
    let rows: Vec<Vec<String>> = rows.iter().map(|cells| said(cells)).collect();
    let widths = columns(cursor.face, &head, &rows, cursor.body, cursor.width());
    let table = cursor.tag(Means::Table, None);
    row(cursor, &head, &widths, table, Kind::Head);
    for cells in &rows {
        let height = height(cursor, cells, &widths);
        if cursor.room(height + cursor.body) {
            row(cursor, &head, &widths, table, Kind::HeadAgain);
        }
        row(cursor, cells, &widths, table, Kind::Row);
    }
}

/// Widths of columns: what a column needs if all fit, else each its longest
/// word and a share of the rest by need.
fn columns(face: &Face, head: &[String], rows: &[Vec<String>], size: f64, width: f64) -> Vec<f64> {
    let gap = GAP * size;
    let cells = |column: usize| {
        let below = rows.iter().filter_map(move |row| row.get(column));
        head.get(column).into_iter().chain(below)
    };
    let wide = |text: &str| face.width(text) * size + gap;
    let greatest = |values: &mut dyn Iterator<Item = f64>| values.fold(0.0, f64::max);
    let count = head.len();
    let wanted: Vec<f64> = (0..count)
        .map(|column| greatest(&mut cells(column).map(|text| wide(&plain(text)))))
        .collect();
    let needed: Vec<f64> = (0..count)
        .map(|column| {
            let words = cells(column).flat_map(|text| text.split_whitespace());
            greatest(&mut words.map(|word| wide(&plain(word))))
        })
        .collect();
    let (want, need) = (wanted.iter().sum::<f64>(), needed.iter().sum::<f64>());
    if want <= width {
        let more = (width - want) / count.max(1) as f64;
        return wanted.iter().map(|column| column + more).collect();
    }
    if need >= width {
        return needed.iter().map(|column| column * width / need).collect();
    }
    let spare = (width - need) / (want - need);
    let pairs = needed.iter().zip(&wanted);
    pairs
        .map(|(need, want)| need + (want - need) * spare)
        .collect()
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Pair,
    Head,
    /// The head repeated on a next page: for the eye only.
    HeadAgain,
    Row,
}

fn height(cursor: &Cursor, cells: &[String], widths: &[f64]) -> f64 {
    let gap = GAP * cursor.body;
    let deepest = cells
        .iter()
        .zip(widths)
        .map(|(text, width)| lines(cursor.face, text, cursor.body, width - gap).len())
        .max();
    deepest.unwrap_or(0) as f64 * cursor.line_height(cursor.body) + cursor.body * 0.25
}

fn row(cursor: &mut Cursor, cells: &[String], widths: &[f64], table: usize, kind: Kind) {
    let (body, gap) = (cursor.body, GAP * cursor.body);
    let high = height(cursor, cells, widths);
    cursor.room(high);
    let within = (kind != Kind::HeadAgain).then(|| cursor.tag(Means::Row, Some(table)));
    let mut x = SIDE;
    for (index, (text, width)) in cells.iter().zip(widths).enumerate() {
        let means = match kind {
            Kind::Head => Means::HeadCell,
            Kind::Pair if index == 0 => Means::HeadCell,
            Kind::Pair | Kind::Row | Kind::HeadAgain => Means::Cell,
        };
        let tag = within.map(|row| cursor.tag(means, Some(row)));
        for (number, line) in lines(cursor.face, text, body, width - gap)
            .into_iter()
            .enumerate()
        {
            let y = cursor.y + body + number as f64 * cursor.line_height(body);
            cursor.place(What::Text(At(x, y), Anchor::Start, body, line), tag);
        }
        x += width;
    }
    cursor.y += high;
    let stroke = if matches!(kind, Kind::Head | Kind::HeadAgain) {
        0.25
    } else {
        0.1
    };
    let ends = (At(SIDE, cursor.y), At(SIDE + cursor.width(), cursor.y));
    cursor.place(What::Rule(ends.0, ends.1, stroke), None);
    cursor.y += body * 0.15;
}
