//! The store as it is found at the start, and moves of a record in it: what
//! the shell and the tests do alike.

use rakeline_core::job::JobId;
use rakeline_core::json;

use super::brief::{self, BRIEF_PREFIX};
use super::check::{Found, Odd};
use super::entry::JobEntry;
use super::intent::{Intent, Place};
use super::keys::{KeySet, job_of};
use super::store::StoreIntent;
use super::{
    JOB_PREFIX, KEPT_JOB_PREFIX, KEPT_PICTURES_KEY, KEPT_PREFIX, RESTORING_KEY, SETTINGS_KEY,
    TRASH_PREFIX,
};
use crate::platform::{Alone, Storage, StorageFault, Told, Write};

/// From so many records without a brief on, all records are read at once.
const MANY: usize = 200;

/// What the store holds at the start.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stored {
    /// Entries whose brief and record are both there.
    pub entries: Vec<JobEntry>,
    /// Keys and texts of records without a good brief.
    pub records: Vec<(String, String)>,
    /// Entries whose record is gone.
    pub lost: Vec<JobEntry>,
    /// The settings' text.
    pub settings: Option<String>,
    /// Keys of pictures whose jobs are gone, one a line.
    pub bereft: Option<String>,
    /// What was noted before a backup was taken in, if not to its end.
    pub restoring: Option<String>,
}

/// Opens the store for this page alone: the intent that follows.
pub async fn open_store(storage: &dyn Storage, how: Alone, lost: Told<()>, path: String) -> Intent {
    if !storage.alone(how, lost).await {
        return Intent::Store(StoreIntent::Elsewhere);
    }
    match read_store(storage).await {
        Ok(stored) => Intent::Booted {
            stored: Box::new(stored),
            path,
        },
        Err(fault) => Intent::BootFailed(fault),
    }
}

/// Reads the briefs, holds them against the keys of the records, and reads
/// the records that have none.
///
/// # Errors
/// When storage does not answer.
pub async fn read_store(storage: &dyn Storage) -> Result<Stored, StorageFault> {
    let settings = storage.get(SETTINGS_KEY).await?;
    let briefs = storage.list(BRIEF_PREFIX).await?;
    let mut keys = storage.keys(JOB_PREFIX).await?;
    keys.extend(storage.keys(TRASH_PREFIX).await?);
    let mut stored = Stored {
        settings,
        bereft: storage.get(KEPT_PICTURES_KEY).await?,
        restoring: storage.get(RESTORING_KEY).await?,
        entries: Vec::with_capacity(briefs.len()),
        ..Stored::default()
    };
    // Both lists are in order of key, with one prefix more on one of them.
    let mut missing = Vec::new();
    let mut briefs = briefs.into_iter().peekable();
    for key in keys {
        let mut good = None;
        while let Some((at, text)) = briefs.peek() {
            let of = at.strip_prefix(BRIEF_PREFIX).unwrap_or_default();
            if of > key.as_str() {
                break;
            }
            let entry = brief::read(at, text);
            if of == key {
                good = entry;
            } else {
                stored.lost.extend(entry);
            }
            briefs.next();
        }
        match good {
            Some(entry) => stored.entries.push(entry),
            None => missing.push(key),
        }
    }
    let rest = briefs.filter_map(|(at, text)| brief::read(&at, &text));
    stored.lost.extend(rest);
    stored.records = read_missing(storage, missing).await?;
    Ok(stored)
}

async fn read_missing(
    storage: &dyn Storage,
    missing: Vec<String>,
) -> Result<Vec<(String, String)>, StorageFault> {
    if missing.len() > MANY {
        let mut all = storage.list(JOB_PREFIX).await?;
        all.extend(storage.list(TRASH_PREFIX).await?);
        all.retain(|(key, _)| missing.binary_search(key).is_ok());
        return Ok(all);
    }
    let mut records = Vec::new();
    for key in missing {
        let text = storage.get(&key).await?;
        records.extend(text.map(|text| (key, text)));
    }
    Ok(records)
}

/// Moves a record to the place that its entry is for, with its brief, in one
/// atomic step.
///
/// # Errors
/// When storage does not answer; nothing is moved then.
pub async fn move_record(storage: &dyn Storage, entry: &JobEntry) -> Result<(), StorageFault> {
    let to = brief::place(entry);
    let from = to.other();
    let Some(value) = storage.get(&from.key(&entry.id)).await? else {
        return Ok(());
    };
    let key = to.key(&entry.id);
    let gone = [from.key(&entry.id), brief::key(from, &entry.id)];
    let mut writes = vec![Write::Put { key, value }, brief::put(entry)];
    writes.extend(gone.map(|key| Write::Delete { key }));
    storage.commit(writes).await
}

/// What is deleted for good of one job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Erased {
    /// Its name in the store.
    pub id: JobId,
    /// Where it is.
    pub place: Place,
    /// Its pictures that no other job has.
    pub blobs: Vec<String>,
}

/// Deletes records for good in one atomic step, with all that was kept of
/// them, then their pictures, dropped ones too; those that another job has
/// (`shared`) stay. A picture that stays behind belongs to no job and is
/// removed at a later start.
///
/// # Errors
/// When the records could not be deleted; all are there then.
pub async fn erase(
    storage: &dyn Storage,
    all: &[Erased],
    shared: &[String],
) -> Result<(), StorageFault> {
    let mut writes = Vec::new();
    for one in all {
        let kept = format!("{KEPT_JOB_PREFIX}{}/", one.id.0);
        let mut keys = storage.keys(&kept).await?;
        keys.push(one.place.key(&one.id));
        keys.push(brief::key(one.place, &one.id));
        writes.extend(keys.into_iter().map(|key| Write::Delete { key }));
    }
    storage.commit(writes).await?;
    let ids = KeySet::of_all(all.iter().map(|one| &one.id.0));
    let blobs = KeySet::of_all(all.iter().flat_map(|one| &one.blobs));
    let shared = KeySet::of_all(shared);
    // One that can't be listed or deleted now is found at a later start.
    for blob in storage.blob_list().await.unwrap_or_default() {
        let taken_for = job_of(&blob).is_some_and(|id| ids.has(id));
        if blobs.has(&blob) || (taken_for && !shared.has(&blob)) {
            let _ = storage.blob_delete(&blob).await;
        }
    }
    Ok(())
}

/// Removes pictures that no job needs, but for those that something put by
/// names: a job as it was before a visit or before a restore.
pub async fn drop_loose(storage: &dyn Storage, pictures: Vec<String>) {
    // Where it can't be read what was put by, all stay.
    let Ok(kept) = storage.list(KEPT_PREFIX).await else {
        return;
    };
    for picture in pictures {
        if !kept.iter().any(|(_, text)| text.contains(&picture)) {
            // Looked for again at the next start.
            let _ = storage.blob_delete(&picture).await;
        }
    }
}

/// Reads records and holds each against what its brief says: those that
/// differ or are gone, with their text.
///
/// # Errors
/// When storage does not answer.
pub async fn check_some(
    storage: &dyn Storage,
    known: Vec<(String, u64)>,
    told: &dyn Fn(usize),
) -> Result<Vec<Odd>, StorageFault> {
    let mut odd = Vec::new();
    for (count, (key, sum)) in known.into_iter().enumerate() {
        let text = storage.get(&key).await?;
        if text.as_ref().map(|text| json::sum(text)) != Some(sum) {
            odd.push(Odd { key, sum, text });
        }
        told(count + 1);
    }
    Ok(odd)
}

/// The same of every record, and the keys of all pictures that hold
/// something.
///
/// # Errors
/// When storage does not answer.
pub async fn check_all(
    storage: &dyn Storage,
    known: Vec<(String, u64)>,
    told: &dyn Fn(usize),
) -> Result<Found, StorageFault> {
    let odd = check_some(storage, known, told).await?;
    let mut pictures = Vec::new();
    for picture in storage.blob_list().await? {
        if !storage.blob_is_empty(&picture).await? {
            pictures.push(picture);
        }
    }
    Ok((odd, pictures))
}

/// Keys and texts of all that was put by of jobs.
///
/// # Errors
/// When storage does not answer.
pub async fn read_put_by(storage: &dyn Storage) -> Result<Vec<(String, String)>, StorageFault> {
    storage.list(KEPT_JOB_PREFIX).await
}
