//! Photos of a job: what they show, how they were taken, what was drawn on
//! them. The pictures themselves are blobs in the store, never in the record.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, cut};
use super::state::JobState;
use crate::steps::StepName;
use crate::text::msg;

/// Most photos of a job.
pub const JOB_PHOTOS_GREATEST: usize = 200;

/// Most notes drawn on one photo.
pub const NOTES_GREATEST: usize = 40;

/// What a photo shows.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum PhotoOf {
    /// Something at a step.
    Step(StepName),
    /// A finished head, 0 for the leftmost.
    Head(u8),
}

/// A place in a picture: fractions of its width and height, from the top left.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PicturePlace {
    /// Fraction of the width, 0 to 1.
    pub x: f32,
    /// Fraction of the height, 0 to 1.
    pub y: f32,
}

/// Something drawn on a photo.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Note {
    /// An arrow from a place to the place it points at.
    Arrow(PicturePlace, PicturePlace),
    /// A circle by its middle and a place on it.
    Circle(PicturePlace, PicturePlace),
    /// Words at a place.
    Words(PicturePlace, String),
}

/// A photo of a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Photo {
    /// Key of the resized copy in the blob store.
    pub blob: String,
    /// Key of the picture as it came, where the workshop keeps it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub original: Option<String>,
    /// Width of the resized copy, pixels.
    pub width: u32,
    /// Height of the resized copy, pixels.
    pub height: u32,
    /// What it shows.
    pub of: PhotoOf,
    /// When it was taken or chosen.
    pub at: DateTime<FixedOffset>,
    /// How far the phone looked up (+) or down, degrees, if it was known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub elevation: Option<f32>,
    /// What is drawn on it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub notes: Vec<Note>,
}

/// Something about photos.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum PhotoEvent {
    /// A photo was taken or chosen; its time is the event's.
    Taken(Box<Photo>),
    /// A photo was taken out, by its blob.
    Dropped(String),
    /// Something was drawn on a photo.
    Noted(String, Note),
    /// The last thing drawn on a photo was taken back.
    NoteDropped(String),
}

pub(super) fn apply(
    next: &mut JobState,
    event: PhotoEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    let of = |next: &mut JobState, blob: &str| {
        let index = next.photos.iter().position(|photo| photo.blob == blob);
        index.ok_or_else(|| Refusal(msg("photo-not-there")))
    };
    match event {
        PhotoEvent::Taken(photo) => {
            if next.photos.len() >= JOB_PHOTOS_GREATEST {
                let most = i64::try_from(JOB_PHOTOS_GREATEST).unwrap_or(i64::MAX);
                return Err(Refusal(msg("photo-too-many").count("most", most)));
            }
            next.photos.push(Photo { at, ..*photo });
        }
        PhotoEvent::Dropped(blob) => {
            let index = of(next, &blob)?;
            next.photos.remove(index);
        }
        PhotoEvent::Noted(blob, note) => {
            let index = of(next, &blob)?;
            let notes = &mut next.photos[index].notes;
            if notes.len() >= NOTES_GREATEST {
                let most = i64::try_from(NOTES_GREATEST).unwrap_or(i64::MAX);
                return Err(Refusal(msg("photo-notes-full").count("most", most)));
            }
            notes.push(inside(note)?);
        }
        PhotoEvent::NoteDropped(blob) => {
            let index = of(next, &blob)?;
            next.photos[index].notes.pop();
        }
    }
    Ok(())
}

fn inside(note: Note) -> Result<Note, Refusal> {
    let within = |place: PicturePlace| {
        let fits = |value: f32| (0.0..=1.0).contains(&value);
        (fits(place.x) && fits(place.y))
            .then_some(place)
            .ok_or_else(|| Refusal(msg("photo-note-outside")))
    };
    Ok(match note {
        Note::Arrow(from, to) => Note::Arrow(within(from)?, within(to)?),
        Note::Circle(middle, edge) => Note::Circle(within(middle)?, within(edge)?),
        Note::Words(place, words) => {
            let words = cut(words.trim().to_owned());
            if words.is_empty() {
                return Err(Refusal(msg("photo-no-words")));
            }
            Note::Words(within(place)?, words)
        }
    })
}

/// Photos of one thing, oldest first.
pub fn photos_of<'a>(job: &'a JobState, of: &'a PhotoOf) -> impl Iterator<Item = &'a Photo> {
    job.photos.iter().filter(move |photo| photo.of == *of)
}

/// The photo that stands for a finished head: the last one.
#[must_use]
pub fn head_photo(job: &JobState, head: u8) -> Option<&Photo> {
    job.photos
        .iter()
        .rev()
        .find(|photo| photo.of == PhotoOf::Head(head))
}

/// Heads without a photo, left to right.
#[must_use]
pub fn heads_without_photo(job: &JobState) -> Vec<u8> {
    let heads = u8::try_from(job.spots.len()).unwrap_or(u8::MAX);
    (0..heads)
        .filter(|head| head_photo(job, *head).is_none())
        .collect()
}
