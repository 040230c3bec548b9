//! One to six photos of the same cards, solved together.

use nalgebra::DMatrix;

use super::bends::bends;
use super::bundle::{Effort, Moves, Sight, Solved, State, Task, covariance, solve};
use super::camera::CameraPrior;
use super::gate::{
    EDITED_LEFT, MOST_LEFT, MOST_LEFT_PIXELS, Said, contradicts, left_pixels, on_curve, said, scale,
};
use super::join::join;
use super::pose::{CardPose, OF_CARD, OF_PHOTO, PhotoPose};
use super::seen::{CardSeen, PhotoSeen};
use super::start::BEND_BEFORE;
use crate::text::{Message, msg};

/// Photos at most.
pub const MOST_PHOTOS: usize = 6;
/// Cards at least.
pub const LEAST_CARDS: usize = 2;
/// A cross is not known better than this, in pixels.
const LEAST_U: f64 = 0.03;
/// An edited photo may hide more than it shows: its figures' u are so many
/// times what the covariance says.
const EDITED_WIDER: f64 = 1.5;

/// Why photos give no measures.
#[derive(Clone, Debug, PartialEq)]
pub enum PhotoFault {
    /// No photo, or more than [`MOST_PHOTOS`].
    HowMany(usize),
    /// Fewer than [`LEAST_CARDS`] cards are seen in all.
    TooFewCards(usize),
    /// A code twice in one photo (counted from 0).
    Twice {
        /// Which photo.
        photo: usize,
        /// Which code.
        code: u16,
    },
    /// A photo is mirrored.
    Mirrored {
        /// Which photo.
        photo: usize,
    },
    /// A photo shares no card with the others.
    NotJoined {
        /// Which photo.
        photo: usize,
    },
    /// No places of the cards fit the photos.
    DoesNotFit {
        /// What is left, root mean square in pixels an axis.
        left: f64,
    },
    /// A photo alone whose camera is not the one it names.
    NotAsTaken {
        /// Which photo.
        photo: usize,
    },
    /// A card does not stand on one curve with its neighbours: of another
    /// scale, or not on the bumper.
    OffCurve {
        /// Which code.
        code: u16,
    },
}

impl PhotoFault {
    /// The fault with its photo's place among all photos, of which only these
    /// were looked at.
    pub(super) fn of_photos(mut self, looked_at: &[usize]) -> Self {
        if let Self::Twice { photo, .. }
        | Self::Mirrored { photo }
        | Self::NotJoined { photo }
        | Self::NotAsTaken { photo } = &mut self
        {
            *photo = looked_at.get(*photo).copied().unwrap_or(*photo);
        }
        self
    }

    /// What the fitter is told.
    #[must_use]
    pub fn message(&self) -> Message {
        let photo_of = |photo: &usize| i64::try_from(photo + 1).unwrap_or(i64::MAX);
        match self {
            Self::HowMany(n) => msg("solve-how-many")
                .count("photos", i64::try_from(*n).unwrap_or(i64::MAX))
                .count("most", MOST_PHOTOS as i64),
            Self::TooFewCards(n) => {
                msg("solve-too-few-cards").count("cards", i64::try_from(*n).unwrap_or(i64::MAX))
            }
            Self::Twice { photo, code } => msg("solve-card-twice")
                .count("photo", photo_of(photo))
                .count("card", i64::from(*code) + 1),
            Self::Mirrored { photo } => msg("solve-mirrored").count("photo", photo_of(photo)),
            Self::NotJoined { photo } => msg("solve-not-joined").count("photo", photo_of(photo)),
            Self::DoesNotFit { left } => msg("solve-does-not-fit").number("left", *left, 1),
            Self::NotAsTaken { photo } => msg("solve-not-as-taken").count("photo", photo_of(photo)),
            Self::OffCurve { code } => {
                msg("solve-card-off-curve").count("card", i64::from(*code) + 1)
            }
        }
    }
}

/// A card in the solved scene.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CardPlaced {
    /// Its code.
    pub code: u16,
    /// Its pose in the world frame (the first photo's camera), millimetres
    /// of the print.
    pub pose: CardPose,
    /// In how many photos it was seen.
    pub seen_in: usize,
}

/// The solved scene.
#[derive(Clone, Debug)]
pub struct Scene {
    /// Cards in order of their code.
    pub cards: Vec<CardPlaced>,
    /// Photos in the order given.
    pub photos: Vec<PhotoPose>,
    /// Covariance of all unknowns, cards first, as [`covariance`].
    pub covariance: DMatrix<f64>,
    /// What is left of the crosses, root mean square in pixels an axis.
    pub left: f64,
    /// Photos whose camera is not the one they name: cropped or edited.
    pub edited: Vec<usize>,
    /// The task and state at the least cost, for checks from outside.
    pub task: Task,
}

impl Scene {
    /// The state at the least cost.
    #[must_use]
    pub fn state(&self) -> State {
        State {
            photos: self.photos.clone(),
            cards: self.cards.iter().map(|c| c.pose).collect(),
        }
    }

    /// How many unknowns the covariance has.
    #[must_use]
    pub fn unknowns(&self) -> usize {
        self.cards.len() * OF_CARD + self.photos.len() * OF_PHOTO
    }
}

/// Solves photos of cards.
///
/// # Errors
/// [`PhotoFault`]: never a figure from photos that do not fit.
pub fn solve_photos(photos: &[PhotoSeen]) -> Result<Scene, PhotoFault> {
    if photos.is_empty() || photos.len() > MOST_PHOTOS {
        return Err(PhotoFault::HowMany(photos.len()));
    }
    for (i, photo) in photos.iter().enumerate() {
        check_photo(i, photo)?;
    }
    let codes = codes(photos);
    if codes.len() < LEAST_CARDS {
        return Err(PhotoFault::TooFewCards(codes.len()));
    }
    let sights = sights(photos, &codes);
    let mut cameras: Vec<CameraPrior> = photos
        .iter()
        .map(|p| CameraPrior::new(p.width, p.height, p.exif.focal_35mm))
        .collect();
    let mut edited = Vec::new();
    for (i, photo) in photos.iter().enumerate() {
        match said(photo) {
            Said::AsTaken => {}
            Said::Edited if photos.len() == 1 => return Err(PhotoFault::NotAsTaken { photo: i }),
            Said::Nothing | Said::Edited => {
                cameras[i] = cameras[i].edited();
                edited.push(i);
            }
        }
    }
    let size = photos.iter().map(|p| p.width.max(p.height)).max();
    let most_pixels = MOST_LEFT_PIXELS * (f64::from(size.unwrap_or(4000)) / 4000.0).max(0.5);
    loop {
        let (task, solved) = fit(&cameras, &codes, &sights)?;
        let scale = scale(&task, &solved);
        let left = left_pixels(&task, &solved);
        let nothing = PhotoFault::DoesNotFit { left };
        let spread = covariance(&task, &solved.state).ok_or(nothing.clone())?;
        // Cameras that their photo itself contradicts.
        let wrong: Vec<usize> = (0..photos.len())
            .filter(|i| !edited.contains(i))
            .filter(|&i| scale > EDITED_LEFT || contradicts(&task, &solved, &spread, i))
            .collect();
        if photos.len() == 1 && !wrong.is_empty() {
            return Err(PhotoFault::NotAsTaken { photo: 0 });
        }
        if wrong.is_empty() {
            if scale > MOST_LEFT || left > most_pixels {
                return Err(nothing);
            }
            let wider = if edited.is_empty() { 1.0 } else { EDITED_WIDER };
            let scene = Scene {
                cards: placed(&task, &solved, &codes),
                photos: solved.state.photos,
                covariance: spread * (scale * wider).powi(2),
                left,
                edited,
                task,
            };
            on_curve(&scene)?;
            return Ok(scene);
        }
        for i in wrong {
            cameras[i] = cameras[i].edited();
            edited.push(i);
        }
    }
}

/// Duplicates and mirrored cards.
fn check_photo(photo: usize, seen: &PhotoSeen) -> Result<(), PhotoFault> {
    for (i, card) in seen.cards.iter().enumerate() {
        if seen.cards[..i].iter().any(|c| c.code == card.code) {
            let code = card.code;
            return Err(PhotoFault::Twice { photo, code });
        }
        if area(card) <= 0.0 {
            return Err(PhotoFault::Mirrored { photo });
        }
    }
    Ok(())
}

/// Area of the crosses' quadrangle, + when they run clockwise as printed.
fn area(card: &CardSeen) -> f64 {
    let c = &card.crosses;
    (0..4)
        .map(|i| (&c[i], &c[(i + 1) % 4]))
        .map(|(a, b)| a.x * b.y - b.x * a.y)
        .sum::<f64>()
        / 2.0
}

fn codes(photos: &[PhotoSeen]) -> Vec<u16> {
    let mut codes: Vec<u16> = photos
        .iter()
        .flat_map(|p| p.cards.iter().map(|c| c.code))
        .collect();
    codes.sort_unstable();
    codes.dedup();
    codes
}

fn sights(photos: &[PhotoSeen], codes: &[u16]) -> Vec<Sight> {
    let mut sights = Vec::new();
    for (photo, seen) in photos.iter().enumerate() {
        for card in &seen.cards {
            if let Ok(at) = codes.binary_search(&card.code) {
                let crosses = card.crosses.map(|c| [c.x, c.y, c.u.max(LEAST_U)]);
                sights.push(Sight {
                    photo,
                    card: at,
                    crosses,
                });
            }
        }
    }
    sights
}

/// All photos together: each by itself, joined, solved, the bends taken
/// from the shape, solved again.
fn fit(
    cameras: &[CameraPrior],
    codes: &[u16],
    sights: &[Sight],
) -> Result<(Task, Solved), PhotoFault> {
    let state = join(cameras, codes.len(), sights)?;
    let mut task = Task {
        cameras: cameras.to_vec(),
        bends: vec![BEND_BEFORE; codes.len()],
        sights: sights.to_vec(),
    };
    let nothing = PhotoFault::DoesNotFit { left: f64::NAN };
    let first = solve(&task, state, Moves::All, Effort::Rough).ok_or(nothing.clone())?;
    task.bends = bends(&first.state.cards);
    let second = solve(&task, first.state, Moves::All, Effort::Full).ok_or(nothing)?;
    Ok((task, second))
}

fn placed(task: &Task, solved: &Solved, codes: &[u16]) -> Vec<CardPlaced> {
    let cards = codes.iter().zip(&solved.state.cards).enumerate();
    cards
        .map(|(i, (code, pose))| CardPlaced {
            code: *code,
            pose: *pose,
            seen_in: task.sights.iter().filter(|s| s.card == i).count(),
        })
        .collect()
}
