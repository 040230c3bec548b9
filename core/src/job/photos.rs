//! Photos of what is behind the bumper: taken at the look behind, kept
//! beside the record, named by what they show.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, no_such_spot};
use super::entry::Whose;
use super::state::JobState;
use crate::moment;
use crate::text::{Message, msg};

/// Most photos of the look behind that a job keeps: two a head of the
/// largest kit and some of the bumper (our own figure).
pub const BEHIND_PHOTOS_GREATEST: usize = 20;

/// A photo of what is behind. Its picture is a blob of its own, never part
/// of the record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BehindPhoto {
    /// Key of the picture in the blob store.
    pub blob: String,
    /// Key of the picture as it came, where the workshop keeps it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub original: Option<String>,
    /// What it shows: the whole bumper or one head's place.
    pub whose: Whose,
    /// Width as it is shown, pixels.
    pub width: u32,
    /// Height as it is shown, pixels.
    pub height: u32,
    /// When it was kept.
    pub at: DateTime<FixedOffset>,
}

/// Keeps a photo.
pub(super) fn keep(next: &mut JobState, photo: BehindPhoto) -> Result<(), Refusal> {
    if let Whose::Spot(spot) = photo.whose
        && usize::from(spot) >= next.spots.len()
    {
        return Err(no_such_spot(next, usize::from(spot)));
    }
    if next.behind.photos.len() >= BEHIND_PHOTOS_GREATEST {
        let most = i64::try_from(BEHIND_PHOTOS_GREATEST).unwrap_or(i64::MAX);
        return Err(Refusal(msg("behind-too-many-photos").count("most", most)));
    }
    next.behind.photos.push(photo);
    Ok(())
}

/// The photos of the bumper or of one head's place, oldest first.
pub fn behind_photos(job: &JobState, whose: Whose) -> impl Iterator<Item = &BehindPhoto> {
    let photos = job.behind.photos.iter();
    photos.filter(move |photo| photo.whose == whose)
}

/// What a photo is called.
#[must_use]
pub fn photo_name(job: &JobState, photo: &BehindPhoto) -> Message {
    let when = moment::date_and_clock(&photo.at);
    let label = match photo.whose {
        Whose::Bumper => None,
        Whose::Spot(spot) => job.spots.get(usize::from(spot)),
    };
    match label {
        None => msg("behind-photo-bumper").text("when", when),
        Some(spot) => msg("behind-photo-head")
            .text("label", spot.label.clone())
            .text("when", when),
    }
}

/// Keys of all pictures that a job has in the blob store. What keeps a picture
/// names it here, else it is cleaned up as one that nobody needs.
#[must_use]
pub fn blobs_of(job: &JobState) -> Vec<String> {
    let level = job.measuring.photos.iter().map(|photo| photo.blob.clone());
    let behind = job.behind.photos.iter().flat_map(|photo| {
        let copy = std::iter::once(photo.blob.clone());
        copy.chain(photo.original.clone())
    });
    let taken = job.photos.iter().flat_map(|photo| {
        let copy = std::iter::once(photo.blob.clone());
        copy.chain(photo.original.clone())
    });
    let cards = job.card_photos.photos.iter();
    let cards = cards.map(|photo| photo.blob.clone());
    level.chain(behind).chain(taken).chain(cards).collect()
}
