//! Units of the bench: millimetres, degrees, milliseconds, and a measured
//! value that carries its uncertainty.
//!
//! Radians live inside function bodies only; they never appear in a type.

use core::ops::{Add, Mul, Neg, Sub};

use serde::{Deserialize, Serialize};

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub f64);

        impl $name {
            /// The size without its sign.
            #[must_use]
            pub fn abs(self) -> Self {
                Self(self.0.abs())
            }
        }
    };
}

macro_rules! adds_like_a_length {
    ($name:ident) => {
        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }
        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
    };
}

quantity! {
    /// A length in millimetres.
    Millimetres
}
quantity! {
    /// A place along the bumper in millimetres from the centre line,
    /// straight (as the eye sees it from behind): + to the right.
    Offset
}
quantity! {
    /// An angle in degrees. What its sign means is said where it is used.
    Degrees
}
quantity! {
    /// Monotonic time or a span of it, in milliseconds.
    Millis
}
quantity! {
    /// A level difference in decibels.
    Decibels
}

adds_like_a_length!(Millimetres);
adds_like_a_length!(Degrees);
adds_like_a_length!(Millis);
adds_like_a_length!(Decibels);

/// Offset minus offset is a length; offset plus offset has no meaning.
impl Sub for Offset {
    type Output = Millimetres;
    fn sub(self, other: Self) -> Millimetres {
        Millimetres(self.0 - other.0)
    }
}

impl Add<Millimetres> for Offset {
    type Output = Self;
    fn add(self, by: Millimetres) -> Self {
        Self(self.0 + by.0)
    }
}

impl Degrees {
    /// Sine of the angle.
    #[must_use]
    pub fn sin(self) -> f64 {
        self.0.to_radians().sin()
    }

    /// Cosine of the angle.
    #[must_use]
    pub fn cos(self) -> f64 {
        self.0.to_radians().cos()
    }

    /// The angle whose sine is `s`; `s` is held inside -1 to 1 first.
    #[must_use]
    pub fn asin(s: f64) -> Self {
        Self(s.clamp(-1.0, 1.0).asin().to_degrees())
    }
}

/// Half the 95 % interval of a normal value in units of its standard
/// uncertainty: JCGM 100:2008 (GUM), table G.1.
pub const COVERAGE_95: f64 = 1.96;

/// A measured value with its standard uncertainty `u` (GUM, JCGM 100:2008),
/// in the unit of the value. Screens show `value ± 1.96 u`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Estimate<T> {
    /// The best value.
    pub value: T,
    /// Standard uncertainty, never negative.
    pub u: T,
}

impl<T> Estimate<T> {
    /// A value with its standard uncertainty.
    pub fn new(value: T, u: T) -> Self {
        Self { value, u }
    }
}

impl<T: Copy + Mul<f64, Output = T>> Estimate<T> {
    /// The ± that screens show: 95 %, 1.96 u.
    pub fn expanded(&self) -> T {
        self.u * COVERAGE_95
    }
}

/// Root sum of squares: how independent standard uncertainties combine
/// (GUM 5.1.2 with all sensitivities 1).
#[must_use]
pub fn root_sum_of_squares(parts: &[f64]) -> f64 {
    parts.iter().map(|p| p * p).sum::<f64>().sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offset_minus_offset_is_a_length() {
        assert_eq!(Offset(230.0) - Offset(-230.0), Millimetres(460.0));
    }

    #[test]
    fn the_shown_interval_is_ninety_five_percent() {
        let e = Estimate::new(Degrees(-4.0), Degrees(0.5));
        assert!((e.expanded().0 - 0.98).abs() < 1e-12);
    }

    #[test]
    fn independent_parts_combine_as_root_sum_of_squares() {
        assert!((root_sum_of_squares(&[3.0, 4.0]) - 5.0).abs() < 1e-12);
        assert_eq!(root_sum_of_squares(&[]), 0.0);
    }
}
