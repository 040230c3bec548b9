//! Small statistics used by several estimates.

/// t for a two-sided 95 % interval by degrees of freedom 1 to 10:
/// JCGM 100:2008 (GUM), table G.2.
const T95: [f64; 10] = [
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
];
const NORMAL_95: f64 = crate::units::COVERAGE_95;
/// From so many repeats on, the factor of [`few_factor`] is left out.
pub const ENOUGH_REPEATS: f64 = 10.0;

/// t for a two-sided 95 % interval; between whole degrees of freedom
/// linear in their inverse. Below one degree of freedom that of one.
#[must_use]
pub fn t95(dof: f64) -> f64 {
    let dof = dof.max(1.0);
    let at = |k: usize| T95.get(k - 1).copied().unwrap_or(T95[9]);
    if dof >= 10.0 {
        return NORMAL_95 + (T95[9] - NORMAL_95) * 10.0 / dof;
    }
    let low = dof.floor();
    let share = (1.0 / low - 1.0 / dof) / (1.0 / low - 1.0 / (low + 1.0));
    let (a, b) = (at(low as usize), at(low as usize + 1));
    a + (b - a) * share
}

/// What a standard uncertainty found from `n` repeats is multiplied by
/// before it goes into a budget: t95(n-1)/1.96 below ten repeats, else 1.
#[must_use]
pub fn few_factor(n: f64) -> f64 {
    if n < ENOUGH_REPEATS {
        t95(n - 1.0) / NORMAL_95
    } else {
        1.0
    }
}

/// Independent samples that tell as much about the mean as `n` samples
/// whose neighbours correlate by `rho` (first-order autoregressive):
/// var(mean) = s²/n (1 + 2 sum (1 - k/n) rho^k).
#[must_use]
pub fn effective_count(n: usize, rho: f64) -> f64 {
    let count = n as f64;
    if n < 2 || rho.abs() < 1e-12 {
        return count;
    }
    let rho = rho.clamp(-0.99, 0.999_999);
    // Closed form of the sum: rho/(1-rho) - rho (1-rho^n) / (n (1-rho)²).
    let rest = 1.0 - rho;
    let sum = rho / rest - rho * (1.0 - rho.powi(n as i32)) / (count * rest * rest);
    count / (1.0 + 2.0 * sum)
}

/// Mean and standard deviation (n - 1); deviation 0 for fewer than two.
#[must_use]
pub fn mean_and_spread(values: &[f64]) -> (f64, f64) {
    let n = values.len() as f64;
    if values.is_empty() {
        return (0.0, 0.0);
    }
    let mean = values.iter().sum::<f64>() / n;
    let square: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    let spread = if n > 1.0 {
        (square / (n - 1.0)).sqrt()
    } else {
        0.0
    };
    (mean, spread)
}

/// The middle value; 0 for none. Reorders `values`.
pub fn median(values: &mut [f64]) -> f64 {
    let n = values.len();
    if n == 0 {
        return 0.0;
    }
    let (below, &mut middle, _) = values.select_nth_unstable_by(n / 2, f64::total_cmp);
    if n % 2 == 1 {
        return middle;
    }
    let lower = below.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    (lower + middle) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn t_of_whole_degrees_of_freedom_is_the_table() {
        assert!((t95(1.0) - 12.706).abs() < 1e-9);
        assert!((t95(2.0) - 4.303).abs() < 1e-9);
        assert!((t95(9.0) - 2.262).abs() < 1e-9);
        assert!((t95(1e9) - 1.96).abs() < 1e-6);
        assert!(t95(2.5) < t95(2.0) && t95(2.5) > t95(3.0));
    }

    #[test]
    fn ten_repeats_need_no_factor_and_three_need_two() {
        assert!((few_factor(10.0) - 1.0).abs() < 1e-12);
        assert!((few_factor(3.0) - 4.303 / 1.96).abs() < 1e-9);
    }

    #[test]
    fn the_middle_of_an_even_count_is_between() {
        assert!((median(&mut [4.0, 1.0, 2.0, 9.0]) - 3.0).abs() < 1e-12);
        assert!((median(&mut [4.0, 1.0, 9.0]) - 4.0).abs() < 1e-12);
        assert_eq!(median(&mut []), 0.0);
    }
}
