//! Level and plumb in a picture taken from behind the vehicle, and the angle
//! of a line that the fitter lays over it.
//!
//! Angles in the picture are anticlockwise from its right-hand side: + means
//! that the line rises to the right. The camera looks forward at the
//! vehicle; its own roll is known from the tilt sensor, so it may be held
//! askew. How the ground leans is taken off, so that level means level for
//! the vehicle.

use nalgebra::Vector3;
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

/// Focal length that is assumed for the picture, as a share of its diagonal:
/// 26 mm where the film's diagonal is 43.3 mm, as many phones' main cameras
/// (our own figure; the picture does not carry it).
const FOCAL: f64 = 0.6;
/// Its relative standard uncertainty.
const U_FOCAL: f64 = 0.1;
/// Standard uncertainty of how square the camera looks at the rear.
const U_ASKEW: Degrees = Degrees(5.0);

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
    held: &StillReading,
    turn: ScreenTurn,
    ground: &Ground,
) -> Result<Estimate<Degrees>, Message> {
    let level = level_in_picture(held.up, turn)? + ground.right_up.value;
    let sensor = held.u_noise.0.hypot(held.u_rounding.0);
    let parts = [U_CAMERA.0, ground.right_up.u.0, U_ROLL.0, sensor];
    Ok(Estimate::new(level, Degrees(root_sum_of_squares(&parts))))
}

/// A line laid over a picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LaidLine {
    /// Its ends: shares of the picture's width, to the right and down from
    /// the upper left corner.
    pub ends: [[f64; 2]; 2],
    /// Height of the picture as a share of its width.
    pub height: f64,
}

/// Angle of a line laid over the picture against the vehicle's level: +
/// rises to the right.
///
/// Central projection: the line lies in the plane through the camera and its
/// two ends, and in the upright plane of the vehicle's rear, taken as square
/// to the camera. Where both planes meet is its direction; so it holds away
/// from the middle of the picture and with the camera pointing up or down.
/// What is assumed for that, focal length and squareness, has its share in
/// the ±.
///
/// # Errors
/// A message when the line is too short, or as [`level_in_picture`].
pub fn line_against_level(
    line: LaidLine,
    held: &StillReading,
    turn: ScreenTurn,
    ground: &Ground,
) -> Result<Estimate<Degrees>, Message> {
    let [[x0, y0], [x1, y1]] = line.ends;
    let size = (x1 - x0).hypot(y1 - y0);
    if size.is_nan() || size < LEAST_LENGTH {
        return Err(msg("level-line-too-short"));
    }
    let level = vehicle_level_in_picture(held, turn, ground)?;
    let rise = |focal: f64, askew: Degrees| rise(line, (held.up, turn), focal, askew);
    let best = rise(FOCAL, Degrees(0.0));
    let off = |other: Degrees| azimuth_change(best, other).0;
    let focal = off(rise(FOCAL * (1.0 + U_FOCAL), Degrees(0.0)));
    let askew = off(rise(FOCAL, U_ASKEW));
    let finger = (U_FINGER * 2f64.sqrt() / size).to_degrees();
    let u = Degrees(root_sum_of_squares(&[finger, level.u.0, focal, askew]));
    Ok(Estimate::new(best - ground.right_up.value, u))
}

/// Elevation of a line in the upright plane that is square to the camera, or
/// so much askew to it, for a focal length as a share of the diagonal.
fn rise(line: LaidLine, (up, turn): (UpVector, ScreenTurn), focal: f64, askew: Degrees) -> Degrees {
    // Right, top, forward of the camera.
    let [right, top] = turn.in_picture(up);
    let up = Vector3::new(right, top, -up.0[2]);
    let depth = focal * line.height.hypot(1.0);
    let ray = |[x, y]: [f64; 2]| Vector3::new(x - 0.5, line.height / 2.0 - y, depth);
    let forward = Vector3::z();
    let heading = (forward - up * forward.dot(&up)).normalize();
    let heading = heading * askew.cos() + up.cross(&heading) * askew.sin();
    let [from, to] = line.ends.map(ray);
    let along = from.cross(&to).cross(&heading).normalize();
    // Left to right, whichever end was laid first.
    let across = up.cross(&heading);
    let along = if along.dot(&across) < 0.0 {
        -along
    } else {
        along
    };
    Degrees(along.dot(&up).atan2(along.dot(&across)).to_degrees())
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

    fn laid(ends: [[f64; 2]; 2]) -> LaidLine {
        LaidLine { ends, height: 1.0 }
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
            laid(ends),
            &held(0.0, 1.0, 0.0),
            ScreenTurn::Upright,
            &ground(3.0),
        );
        assert!(flat.unwrap().value.0.abs() < 1e-9);
        let back = [ends[1], ends[0]];
        let level = line_against_level(
            laid(back),
            &held(0.0, 1.0, 0.0),
            ScreenTurn::Upright,
            &ground(0.0),
        );
        assert!((level.unwrap().value.0 - 3.0).abs() < 1e-9);
    }

    /// Where a camera that looks down by 20 degrees and is rolled by 7 sees a
    /// point that lies `x` to the right and `z` up from straight ahead.
    fn seen(x: f64, z: f64) -> [f64; 2] {
        let (s, c) = 20f64.to_radians().sin_cos();
        let (top, forward) = (z * c + s, c - z * s);
        let depth = FOCAL * 2f64.sqrt();
        let (right, top) = (depth * x / forward, depth * top / forward);
        let (s, c) = 7f64.to_radians().sin_cos();
        [0.5 + right * c + top * s, 0.5 - (top * c - right * s)]
    }

    #[test]
    fn a_line_away_from_the_middle_has_its_true_angle_with_the_camera_looking_down() {
        let (s, c) = 20f64.to_radians().sin_cos();
        let (rs, rc) = 7f64.to_radians().sin_cos();
        let held = held(c * rs, c * rc, s);
        for (left, right) in [(-0.5, -0.5), (-0.2, -0.25), (-0.9, -0.8), (0.1, -0.1)] {
            let ends = [seen(-0.4, left), seen(0.35, right)];
            let off = line_against_level(laid(ends), &held, ScreenTurn::Upright, &ground(0.0));
            let off = off.unwrap();
            let want = (right - left).atan2(0.75).to_degrees();
            assert!((off.value.0 - want).abs() < 1e-9, "{off:?}, not {want}");
        }
    }

    #[test]
    fn what_is_assumed_of_the_camera_counts_more_away_from_the_middle() {
        let u = |down: f64| {
            let ends = [[0.1, down], [0.9, down]];
            let off = line_against_level(
                laid(ends),
                &held(0.0, 1.0, 0.0),
                ScreenTurn::Upright,
                &ground(0.0),
            );
            off.unwrap().u.0
        };
        assert!(u(0.5) < 2.2);
        assert!(u(0.9) > u(0.5) + 0.3, "{} {}", u(0.9), u(0.5));
    }

    #[test]
    fn looking_down_or_a_dot_for_a_line_is_refused() {
        let down = level_in_picture(UpVector([0.0, 0.0, 1.0]), ScreenTurn::Upright);
        assert_eq!(down.unwrap_err().key, "level-looks-away");
        let dot = [[0.5, 0.5], [0.51, 0.5]];
        let dot = line_against_level(
            laid(dot),
            &held(0.0, 1.0, 0.0),
            ScreenTurn::Upright,
            &ground(0.0),
        );
        assert_eq!(dot.unwrap_err(), msg("level-line-too-short"));
    }
}
