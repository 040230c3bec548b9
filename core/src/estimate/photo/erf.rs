//! The error function.

/// The normal distribution's cumulative share below `x`, |error| < 7.5e-8.
///
/// M. Abramowitz, I. Stegun, "Handbook of Mathematical Functions" (1964),
/// 26.2.17.
#[must_use]
#[inline]
pub fn normal_share(x: f64) -> f64 {
    let tail = x.abs();
    let t = 1.0 / (1.0 + 0.231_641_9 * tail);
    let poly = t
        * (0.319_381_530
            + t * (-0.356_563_782
                + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
    let share = normal_density(x) * poly;
    if x < 0.0 { share } else { 1.0 - share }
}

/// The normal distribution's density.
#[must_use]
#[inline]
pub fn normal_density(x: f64) -> f64 {
    const ROOT: f64 = 0.398_942_280_401_432_7;
    ROOT * (-0.5 * x * x).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_is_that_of_the_tables() {
        // Abramowitz and Stegun, table 26.1.
        for (x, share) in [
            (0.0, 0.5),
            (1.0, 0.841_344_746),
            (2.0, 0.977_249_868),
            (3.0, 0.998_650_102),
        ] {
            assert!((normal_share(x) - share).abs() < 1e-7, "{x}");
            assert!((normal_share(-x) + share - 1.0).abs() < 1e-7, "{x}");
        }
    }
}
