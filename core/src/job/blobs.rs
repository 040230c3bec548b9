//! The pictures of a job: they lie beside its record, each under a key.

use super::state::JobState;

/// Keys of all pictures that a job refers to. What keeps a picture of a job
/// names it here, else the picture is cleaned up as one that nobody needs.
#[must_use]
pub fn blobs(job: &JobState) -> Vec<&str> {
    let level = job.measuring.photos.iter().map(|photo| &photo.blob);
    let behind = job.behind.photos.iter().map(|photo| &photo.blob);
    level.chain(behind).map(String::as_str).collect()
}
