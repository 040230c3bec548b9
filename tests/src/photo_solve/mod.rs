//! Cards on curved bumpers, seen exactly: scenes for the solver, by seed,
//! with their truth.
//!
//! A bumper's corner angle grows along the face as a s + b s³ (+ c s²), its
//! faces lean by a rake of their own. A card lies on the general cylinder
//! through its tip whose section is the bumper's outline there: paper that
//! bends and does not stretch. Vehicle frame as everywhere: x right, y
//! forward, z up.

use nalgebra::{Matrix3, Vector3};
use rakeline_core::estimate::photo::camera::Camera;
use rakeline_core::estimate::photo::card::{CROSSES, TIP};
use rakeline_core::estimate::photo::seen::{
    CardQuality, CardSeen, CrossSeen, Exif, Origin, PhotoSeen,
};

use crate::dice::Dice;

pub mod bars;
pub mod errors;
mod harm;

pub use harm::{Harm, harmed};

/// A number from 0 to 1.
#[must_use]
pub fn unit(dice: &mut Dice) -> f64 {
    (dice.roll() >> 11) as f64 / (1u64 << 53) as f64
}

/// From `low` to `high`.
pub fn within(dice: &mut Dice, low: f64, high: f64) -> f64 {
    low + (high - low) * unit(dice)
}

/// A normal number of mean 0 and standard deviation 1 (Box and Muller).
pub fn normal(dice: &mut Dice) -> f64 {
    let (a, b) = (unit(dice).max(1e-300), unit(dice));
    (-2.0 * a.ln()).sqrt() * (std::f64::consts::TAU * b).cos()
}

/// A bumper.
#[derive(Clone, Debug)]
pub struct Bumper {
    /// Corner angle a millimetre at the centre, radian.
    pub a: f64,
    /// Its third-order growth.
    pub b: f64,
    /// Face angle at the centre and its change with s², radian.
    pub rake: (f64, f64),
}

impl Bumper {
    /// One of those that drive about.
    pub fn any(dice: &mut Dice) -> Self {
        let a = within(dice, 0.000_05, 0.000_5);
        let end = within(dice, 30.0, 60.0_f64).to_radians();
        Self {
            a,
            b: (end - a * 850.0).max(0.0) / 850f64.powi(3),
            rake: (within(dice, -0.12, 0.05), within(dice, -1e-7, 1e-7)),
        }
    }

    /// Corner angle along the face, radian.
    #[must_use]
    pub fn turn(&self, s: f64) -> f64 {
        self.a * s + self.b * s.powi(3)
    }

    /// Straight and forward of a place along the face.
    #[must_use]
    pub fn place(&self, s: f64) -> [f64; 2] {
        let steps = 400;
        let h = s / f64::from(steps);
        let mut sum = [0.0; 2];
        for i in 0..steps {
            let turn = self.turn(h * (f64::from(i) + 0.5));
            sum[0] += h * turn.cos();
            sum[1] += h * turn.sin();
        }
        sum
    }

    /// Along the face to a straight offset.
    #[must_use]
    pub fn along(&self, straight: f64) -> f64 {
        let (mut low, mut high) = (-1500.0, 1500.0);
        for _ in 0..60 {
            let middle = f64::midpoint(low, high);
            if self.place(middle)[0] < straight {
                low = middle;
            } else {
                high = middle;
            }
        }
        f64::midpoint(low, high)
    }

    /// Right, up along the face, out of it.
    #[must_use]
    pub fn axes(&self, s: f64) -> [Vector3<f64>; 3] {
        let (psi, rake) = (self.turn(s), self.rake.0 + self.rake.1 * s * s);
        let right = Vector3::new(psi.cos(), psi.sin(), 0.0);
        let out = Vector3::new(psi.sin() * rake.cos(), -psi.cos() * rake.cos(), rake.sin());
        [right, out.cross(&right), out]
    }

    /// A place on the face: along, and up along the face from the tips' line.
    #[must_use]
    pub fn on_face(&self, s: f64, up: f64) -> Vector3<f64> {
        let [x, y] = self.place(s);
        Vector3::new(x, y, 0.0) + self.axes(s)[1] * up
    }
}

/// A card on it.
#[derive(Clone, Copy, Debug)]
pub struct CardStands {
    /// Its code.
    pub code: u16,
    /// Along the face.
    pub s: f64,
    /// How crooked it was stuck on, radian.
    pub crooked: f64,
    /// Size of the print over what was drawn.
    pub scale: f64,
}

/// A camera and where it stands.
#[derive(Clone, Debug)]
pub struct Shot {
    /// World to camera.
    pub turn: Matrix3<f64>,
    /// Where it stands.
    pub eye: Vector3<f64>,
    /// The true camera.
    pub camera: Camera,
    /// Pixels across and down.
    pub size: (u32, u32),
    /// What it says of its focal length.
    pub focal_35mm: Option<f64>,
}

/// A scene with its truth.
#[derive(Clone, Debug)]
pub struct Scene {
    /// The bumper.
    pub bumper: Bumper,
    /// The cards, left to right.
    pub cards: Vec<CardStands>,
    /// The photos.
    pub shots: Vec<Shot>,
}

/// How a scene is made.
#[derive(Clone, Copy, Debug)]
pub struct Kind {
    /// Marks, each with its card.
    pub marks: usize,
    /// Photos.
    pub photos: usize,
    /// Standard deviation of a cross an axis, pixels.
    pub noise: f64,
    /// A card on the centre mark.
    pub centre: bool,
}

impl Scene {
    /// A scene by seed.
    #[must_use]
    pub fn any(seed: u64, kind: Kind) -> Self {
        let mut dice = Dice(seed.wrapping_mul(7919).wrapping_add(17));
        let bumper = Bumper::any(&mut dice);
        let outer = within(&mut dice, 560.0, 680.0);
        let mut cards: Vec<CardStands> = (0..kind.marks)
            .map(|i| {
                let part = 2.0 * i as f64 / (kind.marks - 1) as f64 - 1.0;
                let straight = part * outer + within(&mut dice, -5.0, 5.0);
                // Left and right are as symmetric as a fitter makes them.
                CardStands {
                    code: u16::try_from(i).unwrap_or(0),
                    s: bumper.along(straight),
                    crooked: 0.03 * normal(&mut dice),
                    scale: 1.0,
                }
            })
            .collect();
        if kind.centre {
            cards.push(CardStands {
                code: u16::try_from(kind.marks).unwrap_or(0),
                s: 0.0,
                crooked: 0.03 * normal(&mut dice),
                scale: 1.0,
            });
        }
        let shots = (0..kind.photos)
            .map(|k| {
                let middle = (kind.photos as f64 - 1.0) / 2.0;
                let side = if kind.photos == 1 {
                    within(&mut dice, -0.15, 0.15)
                } else {
                    0.5 * (k as f64 - middle) / middle + within(&mut dice, -0.1, 0.1)
                };
                shot(&mut dice, side)
            })
            .collect();
        Self {
            bumper,
            cards,
            shots,
        }
    }

    /// Where a point of a card's print is.
    #[must_use]
    pub fn place(&self, card: &CardStands, x: f64, y: f64) -> Vector3<f64> {
        let (sin, cos) = card.crooked.sin_cos();
        let (x, y) = (x * card.scale, (y - TIP.1) * card.scale);
        let (x, y) = (cos * x - sin * y, sin * x + cos * y);
        let [right, up, out] = self.bumper.axes(card.s);
        let turn = self.bumper.turn(card.s);
        let (mut across, mut back) = (0.0, 0.0);
        let steps = 50;
        let h = x / f64::from(steps);
        for i in 0..steps {
            let at = card.s + h * (f64::from(i) + 0.5);
            let by = self.bumper.turn(at) - turn;
            across += h * by.cos();
            back += h * by.sin();
        }
        self.tip(card) + right * across - out * back + up * y
    }

    /// Where a card's tip is.
    #[must_use]
    pub fn tip(&self, card: &CardStands) -> Vector3<f64> {
        let [x, y] = self.bumper.place(card.s);
        Vector3::new(x, y, 0.0)
    }

    /// What the photos see, with noise by seed.
    #[must_use]
    pub fn seen(&self, seed: u64, noise: f64) -> Vec<PhotoSeen> {
        let mut dice = Dice(seed ^ 0x5DEECE66D);
        let photos = self
            .shots
            .iter()
            .map(|shot| self.photo(shot, noise, &mut dice));
        photos.collect()
    }

    fn photo(&self, shot: &Shot, noise: f64, dice: &mut Dice) -> PhotoSeen {
        let mut cards = Vec::new();
        for card in &self.cards {
            let to_eye = (shot.eye - self.place(card, 0.0, 0.0)).normalize();
            if to_eye.dot(&self.bumper.axes(card.s)[2]) < 0.26 {
                continue;
            }
            let crosses = CROSSES.map(|(x, y)| {
                let at = shot.turn * (self.place(card, x, y) - shot.eye);
                let pixel = shot.camera.project(&at)?;
                let inside = pixel.x > 20.0
                    && pixel.y > 20.0
                    && pixel.x < f64::from(shot.size.0) - 20.0
                    && pixel.y < f64::from(shot.size.1) - 20.0;
                inside.then(|| CrossSeen {
                    x: pixel.x + noise * normal(dice),
                    y: pixel.y + noise * normal(dice),
                    u: noise.max(0.01),
                })
            });
            if let [Some(a), Some(b), Some(c), Some(d)] = crosses {
                cards.push(CardSeen {
                    code: card.code,
                    crosses: [a, b, c, d],
                    quality: CardQuality {
                        blur: 1.0,
                        cell: 10.0,
                        contrast: 0.7,
                        noise: 2.0,
                        glare: 0.0,
                        misread: 0,
                    },
                });
            }
        }
        PhotoSeen {
            width: shot.size.0,
            height: shot.size.1,
            exif: Exif {
                focal_35mm: shot.focal_35mm,
                focal_mm: None,
                orientation: 1,
                origin: Origin::Camera,
            },
            cards,
            faults: Vec::new(),
        }
    }
}

/// A photo from so far to the side, radian.
fn shot(dice: &mut Dice, side: f64) -> Shot {
    let distance = within(dice, 1_700.0, 2_600.0);
    let above = within(dice, 0.05, 0.45);
    let eye = Vector3::new(
        distance * side.sin() * above.cos(),
        -distance * side.cos() * above.cos(),
        distance * above.sin(),
    );
    let aim = Vector3::new(within(dice, -60.0, 60.0), 150.0, within(dice, -80.0, 80.0));
    let forward = (aim - eye).normalize();
    let right = forward.cross(&Vector3::z()).normalize();
    let roll = 0.04 * normal(dice);
    let down = forward.cross(&right);
    let (right, down) = (
        right * roll.cos() + down * roll.sin(),
        down * roll.cos() - right * roll.sin(),
    );
    let turn = Matrix3::from_rows(&[right.transpose(), down.transpose(), forward.transpose()]);
    let size = (4032, 3024);
    let film = within(dice, 23.0, 27.0).round();
    // Makers mean the long side or the diagonal.
    let per_mm = if dice.below(2) == 0 {
        4032.0 / 36.0
    } else {
        5040.0 / 43.266_615
    };
    let focal = film * per_mm * (1.0 + 0.012 * normal(dice));
    Shot {
        turn,
        eye,
        camera: Camera {
            ln_focal: focal.ln(),
            centre: [2015.5 + 15.0 * normal(dice), 1511.5 + 15.0 * normal(dice)],
            k1: within(dice, -0.03, 0.03),
        },
        size,
        focal_35mm: Some(film),
    }
}
