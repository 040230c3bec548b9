//! Photos on their way to the store. A photo belongs to the job that it was
//! asked for, also where that job was left before the camera gave it or
//! before the store kept it: the job hears of it then, on the screen or not.

use rakeline_core::job::{
    self, BehindEvent, BehindPhoto, JobEvent, JobId, JobState, Photo, PhotoEvent,
};
use rakeline_core::record;
use rakeline_core::text::{Message, msg};

use super::entry::JobEntry;
use super::fit;
use super::intent::{Action, Now};
use super::jobs;
use super::keeping;
use super::photos::{PictureUse, Shows, refuse};
use super::state::{AppState, LeftHow, LeftJob, Notice};
use super::work::{self, Back};
use super::workshop::PhotoPolicy;
use crate::platform::{Picture, StorageFault};

/// A photo on its way to the store.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Storing {
    /// The job that it was taken for.
    job: JobId,
    /// What the job hears once all of it is stored.
    event: JobEvent,
    /// The picture under way, by its key.
    now: (String, Vec<u8>),
    /// What is stored after it.
    then: Option<(String, Vec<u8>)>,
    /// Why it could not be stored; it waits for another try.
    failed: Option<Message>,
}

impl Storing {
    pub(super) fn is_of(&self, job: &JobId) -> bool {
        self.job == *job
    }

    pub(super) fn failed(&self) -> Option<&Message> {
        self.failed.as_ref()
    }

    fn put(&self) -> Action {
        let (key, bytes) = self.now.clone();
        Action::PutBlob(PictureUse::Job, key, bytes)
    }

    /// Where the job keeps the key of the picture as it came.
    fn original(&mut self) -> Option<&mut Option<String>> {
        match &mut self.event {
            JobEvent::Photo(PhotoEvent::Taken(photo)) => Some(&mut photo.original),
            JobEvent::Behind(BehindEvent::PhotoKept(photo)) => Some(&mut photo.original),
            _ => None,
        }
    }

    /// Whether the picture under way is the original beside a stored copy.
    fn is_original(&mut self) -> bool {
        let now = self.now.0.clone();
        self.original()
            .is_some_and(|key| key.as_ref() == Some(&now))
    }
}

/// What a job keeps of a photo: the copy, and the picture as it came where
/// the workshop wants it.
pub(super) fn store(
    app: &mut AppState,
    picture: Picture,
    copy: Option<Picture>,
    now: &Now,
) -> Vec<Action> {
    let Some((job, shows)) = app.drafts.photos.asked.take() else {
        return Vec::new();
    };
    let stamp = format!("{}-{}", job.0, now.at.timestamp_millis());
    let blob = format!("photo-{stamp}");
    let keeps = app.settings.photos == PhotoPolicy::Originals;
    let (copy, original) = match copy {
        Some(copy) => (copy, keeps.then_some(picture)),
        None => (picture, None),
    };
    let then = original.map(|picture| (format!("original-{stamp}"), picture.bytes));
    let original = then.as_ref().map(|(key, _)| key.clone());
    let (width, height, at) = (copy.width, copy.height, now.at);
    let event = match shows {
        Shows::Behind(whose) => JobEvent::Behind(BehindEvent::PhotoKept(BehindPhoto {
            blob: blob.clone(),
            original,
            whose,
            width,
            height,
            at,
        })),
        Shows::Job(of) => JobEvent::Photo(PhotoEvent::Taken(Box::new(Photo {
            blob: blob.clone(),
            original,
            width,
            height,
            of,
            at,
            elevation: None,
            notes: Vec::new(),
        }))),
    };
    let storing = Storing {
        job,
        event,
        now: (blob, copy.bytes),
        then,
        failed: None,
    };
    let put = storing.put();
    app.drafts.photos.storing.push(storing);
    vec![put]
}

/// Tries once more what of the open job could not be stored.
pub(super) fn again(app: &mut AppState) -> Vec<Action> {
    let Some(job) = app.job().map(|job| job.id.clone()) else {
        return Vec::new();
    };
    let mut puts = Vec::new();
    for storing in &mut app.drafts.photos.storing {
        if storing.is_of(&job) && storing.failed.take().is_some() {
            puts.push(storing.put());
        }
    }
    if !puts.is_empty() {
        app.notice = None;
    }
    puts
}

/// Gives up what of the open job could not be stored.
pub(super) fn give_up(app: &mut AppState) -> Vec<Action> {
    let Some(job) = app.job().map(|job| job.id.clone()) else {
        return Vec::new();
    };
    let storing = &mut app.drafts.photos.storing;
    let before = storing.len();
    storing.retain(|one| !one.is_of(&job) || one.failed.is_none());
    if storing.len() < before {
        app.notice = None;
    }
    Vec::new()
}

/// The picture is stored, or waits for another try: it is not taken twice.
/// Where only the original finds no room, the copy is the photo.
pub(super) fn stored(
    app: &mut AppState,
    key: &str,
    outcome: Result<(), StorageFault>,
    now: &Now,
) -> Vec<Action> {
    let all = &mut app.drafts.photos.storing;
    let under_way = |one: &Storing| one.now.0 == key && one.failed.is_none();
    let Some(at) = all.iter().position(under_way) else {
        return Vec::new();
    };
    let mut storing = all.remove(at);
    match (outcome, storing.then.take()) {
        (Ok(()), Some(next)) => {
            storing.now = next;
            let put = storing.put();
            app.drafts.photos.storing.push(storing);
            vec![put]
        }
        (Ok(()), None) => {
            app.notice = None;
            keep(app, storing.job, storing.event, now)
        }
        (Err(fault), None) if storing.is_original() => {
            if let Some(original) = storing.original() {
                *original = None;
            }
            let actions = keep(app, storing.job, storing.event, now);
            let said = msg("photo-copy-only").message("why", fault.message());
            app.notice = Some(Notice {
                message: said,
                undo: None,
            });
            actions
        }
        (Err(fault), then) => {
            storing.then = then;
            storing.failed = Some(fault.message());
            app.drafts.photos.storing.push(storing);
            refuse(app, msg("level-not-stored").message("why", fault.message()))
        }
    }
}

/// The job that a photo was taken for hears of it, on the screen or not.
fn keep(app: &mut AppState, id: JobId, event: JobEvent, now: &Now) -> Vec<Action> {
    if app.job().is_some_and(|job| job.id == id) {
        fit::worked_at(app, &event, now);
        return work::event(app, event, Back::Step, now);
    }
    if let Some(left) = app.left.iter().position(|left| left.job.id == id) {
        let left = app.left.remove(left);
        return add(app, left.job, vec![event], now);
    }
    app.drafts.photos.late.push((id.clone(), event));
    vec![Action::Fetch(id)]
}

/// The record of a job that was left was read: its photos go into it. One
/// that is opened meanwhile hears of them once it is on the screen.
pub(super) fn fetched(
    app: &mut AppState,
    id: &JobId,
    found: Result<Option<String>, StorageFault>,
    now: &Now,
) -> Vec<Action> {
    if app.opening.as_ref() == Some(id) {
        return Vec::new();
    }
    let events = take_late(app, id);
    if events.is_empty() {
        return Vec::new();
    }
    if app.job().is_some_and(|job| job.id == *id) {
        return heard(app, events, now);
    }
    match found {
        Ok(Some(text)) => match jobs::read_as(id, &text) {
            Ok(job) => add(app, job, events, now),
            Err(why) => refuse(app, msg("photo-job-unread").message("why", why)),
        },
        Ok(None) => refuse(app, msg("photo-job-gone")),
        Err(fault) => {
            // They are tried again when the job is opened.
            let late = events.into_iter().map(|event| (id.clone(), event));
            app.drafts.photos.late.extend(late);
            refuse(app, msg("level-not-stored").message("why", fault.message()))
        }
    }
}

/// Photos of the job that has just come to the screen go into it.
pub(super) fn catch_up(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(id) = app.job().map(|job| job.id.clone()) else {
        return Vec::new();
    };
    let events = take_late(app, &id);
    heard(app, events, now)
}

fn take_late(app: &mut AppState, id: &JobId) -> Vec<JobEvent> {
    let late = std::mem::take(&mut app.drafts.photos.late);
    let (mine, others): (Vec<_>, Vec<_>) = late.into_iter().partition(|(job, _)| job == id);
    app.drafts.photos.late = others;
    mine.into_iter().map(|(_, event)| event).collect()
}

fn heard(app: &mut AppState, events: Vec<JobEvent>, now: &Now) -> Vec<Action> {
    let mut actions = Vec::new();
    for event in events {
        actions.extend(work::event(app, event, Back::Step, now));
    }
    actions
}

/// Adds photos to a job that is not on the screen and keeps it as one that
/// was left: should that fail, it comes back to the screen.
fn add(app: &mut AppState, mut job: JobState, events: Vec<JobEvent>, now: &Now) -> Vec<Action> {
    for event in events {
        match job::apply(&job, event, now.at) {
            Ok(next) => job = next,
            Err(refusal) => {
                refuse(app, refusal.0);
            }
        }
    }
    let value = match record::write(&job) {
        Ok(value) => value,
        Err(fault) => return refuse(app, fault.message()),
    };
    let entry = JobEntry::of(&job, &value);
    let writes = keeping::put(&entry, value).to_vec();
    jobs::place(&mut app.jobs, entry);
    let actions = keeping::commit(app, writes);
    app.left.push(LeftJob {
        job,
        how: LeftHow::Saving(app.commits),
    });
    actions
}
