//! Propagation of uncertainty (JCGM 100:2008, 5.2; JCGM 102 for several
//! outputs), by slopes taken numerically over a small part of each u.

/// Part of each input's u over which slopes are taken.
const SHARE: f64 = 1e-3;

/// Values and covariance of `f` at `x` whose covariance is `covariance`
/// (rows). `None` when `f` is not defined around `x`.
pub fn propagate<const N: usize, const M: usize>(
    f: impl Fn(&[f64; N]) -> Option<[f64; M]>,
    x: &[f64; N],
    covariance: &[[f64; N]; N],
) -> Option<([f64; M], [[f64; M]; M])> {
    let value = f(x)?;
    let mut slopes = [[0.0; N]; M];
    for i in 0..N {
        let step = SHARE * covariance[i][i].sqrt();
        if step <= 0.0 {
            continue;
        }
        let mut moved = *x;
        moved[i] += step;
        let above = f(&moved)?;
        moved[i] = x[i] - step;
        let below = f(&moved)?;
        for (slope, (a, b)) in slopes.iter_mut().zip(above.into_iter().zip(below)) {
            slope[i] = (a - b) / (2.0 * step);
        }
    }
    let pair = |p: &[f64; N], q: &[f64; N]| -> f64 {
        let rows = covariance.iter().zip(p);
        rows.map(|(row, s)| s * row.iter().zip(q).map(|(c, t)| c * t).sum::<f64>())
            .sum()
    };
    let mut out = [[0.0; M]; M];
    for (row, p) in out.iter_mut().zip(&slopes) {
        for (cell, q) in row.iter_mut().zip(&slopes) {
            *cell = pair(p, q);
        }
    }
    Some((value, out))
}

/// Effective degrees of freedom of a sum of independent parts, each with
/// its u and degrees of freedom: Welch-Satterthwaite (JCGM 100:2008, G.2b).
#[must_use]
pub fn effective_dof(parts: &[(f64, f64)]) -> f64 {
    let square: f64 = parts.iter().map(|(u, _)| u * u).sum();
    let fourth: f64 = parts.iter().map(|(u, dof)| u.powi(4) / dof).sum();
    square * square / fourth
}
