//! The sound beam of a head: an elliptical piston.
//!
//! D = 2 J1(x) / x, x = k sqrt((a_h s_h)² + (a_v s_v)²), with the direction
//! cosines s_h across and s_v up against the head's axis. The radii come
//! from the sheet's full -6 dB beam widths W at the reference speed of sound:
//! D(k a sin(W / 2)) = 1/2 where they are of the sound sent (one way),
//! 1/sqrt 2 where they are of sound sent and heard (two way).

use super::air::Air;
use crate::kit::BeamWay;
use crate::units::Degrees;

/// Where D = 1/2.
pub const ONE_WAY_EDGE: f64 = 2.215_089;
/// Where D = 1/sqrt 2.
pub const TWO_WAY_EDGE: f64 = 1.616_340;
/// The main lobe ends at the first zero of J1.
pub const MAIN_LOBE_END: f64 = 3.8317;
/// A full beam width outside these is no beam (the sheet's own bounds).
const WIDTHS: core::ops::RangeInclusive<f64> = 1.0..=180.0;

/// Radii of the piston and its frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beam {
    /// Frequency in hertz.
    pub hertz: f64,
    /// Radius across, metres.
    pub across: f64,
    /// Radius up and down, metres.
    pub upright: f64,
}

impl Beam {
    /// From full beam widths; `None` outside what a sheet may hold.
    #[must_use]
    pub fn new(kilohertz: f64, across: Degrees, upright: Degrees, way: BeamWay) -> Option<Self> {
        let fine = |width: Degrees| WIDTHS.contains(&width.0);
        if !fine(across) || !fine(upright) || !(10.0..=500.0).contains(&kilohertz) {
            return None;
        }
        let edge = match way {
            BeamWay::OneWay => ONE_WAY_EDGE,
            BeamWay::TwoWay => TWO_WAY_EDGE,
        };
        let hertz = kilohertz * 1e3;
        let k = wave_number(hertz, &Air::REFERENCE);
        let radius = |width: Degrees| edge / (k * (width * 0.5).sin());
        Some(Self {
            hertz,
            across: radius(across),
            upright: radius(upright),
        })
    }

    /// 2 pi f / c in 1/m.
    #[must_use]
    pub fn wave_number(&self, air: &Air) -> f64 {
        wave_number(self.hertz, air)
    }
}

fn wave_number(hertz: f64, air: &Air) -> f64 {
    core::f64::consts::TAU * hertz / air.speed()
}
