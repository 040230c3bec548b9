//! Photos in, figures out: all steps in one.

use super::camera::CameraPrior;
use super::frame::{Frame, Standing};
use super::heads::{below_line, on_face};
use super::measured::{Given, measure};
use super::plane::{Flat, PlaneFault, measure_by_length, measure_by_plane};
use super::result::{BAR, FlatKind, HeadMeasured, Outcome, Tap, Taps, U_TAP, View};
use super::scene::{Scene, solve_photos};
use super::seen::PhotoSeen;
use crate::text::Message;
use crate::units::{Estimate, Millimetres};

/// Solves photos and measures marks, heads and line.
///
/// # Errors
/// What the fitter is told when photos or cards do not serve.
pub fn outcome(photos: &[PhotoSeen], given: &Given, taps: &Taps) -> Result<Outcome, Message> {
    // A photo without a card, kept for what it shows, says nothing here.
    let with_cards: Vec<usize> = (0..photos.len())
        .filter(|photo| !photos[*photo].cards.is_empty())
        .collect();
    if with_cards.len() == photos.len() || with_cards.is_empty() {
        let scene = solve_photos(photos).map_err(|fault| fault.message())?;
        return outcome_of(&scene, given, taps);
    }
    let own: Vec<PhotoSeen> = with_cards.iter().map(|i| photos[*i].clone()).collect();
    let scene = solve_photos(&own).map_err(|fault| fault.of_photos(&with_cards).message())?;
    let moved = |tap: &Tap| {
        let photo = with_cards.iter().position(|i| *i == tap.photo)?;
        Some(Tap { photo, ..*tap })
    };
    let heads = taps.heads.iter();
    let taps = Taps {
        heads: heads
            .filter_map(|(head, tap)| Some((*head, moved(tap)?)))
            .collect(),
        line: taps.line.iter().filter_map(moved).collect(),
    };
    let found = outcome_of(&scene, given, &taps)?;
    let mut views = vec![View::default(); photos.len()];
    for (photo, view) in with_cards.iter().zip(found.views) {
        views[*photo] = view;
    }
    Ok(Outcome { views, ..found })
}

fn outcome_of(scene: &Scene, given: &Given, taps: &Taps) -> Result<Outcome, Message> {
    let measured = measure(scene, given).map_err(|fault| fault.message())?;
    let mut which: Vec<usize> = taps.heads.iter().map(|tap| tap.0).collect();
    which.sort_unstable();
    which.dedup();
    let heads = which
        .into_iter()
        .filter_map(|head| {
            let own = taps.heads.iter().filter(|tap| tap.0 == head);
            let own: Vec<Tap> = own.map(|tap| tap.1).collect();
            let at = on_face(scene, given, &own)?;
            Some(HeadMeasured { head, at })
        })
        .collect();
    Ok(Outcome {
        measured,
        views: views(scene, given),
        heads,
        below_line: below_line(scene, given, &taps.line),
    })
}

/// Where the tips and a bar stand in each photo.
fn views(scene: &Scene, given: &Given) -> Vec<View> {
    let cards: Vec<_> = scene
        .cards
        .iter()
        .filter_map(|c| Some((c.pose, Standing::of(c.code, given.marks)?)))
        .collect();
    let frame = Frame::new(&cards, given.marks);
    let seen = |photo: usize, code: u16| {
        let of_photo = scene.task.sights.iter().filter(|s| s.photo == photo);
        of_photo
            .into_iter()
            .any(|s| scene.cards[s.card].code == code)
    };
    scene
        .photos
        .iter()
        .enumerate()
        .map(|(i, photo)| {
            let pixel = |at: &nalgebra::Vector3<f64>| {
                let pixel = photo.camera.project(&photo.seen(at))?;
                Some([pixel.x, pixel.y])
            };
            let mut view = View::default();
            for card in scene.cards.iter().filter(|c| seen(i, c.code)) {
                match Standing::of(card.code, given.marks) {
                    Some(Standing::Mark(mark)) => {
                        view.marks
                            .extend(pixel(&card.pose.tip).map(|at| (mark, at)));
                    }
                    Some(Standing::Centre) => view.centre = pixel(&card.pose.tip),
                    None => {}
                }
            }
            view.bar = frame.and_then(|frame| {
                // Print millimetres: the bar is of true length.
                let half = frame.across * (BAR.0 / given.print.factor / 2.0);
                let middle = cards.iter().map(|c| c.0.tip).min_by(|a, b| {
                    let off = |at: &nalgebra::Vector3<f64>| frame.place(at)[0].abs();
                    off(a).total_cmp(&off(b))
                })?;
                Some([pixel(&(middle - half))?, pixel(&(middle + half))?])
            });
            view
        })
        .collect()
}

/// The distance of the last two taps by a flat thing or a taped length,
/// whose corners or ends were tapped before them.
///
/// # Errors
/// What the fitter is told, also where the ± would be too great.
pub fn by_plane(
    photo: &PhotoSeen,
    flat: FlatKind,
    taps: &[[f64; 2]],
) -> Result<Estimate<Millimetres>, Message> {
    let camera = CameraPrior::new(photo.width, photo.height, photo.exif.focal_35mm);
    let not_flat = || PlaneFault::NotFlat.message();
    let found = match flat {
        FlatKind::Taped(length) => {
            let [a, b, c, d] = *taps else {
                return Err(not_flat());
            };
            measure_by_length(length, &[a, b], &[c, d], U_TAP, &camera)
        }
        sheet => {
            let [a, b, c, d, e, f] = *taps else {
                return Err(not_flat());
            };
            let flat = match sheet {
                FlatKind::A4 => Flat::a4(),
                FlatKind::Letter => Flat::letter(),
                FlatKind::Plate(width, height) => Flat::plate(width, height)?,
                FlatKind::BankCard | FlatKind::Taped(_) => Flat::bank_card(),
            };
            measure_by_plane(&flat, &[a, b, c, d], &[e, f], U_TAP, &camera)
        }
    };
    found.map_err(|fault| fault.message())
}
