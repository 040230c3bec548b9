//! From the card's plane to pixels.

use nalgebra::{Matrix3, SMatrix, SVector, Vector3};

/// A perspective map of a plane: millimetres on the card (y upward) to
/// pixels (y downward).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Homography(Matrix3<f64>);

impl Homography {
    /// The map that takes four points to four others; `None` when three lie
    /// on a line.
    #[must_use]
    pub fn through(from: &[(f64, f64); 4], to: &[[f64; 2]; 4]) -> Option<Self> {
        let mut matrix = SMatrix::<f64, 8, 8>::zeros();
        let mut right = SVector::<f64, 8>::zeros();
        for (n, (&(x, y), &[u, v])) in from.iter().zip(to).enumerate() {
            let rows = [
                [x, y, 1.0, 0.0, 0.0, 0.0, -u * x, -u * y],
                [0.0, 0.0, 0.0, x, y, 1.0, -v * x, -v * y],
            ];
            for (k, row) in rows.iter().enumerate() {
                for (column, value) in row.iter().enumerate() {
                    matrix[(2 * n + k, column)] = *value;
                }
            }
            right[2 * n] = u;
            right[2 * n + 1] = v;
        }
        let h = matrix.lu().solve(&right)?;
        let found = Self(Matrix3::new(
            h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1.0,
        ));
        h.iter().all(|value| value.is_finite()).then_some(found)
    }

    /// Where a point of the card is, pixels.
    #[must_use]
    #[inline]
    pub fn at(&self, (x, y): (f64, f64)) -> [f64; 2] {
        let p = self.0 * Vector3::new(x, y, 1.0);
        [p.x / p.z, p.y / p.z]
    }

    /// Pixels a millimetre at a point: columns are the card's x and y.
    #[must_use]
    pub fn slope(&self, (x, y): (f64, f64)) -> [[f64; 2]; 2] {
        let m = &self.0;
        let p = m * Vector3::new(x, y, 1.0);
        let column =
            |k: usize| [0, 1].map(|row: usize| (m[(row, k)] - m[(2, k)] * p[row] / p.z) / p.z);
        [column(0), column(1)]
    }
}
