//! Pictures that no job refers to: dropped photos, whose picture stayed for
//! the way back, and what a kill left between picture and record.

use rakeline_core::job;

use super::intent::{Action, Now};
use super::state::{AppState, Boot};

/// A younger picture stays: another page may still take the step back, or
/// be about to write the record, milliseconds.
const LOOSE_AFTER: i64 = 24 * 60 * 60 * 1000;

/// Removes them once all records were read. While a record can't be read,
/// all stay: they may be its pictures.
pub(super) fn found(app: &AppState, keys: Vec<String>, now: &Now) -> Vec<Action> {
    if app.boot != Boot::Ready || !app.unreadable.is_empty() {
        return Vec::new();
    }
    let open = app.job().map(job::blobs_of).unwrap_or_default();
    let entries = || app.jobs.iter().chain(&app.trash).chain(&app.lost);
    let is_logo = |key: &String| {
        let logo = app.settings.logo.as_ref();
        logo.is_some_and(|logo| logo.blob == *key)
    };
    let kept = |key: &String| {
        open.contains(key) || is_logo(key) || entries().any(|entry| entry.blobs.contains(key))
    };
    let old = |key: &String| {
        let taken = key.rsplit('-').next().and_then(|taken| taken.parse().ok());
        taken.is_some_and(|taken: i64| now.at.timestamp_millis() - taken > LOOSE_AFTER)
    };
    let mut keys = keys;
    keys.retain(|key| old(key) && !kept(key));
    keys.into_iter().map(Action::DropBlob).collect()
}
