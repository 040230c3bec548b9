//! What may have happened to photos before they arrive.

use rakeline_core::estimate::photo::seen::{CrossSeen, PhotoSeen};

use super::{Kind, Scene, within};
use crate::dice::Dice;

/// What may have happened to photos before they arrive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Harm {
    /// Cut to a part off the middle; the focal length still names the whole.
    Cropped,
    /// Names another focal length.
    OtherFocal,
    /// One card printed smaller.
    OneCardSmaller,
    /// Photo of a print or a screen, from a little aside.
    PhotoOfPhoto,
    /// Stretched one way by 4 %.
    Stretched,
    /// Mirrored.
    Mirrored,
    /// One card was moved between the photos.
    CardMoved,
    /// Photos of two different cars.
    OtherCar,
}

impl Harm {
    /// All.
    pub const ALL: [Self; 8] = [
        Self::Cropped,
        Self::OtherFocal,
        Self::OneCardSmaller,
        Self::PhotoOfPhoto,
        Self::Stretched,
        Self::Mirrored,
        Self::CardMoved,
        Self::OtherCar,
    ];
}

/// What harmed photos of a scene see.
#[must_use]
pub fn harmed(scene: &Scene, seed: u64, noise: f64, harm: Harm) -> Vec<PhotoSeen> {
    let mut scene = scene.clone();
    let mut dice = Dice(seed ^ 0xABCD);
    match harm {
        Harm::OneCardSmaller => {
            let which = dice.below(scene.cards.len());
            scene.cards[which].scale = 0.94;
        }
        Harm::OtherFocal => {
            for shot in &mut scene.shots {
                shot.focal_35mm = shot.focal_35mm.map(|f| f * 1.5);
            }
        }
        _ => {}
    }
    let mut seen = scene.seen(seed, noise);
    let last = seen.len() - 1;
    match harm {
        Harm::CardMoved => {
            let which = dice.below(scene.cards.len());
            scene.cards[which].s += 15.0;
            seen[last] = scene.seen(seed, noise)[last].clone();
        }
        Harm::OtherCar => {
            let kind = Kind {
                marks: scene.cards.len(),
                photos: seen.len(),
                noise,
                centre: false,
            };
            seen[last] = Scene::any(seed + 1000, kind).seen(seed, noise)[last].clone();
        }
        _ => {}
    }
    let (tilt, sideways) = (within(&mut dice, 0.15, 0.4), within(&mut dice, -0.2, 0.2));
    for photo in &mut seen {
        let (w, h) = (f64::from(photo.width), f64::from(photo.height));
        let map = |x: f64, y: f64| match harm {
            Harm::Cropped => (x - 0.02 * w, y - 0.3 * h),
            Harm::Mirrored => (w - 1.0 - x, y),
            Harm::Stretched => (x * 1.04, y),
            Harm::PhotoOfPhoto => {
                // A plane seen from aside by a camera of 0.75 w focal length.
                let (u, v) = ((x - w / 2.0) / w, (y - h / 2.0) / w);
                let depth = 1.0 + u * tilt.sin() + v * sideways.sin();
                let (u, v) = (u * tilt.cos() / depth, v * sideways.cos() / depth);
                (w / 2.0 + 0.9 * w * u, h / 2.0 + 0.9 * w * v)
            }
            _ => (x, y),
        };
        for cross in photo.cards.iter_mut().flat_map(|c| &mut c.crosses) {
            (cross.x, cross.y) = map(cross.x, cross.y);
        }
        if harm == Harm::Cropped {
            photo.width = (w * 0.96) as u32;
            photo.height = (h * 0.5) as u32;
        }
        if harm == Harm::Stretched {
            photo.width = (w * 1.04) as u32;
        }
        let (w, h) = (f64::from(photo.width), f64::from(photo.height));
        photo.cards.retain(|card| {
            let inside = |c: &CrossSeen| c.x > 0.0 && c.y > 0.0 && c.x < w && c.y < h;
            card.crosses.iter().all(inside)
        });
    }
    seen
}
