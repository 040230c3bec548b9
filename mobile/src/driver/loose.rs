//! Pictures that no job refers to: dropped photos, whose picture stayed for
//! the way back, what a kill left between picture and record, and pictures
//! whose jobs are gone from a browser that lost its records.

use rakeline_core::job;
use rakeline_core::text::{Message, msg};

use super::KEPT_PICTURES_KEY;
use super::intent::{Action, Now};
use super::keeping;
use super::keys::KeySet;
use super::state::{AppState, Boot};
use crate::platform::Write;

/// A younger picture stays: another page may still take the step back, or
/// be about to write the record, milliseconds.
const LOOSE_AFTER: i64 = 24 * 60 * 60 * 1000;

/// Asks for those to be removed that no job needs, once all records were
/// read. While a record can't be read, all stay: they may be its pictures.
/// Where there are pictures and no job at all, the records are lost and not
/// the pictures: they are remembered, and stay until a backup brings their
/// jobs back.
pub(super) fn found(app: &mut AppState, keys: &[String], now: &Now) -> Vec<Action> {
    if app.boot != Boot::Ready {
        return Vec::new();
    }
    let there = KeySet::of_all(keys);
    let mut bereft = match is_bare(app) {
        true => keys.to_vec(),
        false => app.store.bereft.clone(),
    };
    bereft.retain(|key| there.has(key));
    let mut actions = remember(app, bereft);
    if app.unreadable.is_empty() && app.broken_settings.is_none() {
        let loose = loose(app, keys, now);
        if !loose.is_empty() {
            actions.push(Action::DropLoose(loose));
        }
    }
    actions
}

fn is_bare(app: &AppState) -> bool {
    app.jobs.is_empty()
        && app.trash.is_empty()
        && app.lost.is_empty()
        && app.unreadable.is_empty()
        && app.left.is_empty()
        && app.open.is_none()
}

fn loose(app: &AppState, keys: &[String], now: &Now) -> Vec<String> {
    let bereft = KeySet::of_all(&app.store.bereft);
    let old = |key: &String| {
        let taken = key.rsplit('-').next().and_then(|taken| taken.parse().ok());
        taken.is_some_and(|taken: i64| now.at.timestamp_millis() - taken > LOOSE_AFTER)
    };
    let mut loose = keys.to_vec();
    loose.retain(|key| old(key) && !bereft.has(key));
    disowned(app, loose)
}

/// Those of these pictures that no job and no settings refer to.
fn disowned(app: &AppState, mut pictures: Vec<String>) -> Vec<String> {
    let open = app.job().map(job::blobs_of).unwrap_or_default();
    let logo = app.settings.logo.iter().map(|logo| &logo.blob);
    let all = app.jobs.iter().chain(&app.trash).chain(&app.lost);
    let owned = all.flat_map(|entry| &entry.blobs).chain(logo).chain(&open);
    let owned = KeySet::of_all(owned);
    pictures.retain(|key| !owned.has(key));
    pictures
}

/// Notes which pictures have lost their jobs, where that changed.
fn remember(app: &mut AppState, bereft: Vec<String>) -> Vec<Action> {
    let bereft = disowned(app, bereft);
    if bereft == app.store.bereft {
        return Vec::new();
    }
    let key = KEPT_PICTURES_KEY.to_owned();
    let write = if bereft.is_empty() {
        Write::Delete { key }
    } else {
        let value = bereft.join("\n");
        Write::Put { key, value }
    };
    app.store.bereft = bereft;
    keeping::commit(app, vec![write])
}

/// Pictures whose jobs came back are theirs again.
pub(super) fn reclaimed(app: &mut AppState) -> Vec<Action> {
    let bereft = app.store.bereft.clone();
    remember(app, bereft)
}

/// The pictures without jobs go for good: asked before.
pub(super) fn drop_bereft(app: &mut AppState) -> Vec<Action> {
    let gone = app.store.bereft.clone();
    let mut actions = remember(app, Vec::new());
    actions.extend(gone.into_iter().map(Action::DropBlob));
    actions.push(Action::AskRoom);
    actions
}

/// What is said of pictures whose jobs are gone.
#[must_use]
pub fn bereft_words(app: &AppState) -> Option<Message> {
    let count = i64::try_from(app.store.bereft.len()).unwrap_or(i64::MAX);
    (count > 0).then(|| msg("pictures-bereft").count("photos", count))
}
