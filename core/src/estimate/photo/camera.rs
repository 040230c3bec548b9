//! One photo's camera: pinhole, one radial term, and what is known of both
//! before the photo is looked at.
//!
//! # Units and signs
//! Pixels with centres at whole numbers, x right, y down. Camera frame: x
//! right, y down, z forward. With m = (X/Z, Y/Z) and r² = |m|², a point
//! stands at centre + f (1 + k1 r²) m (Brown, Close-range camera
//! calibration, Photogrammetric Engineering 37, 1971, first radial term).

use nalgebra::{Vector2, Vector3};
use serde::{Deserialize, Serialize};

/// Standard uncertainty of ln f where the photo names its focal length as
/// for 35 mm film: whole millimetres, two conventions of what is 35 mm (by
/// the long side or by the diagonal), focus that changes it.
pub const U_FOCAL_NAMED: f64 = 0.03;
/// The same where it names none.
pub const U_FOCAL_UNNAMED: f64 = 0.2;
/// The same once a photo turned out to be cropped or edited.
pub const U_FOCAL_EDITED: f64 = 0.5;
/// Focal length as for 35 mm film that is taken where none is named.
const FOCAL_UNNAMED: f64 = 27.0;
/// Focal lengths outside of this are no phone's main or wide lens.
const FOCAL_LIMITS: (f64, f64) = (9.0, 300.0);
/// Standard uncertainty of the principal point in parts of the long side:
/// assembly and stabilisation.
pub const U_CENTRE: f64 = 0.008;
/// The same once a photo turned out to be cropped or edited.
pub const U_CENTRE_EDITED: f64 = 0.2;
/// Standard uncertainty of k1.
pub const U_K1: f64 = 0.03;
/// 35 mm film: long side and diagonal in millimetres.
const FILM: (f64, f64) = (36.0, 43.266_615_305_567_87);

/// A photo's camera.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Camera {
    /// ln of the focal length in pixels.
    pub ln_focal: f64,
    /// Principal point in pixels.
    pub centre: [f64; 2],
    /// First radial term.
    pub k1: f64,
}

impl Camera {
    /// Focal length in pixels.
    #[must_use]
    pub fn focal(&self) -> f64 {
        self.ln_focal.exp()
    }

    /// Where a point of the camera frame stands in the photo; `None` behind
    /// the camera.
    #[must_use]
    pub fn project(&self, at: &Vector3<f64>) -> Option<Vector2<f64>> {
        if at.z < 1.0 {
            return None;
        }
        let m = Vector2::new(at.x / at.z, at.y / at.z);
        let bent = self.focal() * (1.0 + self.k1 * m.norm_squared());
        Some(Vector2::from(self.centre) + m * bent)
    }

    /// Direction (x/z, y/z) of a pixel: the inverse of [`Camera::project`]
    /// by fixed-point steps.
    #[must_use]
    pub fn direction(&self, pixel: [f64; 2]) -> Vector2<f64> {
        let bent = (Vector2::from(pixel) - Vector2::from(self.centre)) / self.focal();
        let mut m = bent;
        for _ in 0..20 {
            m = bent / (1.0 + self.k1 * m.norm_squared()).max(0.2);
        }
        m
    }
}

/// What is known of a camera before: independent normal priors.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CameraPrior {
    /// The most likely camera.
    pub camera: Camera,
    /// Standard uncertainty of ln f.
    pub u_focal: f64,
    /// Standard uncertainty of the principal point in pixels.
    pub u_centre: f64,
    /// Standard uncertainty of k1.
    pub u_k1: f64,
}

impl CameraPrior {
    /// From the photo's size in pixels and the focal length as for 35 mm
    /// film that it names, in millimetres.
    ///
    /// Makers mean either the long side or the diagonal by 35 mm; the
    /// geometric mean of the two is taken, and the difference (2 % each way
    /// for 4:3) stands in the uncertainty.
    #[must_use]
    pub fn new(width: u32, height: u32, focal_35mm: Option<f64>) -> Self {
        let (w, h) = (f64::from(width.max(1)), f64::from(height.max(1)));
        let per_mm = (w.max(h) / FILM.0 * w.hypot(h) / FILM.1).sqrt();
        let named = focal_35mm.filter(|f| (FOCAL_LIMITS.0..=FOCAL_LIMITS.1).contains(f));
        let u_focal = if named.is_some() {
            U_FOCAL_NAMED
        } else {
            U_FOCAL_UNNAMED
        };
        Self {
            camera: Camera {
                ln_focal: (named.unwrap_or(FOCAL_UNNAMED) * per_mm).ln(),
                centre: [(w - 1.0) / 2.0, (h - 1.0) / 2.0],
                k1: 0.0,
            },
            u_focal,
            u_centre: U_CENTRE * w.max(h),
            u_k1: U_K1,
        }
    }

    /// The same once the photo is known to be cropped or edited.
    #[must_use]
    pub fn edited(mut self) -> Self {
        self.u_focal = U_FOCAL_EDITED;
        self.u_centre *= U_CENTRE_EDITED / U_CENTRE;
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pixel_and_its_direction_are_each_others_inverse() {
        let mut camera = CameraPrior::new(4032, 3024, Some(26.0)).camera;
        for k1 in [-0.1, 0.0, 0.08] {
            camera.k1 = k1;
            for at in [[300.0, -200.0, 1000.0], [-600.0, 450.0, 1000.0]] {
                let at = Vector3::from(at);
                let pixel = camera.project(&at).unwrap();
                let back = camera.direction([pixel.x, pixel.y]);
                assert!((back - at.xy() / at.z).norm() < 1e-8, "{k1}");
            }
        }
        assert_eq!(camera.project(&Vector3::new(0.0, 0.0, -5.0)), None);
    }

    #[test]
    fn a_named_focal_length_is_taken_with_both_meanings_inside() {
        let prior = CameraPrior::new(4032, 3024, Some(26.0));
        let by_side = (26.0f64 / 36.0 * 4032.0).ln();
        let by_diagonal = (26.0f64 / FILM.1 * 5040.0).ln();
        for meant in [by_side, by_diagonal] {
            assert!((prior.camera.ln_focal - meant).abs() < U_FOCAL_NAMED);
        }
        assert_eq!(
            CameraPrior::new(4032, 3024, Some(0.0)).u_focal,
            U_FOCAL_UNNAMED
        );
    }
}
