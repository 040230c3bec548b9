//! Fallback without cards: one flat thing of known size on the face (a
//! sheet of paper, a card, a number plate), or a taped length.
//!
//! Good for short distances only: a bumper is not flat. The uncertainty
//! grows with the bend that is not known and with the distance from the
//! flat thing; beyond [`MOST_EXPANDED`] there is no figure.
//!
//! # Sources
//! Homography by the normalised direct linear transformation (Hartley and
//! Zisserman, Multiple View Geometry, 2004, algorithm 4.2), its uncertainty
//! to the first order (Criminisi, Reid, Zisserman, BMVC 1997).

use nalgebra::{DMatrix, Matrix3, Vector3};

use super::camera::CameraPrior;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres, root_sum_of_squares};

/// Beyond this ± (95 %) nothing is told.
pub const MOST_EXPANDED: Millimetres = Millimetres(10.0);
/// Standard uncertainty of the face's bend near a flat thing, per mm: it may
/// lie where the face is tight (R 0.6 m is twice that).
pub const U_BEND: f64 = 0.000_8;
/// Over how much of the face a tight bend goes on, mm.
const TIGHT: f64 = 600.0;
/// Standard uncertainty of how squarely a photo looks at a taped length.
pub const U_SQUARE: Degrees = Degrees(9.0);
/// Plates are from this to that, millimetres.
pub const PLATE_LIMITS: (f64, f64) = (80.0, 700.0);
/// Taped lengths are from this to that, millimetres.
pub const TAPED_LIMITS: (f64, f64) = (30.0, 2_000.0);

/// A flat thing of known size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flat {
    /// Across.
    pub width: Estimate<Millimetres>,
    /// Down.
    pub height: Estimate<Millimetres>,
    /// Standard uncertainty of how far it stands off the face.
    pub u_off: Millimetres,
}

impl Flat {
    fn new(size: [f64; 2], within: [f64; 2], u_off: f64) -> Self {
        let side = |i: usize| {
            let u = within[i] / 3f64.sqrt();
            Estimate::new(Millimetres(size[i]), Millimetres(u))
        };
        Self {
            width: side(0),
            height: side(1),
            u_off: Millimetres(u_off),
        }
    }

    /// A4 lying: ISO 216, 297 x 210 mm, each ±2 mm.
    #[must_use]
    pub fn a4() -> Self {
        Self::new([297.0, 210.0], [2.0, 2.0], 1.0)
    }

    /// US Letter lying: 279.4 x 215.9 mm, tolerance taken as A4's.
    #[must_use]
    pub fn letter() -> Self {
        Self::new([279.4, 215.9], [2.0, 2.0], 1.0)
    }

    /// A bank card: ISO/IEC 7810 ID-1, 85.60 x 53.98 mm, ±0.13 and ±0.06.
    #[must_use]
    pub fn bank_card() -> Self {
        Self::new([85.6, 53.98], [0.13, 0.06], 1.0)
    }

    /// A number plate of a typed size, ±1 mm; plates stand in a recess or
    /// on a carrier.
    ///
    /// # Errors
    /// A message when no plate is that size.
    pub fn plate(width: Millimetres, height: Millimetres) -> Result<Self, Message> {
        for side in [width, height] {
            if !(PLATE_LIMITS.0..=PLATE_LIMITS.1).contains(&side.0) {
                return Err(msg("plane-plate-size")
                    .mm("typed", side.0)
                    .mm("least", PLATE_LIMITS.0)
                    .mm("most", PLATE_LIMITS.1));
            }
        }
        Ok(Self::new([width.0, height.0], [1.0, 1.0], 8.0))
    }

    fn corners(&self) -> [[f64; 2]; 4] {
        let (w, h) = (self.width.value.0, self.height.value.0);
        [[0.0, 0.0], [w, 0.0], [w, h], [0.0, h]]
    }
}

/// Why there is no figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PlaneFault {
    /// The corners are not those of a flat thing seen from the front.
    NotFlat,
    /// The taped length is no length.
    Length,
    /// Its ± is too great: use cards.
    TooUncertain {
        /// The ± it would have.
        expanded: Millimetres,
    },
}

impl PlaneFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::NotFlat => msg("plane-not-flat"),
            Self::Length => msg("plane-length")
                .mm("least", TAPED_LIMITS.0)
                .mm("most", TAPED_LIMITS.1),
            Self::TooUncertain { expanded } => msg("plane-too-uncertain")
                .mm("expanded", expanded.0)
                .mm("most", MOST_EXPANDED.0),
        }
    }
}

/// Shift and scale that bring points to mean 0 and mean distance sqrt 2:
/// (s, tx, ty), x' = s x + tx.
#[must_use]
pub fn normalising(points: &[[f64; 2]]) -> [f64; 3] {
    let n = points.len().max(1) as f64;
    let mean = |i: usize| points.iter().map(|p| p[i]).sum::<f64>() / n;
    let (x, y) = (mean(0), mean(1));
    let far = points
        .iter()
        .map(|p| (p[0] - x).hypot(p[1] - y))
        .sum::<f64>()
        / n;
    let s = 2f64.sqrt() / far.max(1e-12);
    [s, -s * x, -s * y]
}

/// Homography that takes the first points onto the second, at least four;
/// `None` when they do not determine one.
#[must_use]
pub fn homography(from: &[[f64; 2]], to: &[[f64; 2]]) -> Option<Matrix3<f64>> {
    let n = from.len().min(to.len());
    if n < 4 {
        return None;
    }
    let (a, b) = (normalising(&from[..n]), normalising(&to[..n]));
    let matrix = |[s, x, y]: [f64; 3]| Matrix3::new(s, 0.0, x, 0.0, s, y, 0.0, 0.0, 1.0);
    // Nine rows at least, so that the last right vector is there.
    let mut rows = DMatrix::zeros((2 * n).max(9), 9);
    for (i, (p, q)) in from.iter().zip(to).enumerate() {
        let (x, y) = (a[0] * p[0] + a[1], a[0] * p[1] + a[2]);
        let (u, v) = (b[0] * q[0] + b[1], b[0] * q[1] + b[2]);
        let first = [-x, -y, -1.0, 0.0, 0.0, 0.0, u * x, u * y, u];
        let second = [0.0, 0.0, 0.0, -x, -y, -1.0, v * x, v * y, v];
        for k in 0..9 {
            rows[(2 * i, k)] = first[k];
            rows[(2 * i + 1, k)] = second[k];
        }
    }
    let svd = rows.svd(false, true);
    let v = svd.v_t?;
    let (least, _) = svd.singular_values.argmin();
    let mut order: Vec<f64> = svd.singular_values.iter().copied().collect();
    order.sort_by(f64::total_cmp);
    // Two vanishing values: three points on one line.
    if order[1] < 1e-9 * order[8] {
        return None;
    }
    let h = Matrix3::from_row_iterator(v.row(least).iter().copied());
    let h = matrix(b).try_inverse()? * h * matrix(a);
    let scaled = h / h[(2, 2)];
    scaled.iter().all(|c| c.is_finite()).then_some(scaled)
}

fn apply(h: &Matrix3<f64>, [x, y]: [f64; 2]) -> [f64; 2] {
    let p = h * Vector3::new(x, y, 1.0);
    [p.x / p.z, p.y / p.z]
}

/// Distance of two pixels on the plane of a flat thing whose corners (upper
/// left, then clockwise) stand at `corners`, with its standard uncertainty
/// from `u_pixel` on every one of the twelve coordinates only.
///
/// # Errors
/// [`PlaneFault::NotFlat`].
pub fn distance_on_plane(
    flat: &Flat,
    corners: &[[f64; 2]; 4],
    targets: &[[f64; 2]; 2],
    u_pixel: f64,
) -> Result<Estimate<Millimetres>, PlaneFault> {
    let all: Vec<[f64; 2]> = corners.iter().chain(targets).copied().collect();
    let distance = |all: &[[f64; 2]]| {
        let h = homography(&all[..4], &flat.corners())?;
        let (a, b) = (apply(&h, all[4]), apply(&h, all[5]));
        Some((a[0] - b[0]).hypot(a[1] - b[1]))
    };
    let value = distance(&all).ok_or(PlaneFault::NotFlat)?;
    let mut square = 0.0;
    for i in 0..6 {
        for axis in 0..2 {
            const STEP: f64 = 1e-3;
            let mut moved = all.clone();
            moved[i][axis] += STEP;
            let above = distance(&moved).ok_or(PlaneFault::NotFlat)?;
            moved[i][axis] -= 2.0 * STEP;
            let below = distance(&moved).ok_or(PlaneFault::NotFlat)?;
            square += ((above - below) / (2.0 * STEP) * u_pixel).powi(2);
        }
    }
    Ok(Estimate::new(
        Millimetres(value),
        Millimetres(square.sqrt()),
    ))
}

/// Distance of two pixels near a flat thing on a bumper, with all that is
/// not known of the face in its uncertainty.
///
/// # Errors
/// [`PlaneFault`], beyond [`MOST_EXPANDED`] too.
pub fn measure_by_plane(
    flat: &Flat,
    corners: &[[f64; 2]; 4],
    targets: &[[f64; 2]; 2],
    u_pixel: f64,
    camera: &CameraPrior,
) -> Result<Estimate<Millimetres>, PlaneFault> {
    if !convex(corners) {
        return Err(PlaneFault::NotFlat);
    }
    let here = distance_on_plane(flat, corners, targets, u_pixel)?;
    let h = homography(corners, &flat.corners()).ok_or(PlaneFault::NotFlat)?;
    let [a, b] = targets.map(|t| apply(&h, t));
    let eye = eye_over(&h, camera).ok_or(PlaneFault::NotFlat)?;
    let (w, height) = (flat.width.value.0, flat.height.value.0);
    let length = here.value.0.max(1.0);
    let way = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    // A bend carries a place off the plane, and the line of sight then meets
    // it so far to the side.
    let rise = |p: [f64; 2]| u_off_plane((p[0] - w / 2.0).hypot(p[1] - height / 2.0));
    let aside = |p: [f64; 2]| [0, 1].map(|i| (p[i] - eye[i]) * rise(p) / eye[2]);
    let (e, f) = (aside(a), aside(b));
    let bend = (f[0] - e[0]) * way[0] + (f[1] - e[1]) * way[1];
    let chord = (rise(b) - rise(a)).powi(2) / (2.0 * length);
    let u = root_sum_of_squares(&[
        here.u.0,
        length * way[0] * way[0] * flat.width.u.0 / w,
        length * way[1] * way[1] * flat.height.u.0 / height,
        bend,
        chord,
        length * flat.u_off.0 / eye[2],
    ]);
    enough(here.value, u)
}

/// Distance of two pixels by a taped length between two others.
///
/// # Errors
/// [`PlaneFault`], beyond [`MOST_EXPANDED`] too.
pub fn measure_by_length(
    taped: Millimetres,
    ends: &[[f64; 2]; 2],
    targets: &[[f64; 2]; 2],
    u_pixel: f64,
    camera: &CameraPrior,
) -> Result<Estimate<Millimetres>, PlaneFault> {
    if !(TAPED_LIMITS.0..=TAPED_LIMITS.1).contains(&taped.0) {
        return Err(PlaneFault::Length);
    }
    let vector = |p: &[[f64; 2]; 2]| [p[1][0] - p[0][0], p[1][1] - p[0][1]];
    let (r, t) = (vector(ends), vector(targets));
    let (pixels, wanted) = (r[0].hypot(r[1]), t[0].hypot(t[1]));
    if pixels < 20.0 {
        return Err(PlaneFault::NotFlat);
    }
    let scale = taped.0 / pixels;
    let value = scale * wanted;
    let far = camera.camera.focal() * scale;
    let middle = |p: &[[f64; 2]; 2], i: usize| f64::midpoint(p[0][i], p[1][i]);
    let apart =
        scale * (middle(ends, 0) - middle(targets, 0)).hypot(middle(ends, 1) - middle(targets, 1));
    let square = U_SQUARE.0.to_radians();
    let crossing = (r[0] * t[1] - r[1] * t[0]) / (pixels * wanted.max(1.0));
    let reach = apart + (value - taped.0).abs() / 2.0;
    let u = root_sum_of_squares(&[
        // Taps at both lengths, the tape itself to 0.5 mm.
        scale * u_pixel * 2f64.sqrt(),
        value / pixels * u_pixel * 2f64.sqrt(),
        0.5 * value / taped.0,
        // Looking at it from the side, the scale changes with the place...
        value * reach * square.sin() / far,
        // ...and with the direction.
        value * crossing.abs() * (1.0 - square.cos()),
        // The bend carries the place away from the tape's.
        value * u_off_plane(reach) / far,
    ]);
    enough(Millimetres(value), u)
}

/// How far the face may be off a plane that touches it, so many mm beside
/// where it does; standard uncertainty in mm.
///
/// A parabola near by; further on a face is less bent than where it is
/// tightest. Simulated over faces of R 1.5 to 5 m in the middle and 0.32 to
/// 0.9 m at the ends the root mean square is 9 mm at 0.2 m, 31 mm at 0.4 m
/// and 73 mm at 0.6 m: this is 13, 38 and 72 mm.
fn u_off_plane(beside: f64) -> f64 {
    U_BEND * beside * beside / 2.0 / (1.0 + beside / TIGHT)
}

fn enough(value: Millimetres, u: f64) -> Result<Estimate<Millimetres>, PlaneFault> {
    let found = Estimate::new(value, Millimetres(u));
    let expanded = found.expanded();
    if !value.0.is_finite() || !u.is_finite() {
        return Err(PlaneFault::NotFlat);
    }
    if expanded.0 > MOST_EXPANDED.0 {
        return Err(PlaneFault::TooUncertain { expanded });
    }
    Ok(found)
}

/// Four corners in order, clockwise in a photo.
fn convex(corners: &[[f64; 2]; 4]) -> bool {
    (0..4).all(|i| {
        let [a, b, c] = [0, 1, 2].map(|k| corners[(i + k) % 4]);
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) > 1.0
    })
}

/// Where the camera stands over the plane (x, y of the plane, distance),
/// by the likely focal length.
fn eye_over(to_plane: &Matrix3<f64>, camera: &CameraPrior) -> Option<[f64; 3]> {
    let h = to_plane.try_inverse()?;
    let (f, c) = (camera.camera.focal(), camera.camera.centre);
    let direction = |k: usize| {
        let v = h.column(k);
        Vector3::new((v[0] - c[0] * v[2]) / f, (v[1] - c[1] * v[2]) / f, v[2])
    };
    let (p, q, t) = (direction(0), direction(1), direction(2));
    let scale = 2.0 / (p.norm() + q.norm());
    let (p, q, t) = (p.normalize(), q.normalize(), t * scale);
    let out = p.cross(&q).try_normalize(1e-6)?;
    let eye = [-t.dot(&p), -t.dot(&q), t.dot(&out).abs()];
    (eye[2] > 50.0).then_some(eye)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A4 lying, squarely in front of a camera 1.5 m away.
    fn looked_at() -> (CameraPrior, impl Fn(f64, f64) -> [f64; 2]) {
        let camera = CameraPrior::new(4000, 3000, Some(26.0));
        let scale = camera.camera.focal() / 1_500.0;
        (camera, move |x: f64, y: f64| {
            [2000.0 + scale * (x - 148.5), 1500.0 + scale * (y - 105.0)]
        })
    }

    fn sheet(at: &impl Fn(f64, f64) -> [f64; 2]) -> [[f64; 2]; 4] {
        [
            at(0.0, 0.0),
            at(297.0, 0.0),
            at(297.0, 210.0),
            at(0.0, 210.0),
        ]
    }

    #[test]
    fn a_short_distance_beside_the_sheet_has_a_figure_a_long_one_has_none() {
        let (camera, at) = looked_at();
        let short = [at(50.0, 250.0), at(250.0, 250.0)];
        let found = measure_by_plane(&Flat::a4(), &sheet(&at), &short, 2.0, &camera).unwrap();
        assert!((found.value.0 - 200.0).abs() < 0.01);
        assert!((1.0..7.0).contains(&found.expanded().0), "{found:?}");
        let long = [at(-450.0, 250.0), at(750.0, 250.0)];
        let none = measure_by_plane(&Flat::a4(), &sheet(&at), &long, 2.0, &camera);
        let Err(PlaneFault::TooUncertain { expanded }) = none else {
            panic!("a figure over the full width: {none:?}");
        };
        assert!((20.0..120.0).contains(&expanded.0), "{expanded:?}");
    }

    #[test]
    fn its_uncertainty_grows_with_the_distance_from_the_sheet() {
        let (camera, at) = looked_at();
        let from = |x: f64| {
            let two = [at(x, 250.0), at(x + 150.0, 250.0)];
            measure_by_plane(&Flat::a4(), &sheet(&at), &two, 2.0, &camera).map(|e| e.u.0)
        };
        let near = from(75.0).unwrap();
        let far = from(200.0).unwrap();
        assert!(far > 1.5 * near, "{near} {far}");
        assert!(from(900.0).is_err());
    }

    #[test]
    fn a_bank_card_is_good_for_less_than_a_sheet() {
        let (camera, at) = looked_at();
        let card = [at(0.0, 0.0), at(85.6, 0.0), at(85.6, 53.98), at(0.0, 53.98)];
        let two = [at(-60.0, 100.0), at(140.0, 100.0)];
        let by_card = measure_by_plane(&Flat::bank_card(), &card, &two, 1.0, &camera);
        let by_sheet = measure_by_plane(&Flat::a4(), &sheet(&at), &two, 1.0, &camera).unwrap();
        assert!(by_card.is_err() || by_card.is_ok_and(|c| c.u.0 > 1.5 * by_sheet.u.0));
        assert!(by_sheet.expanded().0 < 6.0, "{by_sheet:?}");
    }

    #[test]
    fn taps_that_are_no_corners_are_refused() {
        let (camera, at) = looked_at();
        let two = [at(50.0, 250.0), at(250.0, 250.0)];
        let [a, b, c, d] = sheet(&at);
        for corners in [[a, c, b, d], [b, a, d, c], [a, a, c, d]] {
            let fault = measure_by_plane(&Flat::a4(), &corners, &two, 2.0, &camera);
            assert_eq!(fault, Err(PlaneFault::NotFlat));
        }
        assert!(Flat::plate(Millimetres(520.0), Millimetres(20.0)).is_err());
    }

    #[test]
    fn a_taped_length_serves_one_like_it_beside_it() {
        let (camera, at) = looked_at();
        let tape = [at(0.0, 0.0), at(300.0, 0.0)];
        let beside = [at(10.0, 40.0), at(310.0, 40.0)];
        let found = measure_by_length(Millimetres(300.0), &tape, &beside, 2.0, &camera).unwrap();
        assert!((found.value.0 - 300.0).abs() < 0.01);
        assert!((1.0..6.0).contains(&found.expanded().0), "{found:?}");
        let far = [at(700.0, 0.0), at(1_300.0, 0.0)];
        let none = measure_by_length(Millimetres(300.0), &tape, &far, 2.0, &camera);
        assert!(matches!(none, Err(PlaneFault::TooUncertain { .. })));
        let no_length = measure_by_length(Millimetres(0.0), &tape, &beside, 2.0, &camera);
        assert_eq!(no_length, Err(PlaneFault::Length));
    }
}
