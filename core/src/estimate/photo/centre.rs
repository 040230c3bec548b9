//! The middle of a round head near a tap: an ellipse through its edge.
//!
//! Along rays from the tap the edges of about the expected radius are taken;
//! an ellipse is fitted to them by least squares of the algebraic distance,
//! each edge weighted by how near it lies (Cauchy's weights), and the edges
//! are looked for again beside it. A circle seen at a slant is an ellipse;
//! its middle is the circle's to (radius/distance)², hundredths of a pixel
//! here.

use core::f64::consts::TAU;

use nalgebra::{SMatrix, SVector};
use rakeline_pixels::Rows;

use super::luma::Luma;

/// Rays around.
const RAYS: usize = 96;
/// Radii at which edges are looked for, shares of the expected one.
const REACH: [f64; 2] = [0.45, 1.7];
/// Least change of grey levels across two pixels that counts as an edge.
const EDGE: f64 = 9.0;
/// Edges a ray may have.
const EDGES: usize = 4;
/// Least share of rays whose edge lies on the ellipse.
const SEEN: f64 = 0.75;
/// Farthest that an edge may lie off the ellipse: share of its radius, and
/// pixels where that is more.
const OFF: [f64; 2] = [0.03, 0.5];
/// Farthest that the middle may lie from the tap, share of the radius.
const MOVED: f64 = 0.9;
/// Least ratio of the ellipse's axes: a head seen from far aside.
const NARROW: f64 = 0.35;
/// Smallest expected radius, pixels.
const SMALLEST: f64 = 4.0;

/// The middle of the head of about `radius` pixels that was tapped at `at`;
/// `None` where no round edge stands out, and the tap counts as it is.
#[must_use]
pub fn centre(luma: &Luma, at: [f64; 2], radius: f64) -> Option<[f64; 2]> {
    if !(radius.is_finite() && radius >= SMALLEST && at[0].is_finite() && at[1].is_finite()) {
        return None;
    }
    let rows = Rows {
        width: luma.width(),
        height: luma.height(),
        pixels: luma.pixels(),
    };
    // Heads have several round edges, a flange and a face in it: each start
    // may settle on another one, the best seen counts.
    const SIZES: [f64; 5] = [0.6, 0.8, 1.0, 1.2, 1.45];
    const PLACES: [[f64; 2]; 5] = [
        [0.0, 0.0],
        [0.35, 0.0],
        [-0.35, 0.0],
        [0.0, 0.35],
        [0.0, -0.35],
    ];
    let starts = SIZES
        .iter()
        .flat_map(|size| PLACES.iter().map(move |place| (size, place)));
    let found = starts.filter_map(|(size, place)| {
        let start = Ellipse {
            middle: [0, 1].map(|k: usize| at[k] + place[k] * radius),
            radius: [size * radius, 0.0, size * radius],
        };
        settled(rows, start, radius)
    });
    let (best, _) = found
        .filter(|(ellipse, _)| {
            let moved = (ellipse.middle[0] - at[0]).hypot(ellipse.middle[1] - at[1]);
            moved < MOVED * ellipse.mean() && ellipse.narrow() > NARROW
        })
        .max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some(best.middle)
}

/// An ellipse: its middle, and the symmetric matrix that takes a unit circle
/// to it (upper left, off the diagonal, lower right), pixels.
#[derive(Clone, Copy, Debug)]
struct Ellipse {
    middle: [f64; 2],
    radius: [f64; 3],
}

impl Ellipse {
    fn mean(&self) -> f64 {
        let [a, b, c] = self.radius;
        (a * c - b * b).abs().sqrt()
    }

    /// Smaller axis over the larger one.
    fn narrow(&self) -> f64 {
        let [a, b, c] = self.radius;
        let (half, root) = ((a + c) / 2.0, ((a - c) / 2.0).hypot(b));
        (half - root) / (half + root)
    }

    /// How far out it lies in a direction from its middle.
    fn reach(&self, [x, y]: [f64; 2]) -> f64 {
        let [a, b, c] = self.radius;
        let area = a * c - b * b;
        let u = [(c * x - b * y) / area, (a * y - b * x) / area];
        1.0 / u[0].hypot(u[1])
    }

    /// Through edges, by weights; `None` where they give none.
    fn through(edges: &[[f64; 2]], weights: &[f64], around: &Self) -> Option<Self> {
        let scale = around.mean();
        let mut normal = SMatrix::<f64, 5, 5>::zeros();
        let mut right = SVector::<f64, 5>::zeros();
        for (edge, weight) in edges.iter().zip(weights) {
            let (x, y) = (
                (edge[0] - around.middle[0]) / scale,
                (edge[1] - around.middle[1]) / scale,
            );
            let row = SVector::<f64, 5>::new(x * x, 2.0 * x * y, y * y, x, y);
            normal += *weight * row * row.transpose();
            right += *weight * row;
        }
        let p = normal.lu().solve(&right)?;
        // x' Q x + l x = 1, its middle where the slope is nothing.
        let det = p[0] * p[2] - p[1] * p[1];
        if det <= 1e-6 || p[0] <= 0.0 {
            return None;
        }
        let (cx, cy) = (
            (p[1] * p[4] - p[2] * p[3]) / (2.0 * det),
            (p[1] * p[3] - p[0] * p[4]) / (2.0 * det),
        );
        let level = 1.0 + p[0] * cx * cx + 2.0 * p[1] * cx * cy + p[2] * cy * cy;
        if level <= 0.0 {
            return None;
        }
        // The matrix is the inverse square root of Q over the level.
        let q = [p[0] / level, p[1] / level, p[2] / level];
        let s = (q[0] * q[2] - q[1] * q[1]).sqrt();
        let t = (q[0] + q[2] + 2.0 * s).sqrt();
        let root = [(q[0] + s) / t, q[1] / t, (q[2] + s) / t];
        let area = root[0] * root[2] - root[1] * root[1];
        let radius = [root[2] / area, -root[1] / area, root[0] / area].map(|r| r * scale);
        let middle = [around.middle[0] + scale * cx, around.middle[1] + scale * cy];
        let fits = radius.iter().chain(&middle).all(|x| x.is_finite());
        fits.then_some(Self { middle, radius })
    }
}

/// Edges along a ray, strongest first: how far out, and how strong.
fn edges(rows: Rows, from: [f64; 2], way: [f64; 2], reach: [f64; 2]) -> Vec<(f64, f64)> {
    let grey = |out: f64| rows.at(from[0] + out * way[0], from[1] + out * way[1]);
    let step = 0.5;
    let count = ((reach[1] - reach[0]) / step) as usize + 1;
    let change: Vec<f64> = (0..count)
        .map(|n| {
            let out = reach[0] + n as f64 * step;
            (grey(out + 1.0) - grey(out - 1.0)).abs()
        })
        .collect();
    let mut found: Vec<(f64, f64)> = (1..count.saturating_sub(1))
        .filter(|&n| change[n] > EDGE && change[n] >= change[n - 1] && change[n] > change[n + 1])
        .map(|n| {
            let bend = change[n - 1] - 2.0 * change[n] + change[n + 1];
            let off = if bend < 0.0 {
                (change[n - 1] - change[n + 1]) / (2.0 * bend)
            } else {
                0.0
            };
            (
                reach[0] + (n as f64 + off.clamp(-0.5, 0.5)) * step,
                change[n],
            )
        })
        .collect();
    found.sort_by(|a, b| b.1.total_cmp(&a.1));
    found.truncate(EDGES);
    found
}

/// The ellipse that a start settles on, and how well it is seen.
fn settled(rows: Rows, start: Ellipse, radius: f64) -> Option<(Ellipse, f64)> {
    let mut ellipse = start;
    let mut seen = 0.0;
    for round in 0..10 {
        let wide = if round < 4 { 0.35 } else { 0.12 };
        let mut on = Vec::with_capacity(RAYS);
        let mut off = Vec::with_capacity(RAYS);
        let (mut strength, mut near) = (0.0, 0);
        for n in 0..RAYS {
            let (sin, cos) = (n as f64 * TAU / RAYS as f64).sin_cos();
            let out = ellipse.reach([cos, sin]);
            let reach = [
                (out * (1.0 - wide)).max(REACH[0] * radius * 0.5),
                out * (1.0 + wide),
            ];
            let nearest = edges(rows, ellipse.middle, [cos, sin], reach)
                .into_iter()
                .min_by(|a, b| (a.0 - out).abs().total_cmp(&(b.0 - out).abs()));
            if let Some((at, strong)) = nearest {
                on.push([ellipse.middle[0] + at * cos, ellipse.middle[1] + at * sin]);
                let share = (at - out) / out;
                off.push(share);
                if (at - out).abs() < (OFF[0] * out).max(OFF[1]) {
                    near += 1;
                    strength += strong.min(60.0);
                }
            }
        }
        if on.len() < RAYS / 2 {
            return None;
        }
        let scale = if round < 4 { 0.15 } else { 0.03 };
        let weights: Vec<f64> = off
            .iter()
            .map(|share| 1.0 / (1.0 + (share / scale).powi(2)))
            .collect();
        seen = if f64::from(near) >= SEEN * RAYS as f64 {
            strength
        } else {
            0.0
        };
        ellipse = Ellipse::through(&on, &weights, &ellipse)?;
        let mean = ellipse.mean();
        if !(REACH[0] * radius..REACH[1] * radius).contains(&mean) {
            return None;
        }
    }
    (seen > 0.0).then_some((ellipse, seen))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: usize = 160;
    const MIDDLE: [f64; 2] = [80.3, 77.8];

    /// A head seen at a slant: a dark flange on lighter paint, a brighter
    /// face in it, on a gradient with noise and a label beside.
    fn picture(radius: f64, narrow: f64, noise: u32) -> Luma {
        let mut seed = 7u32;
        let mut pixels = vec![0u8; SIZE * SIZE];
        for y in 0..SIZE {
            for x in 0..SIZE {
                let mut sum = 0.0;
                for (dx, dy) in [(-0.25, -0.25), (0.25, -0.25), (-0.25, 0.25), (0.25, 0.25)] {
                    let (u, v) = (x as f64 + dx - MIDDLE[0], y as f64 + dy - MIDDLE[1]);
                    let out = (u / narrow).hypot(v + 0.1 * u);
                    sum += match out {
                        out if out < 0.62 * radius => 96.0,
                        out if out < radius => 48.0,
                        _ if x > 125 => 30.0,
                        _ => 130.0 + 0.2 * x as f64,
                    };
                }
                seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                let shaken = f64::from((seed >> 16) % (2 * noise + 1)) - f64::from(noise);
                pixels[y * SIZE + x] = (sum / 4.0 + shaken).clamp(0.0, 255.0) as u8;
            }
        }
        Luma::new(SIZE, SIZE, pixels).unwrap()
    }

    #[test]
    fn a_tap_beside_the_middle_comes_to_it() {
        for (radius, narrow) in [(9.0, 1.0), (20.0, 0.8), (34.0, 0.6)] {
            let luma = picture(radius, narrow, 4);
            for (dx, dy) in [(0.0, 0.0), (0.25, -0.2), (-0.3, 0.15), (0.1, 0.35)] {
                let tap = [MIDDLE[0] + dx * radius * narrow, MIDDLE[1] + dy * radius];
                for expected in [0.85, 1.0, 1.15] {
                    let found = centre(&luma, tap, expected * radius);
                    let found = found.unwrap_or_else(|| panic!("{radius} {dx} {dy} {expected}"));
                    let off = (found[0] - MIDDLE[0]).hypot(found[1] - MIDDLE[1]);
                    assert!(off < 0.35, "{radius} {narrow} {dx} {dy} {expected}: {off}");
                }
            }
        }
    }

    #[test]
    fn where_nothing_is_round_the_tap_counts() {
        let even = Luma::new(SIZE, SIZE, vec![120; SIZE * SIZE]).unwrap();
        assert_eq!(centre(&even, [80.0, 80.0], 20.0), None);
        let bars: Vec<u8> = (0..SIZE * SIZE)
            .map(|at| if at % SIZE % 40 < 20 { 40 } else { 180 })
            .collect();
        let bars = Luma::new(SIZE, SIZE, bars).unwrap();
        assert_eq!(centre(&bars, [80.0, 80.0], 20.0), None);
        assert_eq!(centre(&even, [f64::NAN, 80.0], 20.0), None);
        assert_eq!(centre(&even, [80.0, 80.0], 0.0), None);
    }
}
