//! The store as the fitter sees it: room, whether it is kept, checks, and
//! one page at a time.

use rakeline_core::job::JobId;
use rakeline_core::text::{Message, msg};

use super::entry::JobEntry;
use super::erase::{self, EraseWhat};
use super::intent::{Action, Intent, Place};
use super::state::{AppState, Boot, LeftHow, LeftJob, Saved, Unreadable};
use super::stored::Erased;
use super::{brief, jobs, keeping, paper, work};
use crate::platform::{PersistAnswer, Room, StorageFault, Write};
use crate::route::Route;

/// A photo of a phone's camera as it is kept, bytes: 12 megapixels as JPEG
/// (our own figure).
const PHOTO: u64 = 3_000_000;

/// From so few photos on the room is said to run short.
const FEW_PHOTOS: u64 = 100;

/// What is known and under way about the store.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct StoreDraft {
    /// Whether the system keeps the records for good, once asked.
    pub kept: Option<PersistAnswer>,
    /// How much room there is, once asked.
    pub room: Option<Room>,
    /// What is to be deleted for good once that is confirmed.
    pub asking: Option<EraseWhat>,
    /// What is being deleted for good.
    pub erasing: Vec<Erased>,
    /// The check of all records under way: how many of how many.
    pub checking: Option<(usize, usize)>,
    /// What the last check found.
    pub checked: Option<Checked>,
    /// Whether the newest records are being looked over.
    pub looking: bool,
    /// Whether a check was asked for meanwhile.
    pub asked: bool,
}

impl StoreDraft {
    /// How much room is left, in photos.
    #[must_use]
    pub fn room_words(&self) -> Option<Message> {
        let room = self.room?;
        let photos = room.most.saturating_sub(room.used) / PHOTO;
        let key = if photos < FEW_PHOTOS {
            "room-short"
        } else {
            "room-left"
        };
        let mb = |bytes: u64| i64::try_from(bytes / 1_000_000).unwrap_or(i64::MAX);
        let photos = i64::try_from(photos).unwrap_or(i64::MAX);
        Some(
            msg(key)
                .count("photos", photos)
                .count("used", mb(room.used)),
        )
    }
}

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
    /// Pictures that are gone.
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

/// What is said about the store.
#[derive(Clone, Debug, PartialEq)]
pub enum StoreIntent {
    /// Shows its screen.
    Go,
    /// How much room there is.
    Room(Option<Room>),
    /// Whether the records are kept for good.
    Kept(PersistAnswer),
    /// This is to be deleted for good; asked before.
    AskErase(EraseWhat),
    /// What was asked is deleted for good.
    Erase,
    /// What was asked stays.
    Spare,
    /// It is deleted, or was not.
    Erased(Vec<Erased>, Result<(), StorageFault>),
    /// Every record is to be read and checked.
    Check,
    /// So many were.
    CheckedSoFar(usize),
    /// Records that are not what the list knows, with their text if there is
    /// one, and the keys of all pictures.
    Checked(Result<Found, StorageFault>),
    /// An entry whose record is gone leaves the list.
    Forget(JobId),
    /// Another page works on the records.
    Elsewhere,
    /// This page took them over from another; it starts anew.
    TakeOver,
    /// Another page took them over.
    TakenOver,
}

/// What a check found: odd records and all pictures.
pub type Found = (Vec<(String, Option<String>)>, Vec<String>);

pub(super) fn handle(app: &mut AppState, said: StoreIntent) -> Vec<Action> {
    match said {
        StoreIntent::Go => {
            let mut actions = jobs::go_to(app, Route::Store);
            actions.push(Action::AskRoom);
            actions
        }
        StoreIntent::Room(room) => {
            app.store.room = room;
            Vec::new()
        }
        StoreIntent::Kept(answer) => {
            app.store.kept = Some(answer);
            Vec::new()
        }
        StoreIntent::AskErase(what) => {
            app.notice = None;
            app.store.asking = Some(what);
            Vec::new()
        }
        StoreIntent::Erase => match app.store.asking.take() {
            Some(what) => erase::erase(app, &what),
            None => Vec::new(),
        },
        StoreIntent::Spare => {
            app.store.asking = None;
            Vec::new()
        }
        StoreIntent::Erased(all, outcome) => erase::done(app, &all, outcome),
        StoreIntent::Check => check(app),
        StoreIntent::CheckedSoFar(count) => {
            if let Some((so_far, _)) = &mut app.store.checking {
                *so_far = count;
            }
            Vec::new()
        }
        StoreIntent::Checked(found) => checked(app, found),
        StoreIntent::Forget(id) => forget(app, &id),
        StoreIntent::Elsewhere => {
            app.boot = Boot::Elsewhere;
            Vec::new()
        }
        StoreIntent::TakeOver => take_over(app),
        StoreIntent::TakenOver => taken_over(app),
    }
}

/// What is heard while another page works: nothing that changes a record.
pub(super) fn is_heard_elsewhere(intent: &Intent) -> bool {
    matches!(
        intent,
        Intent::Store(_) | Intent::Committed(..) | Intent::OnDevice(_)
    )
}

/// So many of the newest records are looked over at the start: a list of
/// thousands is shown from its entries alone.
const LOOKED_OVER: usize = 50;

fn known(entry: &JobEntry) -> (String, u64) {
    (brief::place(entry).key(&entry.id), entry.sum)
}

/// Reads the newest records once the list is shown, so that one that can't
/// be read is named before its vehicle comes back.
pub(super) fn look_over(app: &mut AppState) -> Vec<Action> {
    if app.boot != Boot::Ready || app.jobs.is_empty() || app.store.checking.is_some() {
        return Vec::new();
    }
    app.store.looking = true;
    let newest = app.jobs.iter().take(LOOKED_OVER).map(known).collect();
    vec![Action::CheckStore(newest)]
}

fn check(app: &mut AppState) -> Vec<Action> {
    if app.store.looking {
        app.store.asked = true;
        return Vec::new();
    }
    if app.store.checking.is_some() {
        return Vec::new();
    }
    let known: Vec<_> = app.jobs.iter().chain(&app.trash).map(known).collect();
    app.store.checking = Some((0, known.len()));
    app.store.checked = None;
    vec![Action::CheckStore(known)]
}

/// Puts right what can be put right; nothing is deleted.
fn checked(app: &mut AppState, found: Result<Found, StorageFault>) -> Vec<Action> {
    if std::mem::take(&mut app.store.looking) {
        return looked_over(app, found);
    }
    let read = app.store.checking.take().map_or(0, |(_, all)| all);
    let (odd, pictures) = match found {
        Ok(found) => found,
        Err(fault) => return jobs::say(app, fault.message()),
    };
    let mut result = Checked {
        read,
        ..Checked::default()
    };
    let mut writes = Vec::new();
    for (key, text) in odd {
        writes.extend(mend(app, &mut result, key, text.as_deref()));
    }
    let all = || app.jobs.iter().chain(&app.trash);
    let gone = all().flat_map(|entry| &entry.blobs);
    result.pictures = gone.filter(|blob| !pictures.contains(blob)).count();
    app.store.checked = Some(result);
    keeping::commit(app, writes)
}

fn looked_over(app: &mut AppState, found: Result<Found, StorageFault>) -> Vec<Action> {
    let odd = found.map(|(odd, _)| odd).unwrap_or_default();
    let mut result = Checked::default();
    let mut writes = Vec::new();
    for (key, text) in odd {
        writes.extend(mend(app, &mut result, key, text.as_deref()));
    }
    let mut actions = keeping::commit(app, writes);
    if std::mem::take(&mut app.store.asked) {
        actions.extend(check(app));
    }
    actions
}

/// One record that is not what the list knows.
fn mend(
    app: &mut AppState,
    result: &mut Checked,
    key: String,
    text: Option<&str>,
) -> Option<Write> {
    let place = match key.starts_with(super::TRASH_PREFIX) {
        true => Place::Trash,
        false => Place::Jobs,
    };
    let list = match place {
        Place::Jobs => &mut app.jobs,
        Place::Trash => &mut app.trash,
    };
    let at = list.iter().position(|entry| place.key(&entry.id) == key)?;
    let id = list[at].id.clone();
    let Some(text) = text else {
        let entry = list.remove(at);
        app.lost.push(entry);
        result.lost += 1;
        return None;
    };
    match jobs::read_as(&id, text) {
        Ok(job) => {
            let mut entry = JobEntry::of(&job, text);
            // A job that was changed while the check ran is in order.
            if entry.sum == list[at].sum {
                return None;
            }
            entry.deleted = list[at].deleted;
            let write = brief::put(&entry);
            jobs::place(list, entry);
            result.mended += 1;
            Some(write)
        }
        Err(why) => {
            list.remove(at);
            app.unreadable.push(Unreadable { key, why });
            result.unreadable += 1;
            None
        }
    }
}

fn forget(app: &mut AppState, id: &JobId) -> Vec<Action> {
    let Some(at) = app.lost.iter().position(|entry| entry.id == *id) else {
        return Vec::new();
    };
    let entry = app.lost.remove(at);
    let key = brief::key(brief::place(&entry), &entry.id);
    keeping::commit(app, vec![Write::Delete { key }])
}

/// The records may have changed since: all is read anew. A job that could
/// not be kept before comes along.
fn take_over(app: &mut AppState) -> Vec<Action> {
    let mut left = std::mem::take(&mut app.left);
    if let Some(open) = app.open.take()
        && let Saved::No(why) = open.saved
    {
        left.push(LeftJob {
            job: open.job,
            how: LeftHow::NotKept(why),
        });
    }
    left.retain(|left| matches!(left.how, LeftHow::NotKept(_)));
    *app = AppState {
        left,
        device: std::mem::take(&mut app.device),
        commits: app.commits,
        worked: app.worked,
        ..AppState::default()
    };
    vec![Action::TakeOver]
}

/// What is under way ends; what is typed is kept already, or stays here.
fn taken_over(app: &mut AppState) -> Vec<Action> {
    let actions = keeping::leave(app).unwrap_or_else(|| {
        let mut actions = work::leave_screen(app);
        actions.extend(paper::stop(app));
        actions
    });
    app.boot = Boot::Elsewhere;
    actions
}
