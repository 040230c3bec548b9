//! The picture of what is seen: squares behind the vehicle, from above and
//! from the side, each with the best head's decibels to spare.

use super::air::Air;
use super::echo::Target;
use super::head::{HeadInPlace, Ready};
use super::row::{Row, Table};
use crate::units::Millimetres;

/// What stands in a square that no head can get an echo from.
pub const NO_ECHO: f64 = -999.0;
/// The head of a square without any.
pub const NO_HEAD: u8 = u8::MAX;
/// More squares than this are not drawn.
pub const CELLS_GREATEST: usize = 400_000;
/// UN R158: the detection area begins so far behind the rearmost point
/// (as quoted in secondary sources).
pub const DETECTION_NEAR: Millimetres = Millimetres(200.0);
/// UN R158: and ends so far behind it.
pub const DETECTION_FAR: Millimetres = Millimetres(1000.0);
/// Side of a square of the test grid (ISO 17386, as quoted in secondary
/// sources).
pub const TEST_CELL: Millimetres = Millimetres(100.0);

/// From where the picture is seen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum View {
    /// From above: columns from left to right, rows away from the bumper.
    Above(Target),
    /// From the side: columns away from the bumper, rows upward. A bar of
    /// the test pole's diameter lies across in each square.
    Side,
}

/// A rectangle cut into squares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Where the columns begin.
    pub columns_from: Millimetres,
    /// Where they end.
    pub columns_to: Millimetres,
    /// Where the rows begin.
    pub rows_from: Millimetres,
    /// Where they end.
    pub rows_to: Millimetres,
    /// Side of a square.
    pub cell: Millimetres,
}

impl Area {
    /// The detection area of UN R158 behind a vehicle, on the test grid: as
    /// many whole squares as fit across, what is left over shared by both
    /// sides.
    #[must_use]
    pub fn detection(half_left: Millimetres, half_right: Millimetres) -> Self {
        let across = half_left + half_right;
        let over = across.0 - (across.0 / TEST_CELL.0 + 1e-6).floor() * TEST_CELL.0;
        let over = Millimetres(over.max(0.0) / 2.0);
        Self {
            columns_from: over - half_left,
            columns_to: half_right - over,
            rows_from: DETECTION_NEAR,
            rows_to: DETECTION_FAR,
            cell: TEST_CELL,
        }
    }

    /// Whole squares across and along; none of both where it is no area or
    /// holds more than [`CELLS_GREATEST`].
    #[must_use]
    pub fn size(&self) -> (usize, usize) {
        let count = |from: Millimetres, to: Millimetres| {
            let cells = ((to - from).0 / self.cell.0 + 1e-6).floor();
            if cells >= 1.0 && cells.is_finite() && self.cell.0 > 0.0 {
                cells.min(1e9) as usize
            } else {
                0
            }
        };
        let columns = count(self.columns_from, self.columns_to);
        let rows = count(self.rows_from, self.rows_to);
        match columns.checked_mul(rows) {
            Some(cells) if cells > 0 && cells <= CELLS_GREATEST => (columns, rows),
            _ => (0, 0),
        }
    }

    /// Middle of a column.
    #[must_use]
    pub fn column(&self, index: usize) -> Millimetres {
        self.columns_from + self.cell * (index as f64 + 0.5)
    }

    /// Middle of a row.
    #[must_use]
    pub fn row(&self, index: usize) -> Millimetres {
        self.rows_from + self.cell * (index as f64 + 0.5)
    }

    /// Whether a point lies inside, its edges included.
    #[must_use]
    pub fn contains(&self, column: Millimetres, row: Millimetres) -> bool {
        (self.columns_from..=self.columns_to).contains(&column)
            && (self.rows_from..=self.rows_to).contains(&row)
    }
}

/// The squares of an area, row by row.
#[derive(Clone, Debug, PartialEq)]
pub struct CoverageMap {
    /// The area.
    pub area: Area,
    /// Squares in a row.
    pub columns: usize,
    /// Rows.
    pub rows: usize,
    /// The best head's decibels to spare, [`NO_ECHO`] where there is none.
    pub levels: Vec<f64>,
    /// That head, by its place in the list; [`NO_HEAD`] where there is none.
    pub best: Vec<u8>,
    /// Whether the square is inside a head's too-close zone.
    pub near: Vec<bool>,
}

impl CoverageMap {
    /// Whether a square is seen by a head.
    #[must_use]
    pub fn seen(&self, cell: usize) -> bool {
        self.levels.get(cell).is_some_and(|level| *level >= 0.0)
    }
}

/// Computes the picture of an area. Every figure in it is finite.
#[must_use]
pub fn map(heads: &[HeadInPlace], view: View, area: Area, air: &Air) -> CoverageMap {
    let (columns, rows) = area.size();
    let cells = columns * rows;
    let mut found = CoverageMap {
        area,
        columns,
        rows,
        levels: vec![NO_ECHO; cells],
        best: vec![NO_HEAD; cells],
        near: vec![false; cells],
    };
    if cells == 0 {
        return found;
    }
    let mut scratch = vec![NO_ECHO; columns];
    for (index, head) in heads.iter().enumerate() {
        let ready = head.ready(air);
        if !ready.is_finite() {
            continue;
        }
        let table = Table::new(ready.greatest_square());
        let index = u8::try_from(index).unwrap_or(NO_HEAD - 1);
        for row in 0..rows {
            let cells = row * columns..(row + 1) * columns;
            let line = Row::of(&ready, view, &area, row);
            line.levels(&table, &mut scratch);
            line.mark_near(&ready, &mut found.near[cells.clone()]);
            let best = found.best[cells.clone()].iter_mut();
            let levels = found.levels[cells].iter_mut();
            for ((level, best), this) in levels.zip(best).zip(&scratch) {
                if *this > *level {
                    *level = *this;
                    *best = index;
                }
            }
        }
    }
    found
}

impl Ready {
    /// The greatest x² that any direction gives.
    fn greatest_square(&self) -> f64 {
        let square = |v: [f64; 3]| v.iter().map(|part| part * part).sum::<f64>();
        square(self.across).max(square(self.upright))
    }

    /// Whether every figure is one.
    fn is_finite(&self) -> bool {
        [self.at, self.axis, self.across, self.upright]
            .iter()
            .flatten()
            .chain([&self.alpha, &self.calibration, &self.near])
            .all(|part| part.is_finite())
    }
}

#[cfg(test)]
mod tests {
    use super::super::head::{Place, Sensor, predict};
    use super::super::summary::summary;
    use super::*;
    use crate::kit::BeamWay;
    use crate::units::{Degrees, Millis, Offset};

    fn head(offset: f64, turn: f64) -> HeadInPlace {
        let widths = [Degrees(90.0), Degrees(50.0)];
        HeadInPlace {
            label: format!("{offset}"),
            offset: Offset(offset),
            forward: Millimetres(0.0),
            height: Millimetres(500.0),
            aim: Degrees(2.0),
            turn: Degrees(turn),
            sensor: Sensor::new(
                Millimetres(1500.0),
                48.0,
                widths,
                BeamWay::OneWay,
                Millis(1.2),
            )
            .unwrap(),
        }
    }

    fn area(cell: f64) -> Area {
        Area {
            columns_from: Millimetres(-1000.0),
            columns_to: Millimetres(1000.0),
            rows_from: Millimetres(0.0),
            rows_to: Millimetres(2000.0),
            cell: Millimetres(cell),
        }
    }

    const TARGETS: [Target; 6] = [
        Target::Pole,
        Target::Bar {
            height: Millimetres(300.0),
        },
        Target::Wall,
        Target::Kerb,
        Target::TowBall {
            height: Millimetres(500.0),
        },
        Target::SpareWheel {
            height: Millimetres(900.0),
            radius: Millimetres(350.0),
        },
    ];

    #[test]
    fn a_picture_says_what_the_prediction_says() {
        let heads = [head(-500.0, -20.0), head(500.0, 20.0)];
        for target in TARGETS {
            let found = map(&heads, View::Above(target), area(40.0), &Air::SUMMER);
            for cell in (0..found.levels.len()).step_by(7) {
                let at = Place {
                    across: Offset(found.area.column(cell % found.columns).0),
                    behind: found.area.row(cell / found.columns),
                };
                let told = predict(&heads, &target, at, &Air::SUMMER);
                let best = told
                    .iter()
                    .filter_map(|head| head.level)
                    .fold(NO_ECHO, |best, level| best.max(level.0));
                assert!(
                    (best - found.levels[cell]).abs() < 1e-4,
                    "{target:?} {at:?}"
                );
                let near = told.iter().any(|head| head.too_close);
                assert_eq!(near, found.near[cell], "{target:?} {at:?}");
            }
        }
    }

    #[test]
    fn no_picture_holds_what_is_no_figure() {
        let mut odd = vec![head(0.0, 180.0), head(1e9, 0.0), head(0.0, 90.0)];
        odd.push(HeadInPlace {
            height: Millimetres(0.0),
            aim: Degrees(-90.0),
            ..head(20.0, 0.0)
        });
        odd.push(HeadInPlace {
            aim: Degrees(f64::NAN),
            ..head(0.0, 0.0)
        });
        odd.push(HeadInPlace {
            height: Millimetres(f64::INFINITY),
            ..head(0.0, 0.0)
        });
        for target in TARGETS {
            for view in [View::Above(target), View::Side] {
                let found = map(&odd, view, area(20.0), &Air::REFERENCE);
                assert!(found.levels.iter().all(|level| level.is_finite()));
            }
        }
    }

    #[test]
    fn a_head_that_faces_in_sees_nothing() {
        let found = map(
            &[head(0.0, 180.0)],
            View::Above(Target::Pole),
            area(100.0),
            &Air::REFERENCE,
        );
        assert!(!head(0.0, 180.0).faces_out());
        assert!(found.best.iter().all(|head| *head == NO_HEAD));
        let summed = summary(&found, &[head(0.0, 180.0)]);
        assert_eq!(summed.share(), Some(0.0));
        assert_eq!(summed.gap.unwrap().cells, summed.counted);
        assert_eq!(summed.weakest, None);
    }

    #[test]
    fn an_area_that_is_none_has_no_squares() {
        for area in [area(0.0), area(f64::NAN), area(-5.0), area(0.1)] {
            assert_eq!(area.size(), (0, 0));
            let found = map(&[head(0.0, 0.0)], View::Side, area, &Air::REFERENCE);
            assert_eq!(summary(&found, &[]).share(), None);
        }
    }

    #[test]
    fn two_heads_at_the_sides_leave_the_middle_weak() {
        let heads = [head(-700.0, -30.0), head(700.0, 30.0)];
        let area = Area::detection(Millimetres(900.0), Millimetres(900.0));
        let found = map(&heads, View::Above(Target::Pole), area, &Air::REFERENCE);
        let summed = summary(&found, &heads);
        let gap = summed.gap.unwrap();
        assert!(gap.left.0 < 0.0 && gap.right.0 > 0.0, "{gap:?}");
        let weakest = summed.weakest.unwrap();
        assert!(weakest.at.across.0.abs() < 300.0, "{weakest:?}");
        assert_eq!(weakest.between, ["-700", "700"]);
        assert!(weakest.level.is_none_or(|level| level.0 < 0.0));
    }
}
