//! How the ground under the vehicle lies.
//!
//! Up of gravity in the vehicle's frame: `forward` is the sine of nose up,
//! `right` the sine of right side up. A board beside the wheels, read by
//! the phone both ways round, cancels the phone's own errors.

use serde::{Deserialize, Serialize};

use crate::estimate::seating::Seating;
use crate::estimate::still::StillReading;
use crate::estimate::zero::SourceKind;
use crate::estimate::zero::poses::unmoved;
use crate::sample::{STANDARD_GRAVITY, UpVector};
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millis};

/// Standard uncertainty of 'ground looks level', each way.
pub const U_LOOKS_LEVEL: Degrees = Degrees(1.0);
/// Standard uncertainty of a sill's nose up/down.
pub const U_SILL: Degrees = Degrees(1.0);
/// Standard uncertainty of an unzeroed phone along its long edge: an offset of
/// 60 mg, rectangular.
pub const U_ALONG_UNZEROED: Degrees = Degrees(2.0);
/// Yaw of the phone on the board, standard deviation (normal).
pub const U_BOARD_YAW: Degrees = Degrees(1.5);
/// The factor 1/(1+b_z) of a source normalised inside the system, for chip
/// offsets to 60 mg; rectangular.
const NORMALISED_SCALE: f64 = 0.06;
/// A board steeper than this is not a place to work.
pub const MOST_SLOPE: Degrees = Degrees(12.0);
/// Both readings of a board must lie this flat.
pub const MOST_FLAT_TILT: Degrees = Degrees(20.0);

/// How the ground was found.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum GroundHow {
    /// One tap: it looks level.
    LooksLevel,
    /// A board beside the wheels, read both ways round.
    Board,
    /// A bay measured before, by its name.
    Bay {
        /// Name given to the bay.
        name: String,
        /// Day it was measured, as the shell writes days (ISO 8601).
        measured: String,
    },
    /// Along the sill: nose up/down only.
    Sill,
    /// The angle gauge was zeroed on the board: typed values are already
    /// against the ground.
    GaugeOnBoard,
}

/// How the ground lies; see the module.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ground {
    /// Nose up, + when the front stands higher.
    pub nose_up: Estimate<Degrees>,
    /// Lean, + when the right side stands higher.
    pub right_up: Estimate<Degrees>,
    /// How it was found.
    pub how: GroundHow,
}

impl Default for Ground {
    fn default() -> Self {
        Self::looks_level()
    }
}

impl Ground {
    /// 'Ground looks level' in one tap.
    #[must_use]
    pub fn looks_level() -> Self {
        Self {
            nose_up: Estimate::new(Degrees(0.0), U_LOOKS_LEVEL),
            right_up: Estimate::new(Degrees(0.0), U_LOOKS_LEVEL),
            how: GroundHow::LooksLevel,
        }
    }

    /// A gauge that was zeroed on the board: nothing is left of the ground
    /// but how the gauge sat there, which its ± covers.
    #[must_use]
    pub fn gauge_on_board() -> Self {
        Self {
            nose_up: Estimate::new(Degrees(0.0), Degrees(0.0)),
            right_up: Estimate::new(Degrees(0.0), Degrees(0.0)),
            how: GroundHow::GaugeOnBoard,
        }
    }

    /// From the sill: the poor way. The lean is taken as level.
    #[must_use]
    pub fn sill(nose_up: Degrees) -> Self {
        Self {
            nose_up: Estimate::new(nose_up, U_SILL),
            right_up: Estimate::new(Degrees(0.0), U_LOOKS_LEVEL),
            how: GroundHow::Sill,
        }
    }

    /// From the phone's long edge along the sill, top edge forward: up as
    /// the phone read it, and what its own error adds.
    ///
    /// # Errors
    /// A message when it lies steeper than any ground.
    pub fn sill_read(up: UpVector, u_phone: Degrees) -> Result<Self, Message> {
        let nose_up = Degrees::asin(up.0[1]);
        if nose_up.abs() > MOST_SLOPE {
            return Err(msg("sill-too-steep")
                .deg("slope", nose_up.abs().0)
                .deg("limit", MOST_SLOPE.0));
        }
        let mut ground = Self::sill(nose_up);
        ground.nose_up.u = Degrees(U_SILL.0.hypot(u_phone.0));
        Ok(ground)
    }

    /// The same ground as a saved bay.
    #[must_use]
    pub fn saved_as(self, name: String, measured: String) -> Self {
        Self {
            how: GroundHow::Bay { name, measured },
            ..self
        }
    }

    /// The board: phone flat on it, top edge forward, then turned end for
    /// end; a pair for each place of the board. Per pair `forward` =
    /// (y1-y2)/2, `right` = (x1-x2)/2 in sines; pairs are averaged.
    ///
    /// # Errors
    /// A message when the readings are not such pairs.
    pub fn board(
        pairs: &[(StillReading, StillReading)],
        seating: Seating,
    ) -> Result<Self, Message> {
        let places = pairs.len() as f64;
        let mut sum = [0.0; 2];
        let mut noise = 0.0;
        let mut scale = 0.0;
        for (first, turned) in pairs {
            if unmoved(first, turned) {
                return Err(msg("ground-not-turned"));
            }
            for reading in [first, turned] {
                let lean = Degrees(reading.up.0[2].clamp(-1.0, 1.0).acos().to_degrees());
                if lean > MOST_FLAT_TILT {
                    return Err(msg("ground-not-flat").deg("lean", lean.0));
                }
                noise += reading.u_noise.0.powi(2) + reading.u_rounding.0.powi(2);
            }
            for (sum, i) in sum.iter_mut().zip([1, 0]) {
                *sum += (flat(first)[i] - flat(turned)[i]) / 2.0 / places;
            }
            if SourceKind::from(first.source) == SourceKind::Normalised {
                scale = NORMALISED_SCALE / 3f64.sqrt();
            }
        }
        let [forward, right] = sum;
        let slope = Degrees::asin(forward.hypot(right));
        if pairs.is_empty() {
            return Err(msg("ground-no-reading"));
        }
        if slope > MOST_SLOPE {
            return Err(msg("ground-too-steep")
                .deg("slope", slope.0)
                .deg("limit", MOST_SLOPE.0));
        }
        let (nose_up, right_up) = (Degrees::asin(forward), Degrees::asin(right));
        // (a - b)/2 of two independent readings, over the places.
        let base = (noise / places + 2.0 * seating.u().0.powi(2)).sqrt() / (2.0 * places.sqrt());
        let yaw = U_BOARD_YAW.0.to_radians() / (2.0 * places).sqrt();
        let u = |along: Degrees, across: Degrees| {
            Degrees((base.powi(2) + (across.0 * yaw).powi(2) + (along.0 * scale).powi(2)).sqrt())
        };
        Ok(Self {
            nose_up: Estimate::new(nose_up, u(nose_up, right_up)),
            right_up: Estimate::new(right_up, u(right_up, nose_up)),
            how: GroundHow::Board,
        })
    }

    /// Gravity's up in the vehicle's frame: right, forward, up.
    #[must_use]
    pub fn up(&self) -> [f64; 3] {
        up_of(self.nose_up.value, self.right_up.value)
    }
}

/// Parts across the board: a raw source needs no normalising, so that its
/// offset cancels without a factor.
fn flat(still: &StillReading) -> [f64; 3] {
    still
        .raw_mean
        .map_or(still.up.0, |raw| raw.map(|c| c / STANDARD_GRAVITY))
}

/// Gravity's up in the vehicle's frame for a nose-up and a right-up angle.
#[must_use]
pub fn up_of(nose_up: Degrees, right_up: Degrees) -> [f64; 3] {
    let (forward, right) = (nose_up.sin(), right_up.sin());
    [
        right,
        forward,
        (1.0 - forward * forward - right * right).max(0.0).sqrt(),
    ]
}

/// Age of a saved bay after which the shell offers to measure it again.
pub const BAY_AGE: Millis = Millis(365.0 * 86_400_000.0);

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{Source, UpVector};

    fn lying(x: f64, y: f64) -> StillReading {
        StillReading {
            up: UpVector::of([x, y, (1.0 - x * x - y * y).sqrt()]).unwrap(),
            u_noise: Degrees(0.0),
            u_rounding: Degrees(0.0),
            samples: 50,
            effective: 50.0,
            source: Source::Acceleration { step: 0.0 },
            raw_mean: None,
            azimuth: None,
            at: Millis(0.0),
        }
    }

    #[test]
    fn a_board_turned_end_for_end_loses_the_phones_own_error() {
        let (slope, own) = (0.03, 0.02);
        let pair = (lying(own, slope + own), lying(own, -slope + own));
        let ground = Ground::board(&[pair], Seating::Assumed).unwrap();
        assert!((ground.nose_up.value.sin() - slope).abs() < 1e-12);
        assert!(ground.right_up.value.0.abs() < 1e-12);
        // Two readings of 0.3, halved: 0.3/sqrt(2).
        assert!((ground.nose_up.u.0 - 0.3 / 2f64.sqrt()).abs() < 1e-3);
    }

    #[test]
    fn a_board_that_was_not_turned_is_not_taken_for_level_ground() {
        let first = lying(0.01, 0.04);
        let fault = Ground::board(&[(first, first)], Seating::Assumed).unwrap_err();
        assert_eq!(fault, msg("ground-not-turned"));
    }

    #[test]
    fn a_bay_comes_back_from_its_record_as_it_was_measured() {
        let pair = (lying(0.02, 0.05), lying(0.02, -0.01));
        let ground = Ground::board(&[pair], Seating::Assumed).unwrap();
        let bay = ground.saved_as("left bay".to_owned(), "2026-11-25".to_owned());
        let text = serde_json::to_string(&bay).unwrap();
        let back: Ground = serde_json::from_str(&text).unwrap();
        assert_eq!(back.how, bay.how);
        assert!((back.nose_up.value.0 - bay.nose_up.value.0).abs() < 1e-12);
        assert!((back.nose_up.u.0 - bay.nose_up.u.0).abs() < 1e-12);
    }

    #[test]
    fn a_phone_that_does_not_lie_flat_is_named() {
        let pair = (lying(0.0, 0.5), lying(0.0, -0.5));
        let fault = Ground::board(&[pair], Seating::Assumed).unwrap_err();
        assert_eq!(fault.key, "ground-not-flat");
    }
}
