//! Paints a scene: cards by rays through parts of pixels, blurred in linear
//! light, then noise, then grey levels.

use super::bumper::Bumper;
use super::camera::Camera;
use super::print::{INK, PAPER, is_ink, on_card};
use super::texture::{Noise, behind};
use super::{Placed, Scene, Shot};
use crate::dice::Dice;

/// Rays a pixel, along each side.
const RAYS: usize = 5;

/// Paints a scene.
#[must_use]
pub fn render(scene: &Scene) -> Shot {
    let (width, height) = scene.size;
    let mut dice = Dice(scene.seed);
    let noise = Noise::new(&mut dice);
    let mut light = Vec::with_capacity(width * height);
    for y in 0..height {
        for x in 0..width {
            light.push(behind(&noise, x, y, scene.size) * scene.look.white as f32 * 1.3);
        }
    }
    let camera = scene.camera();
    let bumper = Bumper::new(scene.shape);
    for placed in &scene.cards {
        if let Some(patch) = Patch::around(scene, &camera, &bumper, placed) {
            patch.paint(scene, &camera, &bumper, placed, &mut light);
        }
    }
    Shot {
        size: scene.size,
        grey: greys(scene, &light, &mut dice),
        truth: scene.truth(),
    }
}

/// A part of the picture with a card in it.
struct Patch {
    left: usize,
    top: usize,
    width: usize,
    height: usize,
}

impl Patch {
    fn around(scene: &Scene, camera: &Camera, bumper: &Bumper, placed: &Placed) -> Option<Self> {
        let facing = bumper
            .normal(placed.along)
            .dot(&(camera.at - bumper.at(placed.along, 0.0)));
        if facing <= 0.0 {
            return None;
        }
        let mut low = [f64::INFINITY; 2];
        let mut high = [f64::NEG_INFINITY; 2];
        for step in 0..=18 {
            let x = -45.0 + 5.0 * f64::from(step);
            for y in [-50.0, 45.0] {
                let at = camera.pixel(bumper.at(placed.along + x, placed.up + 50.0 + y))?;
                for k in 0..2 {
                    low[k] = low[k].min(at[k]);
                    high[k] = high[k].max(at[k]);
                }
            }
        }
        let look = &scene.look;
        let margin = 4.0 * look.blur + look.motion.0.abs().max(look.motion.1.abs()) + 3.0;
        let size = [scene.size.0, scene.size.1];
        let span = |k: usize| {
            let from = (low[k] - margin).max(0.0) as usize;
            let to = ((high[k] + margin).max(0.0) as usize).min(size[k]);
            (to > from + 4).then(|| (from, to - from))
        };
        let ((left, width), (top, height)) = (span(0)?, span(1)?);
        Some(Self {
            left,
            top,
            width,
            height,
        })
    }

    fn paint(
        &self,
        scene: &Scene,
        camera: &Camera,
        bumper: &Bumper,
        placed: &Placed,
        light: &mut [f32],
    ) {
        let mut part: Vec<f32> = Vec::with_capacity(self.width * self.height);
        let mut near = placed.along;
        // Rays spread by chance within their parts of the pixel: an even
        // grid would move edges that run along it.
        let mut dice = Dice(scene.seed ^ u64::from(placed.code));
        let mut chance = || (dice.roll() >> 40) as f64 / (1u64 << 24) as f64;
        for y in self.top..self.top + self.height {
            for x in self.left..self.left + self.width {
                let behind = f64::from(light[y * scene.size.0 + x]);
                let mut sum = 0.0;
                for ray in 0..RAYS * RAYS {
                    let mut share = |n: usize| (n as f64 + chance()) / RAYS as f64 - 0.5;
                    let (dx, dy) = (share(ray % RAYS), share(ray / RAYS));
                    let way = camera.way(x as f64 + dx, y as f64 + dy);
                    let on = bumper.hit(camera.at, way, near).and_then(|(along, up)| {
                        near = along.clamp(placed.along - 80.0, placed.along + 80.0);
                        on_paper(scene, placed, along, up)
                    });
                    sum += on.unwrap_or(behind);
                }
                part.push((sum / (RAYS * RAYS) as f64) as f32);
            }
        }
        blur(&mut part, self.width, scene.look.blur);
        let part = moved(&part, self.width, scene.look.motion);
        for (line, row) in part.chunks_exact(self.width).enumerate() {
            let from = (self.top + line) * scene.size.0 + self.left;
            light[from..from + self.width].copy_from_slice(row);
        }
    }
}

/// Light of a place on the card; `None` beside it.
fn on_paper(scene: &Scene, placed: &Placed, along: f64, up: f64) -> Option<f64> {
    let (x, y) = (along - placed.along, up - placed.up - 50.0);
    if !on_card(x, y) {
        return None;
    }
    let ink = is_ink(placed.code, x, y, scene.look.spread);
    let back = if ink { INK } else { PAPER };
    let shine = scene.look.glare.map_or(0.0, |glare| {
        let off = ((along - glare.at.0).hypot(up - glare.at.1) / glare.radius).powi(2);
        glare.light * (-off * off).exp()
    });
    Some(scene.look.white * back / PAPER + shine)
}

/// Blurs rows and columns by a normal distribution.
fn blur(part: &mut [f32], width: usize, deviation: f64) {
    if deviation <= 0.0 {
        return;
    }
    let reach = (4.0 * deviation).ceil() as isize;
    let weight = |n: isize| (-0.5 * (n as f64 / deviation).powi(2)).exp();
    let sum: f64 = (-reach..=reach).map(weight).sum();
    let kernel: Vec<(isize, f32)> = (-reach..=reach)
        .map(|n| (n, (weight(n) / sum) as f32))
        .collect();
    let height = part.len() / width;
    let mut across = vec![0f32; part.len()];
    for y in 0..height {
        for x in 0..width {
            let at = |n: isize| x.saturating_add_signed(n).min(width - 1);
            across[y * width + x] = kernel
                .iter()
                .map(|(n, w)| w * part[y * width + at(*n)])
                .sum();
        }
    }
    for y in 0..height {
        for x in 0..width {
            let at = |n: isize| y.saturating_add_signed(n).min(height - 1);
            part[y * width + x] = kernel
                .iter()
                .map(|(n, w)| w * across[at(*n) * width + x])
                .sum();
        }
    }
}

/// Blurs along the motion, evenly and about the middle of it.
fn moved(part: &[f32], width: usize, (right, down): (f64, f64)) -> Vec<f32> {
    let length = right.hypot(down);
    if length < 0.1 {
        return part.to_vec();
    }
    let height = part.len() / width;
    let steps = (4.0 * length).ceil() as usize + 1;
    let at = |x: f64, y: f64| {
        let x = x.clamp(0.0, (width - 1) as f64);
        let y = y.clamp(0.0, (height - 1) as f64);
        let (left, top) = (x as usize, y as usize);
        let (dx, dy) = ((x - left as f64) as f32, (y - top as f64) as f32);
        let pixel = |x: usize, y: usize| part[y.min(height - 1) * width + x.min(width - 1)];
        (pixel(left, top) * (1.0 - dx) + pixel(left + 1, top) * dx) * (1.0 - dy)
            + (pixel(left, top + 1) * (1.0 - dx) + pixel(left + 1, top + 1) * dx) * dy
    };
    let mut out = Vec::with_capacity(part.len());
    for y in 0..height {
        for x in 0..width {
            let sum: f32 = (0..steps)
                .map(|step| {
                    let share = (step as f64 + 0.5) / steps as f64 - 0.5;
                    at(x as f64 + share * right, y as f64 + share * down)
                })
                .sum();
            out.push(sum / steps as f32);
        }
    }
    out
}

/// Steps of the table from light to grey levels.
const STEPS: usize = 4096;

/// Light falls off, noise comes in, and light becomes grey levels (sRGB,
/// IEC 61966-2-1).
fn greys(scene: &Scene, light: &[f32], dice: &mut Dice) -> Vec<u8> {
    let coded = |light: f64| {
        if light <= 0.003_130_8 {
            12.92 * light
        } else {
            1.055 * light.powf(1.0 / 2.4) - 0.055
        }
    };
    let table: Vec<u8> = (0..=STEPS)
        .map(|n| (255.0 * coded(n as f64 / STEPS as f64)).round() as u8)
        .collect();
    let (width, height) = scene.size;
    let look = &scene.look;
    let (read, shot) = (look.noise.0 as f32, look.noise.1 as f32);
    let mut out = Vec::with_capacity(light.len());
    for y in 0..height {
        let down = y as f32 / height as f32 - 0.5;
        for x in 0..width {
            let across = x as f32 / width as f32 - 0.5;
            let corners = 1.0 - look.corners as f32 * 2.0 * (across * across + down * down);
            let bright = light[y * width + x] * corners * (1.0 - look.across as f32 * across);
            let value = bright + (read + shot * bright.max(0.0)).sqrt() * normal(dice);
            let level = (value.clamp(0.0, 1.0) * STEPS as f32 + 0.5) as usize;
            out.push(table[level]);
        }
    }
    out
}

/// About normally distributed with deviation 1: the sum of eight bytes.
#[inline]
fn normal(dice: &mut Dice) -> f32 {
    // Eight uniform bytes: mean 1020, variance 8 (256² - 1) / 12.
    const DEVIATION: f32 = 209.0;
    let sum: u32 = dice.roll().to_le_bytes().map(u32::from).iter().sum();
    (sum as f32 - 1020.0) / DEVIATION
}
