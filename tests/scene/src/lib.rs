//! Rendered photos of mark cards on a bumper, with exact truth.
//!
//! # Where to start
//! A [`Scene`] says what stands where and how it is photographed;
//! [`render`] paints it and gives the [`Shot`]: grey levels and the truth.
//! [`file`](mod@file) makes a photo file of it, [`cases`] are the scenes of
//! tests and bench, [`judge`] compares what was seen with the truth.
//!
//! The painter shares no code with what is tested but the table of code
//! words. Everything is decided by seeds.

pub mod bumper;
pub mod camera;
pub mod cases;
pub mod dice;
pub mod file;
pub mod judge;
pub mod paint;
pub mod print;
pub mod texture;

use nalgebra::Vector3;

use bumper::{Bumper, Shape};
use camera::{Camera, Held};

pub use paint::render;

/// A card on the face.
#[derive(Clone, Copy, Debug)]
pub struct Placed {
    /// Its code.
    pub code: u16,
    /// Where its tip stands: along the face from the centre line, mm.
    pub along: f64,
    /// The same, up from the line of marks, mm.
    pub up: f64,
}

/// A reflection on a card.
#[derive(Clone, Copy, Debug)]
pub struct Glare {
    /// Its middle: along the face and up, mm.
    pub at: (f64, f64),
    /// Its radius, mm.
    pub radius: f64,
    /// Light that it adds, white being 1.
    pub light: f64,
}

/// Light and lens.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    /// Light of white paper in the middle of the picture, 1 being clipped.
    pub white: f64,
    /// How much light falls from left to right, share.
    pub across: f64,
    /// Light lost toward the corners, share.
    pub corners: f64,
    /// Standard deviation of the lens' blur, pixels.
    pub blur: f64,
    /// Motion while the shutter is open, pixels right and down.
    pub motion: (f64, f64),
    /// Noise: its variance is `noise.0` plus `noise.1` times the light.
    pub noise: (f64, f64),
    /// How far ink has spread, mm.
    pub spread: f64,
    /// A reflection.
    pub glare: Option<Glare>,
}

impl Look {
    /// Daylight, a steady hand: about 2 grey levels of noise.
    pub const DAY: Self = Self {
        white: 0.62,
        across: 0.25,
        corners: 0.25,
        blur: 0.75,
        motion: (0.0, 0.0),
        noise: (2e-6, 2.5e-4),
        spread: 0.05,
        glare: None,
    };
    /// A garage: darker, softer, about 8 grey levels of noise.
    pub const DUSK: Self = Self {
        white: 0.3,
        blur: 1.2,
        noise: (6e-5, 3e-3),
        ..Self::DAY
    };
}

/// A scene and how it is photographed.
#[derive(Clone, Debug)]
pub struct Scene {
    /// Decides noise and texture.
    pub seed: u64,
    /// The bumper.
    pub shape: Shape,
    /// Its cards.
    pub cards: Vec<Placed>,
    /// Pixels across and down, upright.
    pub size: (usize, usize),
    /// Focal length as on 35 mm film, mm.
    pub focal_35mm: f64,
    /// Radial distortion.
    pub k1: f64,
    /// How the camera is held.
    pub held: Held,
    /// Light and lens.
    pub look: Look,
}

/// Where a card really is.
#[derive(Clone, Debug)]
pub struct CardTruth {
    /// Its code.
    pub code: u16,
    /// Its crosses, in the order of core's `CROSSES`, pixels.
    pub crosses: [[f64; 2]; 4],
    /// Its tip in the vehicle frame, mm.
    pub tip: Vector3<f64>,
    /// Its tip along the face from the centre line, mm.
    pub along: f64,
    /// Cosine of the angle at which it is looked at; 0 is edge on.
    pub facing: f64,
    /// Whether all of it is in the picture and faces the camera.
    pub whole: bool,
}

/// What is true of a photo.
#[derive(Clone, Debug)]
pub struct Truth {
    /// Its cards, in the scene's order.
    pub cards: Vec<CardTruth>,
    /// Its camera.
    pub camera: Camera,
}

impl Truth {
    /// Straight through the air between two tips, mm.
    #[must_use]
    pub fn chord(&self, one: usize, other: usize) -> f64 {
        (self.cards[one].tip - self.cards[other].tip).norm()
    }

    /// Across the vehicle between two tips, mm.
    #[must_use]
    pub fn straight(&self, one: usize, other: usize) -> f64 {
        (self.cards[one].tip.x - self.cards[other].tip.x).abs()
    }

    /// Along the face between two tips, mm.
    #[must_use]
    pub fn along(&self, one: usize, other: usize) -> f64 {
        (self.cards[one].along - self.cards[other].along).abs()
    }
}

/// A painted photo.
#[derive(Clone, Debug)]
pub struct Shot {
    /// Pixels across and down, upright.
    pub size: (usize, usize),
    /// Grey levels in rows from the top.
    pub grey: Vec<u8>,
    /// What is true of it.
    pub truth: Truth,
}

impl Scene {
    /// Its camera.
    #[must_use]
    pub fn camera(&self) -> Camera {
        Camera::new(self.size, self.focal_35mm, self.k1, self.held)
    }

    /// What is true of its photo.
    #[must_use]
    pub fn truth(&self) -> Truth {
        let camera = self.camera();
        let bumper = Bumper::new(self.shape);
        let inside = |at: [f64; 2]| {
            let (width, height) = (self.size.0 as f64, self.size.1 as f64);
            (0.0..width - 1.0).contains(&at[0]) && (0.0..height - 1.0).contains(&at[1])
        };
        let card = |placed: &Placed| {
            let middle = (placed.along, placed.up + 50.0);
            let pixel = |x: f64, y: f64| {
                let place = bumper.at(middle.0 + x, middle.1 + y);
                camera.pixel(place).unwrap_or([-1e6, -1e6])
            };
            let to_eye = (camera.at - bumper.at(middle.0, middle.1)).normalize();
            let facing = bumper.normal(middle.0).dot(&to_eye);
            let corners = [(-45.0, 45.0), (45.0, 45.0), (45.0, -50.0), (-45.0, -50.0)];
            CardTruth {
                code: placed.code,
                crosses: [(-34.0, 34.0), (34.0, 34.0), (34.0, -34.0), (-34.0, -34.0)]
                    .map(|(x, y)| pixel(x, y)),
                tip: bumper.at(placed.along, placed.up),
                along: placed.along,
                facing,
                whole: facing > 0.1 && corners.iter().all(|&(x, y)| inside(pixel(x, y))),
            }
        };
        Truth {
            cards: self.cards.iter().map(card).collect(),
            camera,
        }
    }
}
