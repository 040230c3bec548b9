//! Where the pole is put.
//!
//! # Units
//! Millimetres; across + to the right seen from behind, behind + away from
//! the bumper's rearmost point.

use serde::{Deserialize, Serialize};

use crate::decide::coverage::{DETECTION_FAR, DETECTION_NEAR, TEST_CELL};
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// How far inside the outer edge the outer points stand (our own figure).
pub const EDGE_INSET: Millimetres = Millimetres(100.0);
/// How far from a learned object the pole stands, edge to pole (our own figure).
pub const BESIDE_OBJECT: Millimetres = Millimetres(150.0);
/// Share of the rated range at which the last row stands (our own figure).
const LAST_ROW: f64 = 0.9;
/// Places are rounded to what can be paced out (our own figure).
const STEP: f64 = 50.0;
/// Greatest rated range that is believed, mm (our own figure).
const RANGE_GREATEST: Millimetres = Millimetres(10_000.0);

/// Why a point is where it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PointBy {
    /// One of the rows.
    Row,
    /// Just behind the learned object.
    BehindObject,
    /// Beside it, to the left.
    LeftOfObject,
    /// Beside it, to the right.
    RightOfObject,
}

/// A place for the pole.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct WalkPoint {
    /// Across, + to the right.
    pub across: Offset,
    /// Behind the bumper's rearmost point.
    pub behind: Millimetres,
    /// Why there.
    pub by: PointBy,
}

/// What the points follow from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Centre line to the left outer edge.
    pub half_left: Millimetres,
    /// Centre line to the right outer edge.
    pub half_right: Millimetres,
    /// The rated range.
    pub range: Millimetres,
    /// Nearer than this nothing is told apart.
    pub too_close: Millimetres,
}

/// Why there are no points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NoPoints {
    /// The width is no width.
    Width,
    /// The range is none, or no range that a kit has.
    Range(Millimetres),
    /// Between too close and the range there is no room for the rows.
    NoRoom {
        /// First row at the nearest.
        nearest: Millimetres,
        /// Last row at the farthest.
        farthest: Millimetres,
    },
}

impl NoPoints {
    /// What the fitter is told.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Width => msg("walk-no-width"),
            Self::Range(range) => msg("walk-range-no-range")
                .mm("range", range.0)
                .mm("greatest", RANGE_GREATEST.0),
            Self::NoRoom { nearest, farthest } => msg("walk-no-room")
                .mm("nearest", nearest.0)
                .mm("farthest", farthest.0),
        }
    }
}

/// Nine points, three across and three deep: the outer ones just inside the
/// outer edges, the first row where the pole can be told apart, the last
/// at nine tenths of the rated range, the second half-way.
///
/// # Errors
/// See [`NoPoints`].
pub fn nine(area: &Area) -> Result<Vec<WalkPoint>, NoPoints> {
    let across = across(area)?;
    let range = range(area)?;
    let nearest = up(area.too_close.0.max(DETECTION_NEAR.0)) + STEP;
    let farthest = down(range.0 * LAST_ROW);
    if farthest < nearest + 2.0 * STEP {
        return Err(NoPoints::NoRoom {
            nearest: Millimetres(nearest),
            farthest: Millimetres(farthest),
        });
    }
    let rows = [nearest, down((nearest + farthest) / 2.0), farthest];
    Ok(rows
        .into_iter()
        .flat_map(|behind| across.map(|across| row(across, behind)))
        .collect())
}

/// The full grid: squares of 0.1 m over the vehicle's width, from the
/// untested strip to [`DETECTION_FAR`] or the rated range, whichever is less;
/// a point in the middle of each square.
///
/// # Errors
/// See [`NoPoints`].
pub fn grid(area: &Area) -> Result<Vec<WalkPoint>, NoPoints> {
    across(area)?;
    let range = range(area)?;
    let side = TEST_CELL.0;
    let width = area.half_left.0 + area.half_right.0;
    let far = range.0.min(DETECTION_FAR.0);
    let squares = |length: f64| (length / side + 1e-6).floor();
    let (columns, rows) = (squares(width), squares(far - DETECTION_NEAR.0));
    if columns < 1.0 || rows < 1.0 {
        return Err(NoPoints::NoRoom {
            nearest: DETECTION_NEAR,
            farthest: Millimetres(far),
        });
    }
    let middle = (area.half_right.0 - area.half_left.0) / 2.0;
    let left = middle - columns * side / 2.0;
    let at = |start: f64, n: usize| start + (n as f64 + 0.5) * side;
    Ok((0..rows as usize)
        .flat_map(|r| (0..columns as usize).map(move |c| row(at(left, c), at(DETECTION_NEAR.0, r))))
        .collect())
}

/// Three points at a learned object: just behind it, then beside it.
#[must_use]
pub fn around_object(
    across: Offset,
    half_width: Millimetres,
    reaches: Millimetres,
) -> [WalkPoint; 3] {
    let beside = half_width + BESIDE_OBJECT;
    let point = |across: Offset, behind: Millimetres, by| WalkPoint { across, behind, by };
    // Beside it the pole stands clear of the bumper, not in the strip.
    let level = if reaches > DETECTION_NEAR {
        reaches
    } else {
        DETECTION_NEAR
    };
    [
        point(across, reaches + BESIDE_OBJECT, PointBy::BehindObject),
        point(across + -beside, level, PointBy::LeftOfObject),
        point(across + beside, level, PointBy::RightOfObject),
    ]
}

fn row(across: f64, behind: f64) -> WalkPoint {
    WalkPoint {
        across: Offset(across),
        behind: Millimetres(behind),
        by: PointBy::Row,
    }
}

fn across(area: &Area) -> Result<[f64; 3], NoPoints> {
    let (left, right) = (area.half_left.0, area.half_right.0);
    let good = |half: f64| half.is_finite() && half > 2.0 * EDGE_INSET.0;
    if good(left) && good(right) {
        Ok([EDGE_INSET.0 - left, 0.0, right - EDGE_INSET.0])
    } else {
        Err(NoPoints::Width)
    }
}

fn range(area: &Area) -> Result<Millimetres, NoPoints> {
    let range = area.range;
    if range.0.is_finite() && range.0 > 0.0 && range <= RANGE_GREATEST {
        Ok(range)
    } else {
        Err(NoPoints::Range(range))
    }
}

fn up(mm: f64) -> f64 {
    (mm / STEP).ceil() * STEP
}

fn down(mm: f64) -> f64 {
    (mm / STEP).floor() * STEP
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(half: f64, range: f64, close: f64) -> Area {
        Area {
            half_left: Millimetres(half),
            half_right: Millimetres(half),
            range: Millimetres(range),
            too_close: Millimetres(close),
        }
    }

    #[test]
    fn nine_points_stand_between_too_close_and_the_rated_range() {
        let points = nine(&area(860.0, 1700.0, 223.0)).unwrap();
        let places: Vec<(f64, f64)> = points.iter().map(|p| (p.across.0, p.behind.0)).collect();
        let rows = [300.0, 900.0, 1500.0];
        let wanted: Vec<(f64, f64)> = rows
            .iter()
            .flat_map(|row| [-760.0, 0.0, 760.0].map(|across| (across, *row)))
            .collect();
        assert_eq!(places, wanted);
    }

    #[test]
    fn the_grid_has_a_point_in_every_square() {
        let points = grid(&area(900.0, 1700.0, 0.0)).unwrap();
        assert_eq!(points.len(), 144);
        assert!((points[0].behind.0 - 250.0).abs() < 1e-9);
        assert!((points[0].across.0 + 850.0).abs() < 1e-9);
        assert!((points[143].across.0 - 850.0).abs() < 1e-9);
    }

    #[test]
    fn a_range_that_is_none_or_no_width_has_an_outcome_in_words() {
        for bad in [0.0, -5.0, f64::NAN, f64::INFINITY, 1e9] {
            let fault = nine(&area(860.0, bad, 0.0)).unwrap_err();
            assert_eq!(fault.message().key, "walk-range-no-range");
            assert!(grid(&area(860.0, bad, 0.0)).is_err());
        }
        for bad in [0.0, -860.0, f64::NAN] {
            assert_eq!(nine(&area(bad, 1700.0, 0.0)), Err(NoPoints::Width));
        }
        let fault = nine(&area(860.0, 300.0, 280.0)).unwrap_err();
        assert_eq!(fault.message().key, "walk-no-room");
        assert!(grid(&area(860.0, 250.0, 0.0)).is_err());
    }

    #[test]
    fn the_pole_stands_just_behind_and_beside_a_learned_object() {
        let at = around_object(Offset(20.0), Millimetres(40.0), Millimetres(260.0));
        assert!((at[0].behind.0 - 410.0).abs() < 1e-9);
        assert_eq!(at[1].across, Offset(-170.0));
        assert_eq!(at[2].across, Offset(210.0));
    }
}
