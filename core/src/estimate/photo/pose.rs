//! Poses of cards and photos, and small steps of them.
//!
//! # Units
//! Millimetres of the print, pixels, radian (inside only).

use nalgebra::{Matrix3, SVector, Vector3};

use super::camera::Camera;
use super::card::TIP;

/// Unknowns of a photo: turn (3), shift (3), ln f, centre (2), k1.
pub const OF_PHOTO: usize = 10;
/// Unknowns of a card: turn (3), tip (3), bend.
pub const OF_CARD: usize = 7;

/// A step of a photo.
pub type PhotoSide = SVector<f64, OF_PHOTO>;
/// A step of a card.
pub type CardSide = SVector<f64, OF_CARD>;

/// A card's pose and bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CardPose {
    /// Columns: right, up, out of the print, in the world frame.
    pub axes: Matrix3<f64>,
    /// The tip in millimetres.
    pub tip: Vector3<f64>,
    /// Bend per millimetre.
    pub bend: f64,
}

/// A photo's pose and camera.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhotoPose {
    /// World to camera.
    pub turn: Matrix3<f64>,
    /// The world's origin in the camera frame.
    pub shift: Vector3<f64>,
    /// Its camera.
    pub camera: Camera,
}

impl CardPose {
    /// A point of the print against the tip, in the card's own axes.
    #[must_use]
    pub fn bent(&self, x: f64, y: f64) -> Vector3<f64> {
        let a = self.bend * x;
        // sin(a)/a and (1 - cos a)/a² by their series: cards bend little.
        let across = x * (1.0 - a * a / 6.0 + a.powi(4) / 120.0);
        let back = x * a * (0.5 - a * a / 24.0 + a.powi(4) / 720.0);
        Vector3::new(across, y - TIP.1, -back)
    }

    /// A point of the print in the world frame.
    #[must_use]
    pub fn place(&self, x: f64, y: f64) -> Vector3<f64> {
        self.tip + self.axes * self.bent(x, y)
    }

    /// The pose after a small step: turn in the world frame, tip, bend.
    #[must_use]
    pub fn moved(&self, by: &CardSide) -> Self {
        Self {
            axes: turned(&by.fixed_rows::<3>(0).into()) * self.axes,
            tip: self.tip + by.fixed_rows::<3>(3),
            bend: self.bend + by[6],
        }
    }
}

impl PhotoPose {
    /// A place of the world in the camera frame.
    #[must_use]
    pub fn seen(&self, at: &Vector3<f64>) -> Vector3<f64> {
        self.turn * at + self.shift
    }

    /// Where the camera stands in the world.
    #[must_use]
    pub fn eye(&self) -> Vector3<f64> {
        -(self.turn.transpose() * self.shift)
    }

    /// The pose after a small step: turn in the camera frame, shift, camera.
    #[must_use]
    pub fn moved(&self, by: &PhotoSide) -> Self {
        let turn = turned(&by.fixed_rows::<3>(0).into());
        Self {
            turn: turn * self.turn,
            shift: turn * self.shift + by.fixed_rows::<3>(3),
            camera: Camera {
                ln_focal: self.camera.ln_focal + by[6],
                centre: [self.camera.centre[0] + by[7], self.camera.centre[1] + by[8]],
                k1: self.camera.k1 + by[9],
            },
        }
    }
}

/// Rotation by a vector (Rodrigues).
#[must_use]
pub fn turned(by: &Vector3<f64>) -> Matrix3<f64> {
    nalgebra::Rotation3::from_scaled_axis(*by).into_inner()
}
