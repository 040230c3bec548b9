//! Level and plumb in a picture taken from behind the vehicle, and the angle
//! of a line that the fitter lays over it.
//!
//! Angles in the picture are anticlockwise from its right-hand side: + means
//! that the line rises to the right. The camera looks forward at the
//! vehicle; its own roll is known from the tilt sensor, so it may be held
//! askew. How the ground leans is taken off, so that level means level for
//! the vehicle.

use serde::{Deserialize, Serialize};

use crate::estimate::ground::Ground;
use crate::estimate::still::StillReading;
use crate::sample::{UpVector, azimuth_change};
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, root_sum_of_squares};

/// Pointing up or down more than this, a picture has no level line.
pub const MOST_LOOKING_UP: Degrees = Degrees(45.0);
/// A shorter line than this share of the picture's width has no angle.
const LEAST_LENGTH: f64 = 0.05;
/// Standard uncertainty of placing a line by finger, as a share of its
/// picture's width, each end.
const U_FINGER: f64 = 0.004;
/// Standard uncertainty of how camera and sensor are mounted to each other.
const U_CAMERA: Degrees = Degrees(0.3);

/// Standard uncertainty of the sensor's own roll: an offset of 60 mg,
/// rectangular (roll is not zeroed).
const U_ROLL: Degrees = Degrees(2.0);

/// How the screen is turned against the device: the angle of the W3C Screen
/// Orientation API, 0 with the top edge up, 90 with the right edge up.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ScreenTurn {
    /// Top edge up.
    #[default]
    Upright,
    /// Right edge up.
    RightUp,
    /// Bottom edge up.
    UpsideDown,
    /// Left edge up.
    LeftUp,
}

impl ScreenTurn {
    /// Up's parts along the picture: to its right, to its top.
    fn in_picture(self, up: UpVector) -> [f64; 2] {
        let [x, y, _] = up.0;
        match self {
            Self::Upright => [x, y],
            Self::RightUp => [-y, x],
            Self::UpsideDown => [-x, -y],
            Self::LeftUp => [y, -x],
        }
    }
}

/// Angle of gravity's level in the picture; the plumb line stands 90
/// degrees on it.
///
/// # Errors
/// A message when the camera looks up or down too much.
pub fn level_in_picture(up: UpVector, turn: ScreenTurn) -> Result<Degrees, Message> {
    let looking = Degrees::asin(up.0[2]).abs();
    if looking > MOST_LOOKING_UP {
        return Err(msg("level-looks-away")
            .deg("by", looking.0)
            .deg("limit", MOST_LOOKING_UP.0));
    }
    let [right, top] = turn.in_picture(up);
    Ok(Degrees((-right).atan2(top).to_degrees()))
}

/// Angle of the vehicle's own level in the picture: gravity's, turned by
/// the ground's lean (right side higher rises to the right).
///
/// # Errors
/// As [`level_in_picture`].
pub fn vehicle_level_in_picture(
    up: UpVector,
    turn: ScreenTurn,
    ground: &Ground,
) -> Result<Degrees, Message> {
    Ok(level_in_picture(up, turn)? + ground.right_up.value)
}

/// Angle of a line laid over the picture against the vehicle's level: +
/// rises to the right. Ends are shares of the picture's width, to the right
/// and down from its corner.
///
/// # Errors
/// A message when the line is too short, or as [`level_in_picture`].
pub fn line_against_level(
    ends: [[f64; 2]; 2],
    held: &StillReading,
    turn: ScreenTurn,
    ground: &Ground,
) -> Result<Estimate<Degrees>, Message> {
    let [[x0, y0], [x1, y1]] = ends;
    // Left to right, whichever end was laid first.
    let (dx, dy) = if x1 >= x0 {
        (x1 - x0, y0 - y1)
    } else {
        (x0 - x1, y1 - y0)
    };
    let size = dx.hypot(dy);
    if size.is_nan() || size < LEAST_LENGTH {
        return Err(msg("level-line-too-short"));
    }
    let level = vehicle_level_in_picture(held.up, turn, ground)?;
    let line = Degrees(dy.atan2(dx).to_degrees());
    let finger = (U_FINGER * 2f64.sqrt() / size).to_degrees();
    let sensor = held.u_noise.0.hypot(held.u_rounding.0);
    let parts = [finger, U_CAMERA.0, ground.right_up.u.0, U_ROLL.0, sensor];
    let u = Degrees(root_sum_of_squares(&parts));
    let off = azimuth_change(level, line);
    Ok(Estimate::new(off, u))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::Source;
    use crate::units::Millis;

    fn held(x: f64, y: f64, z: f64) -> StillReading {
        StillReading {
            up: UpVector::of([x, y, z]).unwrap(),
            u_noise: Degrees(0.1),
            u_rounding: Degrees(0.0),
            samples: 50,
            effective: 50.0,
            source: Source::Acceleration { step: 0.0 },
            raw_mean: None,
            azimuth: None,
            at: Millis(0.0),
        }
    }

    fn ground(right_up: f64) -> Ground {
        let mut ground = Ground::gauge_on_board();
        ground.right_up.value = Degrees(right_up);
        ground
    }

    #[test]
    fn a_phone_held_askew_does_not_turn_the_level_line_of_the_world() {
        // Turned clockwise by 10 degrees: up leans to the picture's left.
        let (s, c) = 10f64.to_radians().sin_cos();
        let level = level_in_picture(UpVector([-s, c, 0.0]), ScreenTurn::Upright).unwrap();
        assert!((level.0 - 10.0).abs() < 1e-9);
        let sideways = level_in_picture(UpVector([1.0, 0.0, 0.0]), ScreenTurn::RightUp);
        assert!(sideways.unwrap().0.abs() < 1e-9);
        let sideways = level_in_picture(UpVector([-1.0, 0.0, 0.0]), ScreenTurn::LeftUp);
        assert!(sideways.unwrap().0.abs() < 1e-9);
    }

    #[test]
    fn a_bumper_that_follows_leaning_ground_is_level_for_the_vehicle() {
        // Ground and bumper rise to the right by 3 degrees.
        let rise = 0.5 * 3f64.to_radians().tan();
        let ends = [[0.2, 0.5], [0.7, 0.5 - rise]];
        let flat = line_against_level(
            ends,
            &held(0.0, 1.0, 0.0),
            ScreenTurn::Upright,
            &ground(3.0),
        );
        assert!(flat.unwrap().value.0.abs() < 1e-9);
        let back = [ends[1], ends[0]];
        let level = line_against_level(
            back,
            &held(0.0, 1.0, 0.0),
            ScreenTurn::Upright,
            &ground(0.0),
        );
        assert!((level.unwrap().value.0 - 3.0).abs() < 1e-9);
    }

    #[test]
    fn looking_down_or_a_dot_for_a_line_is_refused() {
        let down = level_in_picture(UpVector([0.0, 0.0, 1.0]), ScreenTurn::Upright);
        assert_eq!(down.unwrap_err().key, "level-looks-away");
        let dot = [[0.5, 0.5], [0.51, 0.5]];
        let dot = line_against_level(dot, &held(0.0, 1.0, 0.0), ScreenTurn::Upright, &ground(0.0));
        assert_eq!(dot.unwrap_err(), msg("level-line-too-short"));
    }
}
