//! Photos of what was found behind earlier bumpers. They stay on the phone
//! that took them: no lesson carries one.

use super::offer::Offer;
use crate::job::{FromJob, JobState, photo_name};
use crate::text::Message;

/// Most photos that an offer shows, the best jobs' first.
pub const PICTURES_GREATEST: usize = 12;

/// A photo of an earlier vehicle.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    /// Key of the picture in the blob store.
    pub blob: String,
    /// What it shows.
    pub name: Message,
    /// The job that it comes from.
    pub from: Message,
}

/// The photos of the look behind of own jobs that an offer counts.
#[must_use]
pub fn pictures(offer: &Offer, own: &[JobState]) -> Vec<Picture> {
    let counted = offer.from.iter().filter(|from| from.theirs.is_none());
    let found = counted.flat_map(|from| {
        let job = own.iter().find(|job| job.id.0 == from.id);
        job.into_iter().flat_map(|job| of_job(job, from))
    });
    found.take(PICTURES_GREATEST).collect()
}

fn of_job<'a>(job: &'a JobState, from: &FromJob) -> impl Iterator<Item = Picture> + use<'a> {
    let from = from.message();
    let photos = job.behind.photos.iter();
    photos.map(move |photo| Picture {
        blob: photo.blob.clone(),
        name: photo_name(job, photo),
        from: from.clone(),
    })
}
