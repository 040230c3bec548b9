//! Where up is, in the device frame.

use serde::{Deserialize, Serialize};

use crate::units::Degrees;

/// The unit vector that points up, in the device frame (x right, y to the
/// top edge, z out of the screen).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct UpVector(pub [f64; 3]);

impl UpVector {
    /// The direction of `xyz`; `None` if a figure is not finite or the
    /// length is zero.
    #[must_use]
    pub fn of(xyz: [f64; 3]) -> Option<Self> {
        let length = length(xyz);
        (length.is_finite() && length > 1e-12).then(|| Self(xyz.map(|c| c / length)))
    }

    /// From W3C Euler angles (beta about x, gamma about y); alpha turns
    /// about up itself and has no part. Third row of
    /// Z(alpha) X(beta) Y(gamma): W3C DeviceOrientation, worked example.
    #[must_use]
    pub fn from_euler(beta: Degrees, gamma: Degrees) -> Self {
        Self([
            -beta.cos() * gamma.sin(),
            beta.sin(),
            beta.cos() * gamma.cos(),
        ])
    }

    /// W3C beta and gamma of this up-vector: beta = asin(y), gamma =
    /// atan2(-x, z). The same as AN3461, equations 28 and 29.
    #[must_use]
    pub fn euler(self) -> (Degrees, Degrees) {
        let [x, y, z] = self.0;
        (
            Degrees(y.atan2(x.hypot(z)).to_degrees()),
            Degrees((-x).atan2(z).to_degrees()),
        )
    }

    /// From a unit quaternion device -> world as x, y, z, w.
    #[must_use]
    pub fn from_quaternion([x, y, z, w]: [f64; 4]) -> Self {
        Self([
            2.0 * (x * z - w * y),
            2.0 * (y * z + w * x),
            1.0 - 2.0 * (x * x + y * y),
        ])
    }

    /// The cosine of the angle between up and a unit vector of the device frame.
    #[must_use]
    pub fn dot(self, other: [f64; 3]) -> f64 {
        self.0[0] * other[0] + self.0[1] * other[1] + self.0[2] * other[2]
    }

    /// The angle to another up-vector, 0 to 180 degrees.
    #[must_use]
    pub fn angle_to(self, other: Self) -> Degrees {
        let [a, b, c] = self.0;
        let [x, y, z] = other.0;
        let cross = length([b * z - c * y, c * x - a * z, a * y - b * x]);
        Degrees(cross.atan2(self.dot(other.0)).to_degrees())
    }
}

/// The change from one azimuth to another, -180 to 180 degrees,
/// anticlockwise seen from above. For the normal of a rear face this is the
/// change of its corner angle, + to the vehicle's right.
#[must_use]
pub fn azimuth_change(from: Degrees, to: Degrees) -> Degrees {
    Degrees((to.0 - from.0 + 180.0).rem_euclid(360.0) - 180.0)
}

pub(crate) fn length([x, y, z]: [f64; 3]) -> f64 {
    (x * x + y * y + z * z).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn azimuth_changes_go_the_short_way_round() {
        let change = |a, b| azimuth_change(Degrees(a), Degrees(b)).0;
        assert!((change(170.0, -170.0) - 20.0).abs() < 1e-12);
        assert!((change(-170.0, 170.0) + 20.0).abs() < 1e-12);
    }
}
