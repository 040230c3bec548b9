//! A pinhole camera with a lens that bends straight lines.

use nalgebra::{Matrix3, Vector3};

/// Diagonal of the 35 mm film's picture, mm.
const DIAGONAL: f64 = 43.266_615_305_567_87;

/// A camera. Pixels: x right, y down, the first pixel's centre at (0, 0).
#[derive(Clone, Copy, Debug)]
pub struct Camera {
    /// Pixels across and down.
    pub size: (usize, usize),
    /// Its place in the vehicle frame, mm.
    pub at: Vector3<f64>,
    /// From the vehicle frame to the camera's: x right, y down, z ahead.
    pub turn: Matrix3<f64>,
    /// Focal length, pixels.
    pub focal: f64,
    /// Principal point, pixels.
    pub centre: (f64, f64),
    /// Radial distortion: a ray at distance r from the axis (focal length 1)
    /// appears at r (1 + k1 r²).
    pub k1: f64,
}

/// How a camera is held.
#[derive(Clone, Copy, Debug)]
pub struct Held {
    /// Its place in the vehicle frame, mm.
    pub at: [f64; 3],
    /// What it aims at.
    pub aim: [f64; 3],
    /// Turn about its axis, degrees, clockwise as seen in the picture.
    pub roll: f64,
}

impl Camera {
    /// A camera of a size and a focal length as on 35 mm film.
    #[must_use]
    pub fn new(size: (usize, usize), focal_35mm: f64, k1: f64, held: Held) -> Self {
        let at = Vector3::from(held.at);
        let ahead = (Vector3::from(held.aim) - at).normalize();
        let right = ahead.cross(&Vector3::z()).normalize();
        let down = ahead.cross(&right);
        let (sin, cos) = held.roll.to_radians().sin_cos();
        let turn = Matrix3::from_rows(&[
            (right * cos + down * sin).transpose(),
            (down * cos - right * sin).transpose(),
            ahead.transpose(),
        ]);
        let (width, height) = (size.0 as f64, size.1 as f64);
        Self {
            size,
            at,
            turn,
            focal: focal_35mm / DIAGONAL * width.hypot(height),
            centre: ((width - 1.0) / 2.0, (height - 1.0) / 2.0),
            k1,
        }
    }

    /// Where a place appears; `None` behind the camera.
    #[must_use]
    pub fn pixel(&self, place: Vector3<f64>) -> Option<[f64; 2]> {
        let seen = self.turn * (place - self.at);
        if seen.z <= 1.0 {
            return None;
        }
        let (x, y) = (seen.x / seen.z, seen.y / seen.z);
        let out = 1.0 + self.k1 * (x * x + y * y);
        Some([
            self.centre.0 + self.focal * x * out,
            self.centre.1 + self.focal * y * out,
        ])
    }

    /// The way, in the vehicle frame, that a pixel looks.
    #[must_use]
    pub fn way(&self, x: f64, y: f64) -> Vector3<f64> {
        let (x, y) = (
            (x - self.centre.0) / self.focal,
            (y - self.centre.1) / self.focal,
        );
        let seen = x.hypot(y);
        let mut r = seen;
        for _ in 0..6 {
            let off = r * (1.0 + self.k1 * r * r) - seen;
            r -= off / (1.0 + 3.0 * self.k1 * r * r);
        }
        let share = if seen > 0.0 { r / seen } else { 1.0 };
        self.turn.transpose() * Vector3::new(x * share, y * share, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pixel_looks_where_it_comes_from() {
        let held = Held {
            at: [200.0, -1_800.0, 1_100.0],
            aim: [0.0, 0.0, 500.0],
            roll: 3.0,
        };
        let camera = Camera::new((1_600, 1_200), 26.0, -0.06, held);
        let place = Vector3::new(-700.0, 150.0, 480.0);
        let [x, y] = camera.pixel(place).unwrap();
        let off = camera.way(x, y).normalize() - (place - camera.at).normalize();
        assert!(off.norm() < 1e-9);
        let right = camera.pixel(Vector3::new(500.0, 0.0, 500.0)).unwrap();
        let left = camera.pixel(Vector3::new(-500.0, 0.0, 500.0)).unwrap();
        let above = camera.pixel(Vector3::new(0.0, 0.0, 700.0)).unwrap();
        assert!(right[0] > left[0] && above[1] < camera.centre.1);
    }
}
