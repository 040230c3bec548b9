//! Photos of mark cards: what was seen in each, what was tapped, what they
//! measured together. The pictures themselves are blobs in the store.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::state::JobState;
use crate::estimate::photo::result::{Outcome, Tap, Taps};
use crate::estimate::photo::seen::PhotoSeen;
use crate::sample::CheckLine;
use crate::text::{Message, msg};

/// Most photos that are solved together.
pub const CARD_PHOTOS_GREATEST: usize = 6;
/// Most taps that a job keeps.
pub const TAPS_GREATEST: usize = 60;

/// A photo to measure from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CardPhoto {
    /// Key of the picture in the blob store.
    pub blob: String,
    /// When it was kept.
    pub at: DateTime<FixedOffset>,
    /// What was seen in it; its size is the upright picture's.
    pub seen: PhotoSeen,
    /// What is known of the print of the cards in it.
    #[serde(default)]
    pub print: CardPrint,
}

/// What is known of the print of the cards in a photo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum CardPrint {
    /// Nothing was kept with the photo.
    #[default]
    NotKept,
    /// Its check line was not measured.
    NotMeasured,
    /// Its check line measures this.
    Line(CheckLine),
}

impl CardPrint {
    /// By what the check line measures, if it was measured.
    #[must_use]
    pub fn of(line: Option<CheckLine>) -> Self {
        line.map_or(Self::NotMeasured, Self::Line)
    }
}

/// From what the shape from above and the corner angles come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum ShapeFrom {
    /// Typed or swept corner angles.
    #[default]
    Angles,
    /// The photos.
    Photos,
}

/// What is measured from photos.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CardPhotos {
    /// Photos, oldest first.
    pub photos: Vec<CardPhoto>,
    /// What was tapped in them.
    pub taps: Taps,
    /// What they measured; `None` until it was solved as it is now.
    pub outcome: Option<Outcome>,
    /// Where the shape from above comes from.
    pub shape: ShapeFrom,
}

/// Something about photos of mark cards.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum CardPhotosEvent {
    /// A photo was looked at and kept.
    Seen(Box<CardPhoto>),
    /// A photo was taken out, by its blob.
    Dropped(String),
    /// The middle of a fitted head was tapped.
    HeadTapped(usize, Tap),
    /// A place of the line that runs across was tapped.
    LineTapped(Tap),
    /// All taps on a head were taken out.
    HeadUntapped(usize),
    /// All taps on the line were taken out.
    LineUntapped,
    /// The photos and taps as they are now measured this.
    Measured(Box<Outcome>),
    /// Where the shape from above comes from.
    ShapeChosen(ShapeFrom),
    /// The check line of the cards in all photos was measured, or its length
    /// was taken back: what they measured with another one no longer holds.
    PrintSaid(CardPrint),
}

impl CardPhotos {
    /// The print that all photos are solved with: what the newest one says.
    #[must_use]
    pub fn print(&self) -> CardPrint {
        self.photos
            .last()
            .map_or(CardPrint::NotKept, |photo| photo.print)
    }
}

pub(super) fn apply(next: &mut JobState, event: CardPhotosEvent) -> Result<(), Refusal> {
    let heads = next.spots.len();
    let state = &mut next.card_photos;
    match event {
        CardPhotosEvent::Measured(outcome) => {
            state.outcome = Some(*outcome);
            return Ok(());
        }
        CardPhotosEvent::ShapeChosen(from) => {
            if from == ShapeFrom::Photos && shape_of(state).is_none() {
                let why = shape_trouble(state);
                return Err(Refusal(why.unwrap_or_else(|| msg("solve-no-straight"))));
            }
            state.shape = from;
            return Ok(());
        }
        CardPhotosEvent::Seen(photo) => {
            if state.photos.len() >= CARD_PHOTOS_GREATEST {
                let most = i64::try_from(CARD_PHOTOS_GREATEST).unwrap_or(i64::MAX);
                return Err(Refusal(msg("cards-too-many-photos").count("most", most)));
            }
            state.photos.push(*photo);
        }
        CardPhotosEvent::Dropped(blob) => {
            let index = state.photos.iter().position(|photo| photo.blob == blob);
            let index = index.ok_or_else(|| Refusal(msg("photo-not-there")))?;
            state.photos.remove(index);
            let stays = |tap: &mut Tap| {
                let stays = tap.photo != index;
                tap.photo -= usize::from(tap.photo > index);
                stays
            };
            state.taps.heads.retain_mut(|(_, tap)| stays(tap));
            state.taps.line.retain_mut(stays);
        }
        CardPhotosEvent::HeadTapped(head, tap) => {
            let tap = inside(state, tap)?;
            if head >= heads {
                return Err(super::apply::no_such_spot(next, head));
            }
            // One tap a head and photo: the last counts.
            let taps = &mut state.taps.heads;
            taps.retain(|(other, known)| *other != head || known.photo != tap.photo);
            taps.push((head, tap));
        }
        CardPhotosEvent::LineTapped(tap) => {
            let tap = inside(state, tap)?;
            state.taps.line.push(tap);
        }
        CardPhotosEvent::PrintSaid(print) => {
            for photo in &mut state.photos {
                photo.print = print;
            }
        }
        CardPhotosEvent::HeadUntapped(head) => state.taps.heads.retain(|(at, _)| *at != head),
        CardPhotosEvent::LineUntapped => state.taps.line.clear(),
    }
    state.outcome = None;
    state.shape = ShapeFrom::Angles;
    Ok(())
}

/// A tap that lies in its photo.
fn inside(state: &CardPhotos, tap: Tap) -> Result<Tap, Refusal> {
    let outside = || Refusal(msg("photo-note-outside"));
    let photo = state.photos.get(tap.photo).ok_or_else(outside)?;
    let (width, height) = (f64::from(photo.seen.width), f64::from(photo.seen.height));
    let fits = (-0.5..width).contains(&tap.x) && (-0.5..height).contains(&tap.y) && tap.u > 0.0;
    let count = state.taps.heads.len() + state.taps.line.len();
    (fits && count < TAPS_GREATEST)
        .then_some(tap)
        .ok_or_else(outside)
}

/// Why photos that measured something give no shape from above, beyond that
/// nothing straight is known; `None` where they give one.
pub(super) fn shape_trouble(state: &CardPhotos) -> Option<Message> {
    let why = state.outcome.as_ref()?.measured.plan_curve().err()?;
    (why.key != "solve-no-straight").then_some(why)
}

/// The shape from above that photos measured.
pub(super) fn shape_of(state: &CardPhotos) -> Option<crate::estimate::shape::PlanCurve> {
    state.outcome.as_ref()?.measured.plan_curve().ok()
}
