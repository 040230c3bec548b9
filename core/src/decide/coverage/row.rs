//! One row of squares seen by one head: everything that is the same along
//! the row is worked out once, the directivity comes from a table, the
//! logarithm from its own short series.
//!
//! Along a row only one coordinate t of the vector from head to target
//! changes; with s² the sum of squares of the two others, rho² = t² + s².

use super::bessel::directivity;
use super::echo::{BALL_RADIUS, DIRECTIVITY_LEAST, POLE_RADIUS, RANGE_LEAST, Target};
use super::head::Ready;
use super::map::{Area, NO_ECHO, View};

/// Step of the table in x².
const STEP: f64 = 0.25;
/// Largest x² in the table; beyond it the function itself is called.
const TABLE_TOP: f64 = 2500.0;

/// 2 J1(x) / x as a cubic in x² on steps of [`STEP`]: the fourth derivative
/// by x² is at most 1 / 30720, so that a cubic through four neighbours is
/// good to 3e-9.
pub(super) struct Table {
    pieces: Vec<[f64; 4]>,
}

impl Table {
    pub(super) fn new(greatest: f64) -> Self {
        let pieces = (greatest.min(TABLE_TOP) / STEP).ceil() as usize + 1;
        let values: Vec<f64> = (0..pieces + 3)
            .map(|i| (i as f64 - 1.0) * STEP)
            .map(even)
            .collect();
        let cubic = |v: &[f64]| {
            let (a, b, c, d) = (v[0], v[1], v[2], v[3]);
            [
                b,
                c - b / 2.0 - a / 3.0 - d / 6.0,
                (a + c) / 2.0 - b,
                (d - a) / 6.0 + (b - c) / 2.0,
            ]
        };
        Self {
            pieces: values.windows(4).map(cubic).collect(),
        }
    }

    #[inline(always)]
    fn at(&self, square: f64) -> f64 {
        let place = square * (1.0 / STEP);
        let index = place as usize;
        match self.pieces.get(index) {
            Some([a, b, c, d]) => {
                let t = place - index as f64;
                a + t * (b + t * (c + t * d))
            }
            None => directivity(square),
        }
    }
}

/// The function goes on smoothly below 0, where its series has only
/// positive terms.
fn even(square: f64) -> f64 {
    if square >= 0.0 {
        directivity(square)
    } else {
        let z = -square / 4.0;
        1.0 + z / 2.0 * (1.0 + z / 6.0 * (1.0 + z / 12.0 * (1.0 + z / 20.0)))
    }
}

/// 10 log10 of a positive normal number, to 1e-7.
#[inline(always)]
fn ten_log10(value: f64) -> f64 {
    const MANTISSA: u64 = (1 << 52) - 1;
    const ONE: u64 = 1023 << 52;
    // Cut at sqrt 2 / 2, so that the series stays short.
    const CUT: u64 = 0x3FE6_A09E_667F_3BCD;
    let bits = value.to_bits();
    let shifted = bits.wrapping_add(ONE - CUT);
    let exponent = (shifted >> 52) as i32 - 1023;
    let mantissa = f64::from_bits((shifted & MANTISSA) + CUT);
    let s = (mantissa - 1.0) / (mantissa + 1.0);
    let q = s * s;
    let ln = 2.0 * s * (1.0 + q * (1.0 / 3.0 + q * (0.2 + q * (1.0 / 7.0 + q / 9.0))));
    f64::from(exponent) * (10.0 * core::f64::consts::LOG10_2)
        + ln * (10.0 * core::f64::consts::LOG10_E)
}

/// A row of squares for one head.
pub(super) enum Row {
    /// One coordinate changes from square to square.
    Along(Along),
    /// The same level in every square (walls, kerbs).
    Same {
        /// The level, [`NO_ECHO`] for none.
        level: f64,
        /// How far the surface is.
        range: f64,
    },
}

/// Coordinates along a row.
pub(super) struct Along {
    /// t of the first square and from square to square.
    from: f64,
    step: f64,
    /// Sum of squares of the coordinates that stay.
    rest: f64,
    /// Products with the vector from the head: [by t, fixed].
    across: [f64; 2],
    upright: [f64; 2],
    forward: [f64; 2],
    /// Radius of the body and whether it is round both ways.
    radius: f64,
    ball: bool,
    /// 2 alpha, and what is added.
    absorption: f64,
    added: f64,
}

impl Row {
    pub(super) fn of(head: &Ready, view: View, area: &Area, row: usize) -> Self {
        let first = area.column(0).0 / 1e3;
        let along_row = area.row(row).0 / 1e3;
        let step = area.cell.0 / 1e3;
        let target = match view {
            View::Side => {
                let fixed = [0.0, 0.0, along_row - head.at[2]];
                let from = -first - head.at[1];
                let body = (POLE_RADIUS, false);
                return Self::Along(Along::new(head, 1, fixed, [from, -step], body));
            }
            View::Above(target) => target,
        };
        let (height, body) = match target {
            Target::Pole => (head.at[2], (POLE_RADIUS, false)),
            Target::TowBall { height } => (height.0 / 1e3, (BALL_RADIUS, true)),
            Target::SpareWheel { height, radius } => (height.0 / 1e3, (radius.0 / 1e3, false)),
            Target::Bar { .. } | Target::Wall | Target::Kerb => {
                let mirror = target.mirror(head.at, 0.0, -along_row);
                return Self::Same {
                    level: head.level(&mirror).unwrap_or(NO_ECHO),
                    range: mirror.range,
                };
            }
        };
        let fixed = [0.0, -along_row - head.at[1], height - head.at[2]];
        Self::Along(Along::new(head, 0, fixed, [first - head.at[0], step], body))
    }

    /// The levels of the row's squares.
    pub(super) fn levels(&self, table: &Table, out: &mut [f64]) {
        match self {
            Self::Same { level, .. } => out.fill(*level),
            Self::Along(along) if along.ball => along.levels::<true>(table, out),
            Self::Along(along) => along.levels::<false>(table, out),
        }
    }

    /// Marks the squares inside the head's too-close zone.
    pub(super) fn mark_near(&self, head: &Ready, near: &mut [bool]) {
        match self {
            Self::Same { range, .. } => {
                if *range < head.near {
                    near.fill(true);
                }
            }
            Self::Along(along) => {
                let reach = (head.near + along.radius).powi(2);
                if along.rest >= reach {
                    return;
                }
                for (i, near) in near.iter_mut().enumerate() {
                    let t = along.from + along.step * i as f64;
                    *near |= t * t + along.rest < reach;
                }
            }
        }
    }
}

impl Along {
    /// `axis` is the coordinate that changes; `steps` its first value and
    /// its step.
    fn new(
        head: &Ready,
        axis: usize,
        fixed: [f64; 3],
        steps: [f64; 2],
        (radius, ball): (f64, bool),
    ) -> Self {
        let products = |v: [f64; 3]| [v[axis], super::head::dot(v, fixed)];
        Self {
            from: steps[0],
            step: steps[1],
            rest: super::head::dot(fixed, fixed),
            across: products(head.across),
            upright: products(head.upright),
            forward: products(head.axis),
            radius,
            ball,
            absorption: 2.0 * head.alpha,
            // - 20 log10 2r as - 10 log10 r² - 10 log10 4, and the body's radius.
            added: head.calibration - 10.0 * 4f64.log10()
                + if ball { 20.0 } else { 10.0 } * radius.log10(),
        }
    }

    fn levels<const BALL: bool>(&self, table: &Table, out: &mut [f64]) {
        for (i, level) in out.iter_mut().enumerate() {
            let t = self.from + self.step * i as f64;
            let square = (t * t + self.rest).max(RANGE_LEAST * RANGE_LEAST);
            let inverse = 1.0 / square;
            let distance = square.sqrt();
            let across = self.across[0] * t + self.across[1];
            let upright = self.upright[0] * t + self.upright[1];
            let forward = self.forward[0] * t + self.forward[1];
            let d = table.at((across * across + upright * upright) * inverse);
            let d = (d * d).max(DIRECTIVITY_LEAST * DIRECTIVITY_LEAST);
            let range = (distance - self.radius).max(RANGE_LEAST);
            // R / (R + r), with R + r the distance to the middle.
            let reach = range + self.radius;
            let body = if BALL { reach * reach } else { reach };
            let ratio = d * d / (body * range * range);
            let here = ten_log10(ratio) - self.absorption * range + self.added;
            *level = if forward > 0.0 { here } else { NO_ECHO };
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_is_good_to_a_hundred_millionth() {
        let table = Table::new(2600.0);
        for i in 0..200_000 {
            let square = f64::from(i) * 0.013;
            let off = table.at(square) - directivity(square);
            assert!(off.abs() < 1e-8, "{square} {off}");
        }
    }

    #[test]
    fn the_logarithm_is_good_to_a_millionth_of_a_decibel() {
        let mut value = 1e-30;
        while value < 1e12 {
            let off = ten_log10(value) - 10.0 * value.log10();
            assert!(off.abs() < 1e-6, "{value} {off}");
            value *= 1.000_73;
        }
    }
}
