//! One reading at a spot: held against the face or typed from a gauge.

use serde::{Deserialize, Serialize};

use crate::estimate::still::StillReading;
use crate::sample::UpVector;
use crate::text::{Message, msg};
use crate::units::{Degrees, Millis};

/// Steeper than this is not a bumper face.
pub const MOST_RAKE: Degrees = Degrees(45.0);
/// ± that is proposed for a typed angle.
pub const GAUGE_PLUS_MINUS: Degrees = Degrees(0.3);
/// Greatest ± that a typed angle may have.
pub const MOST_PLUS_MINUS: Degrees = Degrees(10.0);

/// Which side of the phone lies on the face.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Side {
    /// Its back.
    #[default]
    Back,
    /// Its screen.
    Screen,
}

/// How that side sits on a flat face: the normal of the seat in the device
/// frame is (x, y, 1) normalised. Zero until the phone is zeroed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Seat {
    /// Slope toward the device's x axis, in sines (radian for small angles).
    pub x: f64,
    /// Slope toward the device's y axis.
    pub y: f64,
}

impl Seat {
    /// The seat's normal in the device frame, a unit vector.
    #[must_use]
    pub fn normal(self) -> [f64; 3] {
        let length = (self.x * self.x + self.y * self.y + 1.0).sqrt();
        [self.x / length, self.y / length, 1.0 / length]
    }
}

/// Face angle against gravity: asin(up · normal) for the back, the negative
/// for the screen.
#[must_use]
pub fn rake_against_gravity(up: UpVector, side: Side, seat: Seat) -> Degrees {
    let sine = up.dot(seat.normal());
    match side {
        Side::Back => Degrees::asin(sine),
        Side::Screen => Degrees::asin(-sine),
    }
}

/// Is this a bumper's face at all?
///
/// # Errors
/// A message when the angle is steeper than [`MOST_RAKE`] or no figure.
pub fn plausible(rake: Degrees) -> Result<Degrees, Message> {
    if rake.abs() <= MOST_RAKE {
        Ok(rake)
    } else {
        Err(msg("face-not-a-bumper")
            .deg("rake", rake.0)
            .deg("limit", MOST_RAKE.0))
    }
}

/// What a typed angle was measured against.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Against {
    /// Gravity: how the ground lies is taken off.
    #[default]
    Level,
    /// The board beside the wheels, on which the gauge was zeroed: the
    /// angle is already against the ground.
    Board,
}

/// One reading at a spot, as it is kept: nothing is corrected in it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum FaceReading {
    /// Held against the face.
    Held {
        /// The still window.
        still: StillReading,
        /// Side that touched.
        side: Side,
    },
    /// Typed from an angle gauge; see [`FaceReading::typed`].
    Typed {
        /// Face angle as typed.
        angle: Degrees,
        /// The gauge's ± (95 %).
        plus_minus: Degrees,
        /// Reference of the gauge.
        against: Against,
        /// Time of typing.
        at: Millis,
    },
}

impl FaceReading {
    /// A reading held against the face.
    ///
    /// # Errors
    /// A message when that cannot be a bumper's face.
    pub fn held(still: StillReading, side: Side) -> Result<Self, Message> {
        plausible(rake_against_gravity(still.up, side, Seat::default()))?;
        Ok(Self::Held { still, side })
    }

    /// A typed reading.
    ///
    /// # Errors
    /// A message when a figure is missing, the ± is none, or the angle
    /// cannot be a bumper's face.
    pub fn typed(
        angle: Degrees,
        plus_minus: Degrees,
        against: Against,
        at: Millis,
    ) -> Result<Self, Message> {
        if !angle.0.is_finite() {
            return Err(msg("face-typed-not-a-number"));
        }
        if !(plus_minus.0 > 0.0 && plus_minus <= MOST_PLUS_MINUS) {
            return Err(msg("face-typed-no-accuracy").deg("limit", MOST_PLUS_MINUS.0));
        }
        plausible(angle)?;
        Ok(Self::Typed {
            angle,
            plus_minus,
            against,
            at,
        })
    }
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::sample::Source;

    /// A browser's reading of the back on a face of this angle.
    pub(crate) fn still(rake: f64) -> StillReading {
        StillReading {
            up: UpVector::from_euler(Degrees(90.0 - rake), Degrees(0.0)),
            u_noise: Degrees(0.05),
            u_rounding: Degrees(0.1 / 12f64.sqrt()),
            samples: 40,
            effective: 40.0,
            source: Source::Euler { step: Degrees(0.1) },
            raw_mean: None,
            azimuth: None,
            at: Millis(0.0),
        }
    }

    #[test]
    fn a_face_falling_away_reads_negative() {
        // Back on the face, top edge up, screen leaning down.
        let down = UpVector::from_euler(Degrees(94.2), Degrees(0.0));
        let rake = rake_against_gravity(down, Side::Back, Seat::default());
        assert!((rake.0 + 4.2).abs() < 1e-9);
        // The screen on the same face looks the other way.
        let up = UpVector::from_euler(Degrees(90.0 - 4.2), Degrees(0.0));
        let rake = rake_against_gravity(up, Side::Screen, Seat::default());
        assert!((rake.0 + 4.2).abs() < 1e-9);
    }

    #[test]
    fn a_steep_face_or_an_empty_figure_is_refused() {
        assert_eq!(
            FaceReading::held(still(60.0), Side::Back).unwrap_err().key,
            "face-not-a-bumper"
        );
        let typed = |a: f64, u: f64| {
            FaceReading::typed(Degrees(a), Degrees(u), Against::Level, Millis(0.0))
                .map_err(|m| m.key)
        };
        assert_eq!(typed(f64::NAN, 0.3).unwrap_err(), "face-typed-not-a-number");
        assert_eq!(typed(-4.0, 0.0).unwrap_err(), "face-typed-no-accuracy");
        assert_eq!(typed(-50.0, 0.3).unwrap_err(), "face-not-a-bumper");
    }
}
