//! The store as the fitter sees it: room, whether it is kept, checks, and
//! one page at a time.

use rakeline_core::job::JobId;
use rakeline_core::text::{Message, msg};

use super::check::{self, Checked, Found, Odd};
use super::erase::{self, EraseWhat};
use super::intent::{Action, Intent, Now};
use super::put_by::{self, PutBy};
use super::state::{AppState, Boot, LeftHow, LeftJob, Saved};
use super::stored::Erased;
use super::{RESTORING_KEY, brief, jobs, keeping, paper, work};
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
    /// Whether some records are being looked over.
    pub looking: bool,
    /// Records still to be looked over, the next ones last: key and sum.
    pub to_look: Vec<(String, u64)>,
    /// Whether a check was asked for meanwhile.
    pub asked: bool,
    /// Keys of pictures whose jobs are gone.
    pub bereft: Vec<String>,
    /// The file that was not taken in to its end.
    pub half: Option<String>,
    /// What was put by of jobs, once asked for.
    pub put_by: Option<Vec<PutBy>>,
}

impl StoreDraft {
    /// Whether the system said that it may clear the records.
    #[must_use]
    pub fn may_be_cleared(&self) -> bool {
        self.kept == Some(PersistAnswer::MayBeCleared)
    }

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
    /// The same of some records that were looked over after the start.
    LookedOver(Result<Vec<Odd>, StorageFault>),
    /// Pictures that no job needs are removed.
    Swept,
    /// A file that was not taken in to its end stays as it is.
    LeaveHalf,
    /// What was put by of jobs is to be shown.
    PutBy,
    /// Keys and texts of what was put by.
    FoundPutBy(Result<Vec<(String, String)>, StorageFault>),
    /// What was put by under this key becomes a job of its own.
    OwnJob(String, JobId),
    /// An entry whose record is gone leaves the list.
    Forget(JobId),
    /// Another page works on the records.
    Elsewhere,
    /// This page took them over from another; it starts anew.
    TakeOver,
    /// Another page took them over.
    TakenOver,
}

pub(super) fn handle(app: &mut AppState, said: StoreIntent, now: &Now) -> Vec<Action> {
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
        StoreIntent::Erased(all, outcome) => erase::done(app, &all, outcome, now),
        StoreIntent::Check => check::check(app),
        StoreIntent::CheckedSoFar(count) => {
            if let Some((so_far, _)) = &mut app.store.checking {
                *so_far = count;
            }
            Vec::new()
        }
        StoreIntent::Checked(found) => check::checked(app, found),
        StoreIntent::LookedOver(found) => check::looked_over(app, found),
        StoreIntent::Swept => Vec::new(),
        StoreIntent::LeaveHalf => leave_half(app),
        StoreIntent::PutBy => vec![Action::ReadPutBy],
        StoreIntent::FoundPutBy(found) => put_by::found(app, found),
        StoreIntent::OwnJob(key, id) => put_by::own_job(app, &key, id, now),
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

fn forget(app: &mut AppState, id: &JobId) -> Vec<Action> {
    let Some(at) = app.lost.iter().position(|entry| entry.id == *id) else {
        return Vec::new();
    };
    let entry = app.lost.remove(at);
    let key = brief::key(brief::place(&entry), &entry.id);
    keeping::commit(app, vec![Write::Delete { key }])
}

fn leave_half(app: &mut AppState) -> Vec<Action> {
    if app.store.half.take().is_none() {
        return Vec::new();
    }
    let key = RESTORING_KEY.to_owned();
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
    let mut actions = keeping::leave(app).unwrap_or_else(|| {
        let mut actions = work::leave_screen(app);
        actions.extend(paper::stop(app));
        actions
    });
    if app.backup.is_busy() {
        actions.push(Action::StopBackup);
    }
    app.boot = Boot::Elsewhere;
    actions
}
