//! What a picture comes to: share covered, the largest gap, the weakest
//! place between heads.

use super::head::{HeadInPlace, Place};
use super::map::{CoverageMap, NO_ECHO};
use crate::order;
use crate::units::{Decibels, Millimetres, Offset};

/// The largest connected set of squares that no head sees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Squares in it.
    pub cells: usize,
    /// From its leftmost to its rightmost square's edge.
    pub left: Offset,
    /// See `left`.
    pub right: Offset,
    /// From its nearest to its farthest square's edge, behind the bumper.
    pub near: Millimetres,
    /// See `near`.
    pub far: Millimetres,
}

/// Where, between the outer heads, the best head has least to spare.
#[derive(Clone, Debug, PartialEq)]
pub struct Weakest {
    /// The place.
    pub at: Place,
    /// Labels of the heads left and right of it.
    pub between: [String; 2],
    /// What the best head has to spare there; `None` without any echo.
    pub level: Option<Decibels>,
}

/// What a picture from above comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Squares that count.
    pub counted: usize,
    /// Squares that a head sees.
    pub seen: usize,
    /// Squares inside a too-close zone, which do not count.
    pub too_close: usize,
    /// The largest gap; `None` where every square that counts is seen.
    pub gap: Option<Gap>,
    /// The weakest place between heads; `None` with fewer than two heads or
    /// no square between them.
    pub weakest: Option<Weakest>,
}

impl Summary {
    /// Share of the counted squares that is seen, 0 to 1; `None` where no
    /// square counts.
    #[must_use]
    pub fn share(&self) -> Option<f64> {
        (self.counted > 0).then(|| self.seen as f64 / self.counted as f64)
    }
}

/// Sums up a picture from above.
#[must_use]
pub fn summary(map: &CoverageMap, heads: &[HeadInPlace]) -> Summary {
    let counts = |cell: &usize| !map.near.get(*cell).copied().unwrap_or(true);
    let cells = map.columns * map.rows;
    let counted = (0..cells).filter(counts).count();
    let seen = (0..cells)
        .filter(counts)
        .filter(|cell| map.seen(*cell))
        .count();
    Summary {
        counted,
        seen,
        too_close: cells - counted,
        gap: largest_gap(map),
        weakest: weakest(map, heads),
    }
}

/// The largest 4-connected set of squares that count and are not seen; of
/// equal ones the first from the bumper and the left.
fn largest_gap(map: &CoverageMap) -> Option<Gap> {
    let cells = map.columns * map.rows;
    let mut open: Vec<bool> = (0..cells)
        .map(|cell| !map.near[cell] && !map.seen(cell))
        .collect();
    let mut largest: Option<Vec<usize>> = None;
    for start in 0..cells {
        if !open[start] {
            continue;
        }
        let mut set = vec![start];
        open[start] = false;
        let mut next = 0;
        while let Some(cell) = set.get(next).copied() {
            next += 1;
            for neighbour in neighbours(map, cell).into_iter().flatten() {
                if open[neighbour] {
                    open[neighbour] = false;
                    set.push(neighbour);
                }
            }
        }
        if largest.as_ref().is_none_or(|best| set.len() > best.len()) {
            largest = Some(set);
        }
    }
    let set = largest?;
    let columns = || set.iter().map(|cell| cell % map.columns);
    let rows = || set.iter().map(|cell| cell / map.columns);
    let half = map.area.cell * 0.5;
    Some(Gap {
        cells: set.len(),
        left: Offset((map.area.column(columns().min()?) - half).0),
        right: Offset((map.area.column(columns().max()?) + half).0),
        near: map.area.row(rows().min()?) - half,
        far: map.area.row(rows().max()?) + half,
    })
}

fn neighbours(map: &CoverageMap, cell: usize) -> [Option<usize>; 4] {
    let (column, row) = (cell % map.columns, cell / map.columns);
    [
        (column > 0).then(|| cell - 1),
        (column + 1 < map.columns).then_some(cell + 1),
        (row > 0).then(|| cell - map.columns),
        (row + 1 < map.rows).then_some(cell + map.columns),
    ]
}

fn weakest(map: &CoverageMap, heads: &[HeadInPlace]) -> Option<Weakest> {
    let mut order: Vec<&HeadInPlace> = heads.iter().collect();
    order::sort_by(&mut order, |a, b| a.offset.0.total_cmp(&b.offset.0));
    let pair_at = |x: f64| {
        order
            .windows(2)
            .find(|pair| pair[0].offset.0 < x && x < pair[1].offset.0)
    };
    let columns: Vec<usize> = (0..map.columns)
        .filter(|column| pair_at(map.area.column(*column).0).is_some())
        .collect();
    let (cell, level) = (0..map.rows)
        .flat_map(|row| columns.iter().map(move |column| row * map.columns + column))
        .filter(|cell| !map.near[*cell])
        .map(|cell| (cell, map.levels[cell]))
        .min_by(|a, b| a.1.total_cmp(&b.1))?;
    let across = Offset(map.area.column(cell % map.columns).0);
    let pair = pair_at(across.0)?;
    Some(Weakest {
        at: Place {
            across,
            behind: map.area.row(cell / map.columns),
        },
        between: [pair[0].label.clone(), pair[1].label.clone()],
        level: (level > NO_ECHO).then_some(Decibels(level)),
    })
}

#[cfg(test)]
mod tests {
    use super::super::head::Sensor;
    use super::super::map::Area;
    use super::*;
    use crate::kit::BeamWay;
    use crate::units::{Degrees, Millis};

    /// A picture drawn in letters, row by row from the bumper: 's' is seen,
    /// '.' is not, 'n' is inside a too-close zone, 'x' has no echo.
    fn picture(rows: &[&str]) -> CoverageMap {
        let columns = rows.first().map_or(0, |row| row.len());
        let letters: Vec<char> = rows.iter().flat_map(|row| row.chars()).collect();
        let level = |letter: &char| match letter {
            's' | 'n' => 3.0,
            '.' => -2.0,
            _ => NO_ECHO,
        };
        let half = 50.0 * columns as f64;
        CoverageMap {
            area: Area {
                columns_from: Millimetres(-half),
                columns_to: Millimetres(half),
                rows_from: Millimetres(200.0),
                rows_to: Millimetres(200.0 + 100.0 * rows.len() as f64),
                cell: Millimetres(100.0),
            },
            columns,
            rows: rows.len(),
            levels: letters.iter().map(level).collect(),
            best: vec![0; letters.len()],
            near: letters.iter().map(|letter| *letter == 'n').collect(),
        }
    }

    fn head(label: &str, offset: f64) -> HeadInPlace {
        let widths = [Degrees(90.0), Degrees(50.0)];
        let range = Millimetres(1500.0);
        HeadInPlace {
            label: label.to_owned(),
            offset: Offset(offset),
            forward: Millimetres(0.0),
            height: Millimetres(500.0),
            aim: Degrees(0.0),
            turn: Degrees(0.0),
            sensor: Sensor::new(range, 48.0, widths, BeamWay::OneWay, Millis(1.2)).unwrap(),
        }
    }

    #[test]
    fn squares_too_close_do_not_count() {
        let found = summary(&picture(&["nnss", "s..s"]), &[]);
        assert_eq!((found.counted, found.seen, found.too_close), (6, 4, 2));
        assert!((found.share().unwrap() - 4.0 / 6.0).abs() < 1e-12);
        let near = summary(&picture(&["nn", "nn"]), &[]);
        assert_eq!((near.share(), near.gap), (None, None));
    }

    #[test]
    fn where_everything_is_seen_there_is_no_gap() {
        let found = summary(&picture(&["nss", "sss"]), &[]);
        assert_eq!(found.gap, None);
        assert_eq!(found.share(), Some(1.0));
    }

    #[test]
    fn squares_that_meet_at_a_corner_only_are_two_gaps() {
        let gap = summary(&picture(&["..ss", "ss..", "sss."]), &[]).gap;
        let gap = gap.unwrap();
        assert_eq!(gap.cells, 3);
        assert_eq!((gap.left, gap.right), (Offset(0.0), Offset(200.0)));
        assert_eq!(
            (gap.near, gap.far),
            (Millimetres(300.0), Millimetres(500.0))
        );
    }

    #[test]
    fn a_gap_that_bends_is_told_by_its_outermost_edges() {
        let gap = summary(&picture(&[".sss", ".ss.", "...."]), &[]).gap;
        let gap = gap.unwrap();
        assert_eq!(gap.cells, 7);
        assert_eq!((gap.left, gap.right), (Offset(-200.0), Offset(200.0)));
        assert_eq!(
            (gap.near, gap.far),
            (Millimetres(200.0), Millimetres(500.0))
        );
    }

    #[test]
    fn of_equal_gaps_the_nearest_the_leftmost_is_told() {
        let gap = summary(&picture(&["s.s.", "ssss", ".sss"]), &[]).gap;
        let gap = gap.unwrap();
        assert_eq!((gap.cells, gap.left), (1, Offset(-100.0)));
        assert_eq!(gap.near, Millimetres(200.0));
    }

    #[test]
    fn the_weakest_place_lies_between_heads_and_names_them() {
        let mut found = picture(&["ssss", "ssss"]);
        found.levels = vec![-9.0, 5.0, 4.0, 3.0, 6.0, 2.5, 7.0, -8.0];
        // Given in any order; what lies outside the outer heads is not between.
        let heads = [head("3", 140.0), head("1", -140.0), head("2", 10.0)];
        let weakest = summary(&found, &heads).weakest.unwrap();
        assert_eq!(weakest.between, ["1", "2"]);
        assert_eq!(weakest.at.across, Offset(-50.0));
        assert_eq!(weakest.at.behind, Millimetres(350.0));
        assert_eq!(weakest.level, Some(Decibels(2.5)));
    }

    #[test]
    fn a_weakest_place_without_an_echo_has_no_level_and_one_head_has_none() {
        let heads = [head("1", -140.0), head("2", 140.0)];
        let weakest = summary(&picture(&["sxss"]), &heads).weakest.unwrap();
        assert_eq!(weakest.level, None);
        assert_eq!(summary(&picture(&["sxss"]), &heads[..1]).weakest, None);
        // Where a head still rings nothing is said.
        assert_eq!(summary(&picture(&["nnnn"]), &heads).weakest, None);
    }
}
