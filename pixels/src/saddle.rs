//! Saddles: places where two black and two white quadrants meet.
//!
//! The response is that of S. Bennett, J. Lasenby, "ChESS: quick and robust
//! detection of chess-board features", Computer Vision and Image
//! Understanding 118 (2014), 197-210: on a ring of 16 pixels opposite ones
//! agree and those a quarter apart differ. The ring is the one of radius 3
//! that E. Rosten and T. Drummond use for FAST (ECCV 2006); larger crosses
//! and soft ones are found in halved pictures.

/// Radius of the ring, pixels.
pub const RADIUS: usize = 3;

/// The ring: right and down, an eighth of a quarter turn each.
const RING: [(isize, isize); 16] = [
    (0, -3),
    (1, -3),
    (2, -2),
    (3, -1),
    (3, 0),
    (3, 1),
    (2, 2),
    (1, 3),
    (0, 3),
    (-1, 3),
    (-2, 2),
    (-3, 1),
    (-3, 0),
    (-3, -1),
    (-2, -2),
    (-1, -3),
];

/// Least response; a cross of contrast K grey levels gives about 6 K.
const LEAST: i16 = 55;

/// Rows of brightness.
#[derive(Clone, Copy)]
pub struct Rows<'a> {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// One byte a pixel.
    pub pixels: &'a [u8],
}

impl Rows<'_> {
    /// Brightness between pixels; at the edge the nearest counts.
    #[must_use]
    #[inline]
    pub fn at(&self, x: f64, y: f64) -> f64 {
        let x = x.clamp(0.0, (self.width - 1) as f64);
        let y = y.clamp(0.0, (self.height - 1) as f64);
        let (left, top) = (x as usize, y as usize);
        let (dx, dy) = (x - left as f64, y - top as f64);
        let right = (left + 1).min(self.width - 1);
        let low = (top + 1).min(self.height - 1);
        let pixel = |x: usize, y: usize| f64::from(self.pixels[y * self.width + x]);
        let upper = pixel(left, top) * (1.0 - dx) + pixel(right, top) * dx;
        let lower = pixel(left, low) * (1.0 - dx) + pixel(right, low) * dx;
        upper * (1.0 - dy) + lower * dy
    }
}

/// A place with a saddle's response.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Saddle {
    /// Pixels to the right.
    pub x: usize,
    /// Pixels downward.
    pub y: usize,
    /// Its response.
    pub strength: i16,
}

/// Half the side of the square in which a saddle is the strongest.
const APART: usize = 2;
/// Rows of responses that are kept.
const KEPT: usize = 2 * APART + 1;

/// The strongest saddles, at most `most` of them, strongest first.
/// `row_done` hears the rows that are done and ends the search by `false`.
pub fn saddles(rows: Rows, most: usize, mut row_done: impl FnMut(usize) -> bool) -> Vec<Saddle> {
    let margin = RADIUS + APART;
    let mut found = Vec::new();
    if rows.width <= 2 * margin || rows.height <= 2 * margin {
        return found;
    }
    let mut kept = vec![vec![0i16; rows.width]; KEPT];
    for y in RADIUS..rows.height - RADIUS {
        responses(rows, y, &mut kept[y % KEPT]);
        if y >= RADIUS + KEPT - 1 {
            strongest(&kept, y - APART, &mut found);
        }
        if y % 64 == 0 && !row_done(y) {
            return Vec::new();
        }
        if found.len() > 8 * most {
            keep(&mut found, 4 * most);
        }
    }
    keep(&mut found, most);
    found
}

fn keep(found: &mut Vec<Saddle>, most: usize) {
    if found.len() > most {
        found.select_nth_unstable_by_key(most, |saddle| core::cmp::Reverse(saddle.strength));
        found.truncate(most);
    }
    found.sort_unstable_by_key(|saddle| (core::cmp::Reverse(saddle.strength), saddle.y, saddle.x));
}

/// Responses of a row; the compiler makes vector code of the inner loop.
fn responses(rows: Rows, y: usize, out: &mut [i16]) {
    let count = rows.width - 2 * RADIUS;
    let slice = |dx: isize, dy: isize| {
        let from = (y * rows.width + RADIUS)
            .wrapping_add_signed(dy * rows.width.cast_signed())
            .wrapping_add_signed(dx);
        &rows.pixels[from..from + count]
    };
    let ring = RING.map(|(dx, dy)| slice(dx, dy));
    let middle = [(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1)].map(|(dx, dy)| slice(dx, dy));
    let out = &mut out[RADIUS..RADIUS + count];
    for (x, out) in out.iter_mut().enumerate() {
        let mut opposite = [0i16; 8];
        let mut apart = 0i16;
        let mut sum = 0i16;
        for n in 0..8 {
            let (one, other) = (i16::from(ring[n][x]), i16::from(ring[n + 8][x]));
            opposite[n] = one + other;
            apart += (one - other).abs();
            sum += one + other;
        }
        let mut quarters = 0i16;
        for n in 0..4 {
            quarters += (opposite[n] - opposite[n + 4]).abs();
        }
        // Mean of five in the middle against the mean of the ring, times 16.
        let mut inner = 0i16;
        for slice in middle {
            inner += i16::from(slice[x]);
        }
        let mean = (sum - 3 * inner - (inner >> 3) - (inner >> 4)).abs();
        *out = quarters - apart - mean;
    }
}

/// Saddles of the middle row of those kept that no neighbour outdoes.
fn strongest(kept: &[Vec<i16>], y: usize, found: &mut Vec<Saddle>) {
    let row = &kept[y % KEPT];
    let width = row.len();
    let from = RADIUS + APART;
    let mut x = from;
    while x < width - from {
        let strength = row[x];
        if strength < LEAST {
            x += 1;
            continue;
        }
        let outdone = kept.iter().enumerate().any(|(at, other)| {
            other[x - APART..=x + APART]
                .iter()
                .enumerate()
                .any(|(dx, &value)| {
                    // Of equals the first counts.
                    let earlier = (at, dx) != (y % KEPT, APART) && value == strength && {
                        let below = (at + KEPT - y % KEPT) % KEPT;
                        below > APART || (below == 0 && dx < APART)
                    };
                    value > strength || earlier
                })
        });
        if !outdone {
            found.push(Saddle { x, y, strength });
            x += APART;
        }
        x += 1;
    }
}

/// The picture at half its size: means of 2 x 2 pixels. Its pixel (x, y)
/// has its centre at (2 x + 0.5, 2 y + 0.5).
#[must_use]
pub fn halved(rows: Rows) -> (usize, usize, Vec<u8>) {
    let (width, height) = (rows.width / 2, rows.height / 2);
    let mut out = vec![0u8; width * height];
    if width == 0 || height == 0 {
        return (width, height, out);
    }
    for (y, out) in out.chunks_exact_mut(width).enumerate() {
        let upper = &rows.pixels[2 * y * rows.width..][..2 * width];
        let lower = &rows.pixels[(2 * y + 1) * rows.width..][..2 * width];
        let pairs = upper.chunks_exact(2).zip(lower.chunks_exact(2));
        for (out, (upper, lower)) in out.iter_mut().zip(pairs) {
            let sum = u16::from(upper[0])
                + u16::from(upper[1])
                + u16::from(lower[0])
                + u16::from(lower[1]);
            *out = ((sum + 2) >> 2) as u8;
        }
    }
    (width, height, out)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cross_is_found_where_it_is_and_an_edge_is_not() {
        let size = 40;
        let mut pixels = vec![200u8; size * size];
        for y in 0..size {
            for x in 0..size {
                if (x >= 17) == (y >= 23) {
                    pixels[y * size + x] = 60;
                }
            }
        }
        let rows = Rows {
            width: size,
            height: size,
            pixels: &pixels,
        };
        let found = saddles(rows, 10, |_| true);
        assert_eq!(found.len(), 1, "{found:?}");
        assert!((16..=17).contains(&found[0].x) && (22..=23).contains(&found[0].y));
        let edge: Vec<u8> = (0..size * size)
            .map(|at| if at % size > 15 { 220 } else { 20 })
            .collect();
        let rows = Rows {
            width: size,
            height: size,
            pixels: &edge,
        };
        assert_eq!(saddles(rows, 10, |_| true), []);
    }
}
