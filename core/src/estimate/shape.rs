//! The shape from above: the bumper's outline in plan from corner angles at
//! tape stations.
//!
//! With s along the face and psi the corner angle, x(s) = integral of
//! cos(psi) ds (straight, + right) and y(s) = integral of sin(psi) ds
//! (forward), psi a monotone cubic through the stations (Fritsch and
//! Butland, SIAM J. Sci. Stat. Comput. 5, 1984), constant beyond its ends.

use serde::{Deserialize, Serialize};

use crate::estimate::turn::{APART_LEAST, ClosedSweep, same_place};
use crate::order;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres, Offset};

/// Standard uncertainty of a tape laid along the face.
pub const U_TAPE: Millimetres = Millimetres(1.0);
/// Farther out than this no bumper goes.
const MOST_ALONG: f64 = 3_000.0;
/// From this corner angle on the face folds back, degrees.
const FOLDS_BACK: f64 = 90.0;
/// Five-point Gauss-Legendre: nodes and weights on -1 to 1 (Abramowitz and
/// Stegun, table 25.4).
const GAUSS: [(f64, f64); 5] = [
    (0.0, 0.568_888_888_888_889),
    (-0.538_469_310_105_683, 0.478_628_670_499_366),
    (0.538_469_310_105_683, 0.478_628_670_499_366),
    (-0.906_179_845_938_664, 0.236_926_885_056_189),
    (0.906_179_845_938_664, 0.236_926_885_056_189),
];
/// Each piece between stations is integrated in so many parts.
const PARTS: usize = 4;

/// Corner angle at a tape station.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Knot {
    /// Tape along the face from the centre, + to the right.
    pub along: Millimetres,
    /// Corner angle, + to the right.
    pub turn: Estimate<Degrees>,
}

/// The outline; see the module.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlanCurve {
    knots: Vec<Knot>,
}

/// What is wrong with a knot by itself, and by how much.
fn knot_fault(knot: &Knot) -> Option<Message> {
    let (along, turn) = (knot.along.0, knot.turn.value.0);
    if !(along.is_finite() && turn.is_finite() && knot.turn.u.0.is_finite()) {
        return Some(msg("shape-no-figure"));
    }
    if along.abs() > MOST_ALONG {
        let beyond = msg("shape-out-of-range").mm("along", along);
        let by = beyond.mm("by", along.abs() - MOST_ALONG);
        return Some(by.mm("greatest", MOST_ALONG));
    }
    (turn.abs() >= FOLDS_BACK).then(|| {
        msg("shape-turned-too-far")
            .mm("along", along)
            .deg("turn", turn)
            .deg("by", turn.abs() - FOLDS_BACK)
            .deg("greatest", FOLDS_BACK)
    })
}

impl PlanCurve {
    /// Through knots; the centre joins with 0 when it is not among them.
    ///
    /// # Errors
    /// A message when figures are missing, too far out, or two knots stand
    /// at one place.
    pub fn new(mut knots: Vec<Knot>) -> Result<Self, Message> {
        if !knots.iter().any(|k| k.along.0.abs() < 1.0) {
            knots.push(Knot {
                along: Millimetres(0.0),
                turn: Estimate::new(Degrees(0.0), Degrees(0.0)),
            });
        }
        order::sort_by(&mut knots, |a, b| a.along.0.total_cmp(&b.along.0));
        if let Some(fault) = knots.iter().find_map(knot_fault) {
            return Err(fault);
        }
        let mut pairs = knots.windows(2);
        if let Some(k) = pairs.find(|k| k[1].along.0 - k[0].along.0 < APART_LEAST.0) {
            return Err(same_place(k[0].along, k[1].along));
        }
        Ok(Self { knots })
    }

    /// From a closed sweep.
    ///
    /// # Errors
    /// As [`PlanCurve::new`].
    pub fn from_sweep(sweep: &ClosedSweep) -> Result<Self, Message> {
        let knot = |spot: &crate::estimate::turn::SweptSpot| Knot {
            along: spot.along,
            turn: spot.turn,
        };
        Self::new(sweep.spots.iter().map(knot).collect())
    }

    /// Its knots, left to right.
    #[must_use]
    pub fn knots(&self) -> &[Knot] {
        &self.knots
    }

    /// Corner angle at a place along the face.
    #[must_use]
    pub fn turn_at(&self, along: Millimetres) -> Estimate<Degrees> {
        let value = self.spline(&[]).at(along.0);
        let off = |j: usize| self.spline(&[j]).at(along.0) - value;
        let u = self.over_knots(off);
        Estimate::new(Degrees(value), Degrees(u))
    }

    /// Straight offset of a place along the face, and how far forward of
    /// the centre it stands.
    #[must_use]
    pub fn place(&self, along: Millimetres) -> (Estimate<Offset>, Estimate<Millimetres>) {
        let [x, y] = self.spline(&[]).place(along.0);
        let moved = |axis: usize, from: f64| {
            self.over_knots(|j| self.spline(&[j]).place(along.0)[axis] - from)
        };
        let slope = self.spline(&[]).at(along.0).to_radians();
        let tape = U_TAPE.0;
        let u_x = moved(0, x).hypot(tape * slope.cos());
        let u_y = moved(1, y).hypot(tape * slope.sin());
        let forward = Estimate::new(Millimetres(y), Millimetres(u_y));
        (Estimate::new(Offset(x), Offset(u_x)), forward)
    }

    /// Straight offset of a place along the face.
    #[must_use]
    pub fn straight(&self, along: Millimetres) -> Estimate<Offset> {
        self.place(along).0
    }

    /// Place along the face of a straight offset; `None` when the face
    /// turns away before it.
    #[must_use]
    pub fn along(&self, straight: Offset) -> Option<Estimate<Millimetres>> {
        let spline = self.spline(&[]);
        let (mut low, mut high) = (-MOST_ALONG, MOST_ALONG);
        if !(spline.place(low)[0]..=spline.place(high)[0]).contains(&straight.0) {
            return None;
        }
        for _ in 0..60 {
            let middle = (low + high) / 2.0;
            if spline.place(middle)[0] < straight.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let along = Millimetres((low + high) / 2.0);
        // dx = cos(psi) ds.
        let slope = spline.at(along.0).to_radians().cos().max(0.05);
        let u = self.straight(along).u.0 / slope;
        Some(Estimate::new(along, Millimetres(u)))
    }

    /// The outline as points (straight, forward), left to right, for
    /// drawing.
    #[must_use]
    pub fn outline(&self, points: usize) -> Vec<[Millimetres; 2]> {
        let spline = self.spline(&[]);
        let (Some(first), Some(last)) = (self.knots.first(), self.knots.last()) else {
            return Vec::new();
        };
        let span = last.along.0 - first.along.0;
        (0..points.max(2))
            .map(|i| first.along.0 + span * i as f64 / (points.max(2) - 1) as f64)
            .map(|s| spline.place(s).map(Millimetres))
            .collect()
    }

    /// Root sum of squares of what each knot's uncertainty does.
    fn over_knots(&self, off: impl Fn(usize) -> f64) -> f64 {
        let square = (0..self.knots.len()).map(|j| off(j).powi(2)).sum::<f64>();
        square.sqrt()
    }

    /// The spline with some knots moved by their u.
    fn spline(&self, moved: &[usize]) -> Spline {
        let s = self.knots.iter().map(|k| k.along.0).collect();
        let turn = |(j, k): (usize, &Knot)| {
            let off = if moved.contains(&j) { k.turn.u.0 } else { 0.0 };
            k.turn.value.0 + off
        };
        Spline::new(s, self.knots.iter().enumerate().map(turn).collect())
    }
}

/// Monotone cubic in degrees over millimetres.
struct Spline {
    s: Vec<f64>,
    v: Vec<f64>,
    d: Vec<f64>,
}

impl Spline {
    fn new(s: Vec<f64>, v: Vec<f64>) -> Self {
        let n = s.len();
        let h: Vec<f64> = s.windows(2).map(|p| p[1] - p[0]).collect();
        let m: Vec<f64> = v
            .windows(2)
            .zip(&h)
            .map(|(p, h)| (p[1] - p[0]) / h)
            .collect();
        let mut d = vec![0.0; n];
        if n == 2 {
            d.fill(m[0]);
        }
        if n > 2 {
            for i in 1..n - 1 {
                if m[i - 1] * m[i] > 0.0 {
                    let (w1, w2) = (2.0 * h[i] + h[i - 1], h[i] + 2.0 * h[i - 1]);
                    d[i] = (w1 + w2) / (w1 / m[i - 1] + w2 / m[i]);
                }
            }
            d[0] = end_slope(h[0], h[1], m[0], m[1]);
            d[n - 1] = end_slope(h[n - 2], h[n - 3], m[n - 2], m[n - 3]);
        }
        Self { s, v, d }
    }

    fn at(&self, s: f64) -> f64 {
        let last = self.s.len() - 1;
        if s <= self.s[0] {
            return self.v[0];
        }
        if s >= self.s[last] {
            return self.v[last];
        }
        let i = self.s.partition_point(|k| *k <= s) - 1;
        let h = self.s[i + 1] - self.s[i];
        let t = (s - self.s[i]) / h;
        let (a, b) = (1.0 - t, t);
        self.v[i] * a * a * (1.0 + 2.0 * b)
            + self.v[i + 1] * b * b * (1.0 + 2.0 * a)
            + h * a * b * (a * self.d[i] - b * self.d[i + 1])
    }

    /// x and y of a place, from the centre at s = 0.
    fn place(&self, s: f64) -> [f64; 2] {
        let (from, to, sign) = if s < 0.0 {
            (s, 0.0, -1.0)
        } else {
            (0.0, s, 1.0)
        };
        let mut cuts = vec![from];
        cuts.extend(self.s.iter().copied().filter(|k| *k > from && *k < to));
        cuts.push(to);
        let mut sum = [0.0; 2];
        for piece in cuts.windows(2) {
            let part = (piece[1] - piece[0]) / PARTS as f64;
            for i in 0..PARTS {
                let middle = piece[0] + part * (i as f64 + 0.5);
                for (node, weight) in GAUSS {
                    let turn = self.at(middle + node * part / 2.0).to_radians();
                    sum[0] += weight * part / 2.0 * turn.cos();
                    sum[1] += weight * part / 2.0 * turn.sin();
                }
            }
        }
        sum.map(|c| sign * c)
    }
}

/// One-sided three-point slope, held to the shape.
fn end_slope(h0: f64, h1: f64, m0: f64, m1: f64) -> f64 {
    let d = ((2.0 * h0 + h1) * m0 - h0 * m1) / (h0 + h1);
    if d * m0 <= 0.0 {
        0.0
    } else if m0 * m1 <= 0.0 && d.abs() > 3.0 * m0.abs() {
        3.0 * m0
    } else {
        d
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn knot(along: f64, turn: f64, u: f64) -> Knot {
        Knot {
            along: Millimetres(along),
            turn: Estimate::new(Degrees(turn), Degrees(u)),
        }
    }

    #[test]
    fn a_flat_face_is_as_long_straight_as_along() {
        let curve = PlanCurve::new(vec![knot(-800.0, 0.0, 1.0), knot(800.0, 0.0, 1.0)]).unwrap();
        let straight = curve.straight(Millimetres(650.0));
        assert!((straight.value.0 - 650.0).abs() < 1e-9);
        assert!((curve.along(Offset(-650.0)).unwrap().value.0 + 650.0).abs() < 1e-6);
    }

    #[test]
    fn a_circle_comes_out_as_a_circle() {
        // psi grows evenly: R = 800 mm / 40 degrees.
        let radius = 800.0 / 40f64.to_radians();
        let curve = PlanCurve::new(vec![knot(-800.0, -40.0, 0.0), knot(800.0, 40.0, 0.0)]).unwrap();
        for s in [-700.0, -100.0, 0.0, 333.0, 800.0] {
            let (x, y) = curve.place(Millimetres(s));
            let angle: f64 = s / radius;
            assert!((x.value.0 - radius * angle.sin()).abs() < 1e-6);
            assert!((y.value.0 - radius * (1.0 - angle.cos())).abs() < 1e-6);
        }
    }

    #[test]
    fn there_and_back_again_is_the_same_place() {
        let curve = PlanCurve::new(vec![
            knot(-850.0, -50.0, 2.0),
            knot(-500.0, -8.0, 1.5),
            knot(0.0, 0.0, 0.7),
            knot(480.0, 9.0, 1.5),
            knot(860.0, 52.0, 2.0),
        ])
        .unwrap();
        for s in [-840.0, -300.0, 10.0, 700.0] {
            let there = curve.straight(Millimetres(s));
            let back = curve.along(there.value).unwrap();
            assert!((back.value.0 - s).abs() < 1e-6);
            assert!(back.u >= Millimetres(there.u.0 - 1e-9));
            assert!(there.value.0.abs() < s.abs());
        }
        assert!(curve.straight(Millimetres(700.0)).u.0 > 1.0);
    }

    #[test]
    fn a_face_that_turns_away_has_no_place_so_far_out() {
        let curve = PlanCurve::new(vec![knot(-800.0, -80.0, 1.0), knot(800.0, 80.0, 1.0)]).unwrap();
        assert_eq!(curve.along(Offset(2_900.0)), None);
        assert_eq!(
            PlanCurve::new(vec![knot(800.0, 95.0, 1.0)]).unwrap_err(),
            msg("shape-turned-too-far")
                .mm("along", 800.0)
                .deg("turn", 95.0)
                .deg("by", 5.0)
                .deg("greatest", 90.0)
        );
    }

    #[test]
    fn a_place_beyond_any_bumper_or_given_twice_says_which_and_by_how_much() {
        assert_eq!(
            PlanCurve::new(vec![knot(-3_100.0, 5.0, 1.0)]).unwrap_err(),
            msg("shape-out-of-range")
                .mm("along", -3_100.0)
                .mm("by", 100.0)
                .mm("greatest", MOST_ALONG)
        );
        let twice = vec![knot(600.0, 5.0, 1.0), knot(600.4, 5.0, 1.0)];
        assert_eq!(
            PlanCurve::new(twice).unwrap_err(),
            msg("sweep-same-place")
                .number("first", 600.0, 1)
                .number("second", 600.4, 1)
                .number("by", 1.0 - (600.4 - 600.0), 1)
                .number("least", 1.0, 1)
        );
    }
}
