//! The smooth surface through the cards: a curve through their tips, and
//! from it straight up and down along the face.
//!
//! Between cards the curve is a cubic with the cards' own directions at its
//! ends; beyond the outermost it goes on with the last card's bend. Up along
//! the face turns evenly from card to card.

use nalgebra::{Matrix3, Vector3};

use super::bends::left_to_right;
use super::frame::Frame;
use super::pose::{CardPose, PhotoPose};

/// Farther than this beyond the outermost card nothing is measured.
pub const MOST_BEYOND: f64 = 250.0;
/// Farther than this above or below the tips nothing is measured.
pub const MOST_ABOVE: f64 = 400.0;
/// How little is known of the face's bend away from the cards, per mm.
const U_BEND: f64 = 0.000_5;
/// How round the face may be from top to bottom, per mm.
const U_ROUND: f64 = 0.000_6;

/// One card's place and directions without its crookedness.
#[derive(Clone, Copy, Debug)]
struct Knot {
    at: Vector3<f64>,
    right: Vector3<f64>,
    up: Vector3<f64>,
    out: Vector3<f64>,
    bend: f64,
    /// Along the chords from the first card.
    s: f64,
}

/// The surface.
#[derive(Clone, Debug)]
pub struct Surface {
    knots: Vec<Knot>,
}

/// Where a line of sight meets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Met {
    /// The place in the world frame.
    pub at: Vector3<f64>,
    /// Along from the first card.
    pub along: f64,
    /// Up along the face from the tips.
    pub above: f64,
    /// How far from the nearest card along the face.
    pub from_card: f64,
    /// Out of the face there.
    pub out: Vector3<f64>,
}

impl Surface {
    /// Through at least two cards; `None` for fewer.
    #[must_use]
    pub fn new(cards: &[CardPose], frame: &Frame) -> Option<Self> {
        if cards.len() < 2 {
            return None;
        }
        let mut s = 0.0;
        let mut knots: Vec<Knot> = Vec::new();
        for i in left_to_right(cards) {
            let card = &cards[i];
            let out: Vector3<f64> = card.axes.column(2).into();
            let up = (frame.up - out * frame.up.dot(&out)).try_normalize(1e-3)?;
            if let Some(last) = knots.last() {
                s += (card.tip - last.at).norm();
            }
            knots.push(Knot {
                at: card.tip,
                right: up.cross(&out),
                up,
                out,
                bend: card.bend,
                s,
            });
        }
        Some(Self { knots })
    }

    /// The place along and above.
    fn place(&self, s: f64, above: f64) -> Vector3<f64> {
        let (first, last) = (&self.knots[0], &self.knots[self.knots.len() - 1]);
        let past = |knot: &Knot, by: f64| {
            let a = knot.bend * by;
            knot.at + knot.right * (by * (1.0 - a * a / 6.0)) - knot.out * (by * a / 2.0)
                + knot.up * above
        };
        if s <= first.s {
            return past(first, s - first.s);
        }
        if s >= last.s {
            return past(last, s - last.s);
        }
        let i = self.knots.partition_point(|k| k.s <= s).max(1) - 1;
        let (a, b) = (&self.knots[i], &self.knots[i + 1]);
        let length = b.s - a.s;
        let t = (s - a.s) / length;
        let (t2, t3) = (t * t, t * t * t);
        let curve = a.at * (2.0 * t3 - 3.0 * t2 + 1.0)
            + a.right * (length * (t3 - 2.0 * t2 + t))
            + b.at * (3.0 * t2 - 2.0 * t3)
            + b.right * (length * (t3 - t2));
        curve + (a.up * (1.0 - t) + b.up * t).normalize() * above
    }

    /// Where a ray meets it, moved outward by `outward` millimetres; `None`
    /// when it misses, or only meets it too far from the cards.
    #[must_use]
    pub fn meet(&self, eye: &Vector3<f64>, ray: &Vector3<f64>, outward: f64) -> Option<Met> {
        let nearest = self.knots.iter().min_by(|a, b| {
            let off = |k: &Knot| (k.at - eye).cross(ray).norm();
            off(a).total_cmp(&off(b))
        })?;
        let (mut s, mut above) = (nearest.s, 0.0);
        let mut far = (nearest.at - eye).dot(ray);
        const STEP: f64 = 0.01;
        for _ in 0..30 {
            let here = self.place(s, above);
            let by_s = (self.place(s + STEP, above) - here) / STEP;
            let by_above = (self.place(s, above + STEP) - here) / STEP;
            let out = by_s.cross(&by_above).try_normalize(1e-9)?;
            let miss = here + out * outward - (eye + ray * far);
            let step = Matrix3::from_columns(&[by_s, by_above, -ray])
                .lu()
                .solve(&-miss)?;
            s += step.x.clamp(-200.0, 200.0);
            above += step.y.clamp(-200.0, 200.0);
            far += step.z;
            if miss.norm() < 1e-7 {
                break;
            }
        }
        let last = self.knots[self.knots.len() - 1].s;
        let fine = (-MOST_BEYOND..=last + MOST_BEYOND).contains(&s)
            && above.abs() <= MOST_ABOVE
            && far > 0.0;
        if !fine {
            return None;
        }
        let here = self.place(s, above);
        let by_s = (self.place(s + STEP, above) - here) / STEP;
        let by_above = (self.place(s, above + STEP) - here) / STEP;
        let out = by_s.cross(&by_above).normalize();
        let from_card = self
            .knots
            .iter()
            .map(|k| (k.s - s).abs())
            .fold(f64::MAX, f64::min);
        Some(Met {
            at: here + out * outward,
            along: s,
            above,
            from_card,
            out,
        })
    }

    /// How far the true face may stand off the surface there: a bend that
    /// is not known, growing with the square of the distance from the cards
    /// (a quarter of that between two of them, which hold it).
    #[must_use]
    pub fn u_off(&self, met: &Met) -> f64 {
        let last = self.knots[self.knots.len() - 1].s;
        let between = (0.0..=last).contains(&met.along);
        let share = if between { 0.25 } else { 1.0 };
        let along = share * U_BEND * met.from_card * met.from_card / 2.0;
        // Cards hold the face from their tip to their upper edge.
        let above = if met.above > 0.0 {
            (met.above - 95.0).max(0.0)
        } else {
            met.above
        };
        along.hypot(U_ROUND * above * above / 2.0)
    }
}

/// The line of sight of a pixel: eye and direction in the world frame.
#[must_use]
pub fn sight(photo: &PhotoPose, pixel: [f64; 2]) -> (Vector3<f64>, Vector3<f64>) {
    let m = photo.camera.direction(pixel);
    let ray = photo.turn.transpose() * m.push(1.0).normalize();
    (photo.eye(), ray)
}
