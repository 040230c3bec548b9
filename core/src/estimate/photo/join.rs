//! Photos brought into one frame, each solved by itself before.

use nalgebra::{Matrix3, Vector3};

use super::bundle::{Sight, State};
use super::camera::CameraPrior;
use super::card::{CROSSES, TIP};
use super::pose::{CardPose, PhotoPose};
use super::scene::PhotoFault;
use super::start::{OnePhoto, one_photo};

/// Photos one by one into the first one's frame.
///
/// # Errors
/// [`PhotoFault::NotJoined`] where a photo shares no card with the others,
/// [`PhotoFault::DoesNotFit`] where one fits nothing.
pub(super) fn join(
    cameras: &[CameraPrior],
    cards: usize,
    sights: &[Sight],
) -> Result<State, PhotoFault> {
    let mut alone: Vec<(Vec<usize>, OnePhoto)> = Vec::new();
    for (photo, camera) in cameras.iter().enumerate() {
        let own: Vec<&Sight> = sights.iter().filter(|s| s.photo == photo).collect();
        let which: Vec<usize> = own.iter().map(|s| s.card).collect();
        let renumbered: Vec<Sight> = own
            .iter()
            .enumerate()
            .map(|(card, s)| Sight { card, ..**s })
            .collect();
        if renumbered.is_empty() {
            return Err(PhotoFault::NotJoined { photo });
        }
        let solved =
            one_photo(camera, &renumbered).ok_or(PhotoFault::DoesNotFit { left: f64::NAN })?;
        alone.push((which, solved));
    }
    let mut placed: Vec<Option<CardPose>> = vec![None; cards];
    let mut photos: Vec<Option<PhotoPose>> = vec![None; cameras.len()];
    loop {
        let shared = |which: &[usize]| which.iter().filter(|c| placed[**c].is_some()).count();
        let begun = photos.iter().any(Option::is_some);
        let next = (0..photos.len())
            .filter(|i| photos[*i].is_none())
            .map(|i| (shared(&alone[i].0), i))
            .max_by_key(|(n, i)| (*n, usize::MAX - i));
        let Some((shared, photo)) = next else {
            break;
        };
        let (which, solved) = &alone[photo];
        let (turn, shift) = if begun {
            if shared == 0 {
                return Err(PhotoFault::NotJoined { photo });
            }
            let pairs: Vec<(&CardPose, &CardPose)> = which
                .iter()
                .zip(&solved.cards)
                .filter_map(|(c, pose)| Some((placed[*c].as_ref()?, pose)))
                .collect();
            onto(&pairs).ok_or(PhotoFault::NotJoined { photo })?
        } else {
            (Matrix3::identity(), Vector3::zeros())
        };
        for (card, pose) in which.iter().zip(&solved.cards) {
            let at = placed[*card].get_or_insert(*pose);
            if at == pose {
                at.axes = turn.transpose() * pose.axes;
                at.tip = turn.transpose() * (pose.tip - shift);
            }
        }
        photos[photo] = Some(PhotoPose {
            turn,
            shift,
            camera: solved.photo.camera,
        });
    }
    // The first photo is the world.
    let photos: Vec<PhotoPose> = photos.into_iter().flatten().collect();
    let first = photos[0];
    let cards = placed
        .into_iter()
        .flatten()
        .map(|c| CardPose {
            axes: first.turn * c.axes,
            tip: first.seen(&c.tip),
            bend: c.bend,
        })
        .collect();
    let photos = photos
        .into_iter()
        .map(|p| {
            let turn = p.turn * first.turn.transpose();
            PhotoPose {
                turn,
                shift: p.shift - turn * first.shift,
                camera: p.camera,
            }
        })
        .collect();
    Ok(State { photos, cards })
}

/// Rotation and shift that take the first of each pair onto the second
/// (Kabsch, Acta Crystallographica A32, 1976).
fn onto(pairs: &[(&CardPose, &CardPose)]) -> Option<(Matrix3<f64>, Vector3<f64>)> {
    let points: Vec<(Vector3<f64>, Vector3<f64>)> = pairs
        .iter()
        .flat_map(|(a, b)| {
            let places = CROSSES.iter().chain(std::iter::once(&TIP));
            places.map(|(x, y)| (a.place(*x, *y), b.place(*x, *y)))
        })
        .collect();
    let n = points.len() as f64;
    let from = points.iter().map(|p| p.0).sum::<Vector3<f64>>() / n;
    let to = points.iter().map(|p| p.1).sum::<Vector3<f64>>() / n;
    let spread = points
        .iter()
        .map(|(a, b)| (b - to) * (a - from).transpose())
        .sum::<Matrix3<f64>>();
    let svd = spread.svd(true, true);
    let (u, v_t) = (svd.u?, svd.v_t?);
    let sign = (u * v_t).determinant().signum();
    let turn = u * Matrix3::from_diagonal(&Vector3::new(1.0, 1.0, sign)) * v_t;
    Some((turn, to - turn * from))
}
