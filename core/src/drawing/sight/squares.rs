//! Squares of a picture as runs along its rows, one item a pattern.

use crate::decide::coverage::CoverageMap;
use crate::drawing::{Item, Pen, Run};

/// From here on a place is seen well, dB to spare.
pub(super) const WELL: f64 = 6.0;

/// How a square is drawn; `None` is left blank: not seen.
fn pen_of(map: &CoverageMap, cell: usize) -> Option<Pen> {
    if map.near[cell] {
        return Some(Pen::Dotted);
    }
    match map.levels[cell] {
        level if level >= WELL => Some(Pen::Dense),
        level if level >= 0.0 => Some(Pen::Sparse),
        _ => None,
    }
}

/// The squares of a map. `corner` gives the upper left corner of a square,
/// mm on the drawing, by its column and row.
pub(super) fn squares(map: &CoverageMap, corner: impl Fn(usize, usize) -> [f64; 2]) -> Vec<Item> {
    let cell = map.area.cell.0;
    [Pen::Dense, Pen::Sparse, Pen::Dotted]
        .into_iter()
        .map(|pen| {
            let mut runs: Vec<Run> = Vec::new();
            for row in 0..map.rows {
                let mut from = None;
                for column in 0..=map.columns {
                    let is = column < map.columns
                        && pen_of(map, row * map.columns + column) == Some(pen);
                    match (is, from) {
                        (true, None) => from = Some(column),
                        (false, Some(first)) => {
                            let [x, y] = corner(first, row);
                            runs.push([x, y, (column - first) as f64 * cell, cell]);
                            from = None;
                        }
                        _ => {}
                    }
                }
            }
            Item::Squares { pen, runs }
        })
        .collect()
}
