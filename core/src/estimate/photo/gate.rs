//! Whether photos belong together and to the camera they name: never a
//! confident figure from a photo that was cropped, edited or taken of
//! another photo, nor from cards of another scale.

use nalgebra::{DMatrix, DVector, Matrix4, Vector3, Vector4};

use super::bends::left_to_right;
use super::bundle::{Solved, Task};
use super::measured::{scene_poses, slopes, with_tips};
use super::pose::{CardPose, OF_CARD, OF_PHOTO};
use super::scene::{PhotoFault, Scene};
use super::seen::{Origin, PhotoSeen};
use crate::units::Degrees;

/// What is left of the crosses over their u, above which the photos do not
/// belong to one unchanged scene.
pub const MOST_LEFT: f64 = 5.0;
/// The same in pixels for a photo of 4000 pixels.
pub const MOST_LEFT_PIXELS: f64 = 1.0;
/// Above so much left over u a photo is first taken for an edited one.
pub const EDITED_LEFT: f64 = 2.5;
/// Squares of a camera's departures from what its photo says, over their u:
/// above this it was not its camera (a chi-square of four exceeds it once in
/// 1000 times, and the priors are wider than cameras are).
pub const MOST_DEPARTURE: f64 = 18.5;
/// Directions in which the crosses say less than this part of what is known
/// before do not count.
const LEAST_SAID: f64 = 0.002;
/// Standard uncertainty of a face's turning beside the smooth curve, between
/// neighbouring cards.
pub const U_CURVE: Degrees = Degrees(2.0);
/// Chords farther off the cards' own directions than so many u say that a
/// card is of another scale or not on the face.
pub const MOST_OFF_CURVE: f64 = 4.0;
/// All of them together: root mean square over u.
pub const MOST_OFF_ALL: f64 = 2.0;
/// Sides of what cameras give, long over short.
const ASPECTS: [f64; 4] = [1.0, 4.0 / 3.0, 1.5, 16.0 / 9.0];

/// What a photo says of itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Said {
    /// As a camera gave it.
    AsTaken,
    /// It does not say what camera took it.
    Nothing,
    /// Cropped, resized, or of sides that no camera gives.
    Edited,
}

/// What a photo says of itself, or shows by its sides.
pub(super) fn said(photo: &PhotoSeen) -> Said {
    let (w, h) = (f64::from(photo.width), f64::from(photo.height));
    let aspect = w.max(h) / w.min(h).max(1.0);
    let usual = ASPECTS.iter().any(|a| (aspect / a - 1.0).abs() < 0.01);
    match photo.exif.origin {
        Origin::Changed => Said::Edited,
        _ if !usual => Said::Edited,
        Origin::Camera => Said::AsTaken,
        Origin::Unknown => Said::Nothing,
    }
}

/// How much more is left than the crosses' u explains, at least 1.
pub(super) fn scale(task: &Task, solved: &Solved) -> f64 {
    let values = task.sights.len() * 8;
    // Cameras and bends are mostly held by their priors.
    let unknowns = task.bends.len() * 6 + (task.cameras.len() * 7).saturating_sub(6);
    let free = values.saturating_sub(unknowns).max(2) as f64;
    (solved.squares / free).sqrt().max(1.0)
}

/// What is left, root mean square in pixels an axis.
pub(super) fn left_pixels(task: &Task, solved: &Solved) -> f64 {
    let u: f64 = task
        .sights
        .iter()
        .flat_map(|s| s.crosses.iter().map(|c| c[2] * c[2]))
        .sum();
    let n = (task.sights.len() * 4) as f64;
    (u / n).sqrt() * (solved.squares / (2.0 * n)).sqrt()
}

/// Whether a photo's camera is not the one it names: what the crosses move
/// it by, over the spread that such moves have (prior less posterior
/// covariance), in the directions on which the crosses say something.
pub(super) fn contradicts(
    task: &Task,
    solved: &Solved,
    covariance: &DMatrix<f64>,
    photo: usize,
) -> bool {
    let prior = &task.cameras[photo];
    let camera = &solved.state.photos[photo].camera;
    let u = [prior.u_focal, prior.u_centre, prior.u_centre, prior.u_k1];
    let off = Vector4::new(
        (camera.ln_focal - prior.camera.ln_focal) / u[0],
        (camera.centre[0] - prior.camera.centre[0]) / u[1],
        (camera.centre[1] - prior.camera.centre[1]) / u[2],
        (camera.k1 - prior.camera.k1) / u[3],
    );
    let at = task.bends.len() * OF_CARD + photo * OF_PHOTO + 6;
    let moved = Matrix4::from_fn(|r, c| {
        let own = if r == c { 1.0 } else { 0.0 };
        own - covariance[(at + r, at + c)] / (u[r] * u[c])
    });
    let ways = moved.symmetric_eigen();
    let departure: f64 = (0..4)
        .filter(|i| ways.eigenvalues[*i] > LEAST_SAID)
        .map(|i| ways.eigenvectors.column(i).dot(&off).powi(2) / ways.eigenvalues[i])
        .sum();
    departure > MOST_DEPARTURE
}

/// Every card must face as the curve through its neighbours does: a chord
/// is square to the mean of the outward directions at its ends.
///
/// # Errors
/// [`PhotoFault::OffCurve`] with the card that is farthest off.
pub(super) fn on_curve(scene: &Scene) -> Result<(), PhotoFault> {
    let poses = scene_poses(scene);
    let order = left_to_right(&poses);
    let off = |poses: &[CardPose]| -> Vec<f64> {
        order
            .windows(2)
            .map(|pair| {
                let (a, b) = (&poses[pair[0]], &poses[pair[1]]);
                let mean: Vector3<f64> = a.axes.column(2) + b.axes.column(2);
                let chord = (b.tip - a.tip).normalize();
                chord.dot(&mean.normalize()).clamp(-1.0, 1.0).asin()
            })
            .collect()
    };
    let here = DVector::from_vec(off(&poses));
    let slopes = slopes(&poses, off);
    let n = here.len();
    let curve = U_CURVE.0.to_radians();
    let spread: DMatrix<f64> = &slopes * with_tips(scene, 0.0) * slopes.transpose()
        + DMatrix::identity(n, n) * (curve * curve);
    let shares: Vec<f64> = (0..n)
        .map(|i| here[i].abs() / spread[(i, i)].sqrt())
        .collect();
    let all = match spread.cholesky() {
        Some(factor) => (here.dot(&factor.solve(&here)) / n as f64).sqrt(),
        None => f64::INFINITY,
    };
    let worst = shares.iter().copied().fold(0.0, f64::max);
    if worst <= MOST_OFF_CURVE && all <= MOST_OFF_ALL {
        return Ok(());
    }
    // A card is as far off as the chords on both its sides.
    let of_card = |k: usize| {
        let left = k.checked_sub(1).map_or(0.0, |i| shares[i]);
        left + shares.get(k).copied().unwrap_or(0.0)
    };
    let card = (0..order.len()).max_by(|a, b| of_card(*a).total_cmp(&of_card(*b)));
    let code = card.map_or(0, |k| scene.cards[order[k]].code);
    Err(PhotoFault::OffCurve { code })
}
