//! The middle of a cross to hundredths of a pixel: two blurred edges are
//! fitted to the pixels around it.
//!
//! # Model
//! Linear light is white where the card is white and black where both edge
//! distances have one sign; each edge is blurred by a normal distribution of
//! its own (motion blurs one more than the other), ink may have spread or
//! shrunk the black, brightness may change evenly. Grey levels are sRGB of
//! that. Least squares by Levenberg-Marquardt: D. Marquardt, J. Soc. Indust.
//! Appl. Math. 11 (1963), 431-441.

use nalgebra::{SMatrix, SVector};
use rakeline_pixels::Rows;

use super::card::CELL;
use super::erf::{normal_density, normal_share};
use super::light::{grey_and_slope, light};

/// Unknowns: middle x and y, direction of both edges, blur of both, spread
/// of the ink, black, white, change of brightness to the right and down.
const UNKNOWNS: usize = 11;
type Unknowns = SVector<f64, UNKNOWNS>;
type Normal = SMatrix<f64, UNKNOWNS, UNKNOWNS>;

/// Least and greatest blur, pixels.
const BLUR: (f64, f64) = (0.25, 12.0);
/// Half the window at most, pixels: more adds time and little else.
const HALF_MOST: f64 = 12.0;
/// Ink spreads by so much, standard deviation in mm; what a fit of few
/// pixels can't tell otherwise.
const SPREAD: f64 = 0.2;
/// Iterations at most.
const ROUNDS: usize = 18;
/// Least pixels in a window.
const PIXELS_LEAST: usize = 14;

/// A cross that was fitted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitted {
    /// Its middle, pixels.
    pub at: [f64; 2],
    /// Standard uncertainty on each axis, pixels.
    pub u: f64,
    /// Standard deviation of the blur across the x edge and the y edge,
    /// pixels.
    pub blur: [f64; 2],
    /// White less black, linear light.
    pub contrast: f64,
    /// Standard deviation of what is left, grey levels.
    pub left: f64,
}

/// What grey levels keep from being exact: rounding, and blocks of a JPEG
/// that err together.
const LEFT_LEAST: f64 = 0.5;
/// Neighbouring pixels' errors are alike (sharpening, JPEG); measured on
/// rendered photos of all qualities.
const ALIKE: f64 = 1.1;
/// What the model leaves out: bent edges, a lens' uneven blur; pixels.
const MODEL: f64 = 0.015;

struct Window {
    /// Places from the start and grey levels.
    pixels: Vec<([f64; 2], f64)>,
}

/// The frame of a fit: signs that make distances positive toward the card's
/// +y and +x, and pixels a millimetre across both edges.
struct Frame {
    sign: [f64; 2],
    a_mm: [f64; 2],
}

/// Fits the cross near `start`; `slope` are the pixels a millimetre along
/// the card's x and y there.
#[must_use]
pub fn refine(rows: Rows, start: [f64; 2], slope: [[f64; 2]; 2]) -> Option<Fitted> {
    let [ex, ey] = slope;
    let area = ex[0] * ey[1] - ex[1] * ey[0];
    let (long_x, long_y) = (ex[0].hypot(ex[1]), ey[0].hypot(ey[1]));
    if !(area.abs() > 1e-6 && long_x > 0.0 && long_y > 0.0) {
        return None;
    }
    let frame = Frame {
        sign: [area.signum(), -area.signum()],
        a_mm: [area.abs() / long_x, area.abs() / long_y],
    };
    let mut at = start;
    let mut blur = [1.0f64; 2];
    let mut fit = None;
    for _ in 0..2 {
        let room = |k: usize| {
            // Other edges stand a cell away; what is left of their blur is
            // alike on both sides.
            let clear = CELL - 1.3 * blur[k] / frame.a_mm[k] - 0.3;
            clear.clamp(0.5 * CELL, 0.9 * CELL)
        };
        let window = window(rows, at, slope, [room(1), room(0)])?;
        let (unknowns, left, u) = solve(&window, at, [ex, ey], blur, &frame)?;
        at = [unknowns[0], unknowns[1]];
        blur = [unknowns[4], unknowns[5]];
        fit = Some(Fitted {
            at,
            u,
            blur,
            contrast: unknowns[8] - unknowns[7],
            left,
        });
    }
    fit.filter(|fit| fit.contrast > 0.0)
}

/// Pixels around a place, within so many millimetres along x and y.
fn window(rows: Rows, at: [f64; 2], [ex, ey]: [[f64; 2]; 2], room: [f64; 2]) -> Option<Window> {
    let area = ex[0] * ey[1] - ex[1] * ey[0];
    let reach = |k: usize| (room[0] * ex[k].abs() + room[1] * ey[k].abs()).min(HALF_MOST);
    let span = |k: usize, size: usize| {
        let from = (at[k] - reach(k)).ceil();
        let to = (at[k] + reach(k)).floor();
        (from >= 0.0 && to < size as f64).then_some(from as usize..=to as usize)
    };
    let (columns, lines) = (span(0, rows.width)?, span(1, rows.height)?);
    let mut pixels = Vec::new();
    for y in lines {
        for x in columns.clone() {
            let off = [x as f64 - at[0], y as f64 - at[1]];
            let u = (off[0] * ey[1] - off[1] * ey[0]) / area;
            let v = (ex[0] * off[1] - ex[1] * off[0]) / area;
            if u.abs() <= room[0] && v.abs() <= room[1] {
                pixels.push((
                    [x as f64, y as f64],
                    f64::from(rows.pixels[y * rows.width + x]),
                ));
            }
        }
    }
    (pixels.len() >= PIXELS_LEAST).then_some(Window { pixels })
}

/// Black and white to start from: a tenth of the levels lies below and above.
fn levels(window: &Window) -> (f64, f64) {
    let mut greys: Vec<f64> = window.pixels.iter().map(|pixel| pixel.1).collect();
    greys.sort_by(f64::total_cmp);
    let at = |share: f64| greys[((greys.len() - 1) as f64 * share) as usize];
    (light(at(0.1)), light(at(0.9)))
}

fn solve(
    window: &Window,
    at: [f64; 2],
    [ex, ey]: [[f64; 2]; 2],
    blur: [f64; 2],
    frame: &Frame,
) -> Option<(Unknowns, f64, f64)> {
    let (black, white) = levels(window);
    let mut p = Unknowns::zeros();
    let start = [
        at[0],
        at[1],
        ex[1].atan2(ex[0]),
        ey[1].atan2(ey[0]),
        blur[0],
        blur[1],
        0.0,
        black,
        white,
        0.0,
        0.0,
    ];
    p.copy_from_slice(&start);
    let mut damping = 1e-3;
    let mut noise = 6.0f64;
    let (mut cost, mut normal, mut down) = sums(window, &p, frame, noise);
    for _ in 0..ROUNDS {
        let mut damped = normal;
        for k in 0..UNKNOWNS {
            damped[(k, k)] += damping * normal[(k, k)].max(1e-9);
        }
        let step = damped.cholesky()?.solve(&down);
        let mut next = p - step;
        next[4] = next[4].clamp(BLUR.0, BLUR.1);
        next[5] = next[5].clamp(BLUR.0, BLUR.1);
        let (next_cost, next_normal, next_down) = sums(window, &next, frame, noise);
        if next_cost.is_finite() && next_cost <= cost {
            let moved = step[0].abs().max(step[1].abs());
            let gained = (cost - next_cost) / cost.max(1e-12);
            (p, normal, down) = (next, next_normal, next_down);
            cost = next_cost;
            damping = (damping * 0.2).max(1e-9);
            if moved < 1e-3 && gained < 1e-4 {
                break;
            }
        } else {
            damping *= 8.0;
            if damping > 1e6 {
                break;
            }
        }
        let square = cost / window.pixels.len() as f64;
        let rescaled = square.sqrt().clamp(LEFT_LEAST, 40.0);
        if (rescaled - noise).abs() > 0.3 * noise {
            noise = rescaled;
            (cost, normal, down) = sums(window, &p, frame, noise);
        }
    }
    let free = (window.pixels.len() as f64 - UNKNOWNS as f64).max(1.0);
    let left = (cost / free).sqrt().max(LEFT_LEAST);
    let spread = normal.cholesky()?.inverse() * (left * left);
    let u = ((spread[(0, 0)] + spread[(1, 1)]) / 2.0).sqrt() * ALIKE;
    let u = u.hypot(MODEL);
    (u.is_finite() && p.iter().all(|x| x.is_finite())).then_some((p, left, u))
}

/// Half the sum of squares' parts: the squares (grey levels²), the normal
/// matrix and the gradient. What is known beforehand enters as readings with
/// the standard deviation `noise`.
fn sums(window: &Window, p: &Unknowns, frame: &Frame, noise: f64) -> (f64, Normal, Unknowns) {
    let edges = Edges::new(p, frame);
    let mut normal = Normal::zeros();
    let mut down = Unknowns::zeros();
    let mut cost = 0.0;
    for &(place, seen) in &window.pixels {
        let (grey, slopes) = edges.grey(place);
        let off = grey - seen;
        cost += off * off;
        for row in 0..UNKNOWNS {
            let slope = slopes[row];
            down[row] += slope * off;
            for column in 0..=row {
                normal[(row, column)] += slope * slopes[column];
            }
        }
    }
    for row in 0..UNKNOWNS {
        for column in 0..row {
            normal[(column, row)] = normal[(row, column)];
        }
    }
    let contrast = (p[8] - p[7]).abs().max(0.01);
    for (k, deviation) in [(6, SPREAD), (9, 0.03 * contrast), (10, 0.03 * contrast)] {
        let weight = (noise / deviation).powi(2);
        normal[(k, k)] += weight;
        down[k] += weight * p[k];
        cost += weight * p[k] * p[k];
    }
    (cost, normal, down)
}

/// The model at given unknowns.
struct Edges<'a> {
    p: &'a Unknowns,
    frame: &'a Frame,
    /// Unit vectors along both edges.
    along: [[f64; 2]; 2],
    /// Spread of the ink across both edges, pixels.
    spread: [f64; 2],
}

impl<'a> Edges<'a> {
    fn new(p: &'a Unknowns, frame: &'a Frame) -> Self {
        let unit = |angle: f64| [angle.cos(), angle.sin()];
        Self {
            p,
            frame,
            along: [unit(p[2]), unit(p[3])],
            spread: frame.a_mm.map(|a_mm| p[6] * a_mm),
        }
    }

    /// Grey level at a place and its change with every unknown.
    #[inline]
    fn grey(&self, place: [f64; 2]) -> (f64, [f64; UNKNOWNS]) {
        let p = self.p;
        let off = [place[0] - p[0], place[1] - p[1]];
        // Signed distances to the x edge (+ toward +y) and the y edge (+ toward +x).
        let distance: [f64; 2] = core::array::from_fn(|k| {
            let way = self.along[k];
            self.frame.sign[k] * (way[0] * off[1] - way[1] * off[0])
        });
        let side: [Side; 2] =
            core::array::from_fn(|k| Side::new(distance[k], self.spread[k], p[4 + k]));
        let [one, other] = &side;
        let black = one.ahead * other.ahead + one.behind * other.behind - one.both * other.both;
        let by_side = |k: usize, at_ahead: f64, at_behind: f64, at_both: f64| {
            let other = &side[1 - k];
            at_ahead * other.ahead + at_behind * other.behind - at_both * other.both
        };
        let contrast = p[7] - p[8];
        let light = p[8] + contrast * black + p[9] * off[0] + p[10] * off[1];
        let (grey, slope) = grey_and_slope(light);
        let mut slopes = [0.0; UNKNOWNS];
        for k in 0..2 {
            let s = &side[k];
            let by_distance = by_side(k, s.d_ahead, -s.d_behind, s.d_both);
            let way = self.along[k];
            let sign = self.frame.sign[k];
            slopes[0] += contrast * by_distance * sign * way[1];
            slopes[1] -= contrast * by_distance * sign * way[0];
            slopes[2 + k] = contrast * by_distance * sign * (-way[1] * off[1] - way[0] * off[0]);
            slopes[4 + k] = contrast * by_side(k, s.b_ahead, s.b_behind, s.b_both);
            slopes[6] +=
                contrast * self.frame.a_mm[k] * by_side(k, s.d_ahead, s.d_behind, s.s_both);
        }
        slopes[0] -= p[9];
        slopes[1] -= p[10];
        slopes[7] = black;
        slopes[8] = 1.0 - black;
        slopes[9] = off[0];
        slopes[10] = off[1];
        (grey, slopes.map(|s| s * slope))
    }
}

/// Shares of one edge: ahead of it, behind it, and where spread ink of both
/// sides overlaps; `d_` changes with the distance, `b_` with the blur, `s_`
/// with the spread. Ahead grows with the distance, behind falls.
struct Side {
    ahead: f64,
    behind: f64,
    both: f64,
    d_ahead: f64,
    d_behind: f64,
    d_both: f64,
    b_ahead: f64,
    b_behind: f64,
    b_both: f64,
    s_both: f64,
}

impl Side {
    #[inline]
    fn new(distance: f64, spread: f64, blur: f64) -> Self {
        let one = (distance + spread) / blur;
        let other = (spread - distance) / blur;
        let (ahead, behind) = (normal_share(one), normal_share(other));
        let (d_one, d_other) = (normal_density(one) / blur, normal_density(other) / blur);
        let (b_ahead, b_behind) = (-d_one * one, -d_other * other);
        // The sides overlap only where ink has spread.
        let overlaps = f64::from(u8::from(spread > 0.0));
        Self {
            ahead,
            behind,
            both: overlaps * (ahead + behind - 1.0),
            d_ahead: d_one,
            d_behind: d_other,
            d_both: overlaps * (d_one - d_other),
            b_ahead,
            b_behind,
            b_both: overlaps * (b_ahead + b_behind),
            s_both: overlaps * (d_one + d_other),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::photo::light::grey;

    /// A cross of known place, drawn by the model itself.
    fn drawn(at: [f64; 2], blur: f64, angle: f64) -> (Vec<u8>, [[f64; 2]; 2]) {
        let (sin, cos) = angle.sin_cos();
        let slope = [[1.2 * cos, 1.2 * sin], [sin, -cos]];
        let mut pixels = Vec::new();
        for y in 0..40 {
            for x in 0..40 {
                let off = [f64::from(x) - at[0], f64::from(y) - at[1]];
                let right = cos * off[0] + sin * off[1];
                let up = sin * off[0] - cos * off[1];
                let (a, b) = (normal_share(right / blur), normal_share(up / blur));
                let black = a * b + (1.0 - a) * (1.0 - b);
                pixels.push(grey(0.7 - 0.65 * black).round() as u8);
            }
        }
        (pixels, slope)
    }

    #[test]
    fn a_drawn_cross_is_found_within_hundredths() {
        for (at, blur, angle) in [
            ([20.3, 19.6], 0.9, 0.0),
            ([19.75, 20.1], 1.6, 0.3),
            ([20.0, 20.5], 0.6, -0.5),
        ] {
            let (pixels, slope) = drawn(at, blur, angle);
            let rows = Rows {
                width: 40,
                height: 40,
                pixels: &pixels,
            };
            let fit = refine(rows, [20.6, 19.1], slope).unwrap();
            let off = (fit.at[0] - at[0]).hypot(fit.at[1] - at[1]);
            assert!(off < 0.02, "{off} {fit:?}");
            assert!((fit.blur[0] - blur).abs() < 0.08, "{fit:?}");
            assert!((0.015..0.04).contains(&fit.u), "{fit:?}");
        }
    }

    #[test]
    fn the_slopes_are_those_of_the_model() {
        let frame = Frame {
            sign: [-1.0, 1.0],
            a_mm: [1.1, 0.9],
        };
        let mut p = Unknowns::zeros();
        p.copy_from_slice(&[
            10.2, 9.8, 0.1, -1.4, 1.1, 0.8, 0.15, 0.05, 0.7, 0.002, -0.003,
        ]);
        for spread in [0.15, -0.15] {
            p[6] = spread;
            for place in [[9.0, 9.0], [11.0, 10.0], [10.0, 12.0]] {
                let (here, slopes) = Edges::new(&p, &frame).grey(place);
                for k in 0..UNKNOWNS {
                    let mut moved = p;
                    moved[k] += 1e-6;
                    let (there, _) = Edges::new(&moved, &frame).grey(place);
                    let slope = (there - here) / 1e-6;
                    assert!(
                        (slope - slopes[k]).abs() < 1e-2 * (1.0 + slope.abs()),
                        "{k}: {slope} {}",
                        slopes[k]
                    );
                }
            }
        }
    }
}
