//! What stands around the cards, and photos without any.

use crate::dice::Dice;

/// Side of the tile of noise.
const TILE: usize = 256;

/// Noise that repeats after [`TILE`] pixels, 0 to 1.
#[derive(Clone, Debug)]
pub struct Noise(Vec<f32>);

impl Noise {
    /// A tile by its seed.
    #[must_use]
    pub fn new(dice: &mut Dice) -> Self {
        let value = |_| (dice.roll() >> 40) as f32 / (1u64 << 24) as f32;
        Self((0..TILE * TILE).map(value).collect())
    }

    /// A value at a place; blocks of `size` pixels share one.
    #[must_use]
    #[inline]
    pub fn block(&self, x: usize, y: usize, size: usize) -> f32 {
        self.0[(y / size % TILE) * TILE + x / size % TILE]
    }

    /// A value that changes evenly over `size` pixels.
    #[must_use]
    pub fn smooth(&self, x: usize, y: usize, size: usize) -> f32 {
        let (column, line) = (x / size, y / size);
        let share = |at: usize| (at % size) as f32 / size as f32;
        let (dx, dy) = (share(x), share(y));
        let at = |c: usize, l: usize| self.0[(l % TILE) * TILE + c % TILE];
        let upper = at(column, line) * (1.0 - dx) + at(column + 1, line) * dx;
        let lower = at(column, line + 1) * (1.0 - dx) + at(column + 1, line + 1) * dx;
        upper * (1.0 - dy) + lower * dy
    }
}

/// Linear light behind a scene's cards: yard, body with lamps, bumper with
/// a number plate, gravel.
#[must_use]
pub fn behind(noise: &Noise, x: usize, y: usize, size: (usize, usize)) -> f32 {
    let (width, height) = (size.0.max(1), size.1.max(1));
    let (across, down) = (x as f32 / width as f32, y as f32 / height as f32);
    let grain = 0.02 * noise.block(x, y, 1);
    if down < 0.25 {
        // Bricks behind the vehicle.
        let (wide, high) = (width / 40 + 1, height / 60 + 1);
        let line = y / high;
        let shifted = x + line % 2 * wide / 2;
        let seam = y % high < high / 8 || shifted % wide < wide / 16;
        0.1 + 0.15 * noise.block(shifted / wide, line, 1) + if seam { 0.3 } else { grain }
    } else if down < 0.42 {
        // Body; lamps with ribs.
        let lamp = !(0.22..0.78).contains(&across) && down > 0.3;
        let rib = lamp && (x / (width / 160 + 1)) % 2 == 0;
        0.08 + 0.1 * noise.smooth(x, y, 90) + grain + if rib { 0.35 } else { 0.0 }
    } else if down < 0.72 {
        let plate = (0.42..0.58).contains(&across) && (0.45..0.49).contains(&down);
        let letter = plate && noise.block(x, y, width / 100 + 1) > 0.6;
        match (plate, letter) {
            (true, true) => 0.03,
            (true, false) => 0.6,
            _ => 0.12 + 0.12 * noise.smooth(x, y, 200) + grain,
        }
    } else {
        // Gravel, finer and coarser.
        0.25 * noise.block(x, y, 2) + 0.2 * noise.block(x, y, 7) + 0.1 * noise.smooth(x, y, 30)
    }
}

/// A photo without cards, grey levels; the seed picks what it shows.
#[must_use]
pub fn without_cards(seed: u64, size: (usize, usize)) -> Vec<u8> {
    let mut dice = Dice(seed ^ 0x5EED);
    let noise = Noise::new(&mut dice);
    let kind = seed % 6;
    let scale = 3 + dice.below(18);
    let mut pixels = Vec::with_capacity(size.0 * size.1);
    for y in 0..size.1 {
        for x in 0..size.0 {
            let value = match kind {
                0 => behind(&noise, x, y, size),
                // Squares by chance, as codes of other kinds have them.
                1 => noise.block(x, y, scale).round(),
                // Chessboards with dirt.
                2 => ((x / scale + y / scale) % 2) as f32 * 0.8 + 0.2 * noise.block(x, y, 1),
                // Leaves: several sizes over each other.
                3 => {
                    0.4 * noise.block(x, y, 2)
                        + 0.3 * noise.smooth(x, y, 5)
                        + 0.3 * noise.smooth(x, y, 23)
                }
                // Leaning stripes and their crossings.
                4 => {
                    let one = (x + y / 2) / scale % 2;
                    let other = (y + x / 3) / (scale + 2) % 2;
                    (one ^ other) as f32 * 0.7 + 0.3 * noise.smooth(x, y, 40)
                }
                // Frames of black and white, as quiet zones and borders are.
                _ => {
                    let cell = 10 * scale;
                    let edge = |at: usize| (at % cell).min(cell - 1 - at % cell) / scale;
                    let ring = edge(x).min(edge(y));
                    match ring {
                        0 => 0.9,
                        1 => 0.05,
                        _ => noise.block(x, y, scale).round() * 0.85,
                    }
                }
            };
            pixels.push((255.0 * value.clamp(0.0, 1.0)) as u8);
        }
    }
    pixels
}
