//! Cards so blurred that neither crosses nor code are left: white paper on
//! something darker, with a dark square in its middle, and no sharp edge.

use rakeline_pixels::{Rows, halved, sharpness};

use super::card::{CODE_HALF, HALF};

/// The picture is halved until it has at most so many pixels.
const PIXELS: usize = 260_000;
/// Half the height of a card in that picture, pixels: sizes that are tried.
const HALVES: [f64; 5] = [6.0, 8.0, 10.5, 14.0, 18.0];
/// Widths over heights that are tried: seen from the side a card is narrow.
const NARROW: [f64; 2] = [1.0, 0.65];
/// How much brighter than the code and than what is around the paper is,
/// grey levels.
const BRIGHTER: f64 = 22.0;
/// How far the paper's brightness may differ from side to side, share.
const UNEVEN: f64 = 0.2;
/// Greatest [`sharpness`]: edges blurred by 2.4 pixels of the full picture.
const SHARP: f64 = 0.33;
/// Most cards that are named.
const MOST: usize = 8;

/// Middles of such cards, pixels, the clearest first.
#[must_use]
pub fn soft_cards(rows: Rows) -> Vec<[f64; 2]> {
    let mut scale = 1.0;
    let mut kept: (usize, usize, Vec<u8>);
    let mut level = rows;
    while level.pixels.len() > PIXELS {
        kept = halved(level);
        level = Rows {
            width: kept.0,
            height: kept.1,
            pixels: &kept.2,
        };
        scale *= 2.0;
    }
    let sums = Sums::of(level);
    let mut seen: Vec<(f64, [f64; 2], f64)> = Vec::new();
    for half in HALVES {
        for narrow in NARROW {
            let size = [half * narrow, half];
            for y in (half as usize + 3)..level.height.saturating_sub(half as usize + 3) {
                for x in (half as usize + 3)..level.width.saturating_sub(half as usize + 3) {
                    if let Some(clear) = sums.card([x as f64, y as f64], size) {
                        seen.push((clear, [x as f64, y as f64], half));
                    }
                }
            }
        }
    }
    seen.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut found: Vec<([f64; 2], f64)> = Vec::new();
    for (_, at, half) in seen {
        let off = |other: &[f64; 2]| (at[0] - other[0]).hypot(at[1] - other[1]);
        let known = found.iter().any(|(other, size)| off(other) < 2.0 * size);
        if found.len() < MOST
            && !known
            && is_soft(rows, at.map(|x| (x + 0.5) * scale), half * scale)
        {
            found.push((at, half));
        }
    }
    found
        .into_iter()
        .map(|(at, _)| at.map(|x| (x + 0.5) * scale - 0.5))
        .collect()
}

/// Whether no edge of a card at that place is sharp.
fn is_soft(rows: Rows, at: [f64; 2], half: f64) -> bool {
    let half = half as usize;
    let (left, top) = (
        (at[0] as usize).saturating_sub(half),
        (at[1] as usize).saturating_sub(half),
    );
    let right = (left + 2 * half).min(rows.width);
    let low = (top + 2 * half).min(rows.height);
    let pixels: Vec<u8> = (top..low)
        .flat_map(|y| &rows.pixels[y * rows.width + left..y * rows.width + right])
        .copied()
        .collect();
    let part = Rows {
        width: right - left,
        height: low - top,
        pixels: &pixels,
    };
    sharpness(part).is_some_and(|[across, down]| across.max(down) < SHARP)
}

/// Sums of all pixels above and to the left.
struct Sums {
    width: usize,
    height: usize,
    sums: Vec<u64>,
}

impl Sums {
    fn of(rows: Rows) -> Self {
        let stride = rows.width + 1;
        let mut sums = vec![0u64; stride * (rows.height + 1)];
        for y in 0..rows.height {
            let mut line = 0;
            for x in 0..rows.width {
                line += u64::from(rows.pixels[y * rows.width + x]);
                sums[(y + 1) * stride + x + 1] = sums[y * stride + x + 1] + line;
            }
        }
        Self {
            width: rows.width,
            height: rows.height,
            sums,
        }
    }

    /// Mean of a box: its middle and half its size.
    fn mean(&self, at: [f64; 2], half: [f64; 2]) -> f64 {
        let end = |place: f64, most: usize| (place.round().max(0.0) as usize).min(most);
        let (left, right) = (
            end(at[0] - half[0], self.width - 1),
            end(at[0] + half[0], self.width - 1) + 1,
        );
        let (top, low) = (
            end(at[1] - half[1], self.height - 1),
            end(at[1] + half[1], self.height - 1) + 1,
        );
        let stride = self.width + 1;
        let sum = self.sums[low * stride + right] + self.sums[top * stride + left]
            - self.sums[top * stride + right]
            - self.sums[low * stride + left];
        sum as f64 / ((right - left) * (low - top)) as f64
    }

    /// How clearly a card of so many pixels either way of its middle stands
    /// there.
    fn card(&self, at: [f64; 2], half: [f64; 2]) -> Option<f64> {
        const CODE: f64 = 0.8 * CODE_HALF / HALF;
        // Between the code and the card's edge, and beyond that.
        const PAPER: f64 = (CODE_HALF + HALF) / 2.0 / HALF;
        const BEYOND: f64 = 1.35;
        let code = self.mean(at, half.map(|x| CODE * x));
        let beside = |far: f64, x: f64, y: f64| {
            let place = [at[0] + far * x * half[0], at[1] + far * y * half[1]];
            let wide = |along: f64, k: usize| half[k] * if along == 0.0 { 0.25 } else { 0.06 };
            self.mean(place, [wide(x, 0), wide(y, 1)])
        };
        const SIDES: [(f64, f64); 4] = [(-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0)];
        // The pointer stands in the middle of the lower side.
        let paper = [0, 1, 2].map(|n| beside(PAPER, SIDES[n].0, SIDES[n].1));
        let least = paper.iter().copied().fold(f64::INFINITY, f64::min);
        let most = paper.iter().copied().fold(0.0, f64::max);
        if least < code + BRIGHTER || most - least > UNEVEN * most {
            return None;
        }
        let around = SIDES.map(|(x, y)| beside(BEYOND, x, y));
        let brightest = around.iter().copied().fold(0.0, f64::max);
        (brightest + BRIGHTER < least).then_some(2.0 * least - code - brightest)
    }
}
