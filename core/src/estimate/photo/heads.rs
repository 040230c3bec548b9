//! Fitted heads and lines: what is tapped in a photo, brought onto the
//! smooth surface through the cards.

use nalgebra::{DMatrix, SVector};

use super::frame::{Frame, Standing};
use super::measured::{Given, scene_poses, with_tips};
use super::pose::{CardPose, OF_CARD, OF_PHOTO, PhotoPose};
use super::result::{OnFace, Tap};
use super::scene::Scene;
use super::surface::{Met, Surface, sight};
use crate::units::{Estimate, Millimetres, Offset, root_sum_of_squares};

/// A tap on the face: its figures (straight, above) with slopes.
struct Landed {
    value: [f64; 2],
    covariance: [[f64; 2]; 2],
    met: Met,
}

/// Where taps of one thing, in one photo or several, are on the face;
/// `None` where a line of sight misses the face near the cards or straight
/// across is not known.
///
/// One thing in several photos: the mean, weighted by 1/u².
#[must_use]
pub fn on_face(scene: &Scene, given: &Given, taps: &[Tap]) -> Option<OnFace> {
    let landed: Option<Vec<Landed>> = taps.iter().map(|tap| land(scene, given, tap)).collect();
    let landed = landed?;
    let mean = |axis: usize| {
        let weight = |l: &Landed| 1.0 / l.covariance[axis][axis].max(1e-12);
        let sum: f64 = landed.iter().map(weight).sum();
        let value = landed
            .iter()
            .map(|l| weight(l) * l.value[axis])
            .sum::<f64>()
            / sum;
        // Photos share the cards: their mean is no better than the best.
        let best = landed
            .iter()
            .map(|l| l.covariance[axis][axis])
            .fold(f64::MAX, f64::min);
        (value, best.sqrt())
    };
    if landed.is_empty() {
        return None;
    }
    let ((x, u_x), (h, u_h)) = (mean(0), mean(1));
    let print = given.print;
    let scaled = |value: f64, u: f64| {
        (
            value * print.factor,
            u.hypot(value * print.u) * print.factor,
        )
    };
    let (x, u_x) = scaled(x, u_x);
    let (h, u_h) = scaled(h, u_h);
    Some(OnFace {
        straight: Estimate::new(Offset(x), Offset(u_x)),
        above: Estimate::new(Millimetres(h), Millimetres(u_h)),
    })
}

/// Steps of slopes: cards and photos as in the covariance, then the tap.
const CARD_STEPS: [f64; OF_CARD] = [1e-5, 1e-5, 1e-5, 1e-3, 1e-3, 1e-3, 1e-7];
const PHOTO_STEPS: [f64; OF_PHOTO] = [1e-6, 1e-6, 1e-6, 1e-3, 1e-3, 1e-3, 1e-6, 0.01, 0.01, 1e-6];

fn land(scene: &Scene, given: &Given, tap: &Tap) -> Option<Landed> {
    let poses = scene_poses(scene);
    let photo = *scene.photos.get(tap.photo)?;
    let pixel = [tap.x, tap.y];
    let figures = |poses: &[CardPose], photo: &PhotoPose, pixel: [f64; 2], outward: f64| {
        let frame = frame_of(scene, poses, given.marks)?;
        let surface = Surface::new(poses, &frame)?;
        let (eye, ray) = sight(photo, pixel);
        let met = surface.meet(&eye, &ray, outward)?;
        Some(([frame.place(&met.at)[0], met.above], met, surface))
    };
    let (value, met, surface) = figures(&poses, &photo, pixel, 0.0)?;
    let n = poses.len() * OF_CARD;
    let at = n + tap.photo * OF_PHOTO;
    let mut slopes = DMatrix::zeros(2, n + OF_PHOTO);
    let mut put = |column: usize, step: f64, above: [f64; 2], below: [f64; 2]| {
        for r in 0..2 {
            slopes[(r, column)] = (above[r] - below[r]) / (2.0 * step);
        }
    };
    for (i, pose) in poses.iter().enumerate() {
        for (k, step) in CARD_STEPS.iter().enumerate() {
            let mut by = SVector::<f64, OF_CARD>::zeros();
            by[k] = *step;
            let mut moved = poses.clone();
            moved[i] = pose.moved(&by);
            let above = figures(&moved, &photo, pixel, 0.0)?.0;
            moved[i] = pose.moved(&-by);
            let below = figures(&moved, &photo, pixel, 0.0)?.0;
            put(i * OF_CARD + k, *step, above, below);
        }
    }
    for (k, step) in PHOTO_STEPS.iter().enumerate() {
        let mut by = SVector::<f64, OF_PHOTO>::zeros();
        by[k] = *step;
        let above = figures(&poses, &photo.moved(&by), pixel, 0.0)?.0;
        let below = figures(&poses, &photo.moved(&-by), pixel, 0.0)?.0;
        put(n + k, *step, above, below);
    }
    // Covariance of the cards and this photo.
    let mut covariance = DMatrix::zeros(n + OF_PHOTO, n + OF_PHOTO);
    let all = &scene.covariance;
    covariance
        .view_mut((0, 0), (n, n))
        .copy_from(&with_tips(scene, given.u_tip.0));
    covariance
        .view_mut((0, n), (n, OF_PHOTO))
        .copy_from(&all.view((0, at), (n, OF_PHOTO)));
    covariance
        .view_mut((n, 0), (OF_PHOTO, n))
        .copy_from(&all.view((at, 0), (OF_PHOTO, n)));
    covariance
        .view_mut((n, n), (OF_PHOTO, OF_PHOTO))
        .copy_from(&all.view((at, at), (OF_PHOTO, OF_PHOTO)));
    let spread = &slopes * covariance * slopes.transpose();
    // The tap itself and the face off the surface.
    let by = |pixel: [f64; 2], outward: f64| Some(figures(&poses, &photo, pixel, outward)?.0);
    let right = by([tap.x + 1.0, tap.y], 0.0)?;
    let down = by([tap.x, tap.y + 1.0], 0.0)?;
    let off = by(pixel, 1.0)?;
    let u_off = surface.u_off(&met);
    let mut out = [[0.0; 2]; 2];
    for (r, row) in out.iter_mut().enumerate() {
        for (c, cell) in row.iter_mut().enumerate() {
            let part =
                |moved: [f64; 2], u: f64| (moved[r] - value[r]) * (moved[c] - value[c]) * u * u;
            *cell = spread[(r, c)] + part(right, tap.u) + part(down, tap.u) + part(off, u_off);
        }
    }
    Some(Landed {
        value,
        covariance: out,
        met,
    })
}

/// The frame of a scene with its cards moved.
fn frame_of(scene: &Scene, poses: &[CardPose], marks: usize) -> Option<Frame> {
    let cards: Vec<(CardPose, Standing)> = scene
        .cards
        .iter()
        .zip(poses)
        .filter_map(|(c, pose)| Some((*pose, Standing::of(c.code, marks)?)))
        .collect();
    Frame::new(&cards, marks)
}

/// How far each mark that is seen lies below a line tapped at two or more
/// places (negative: above it), measured along the face: mark counted from
/// 0, measure. Straight between taps; beyond them the line goes on straight
/// and its uncertainty grows with it. Empty for fewer than two places.
#[must_use]
pub fn below_line(
    scene: &Scene,
    given: &Given,
    taps: &[Tap],
) -> Vec<(usize, Estimate<Millimetres>)> {
    let landed: Option<Vec<Landed>> = taps.iter().map(|tap| land(scene, given, tap)).collect();
    let Some(mut landed) = landed.filter(|l| l.len() >= 2) else {
        return Vec::new();
    };
    landed.sort_by(|a, b| a.met.along.total_cmp(&b.met.along));
    let poses = scene_poses(scene);
    let Some(frame) = frame_of(scene, &poses, given.marks) else {
        return Vec::new();
    };
    let mut out: Vec<(usize, Estimate<Millimetres>)> = scene
        .cards
        .iter()
        .filter_map(|card| {
            let Some(Standing::Mark(mark)) = Standing::of(card.code, given.marks) else {
                return None;
            };
            let x = frame.place(&card.pose.tip)[0];
            let right = landed
                .iter()
                .position(|l| l.value[0] >= x)
                .unwrap_or(landed.len() - 1)
                .max(1);
            let (a, b) = (&landed[right - 1], &landed[right]);
            let span = b.value[0] - a.value[0];
            if span.abs() < 20.0 {
                return None;
            }
            let t = (x - a.value[0]) / span;
            let height = a.value[1] * (1.0 - t) + b.value[1] * t;
            let u = root_sum_of_squares(&[
                (1.0 - t) * a.covariance[1][1].sqrt(),
                t * b.covariance[1][1].sqrt(),
                given.u_tip.0,
                height * given.print.u,
            ]);
            let factor = given.print.factor;
            let below = Estimate::new(Millimetres(height * factor), Millimetres(u * factor));
            Some((mark, below))
        })
        .collect();
    out.sort_by_key(|o| o.0);
    out
}
