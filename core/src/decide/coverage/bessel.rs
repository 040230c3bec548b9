//! The Bessel function J1 and the directivity of a piston.
//!
//! To 1e-12 over 0 to 50: the power series near zero (Abramowitz and
//! Stegun, Handbook of Mathematical Functions, 1964, 9.1.10), Miller's
//! backward recurrence in the middle (9.1.27, 9.1.46, section 9.12), and
//! Hankel's asymptotic series beyond (9.2.5, 9.2.9, 9.2.10).

/// Below it the power series is used.
const SERIES_TO: f64 = 4.0;
/// From here on the asymptotic series is used.
const ASYMPTOTIC_FROM: f64 = 25.0;

/// J1 of any finite argument; odd.
#[must_use]
pub fn j1(x: f64) -> f64 {
    let size = x.abs();
    let value = if size < SERIES_TO {
        size / 2.0 * series(size * size)
    } else if size < ASYMPTOTIC_FROM {
        recurrence(size)
    } else {
        asymptotic(size)
    };
    if x < 0.0 { -value } else { value }
}

/// Directivity of a piston, 2 J1(x) / x, from x²; 1 on the axis.
#[must_use]
pub fn directivity(square: f64) -> f64 {
    if square < SERIES_TO * SERIES_TO {
        return series(square);
    }
    let x = square.sqrt();
    2.0 * j1(x) / x
}

/// 2 J1(x) / x by its power series in -x²/4.
fn series(square: f64) -> f64 {
    let z = -square / 4.0;
    let (mut term, mut sum) = (1.0, 1.0);
    for n in 1..40 {
        let n = f64::from(n);
        term *= z / (n * (n + 1.0));
        sum += term;
        if term.abs() < 1e-18 {
            break;
        }
    }
    sum
}

/// Backward recurrence, made true by J0 + 2 (J2 + J4 + ...) = 1.
fn recurrence(x: f64) -> f64 {
    // Where J of this order is below 1e-20 for every x here.
    const START: i32 = 70;
    let (mut above, mut here, mut even, mut first) = (0.0, 1e-280, 0.0, 0.0);
    for order in (1..=START).rev() {
        let below = f64::from(2 * order) / x * here - above;
        (above, here) = (here, below);
        // `here` is now of order `order - 1`.
        match order - 1 {
            1 => first = here,
            0 => even += here,
            n if n % 2 == 0 => even += 2.0 * here,
            _ => {}
        }
    }
    first / even
}

/// sqrt(2 / (pi x)) (P cos(x - 3 pi / 4) - Q sin(x - 3 pi / 4)).
fn asymptotic(x: f64) -> f64 {
    const MU: f64 = 4.0;
    let (mut p, mut q, mut term) = (1.0, 0.0, 1.0);
    for k in 1..24i32 {
        let odd = f64::from(2 * k - 1);
        let next: f64 = term * (MU - odd * odd) / (f64::from(k) * 8.0 * x);
        if next.abs() > term.abs() || next == 0.0 {
            break;
        }
        term = next;
        match k % 4 {
            1 => q += term,
            2 => p -= term,
            3 => q -= term,
            _ => p += term,
        }
        if term.abs() < 1e-18 {
            break;
        }
    }
    let (sin, cos) = x.sin_cos();
    // cos(x - 3 pi / 4) and sin(x - 3 pi / 4) times sqrt 2.
    let (turned_cos, turned_sin) = (sin - cos, -sin - cos);
    (p * turned_cos - q * turned_sin) / (core::f64::consts::PI * x).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_three_ways_meet_without_a_step() {
        for x in [4.0, 5.5, 8.0] {
            assert!(
                (x / 2.0 * series(x * x) - recurrence(x)).abs() < 1e-13,
                "{x}"
            );
        }
        for x in [25.0, 30.0, 39.0] {
            assert!((asymptotic(x) - recurrence(x)).abs() < 1e-13, "{x}");
        }
    }

    #[test]
    fn it_is_odd_and_the_directivity_is_one_on_the_axis() {
        assert_eq!(j1(-3.0), -j1(3.0));
        assert_eq!(j1(0.0), 0.0);
        assert_eq!(directivity(0.0), 1.0);
        assert!(directivity(1e12).abs() < 1e-6);
    }
}
