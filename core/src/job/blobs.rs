//! The pictures of a job: they lie beside its record, each under a key.

use super::state::JobState;

/// Keys of all pictures that a job refers to. What keeps a picture of a job
/// names it here, else the picture is cleaned up as one that nobody needs.
#[must_use]
pub fn blobs(job: &JobState) -> Vec<&str> {
    let level = job.measuring.photos.iter().map(|photo| &photo.blob);
    let answers = std::iter::once(&job.behind.bumper).chain(job.behind.spots.values());
    let behind = answers.filter_map(|answer| answer.photo.as_ref());
    level.chain(behind).map(String::as_str).collect()
}
