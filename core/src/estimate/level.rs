//! Level in a picture: where a line parallel to the ground runs in a
//! photograph taken by the phone itself.
//!
//! # Frame and signs
//! Picture axes are x to the right and y up as the picture is shown; the
//! up-vector is given in them. Angles are anticlockwise from the picture's
//! right: + when the right end stands higher. The camera looks at the back
//! of the vehicle, square on; the further it looks from aside, the less a
//! line's angle in the picture is its angle in the world.

use serde::{Deserialize, Serialize};

use crate::estimate::ground::Ground;
use crate::estimate::rake::U_UNZEROED;
use crate::estimate::zero::Phone;
use crate::sample::UpVector;
use crate::units::{Degrees, Estimate};

/// The camera looks up or down more steeply than 60 degrees: level has no
/// useful direction in such a picture.
const LEAST_UPRIGHT: f64 = 0.5;
/// Standard uncertainty of the camera's own roll in a zeroed phone (ours):
/// zeroing finds the back, not how the camera sits in it.
pub const U_CAMERA_ROLL: Degrees = Degrees(0.5);

/// A line that the fitter laid over a picture: two points in shares of the
/// picture's width, x to the right, y up from its lower edge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PictureLine {
    /// One end.
    pub from: [f64; 2],
    /// The other.
    pub to: [f64; 2],
}

/// The up-vector of the device frame in the axes of what the screen shows.
/// `screen` is the angle of the W3C Screen Orientation: 90 when the device
/// was turned to the left, so that its right edge is up.
#[must_use]
pub fn up_on_screen(up: UpVector, screen: Degrees) -> UpVector {
    let [x, y, z] = up.0;
    let (sin, cos) = (screen.sin(), screen.cos());
    UpVector([x * cos - y * sin, x * sin + y * cos, z])
}

/// Direction of a line parallel to the ground, with its uncertainty; `None`
/// when the camera looks too steeply up or down.
#[must_use]
pub fn level_in_picture(up: UpVector, ground: &Ground, phone: &Phone) -> Option<Estimate<Degrees>> {
    let [x, y, _] = up.0;
    if x.hypot(y) < LEAST_UPRIGHT {
        return None;
    }
    let gravity = Degrees((-x).atan2(y).to_degrees());
    let u_phone = match phone {
        Phone::Unzeroed => U_UNZEROED,
        Phone::Zeroed(_) => U_CAMERA_ROLL,
    };
    let lean = ground.right_up;
    Some(Estimate::new(
        gravity + lean.value,
        Degrees(u_phone.0.hypot(lean.u.0)),
    ))
}

/// Angle of a laid line against level, -90 to 90, + when its right end
/// stands higher; `None` for a line without length.
#[must_use]
pub fn line_against_level(
    line: &PictureLine,
    level: Estimate<Degrees>,
) -> Option<Estimate<Degrees>> {
    let [dx, dy] = [line.to[0] - line.from[0], line.to[1] - line.from[1]];
    if dx.hypot(dy) < 0.02 {
        return None;
    }
    let runs = dy.atan2(dx).to_degrees();
    let off = (runs - level.value.0 + 90.0).rem_euclid(180.0) - 90.0;
    Some(Estimate::new(Degrees(off), level.u))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rolled_clockwise(by: f64) -> UpVector {
        let r = by.to_radians();
        UpVector([-r.sin(), r.cos(), 0.0])
    }

    #[test]
    fn a_phone_rolled_clockwise_sees_level_turned_anticlockwise() {
        let level = level_in_picture(
            rolled_clockwise(4.0),
            &Ground::looks_level(),
            &Phone::Unzeroed,
        )
        .unwrap();
        assert!((level.value.0 - 4.0).abs() < 1e-9);
    }

    #[test]
    fn on_leaning_ground_a_level_bumper_runs_with_the_ground() {
        let mut ground = Ground::looks_level();
        ground.right_up.value = Degrees(2.0);
        let level = level_in_picture(rolled_clockwise(0.0), &ground, &Phone::Unzeroed).unwrap();
        let line = PictureLine {
            from: [0.1, 0.5],
            to: [0.9, 0.5 + 0.8 * 2f64.to_radians().tan()],
        };
        let off = line_against_level(&line, level).unwrap();
        assert!(off.value.0.abs() < 1e-9);
        let backwards = PictureLine {
            from: line.to,
            to: line.from,
        };
        let same = line_against_level(&backwards, level).unwrap();
        assert!(same.value.0.abs() < 1e-9);
    }

    #[test]
    fn a_turned_screen_turns_the_picture_with_it() {
        // Landscape, device turned left: its top edge points left, its
        // right edge (+x) up.
        let up = up_on_screen(UpVector([1.0, 0.0, 0.0]), Degrees(90.0));
        assert!((up.0[1] - 1.0).abs() < 1e-12 && up.0[0].abs() < 1e-12);
    }

    #[test]
    fn a_camera_that_looks_at_the_floor_has_no_level() {
        let up = UpVector([0.0, 0.0, 1.0]);
        assert!(level_in_picture(up, &Ground::looks_level(), &Phone::Unzeroed).is_none());
    }
}
