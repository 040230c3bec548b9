//! Mark cards: cut out and stuck on with the tip on the mark, they tell a
//! photo where each mark is.
//! Their geometry is that of [`crate::estimate::photo::card`].

use super::paper::{Page, Pages, Paper, bar, words};
use crate::drawing::{Anchor, At, Item, Pen};
use crate::estimate::photo::card::{
    ABOVE, BELOW, CARDS_GREATEST, CELL, CODE_HALF, CROSSES, HALF, MODULE, POINTER,
};
use crate::estimate::photo::tag36h11::{CODE_WORDS, MODULES, is_black};
use crate::sample::CHECK_LINE;
use crate::text::msg;

/// How cards lie on a sheet: columns, rows, upper left corner of the first.
fn rack(paper: Paper) -> (usize, usize, At) {
    let size = paper.lying();
    let columns = match paper {
        Paper::A4 => 3,
        Paper::Letter => 2,
    };
    (
        columns,
        2,
        At((size.0 - 2.0 * HALF * columns as f64) / 2.0, 5.5),
    )
}

/// Sheets of mark cards, at least one card a mark: six on A4, four on
/// Letter. At most [`CARDS_GREATEST`] cards are different; more are not made.
///
/// # Units
/// Millimetres on paper that is printed at 100 %; what the check line of
/// 250 mm measures is entered with the photos.
#[must_use]
pub fn mark_cards(marks: usize, paper: Paper) -> Pages {
    let (columns, rows, _) = rack(paper);
    let a_sheet = columns * rows;
    let sheets = marks.clamp(1, CARDS_GREATEST).div_ceil(a_sheet);
    let pages = (0..sheets)
        .map(|sheet| {
            let first = sheet * a_sheet;
            page(paper, first, a_sheet.min(CARDS_GREATEST - first))
        })
        .collect();
    Pages {
        title: msg("cards-title"),
        pages,
    }
}

fn page(paper: Paper, first: usize, count: usize) -> Page {
    let size = paper.lying();
    let (columns, rows, corner) = rack(paper);
    let mut items = Vec::new();
    for place in 0..count {
        let (row, column) = (place / columns, place % columns);
        let middle = At(
            corner.0 + HALF * (2 * column + 1) as f64,
            corner.1 + ABOVE + (ABOVE + BELOW) * row as f64,
        );
        items.extend(card(middle, first + place));
    }
    let bottom = corner.1 + (ABOVE + BELOW) * rows as f64;
    let left = (size.0 - CHECK_LINE.0) / 2.0;
    items.push(words(
        At(size.0 / 2.0, bottom + 4.3),
        Anchor::Middle,
        3.2,
        msg("cards-check").mm("length", CHECK_LINE.0),
    ));
    items.extend(bar(
        At(left, bottom + 7.5),
        At(left + CHECK_LINE.0, bottom + 7.5),
    ));
    Page { size, items }
}

fn card(middle: At, number: usize) -> Vec<Item> {
    let area = |pen: Pen, corners: &[(f64, f64)]| Item::Area {
        pen,
        points: corners
            .iter()
            .map(|(x, y)| At(middle.0 + x, middle.1 - y))
            .collect(),
    };
    let square = |x: f64, y: f64, side: f64| {
        area(
            Pen::Solid,
            &[(x, y), (x + side, y), (x + side, y - side), (x, y - side)],
        )
    };
    let mut items = vec![area(
        Pen::Faint,
        &[
            (-HALF, ABOVE),
            (HALF, ABOVE),
            (HALF, -BELOW),
            (-HALF, -BELOW),
        ],
    )];
    items.extend(code(number).into_iter().map(|(x, y, across)| {
        area(
            Pen::Solid,
            &[
                (x, y),
                (x + across, y),
                (x + across, y - MODULE),
                (x, y - MODULE),
            ],
        )
    }));
    for (x, y) in CROSSES {
        items.push(square(x, y + CELL, CELL));
        items.push(square(x - CELL, y, CELL));
    }
    let (half, base) = POINTER;
    items.push(area(
        Pen::Solid,
        &[(-half, base), (half, base), (0.0, -BELOW)],
    ));
    items.push(words(
        At(middle.0, middle.1 - 34.0),
        Anchor::Middle,
        4.5,
        msg("cards-card").count("card", i64::try_from(number + 1).unwrap_or(i64::MAX)),
    ));
    items.push(words(
        At(middle.0, middle.1 - 28.0),
        Anchor::Middle,
        3.2,
        msg("cards-tip"),
    ));
    items
}

/// The black runs of the code: left end, upper edge, length. Whole runs,
/// so that no seam shows between modules.
fn code(number: usize) -> Vec<(f64, f64, f64)> {
    let Some(&word) = CODE_WORDS.get(number) else {
        return Vec::new();
    };
    let mut runs = Vec::new();
    for row in 0..MODULES {
        let mut column = 0;
        while column < MODULES {
            let from = column;
            while is_black(word, row, column) {
                column += 1;
            }
            if column > from {
                runs.push((
                    MODULE * from as f64 - CODE_HALF,
                    CODE_HALF - MODULE * row as f64,
                    MODULE * (column - from) as f64,
                ));
            }
            column += 1;
        }
    }
    runs
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inside(page: &Page, margin: f64) -> bool {
        page.items.iter().all(|item| match item {
            Item::Area { points, .. } | Item::Line { points, .. } => points.iter().all(|at| {
                at.0 >= margin
                    && at.1 >= margin
                    && at.0 <= page.size.0 - margin
                    && at.1 <= page.size.1 - margin
            }),
            _ => true,
        })
    }

    #[test]
    fn six_cards_go_on_a4_and_four_on_letter() {
        assert_eq!(mark_cards(4, Paper::A4).pages.len(), 1);
        assert_eq!(mark_cards(7, Paper::A4).pages.len(), 2);
        assert_eq!(mark_cards(4, Paper::Letter).pages.len(), 1);
        assert_eq!(mark_cards(8, Paper::Letter).pages.len(), 2);
        assert_eq!(mark_cards(50, Paper::A4).pages.len(), 2);
    }

    #[test]
    fn everything_keeps_off_the_edge_that_printers_leave_white() {
        for paper in [Paper::A4, Paper::Letter] {
            let pages = mark_cards(8, paper);
            assert!(
                pages.pages.iter().all(|page| inside(page, 4.5)),
                "{paper:?}"
            );
        }
    }
}
