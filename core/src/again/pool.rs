//! Several vehicles of a model as one: the pooled value, the spread between
//! vehicles, and what the next one is expected to be.
//!
//! Each vehicle i gives a value y_i with the standard uncertainty u_i of its
//! reading; between vehicles the true values spread by tau. Source of the
//! pooled mean and of the spread that is shown: R. C. Paule and J. Mandel,
//! Consensus values and weighting factors, J. Res. NBS 87 (1982) 377, as in
//! R. Kacker, Combining information from interlaboratory evaluations using a
//! random effects model, Metrologia 41 (2004) 132.
//!
//! For the next vehicle's ± one value of tau is not enough: from few
//! vehicles it is poorly known, and an interval from its best value covers
//! too little (86 to 93 % of ten vehicles in simulation). So tau is
//! integrated over: flat prior for the mean, half-normal with a stated
//! scale for tau, the same tau for all spots of a bumper, on a grid. Source
//! of the model: A. Gelman, Prior distributions for variance parameters in
//! hierarchical models, Bayesian Analysis 1 (2006) 515, section 7. A bumper
//! that hangs lower turns all its faces at once, so its spots tell less of
//! the spread than as many bumpers would: their likelihoods are weighted by
//! 1 / (1 + (k - 1) r^2) for k spots whose deviations correlate by r
//! ([`TOGETHER`]), since squares of normal deviations correlate by r^2
//! (a composite likelihood; C. Varin, N. Reid, D. Firth, Statistica Sinica
//! 21 (2011) 5, from memory). Without it the interval covers 92.5 % where
//! 95 % are stated. The
//! result is the mean and standard deviation of what is known of the next
//! vehicle (GUM: its standard uncertainty).

/// Scale of the half-normal prior of the spread of face angles between
/// vehicles of a model, degrees (our own figure: two of three models spread
/// less than this; bumpers of one mould hang a little differently).
pub const SPREAD_SCALE: f64 = 0.7;

/// Correlation of the faces of one bumper in what sets it apart from others
/// (our own figure: half of the spread is the bumper's, half the face's).
pub const TOGETHER: f64 = 0.5;

/// Points of the grid over the spread, up to [`GRID_REACH`] scales.
const GRID: usize = 64;
const GRID_REACH: f64 = 5.0;

/// A pooled mean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pooled {
    /// Weighted mean.
    pub mean: f64,
    /// Its standard uncertainty.
    pub u: f64,
    /// Spread between vehicles, standard deviation.
    pub between: f64,
}

/// Mean and spread by Paule and Mandel; `None` for no value. `values` are
/// pairs of value and standard uncertainty, the latter above zero.
///
/// The spread is the one at which the weighted sum of squares is its
/// expectation, k - 1; zero where it is less already without spread.
#[must_use]
pub fn paule_mandel(values: &[(f64, f64)]) -> Option<Pooled> {
    let last = values.len().checked_sub(1)? as f64;
    let excess = |square: f64| -> f64 {
        let (mean, _) = weighted(values, square);
        let sum: f64 = values
            .iter()
            .map(|(y, u)| (y - mean).powi(2) / (u * u + square))
            .sum();
        sum - last
    };
    let mut square = 0.0;
    // One vehicle has no spread, whatever rounding says.
    if values.len() > 1 && excess(0.0) > 0.0 {
        let (mut low, mut high) = (0.0, 1.0);
        // The sum falls steadily with the spread.
        while excess(high) > 0.0 && high < 1e12 {
            low = high;
            high *= 2.0;
        }
        for _ in 0..200 {
            let middle = (low + high) / 2.0;
            if excess(middle) > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        square = (low + high) / 2.0;
    }
    let (mean, weight) = weighted(values, square);
    Some(Pooled {
        mean,
        u: (1.0 / weight).sqrt(),
        between: square.sqrt(),
    })
}

/// Mean and sum of weights at a spread.
fn weighted(values: &[(f64, f64)], square: f64) -> (f64, f64) {
    let weight = |u: f64| 1.0 / (u * u + square);
    let sum: f64 = values.iter().map(|(_, u)| weight(*u)).sum();
    let mean = values.iter().map(|(y, u)| y * weight(*u)).sum::<f64>() / sum;
    (mean, sum)
}

/// What the next vehicle is expected to be at one spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Expected {
    /// Expected value.
    pub value: f64,
    /// Standard uncertainty for one vehicle more.
    pub u: f64,
    /// Spread between vehicles by Paule and Mandel; 0 for one.
    pub between: f64,
    /// Vehicles.
    pub vehicles: usize,
}

/// The next vehicle at each spot, from the values of earlier ones there
/// (pairs of value and standard uncertainty above zero). `scale` is that of
/// the prior of the spread. `None` for a spot without values.
#[must_use]
pub fn expected(spots: &[Vec<(f64, f64)>], scale: f64) -> Vec<Option<Expected>> {
    let step = scale * GRID_REACH / GRID as f64;
    let spreads: Vec<f64> = (0..GRID).map(|i| (i as f64 + 0.5) * step).collect();
    let telling = spots.iter().filter(|spot| spot.len() > 1).count();
    let weight = 1.0 / (1.0 + telling.saturating_sub(1) as f64 * TOGETHER * TOGETHER);
    let logs: Vec<f64> = spreads
        .iter()
        .map(|tau| {
            let prior = -0.5 * (tau / scale).powi(2);
            let all = spots.iter().map(|spot| likelihood(spot, *tau));
            prior + weight * all.sum::<f64>()
        })
        .collect();
    let greatest = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let shares: Vec<f64> = logs.iter().map(|log| (log - greatest).exp()).collect();
    let whole: f64 = shares.iter().sum();
    spots
        .iter()
        .map(|spot| {
            let pooled = paule_mandel(spot)?;
            let at: Vec<(f64, f64, f64)> = spreads
                .iter()
                .zip(&shares)
                .map(|(tau, share)| {
                    let (mean, weight) = weighted(spot, tau * tau);
                    (share / whole, mean, tau * tau + 1.0 / weight)
                })
                .collect();
            let value: f64 = at.iter().map(|(share, mean, _)| share * mean).sum();
            let square: f64 = at
                .iter()
                .map(|(share, mean, square)| share * (square + (mean - value).powi(2)))
                .sum();
            Some(Expected {
                value,
                u: square.sqrt(),
                between: pooled.between,
                vehicles: spot.len(),
            })
        })
        .collect()
}

/// Logarithm of the likelihood of a spread, the mean integrated over.
fn likelihood(values: &[(f64, f64)], tau: f64) -> f64 {
    if values.len() < 2 {
        return 0.0;
    }
    let (mean, weight) = weighted(values, tau * tau);
    let each: f64 = values
        .iter()
        .map(|(y, u)| {
            let square = u * u + tau * tau;
            -0.5 * ((y - mean).powi(2) / square + square.ln())
        })
        .sum();
    each - 0.5 * weight.ln()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_that_agree_have_no_spread() {
        let pooled = paule_mandel(&[(-3.0, 0.3), (-3.1, 0.3), (-2.9, 0.3)]).unwrap();
        assert!((pooled.mean + 3.0).abs() < 1e-12);
        assert!(pooled.between.abs() < 1e-12);
        assert!((pooled.u - 0.3 / 3f64.sqrt()).abs() < 1e-12);
        assert_eq!(paule_mandel(&[]), None);
    }

    #[test]
    fn one_vehicle_is_expected_wider_than_ten() {
        let one = expected(&[vec![(-3.0, 0.3)]], SPREAD_SCALE)[0].unwrap();
        assert!((one.value + 3.0).abs() < 1e-12);
        // Reading, and the prior's spread once for it and once for the next.
        let want = (0.09 + 2.0 * SPREAD_SCALE * SPREAD_SCALE).sqrt();
        assert!((one.u - want).abs() < 0.01, "{} {want}", one.u);
        let ten = vec![(-3.0, 0.3); 10];
        let ten = expected(&[ten], SPREAD_SCALE)[0].unwrap();
        assert!(ten.u < 0.35, "{}", ten.u);
        assert_eq!(expected(&[Vec::new()], SPREAD_SCALE), [None]);
    }
}
