//! How the phone touches a rounded face.
//!
//! A flat phone touches a convex face at one point: off the mark by d it
//! errs by d/R radian. Three feet on its back stand on the face as a head's
//! rim does.

use serde::{Deserialize, Serialize};

use crate::units::{Degrees, Estimate, Millimetres};

/// The three stick-on feet on the phone's back or case.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Feet {
    /// On: standard uncertainty of the place 3 mm.
    On,
    /// Not on: 10 mm.
    #[default]
    None,
}

impl Feet {
    /// Standard uncertainty of where the phone touches, once per spot.
    #[must_use]
    pub fn u_place(self) -> Millimetres {
        match self {
            Self::On => Millimetres(3.0),
            Self::None => Millimetres(10.0),
        }
    }
}

/// How round the face is, up and down, at the spot.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Roundness {
    /// R above 2 m; taken as 2 m.
    Flat,
    /// R about 0.8 m.
    #[default]
    Rounded,
    /// R about 0.4 m.
    Tight,
    /// R from readings above and below the mark.
    Measured(Millimetres),
}

impl Roundness {
    /// Radius of the face.
    #[must_use]
    pub fn radius(self) -> Millimetres {
        match self {
            Self::Flat => Millimetres(2_000.0),
            Self::Rounded => Millimetres(800.0),
            Self::Tight => Millimetres(400.0),
            Self::Measured(radius) => radius,
        }
    }

    /// From two readings `apart` from each other, above and below the mark:
    /// R = apart / (difference of the face angles in radian). No difference
    /// beyond its uncertainty gives the flattest radius that fits.
    #[must_use]
    pub fn from_readings(
        above: Estimate<Degrees>,
        below: Estimate<Degrees>,
        apart: Millimetres,
    ) -> Self {
        let u = above.u.0.hypot(below.u.0);
        let bend = (above.value - below.value).abs().0.max(u).to_radians();
        let radius = apart.0.abs() / bend.max(1e-6);
        Self::Measured(Millimetres(radius.clamp(MOST_TIGHT.0, MOST_FLAT.0)))
    }
}

/// No bumper face is rounder than this at a head.
pub const MOST_TIGHT: Millimetres = Millimetres(150.0);
/// Flatter than this makes no difference.
pub const MOST_FLAT: Millimetres = Millimetres(10_000.0);
/// Distance of the two readings that find the roundness.
pub const ABOVE_TO_BELOW: Millimetres = Millimetres(60.0);

/// Feet and roundness together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Contact {
    /// Feet on the phone.
    pub feet: Feet,
    /// Roundness of the face.
    pub roundness: Roundness,
}

impl Contact {
    /// Standard uncertainty of the face angle from where the phone touches:
    /// d/R.
    #[must_use]
    pub fn u(self) -> Degrees {
        let ratio = self.feet.u_place().0 / self.roundness.radius().0.max(1.0);
        Degrees(ratio.to_degrees())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_millimetres_beside_the_mark_on_half_a_metre_cost_a_degree() {
        let roundness = Roundness::Measured(Millimetres(500.0));
        let feet = Feet::None;
        let u = Contact { feet, roundness }.u();
        assert!((u.0 - 1.146).abs() < 0.001);
        let feet = Feet::On;
        assert!((Contact { feet, roundness }.u().0 - 0.344).abs() < 0.001);
    }

    #[test]
    fn readings_above_and_below_give_the_radius() {
        // 60 mm on a radius of 800 mm turn the face by 60/800 rad.
        let bend = (60.0f64 / 800.0).to_degrees();
        let read = |d: f64| Estimate::new(Degrees(d), Degrees(0.1));
        let found = Roundness::from_readings(read(1.0 + bend), read(1.0), ABOVE_TO_BELOW);
        assert!((found.radius().0 - 800.0).abs() < 1e-6);
        let flat = Roundness::from_readings(read(1.0), read(1.0), ABOVE_TO_BELOW);
        assert!(flat.radius().0 > 10_000.0 - 1e-6);
    }
}
