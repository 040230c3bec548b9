//! Checks of the stored records: all of them when asked for, and after the
//! start the newest first, some at a time. What can be put right is put
//! right; nothing is deleted.

use rakeline_core::text::{Message, msg};

use super::entry::JobEntry;
use super::intent::{Action, Place};
use super::keys::KeySet;
use super::state::{AppState, Boot, Unreadable};
use super::{brief, jobs, keeping};
use crate::platform::{StorageFault, Write};

/// What a check of all records found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Checked {
    /// Records read.
    pub read: usize,
    /// Entries of the list that were made anew from their record.
    pub mended: usize,
    /// Records that can't be read; they are kept.
    pub unreadable: usize,
    /// Entries whose record is gone.
    pub lost: usize,
    /// Pictures that are gone or empty.
    pub pictures: usize,
}

impl Checked {
    /// What the fitter is told, line by line.
    #[must_use]
    pub fn words(&self) -> Vec<Message> {
        let count = |key: &'static str, count: usize| {
            msg(key).count("count", i64::try_from(count).unwrap_or(i64::MAX))
        };
        let found = [
            ("check-mended", self.mended),
            ("check-unreadable", self.unreadable),
            ("check-lost", self.lost),
            ("check-pictures", self.pictures),
        ];
        let odd = found.into_iter().filter(|(_, n)| *n > 0);
        let mut words: Vec<Message> = odd.map(|(key, n)| count(key, n)).collect();
        if words.is_empty() {
            words.push(count("check-whole", self.read));
        }
        words
    }
}

/// A record that was not what the list knew when the check began.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Odd {
    /// Its key.
    pub key: String,
    /// What the list knew it by.
    pub sum: u64,
    /// Its text, if there is one.
    pub text: Option<String>,
}

/// What a check found: odd records, and the keys of all pictures that hold
/// something.
pub type Found = (Vec<Odd>, Vec<String>);

/// So many records are looked over at a time after the start: a list of
/// thousands is shown from its entries alone.
const LOOKED_OVER: usize = 50;

fn known(entry: &JobEntry) -> (String, u64) {
    (brief::place(entry).key(&entry.id), entry.sum)
}

fn all_known(app: &AppState) -> Vec<(String, u64)> {
    app.jobs.iter().chain(&app.trash).map(known).collect()
}

/// Reads all records once the list is shown, the newest first, so that one
/// that can't be read is named before its vehicle comes back.
pub(super) fn look_over(app: &mut AppState) -> Vec<Action> {
    if app.boot != Boot::Ready || app.store.checking.is_some() {
        return Vec::new();
    }
    let mut all = all_known(app);
    all.reverse();
    app.store.to_look = all;
    if app.store.looking {
        return Vec::new();
    }
    look_on(app)
}

/// The next records; they are taken from the end.
fn look_on(app: &mut AppState) -> Vec<Action> {
    let from = app.store.to_look.len().saturating_sub(LOOKED_OVER);
    let mut next = app.store.to_look.split_off(from);
    next.reverse();
    app.store.looking = !next.is_empty();
    if next.is_empty() {
        return Vec::new();
    }
    vec![Action::LookOver(next)]
}

/// Reads every record, as asked for.
pub(super) fn check(app: &mut AppState) -> Vec<Action> {
    if app.store.looking {
        app.store.asked = true;
        return Vec::new();
    }
    if app.store.checking.is_some() {
        return Vec::new();
    }
    let known = all_known(app);
    app.store.checking = Some((0, known.len()));
    app.store.checked = None;
    vec![Action::CheckStore(known)]
}

/// Puts right what can be put right; nothing is deleted.
pub(super) fn checked(app: &mut AppState, found: Result<Found, StorageFault>) -> Vec<Action> {
    let read = app.store.checking.take().map_or(0, |(_, all)| all);
    if app.boot != Boot::Ready {
        return Vec::new();
    }
    let (odd, pictures) = match found {
        Ok(found) => found,
        Err(fault) => return jobs::say(app, fault.message()),
    };
    let (mut result, writes) = mended(app, odd);
    result.read = read;
    let pictures = KeySet::of_all(&pictures);
    let all = app.jobs.iter().chain(&app.trash);
    let gone = all.flat_map(|entry| &entry.blobs);
    result.pictures = gone.filter(|blob| !pictures.has(blob)).count();
    app.store.checked = Some(result);
    keeping::commit(app, writes)
}

/// Some records were looked over; the next follow, or the check that was
/// asked for meanwhile.
pub(super) fn looked_over(
    app: &mut AppState,
    found: Result<Vec<Odd>, StorageFault>,
) -> Vec<Action> {
    app.store.looking = false;
    if app.boot != Boot::Ready {
        app.store.to_look = Vec::new();
        return Vec::new();
    }
    let Ok(odd) = found else {
        // Storage that does not answer is named by what needs it.
        app.store.to_look = Vec::new();
        return Vec::new();
    };
    let (_, writes) = mended(app, odd);
    let mut actions = keeping::commit(app, writes);
    if std::mem::take(&mut app.store.asked) {
        app.store.to_look = Vec::new();
        actions.extend(check(app));
    } else {
        actions.extend(look_on(app));
    }
    actions
}

fn mended(app: &mut AppState, all: Vec<Odd>) -> (Checked, Vec<Write>) {
    let mut result = Checked::default();
    let mut writes = Vec::new();
    for odd in all {
        writes.extend(mend(app, &mut result, odd));
    }
    (result, writes)
}

/// One record that is not what the list knew. Where the list knows another
/// one by now, the job was changed while the check ran and is in order.
fn mend(app: &mut AppState, result: &mut Checked, odd: Odd) -> Option<Write> {
    let place = match odd.key.starts_with(super::TRASH_PREFIX) {
        true => Place::Trash,
        false => Place::Jobs,
    };
    let list = match place {
        Place::Jobs => &mut app.jobs,
        Place::Trash => &mut app.trash,
    };
    let is_it = |entry: &JobEntry| place.key(&entry.id) == odd.key && entry.sum == odd.sum;
    let at = list.iter().position(is_it)?;
    let id = list[at].id.clone();
    let Some(text) = odd.text else {
        let entry = list.remove(at);
        app.lost.push(entry);
        result.lost += 1;
        return None;
    };
    match jobs::read_as(&id, &text) {
        Ok(job) => {
            let mut entry = JobEntry::of(&job, &text);
            entry.deleted = list[at].deleted;
            let write = brief::put(&entry);
            jobs::place(list, entry);
            result.mended += 1;
            Some(write)
        }
        Err(why) => {
            list.remove(at);
            app.unreadable.push(Unreadable::of(odd.key, &text, why));
            result.unreadable += 1;
            None
        }
    }
}
