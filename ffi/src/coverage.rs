//! What the heads will see: a prediction.

use rakeline_core::decide::coverage::{Area, Target, View, map, summary};
use rakeline_core::job::{HalfWidths, air_of, half_widths, heads_in_place};
use rakeline_core::text::msg;

use crate::Fault;
use crate::fault::listed;
use crate::record::job_of;

/// The detection area behind a vehicle (UN R158) in squares, seen from above
/// for the test pole. A prediction, not a promise.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct CoverageMap {
    /// Squares in a row, left to right.
    pub columns: u32,
    /// Rows, away from the bumper.
    pub rows: u32,
    /// Side of a square, mm.
    pub cell: f64,
    /// Left end of the first column, mm from the centre line.
    pub from_left: f64,
    /// Near end of the first row, mm behind the bumper.
    pub from_behind: f64,
    /// Decibels to spare of the best head, row by row; 0 or more is seen.
    pub levels: Vec<f64>,
    /// Whether the square is too close for a head, row by row.
    pub too_close: Vec<bool>,
    /// Share of the squares that count which is seen, 0 to 1.
    pub share: Option<f64>,
    /// What is assumed.
    pub assumed: Vec<String>,
}

/// Predicts what the heads of a stored job will see.
///
/// # Errors
/// [`Fault::Unreadable`] for a record that is none, [`Fault::Impossible`]
/// while no marks are planned or where the sheet makes no beam.
#[uniffi::export]
pub fn coverage(record: &str) -> Result<CoverageMap, Fault> {
    let job = job_of(record)?;
    let HalfWidths::Ready { left, right, .. } = half_widths(&job) else {
        return Err(Fault::impossible(&msg("coverage-no-marks")));
    };
    let placed = heads_in_place(&job).map_err(|why| Fault::impossible(&why))?;
    let area = Area::detection(left, right);
    let found = map(
        &placed.heads,
        View::Above(Target::Pole),
        area,
        &air_of(&job),
    );
    let sum = summary(&found, &placed.heads);
    let count = |of: usize| u32::try_from(of).unwrap_or(u32::MAX);
    Ok(CoverageMap {
        columns: count(found.columns),
        rows: count(found.rows),
        cell: area.cell.0,
        from_left: area.columns_from.0,
        from_behind: area.rows_from.0,
        levels: found.levels,
        too_close: found.near,
        share: sum.share(),
        assumed: listed(&placed.assumed),
    })
}
