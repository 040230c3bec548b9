//! Photos of a job: asked for, made smaller, stored, looked at, taken out.

use rakeline_core::job::{
    BehindEvent, BehindPhoto, JobEvent, JobId, Photo, PhotoEvent, PhotoOf, Whose,
};
use rakeline_core::text::{Message, msg};

use super::cards::CardsIntent;
use super::held;
use super::intent::{Action, Intent, Now};
use super::level::LevelIntent;
use super::measure::Measure;
use super::state::{AppState, Notice, UndoOf};
use super::work::{self, Back};
use super::workshop::{PhotoPolicy, WorkshopIntent};
use crate::platform::{CameraFault, Picture, PictureFrom, StorageFault};

/// Longer side of the copy of a photo that a job keeps, pixels.
pub const COPY_SIDE: u32 = 1_600;
/// Longer side of the workshop's logo, pixels.
pub const LOGO_SIDE: u32 = 600;

/// What a picture is for: who hears of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureUse {
    /// The camera level.
    Level,
    /// A photo of the job.
    Job,
    /// The workshop's logo.
    Logo,
    /// Measuring by mark cards.
    Cards,
}

impl PictureUse {
    /// A picture came, or none was chosen.
    #[must_use]
    pub fn came(self, picture: Result<Option<Picture>, CameraFault>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Came(picture))),
            Self::Job => Intent::Photo(PhotoIntent::Came(picture)),
            Self::Logo => Intent::Workshop(WorkshopIntent::LogoCame(picture)),
            Self::Cards => Intent::Cards(CardsIntent::Came(picture)),
        }
    }

    /// A smaller copy of the picture, if one could be made.
    #[must_use]
    pub fn smaller(self, picture: Picture, copy: Option<Picture>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Came(Ok(Some(picture))))),
            Self::Job => Intent::Photo(PhotoIntent::Smaller(picture, copy)),
            Self::Logo => Intent::Workshop(WorkshopIntent::LogoSmaller(copy.unwrap_or(picture))),
            // The whole picture is measured in.
            Self::Cards => Intent::Cards(CardsIntent::Came(Ok(Some(picture)))),
        }
    }

    /// The picture is in the store, or not.
    #[must_use]
    pub fn stored(self, outcome: Result<(), StorageFault>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Stored(outcome))),
            Self::Job => Intent::Photo(PhotoIntent::Stored(outcome)),
            Self::Logo => Intent::Workshop(WorkshopIntent::LogoStored(outcome)),
            Self::Cards => Intent::Cards(CardsIntent::Stored(outcome)),
        }
    }

    /// The picture was read from the store.
    #[must_use]
    pub fn read(self, key: String, url: Result<Option<String>, StorageFault>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Read(key, url))),
            Self::Job | Self::Logo | Self::Cards => Intent::Photo(PhotoIntent::Read(key, url)),
        }
    }
}

/// What a photo shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shows {
    /// What is behind the bumper or one head's place.
    Behind(Whose),
    /// Something at a step, or a finished head.
    Job(PhotoOf),
}

/// What is said about photos of a job.
#[derive(Clone, Debug, PartialEq)]
pub enum PhotoIntent {
    /// A photo is wanted.
    Ask(Shows, PictureFrom),
    /// It came, or none was chosen.
    Came(Result<Option<Picture>, CameraFault>),
    /// It has a smaller copy, or none could be made.
    Smaller(Picture, Option<Picture>),
    /// It is in the store, or not.
    Stored(Result<(), StorageFault>),
    /// One that could not be stored is to be stored again.
    StoreAgain,
    /// One that could not be stored is given up.
    GiveUp,
    /// A kept photo is to be seen.
    Look(String),
    /// It was read from the store.
    Read(String, Result<Option<String>, StorageFault>),
    /// A photo is taken out; it can come back.
    Drop(String),
}

/// A photo on its way to the store.
#[derive(Clone, Debug, PartialEq)]
struct Storing {
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

/// Photos of a job under way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PhotosDraft {
    /// What the photo that is asked for will show.
    asked: Option<Shows>,
    /// A photo on its way to the store.
    storing: Option<Storing>,
    /// Kept photos on the screen.
    shown: Vec<SeenPhoto>,
}

/// A kept photo on the screen.
#[derive(Clone, Debug, PartialEq)]
struct SeenPhoto {
    key: String,
    /// Where the screen finds it; `None` while it is read.
    found: Option<Result<String, Message>>,
}

impl PhotosDraft {
    /// Where the screen finds a photo, or why it is not there; `None` while
    /// it is being read.
    #[must_use]
    pub fn found(&self, key: &str) -> Option<&Result<String, Message>> {
        let mut shown = self.shown.iter();
        shown.find(|photo| photo.key == key)?.found.as_ref()
    }

    /// Whether a photo of this job is on its way to the store, or waits for
    /// another try.
    #[must_use]
    pub fn is_storing(&self, job: &JobId) -> bool {
        let mut storing = self.storing.iter();
        storing.any(|storing| storing.job == *job)
    }

    /// Why the photo of this job that was taken last is not stored yet.
    #[must_use]
    pub fn not_stored(&self, job: &JobId) -> Option<&Message> {
        let storing = self.storing.as_ref();
        let storing = storing.filter(|storing| storing.job == *job);
        storing.and_then(|storing| storing.failed.as_ref())
    }

    /// What stays when a screen is left: the photo on its way.
    pub(super) fn kept(&mut self) -> Self {
        Self {
            storing: self.storing.take(),
            ..Self::default()
        }
    }
}

pub(super) fn handle(app: &mut AppState, said: PhotoIntent, now: &Now) -> Vec<Action> {
    let draft = &mut app.drafts.photos;
    match said {
        PhotoIntent::Ask(shows, from) => {
            draft.asked = Some(shows);
            vec![Action::ChoosePicture(PictureUse::Job, from)]
        }
        PhotoIntent::Came(Ok(None)) => Vec::new(),
        PhotoIntent::Came(Ok(Some(picture))) => {
            if picture.width.max(picture.height) > COPY_SIDE {
                vec![Action::MakeSmaller(PictureUse::Job, picture, COPY_SIDE)]
            } else {
                store(app, picture, None, now)
            }
        }
        PhotoIntent::Smaller(picture, copy) => store(app, picture, copy, now),
        PhotoIntent::Came(Err(fault)) => refuse(app, fault.message()),
        PhotoIntent::Stored(outcome) => stored(app, outcome, now),
        PhotoIntent::StoreAgain => store_again(app),
        PhotoIntent::GiveUp => {
            if draft
                .storing
                .as_ref()
                .is_some_and(|one| one.failed.is_some())
            {
                draft.storing = None;
                app.notice = None;
            }
            Vec::new()
        }
        PhotoIntent::Look(key) => {
            if draft.shown.iter().any(|photo| photo.key == key) {
                return Vec::new();
            }
            draft.shown.push(SeenPhoto {
                key: key.clone(),
                found: None,
            });
            vec![Action::ReadBlob(PictureUse::Job, key)]
        }
        PhotoIntent::Read(key, found) => {
            let mut shown = draft.shown.iter_mut();
            if let Some(photo) = shown.find(|photo| photo.key == key) {
                photo.found = Some(match found {
                    Ok(Some(url)) => Ok(url),
                    Ok(None) => Err(msg("level-photo-gone")),
                    Err(fault) => Err(fault.message()),
                });
            }
            Vec::new()
        }
        PhotoIntent::Drop(key) => {
            // The picture itself stays while the step can be taken back.
            let taken = app.job().is_some_and(|job| {
                let mut photos = job.photos.iter();
                photos.any(|photo| photo.blob == key)
            });
            let dropped = if taken {
                JobEvent::Photo(PhotoEvent::Dropped(key))
            } else {
                JobEvent::Behind(BehindEvent::PhotoDropped(key))
            };
            let actions = work::event(app, dropped, Back::Step, now);
            app.notice = Some(Notice {
                message: msg("behind-photo-out"),
                undo: Some(UndoOf::Step),
            });
            actions
        }
    }
}

/// Lets go of pictures on the screen that is left.
pub(super) fn leave(app: &AppState) -> Vec<Action> {
    if app.drafts.photos.shown.is_empty() {
        Vec::new()
    } else {
        vec![Action::HidePictures]
    }
}

fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    held::refused()
}

/// What a job keeps of a photo: the copy, and the picture as it came where
/// the workshop wants it.
fn store(app: &mut AppState, picture: Picture, copy: Option<Picture>, now: &Now) -> Vec<Action> {
    let asked = app.drafts.photos.asked.take();
    let (Some(job), Some(shows)) = (app.job(), asked) else {
        return Vec::new();
    };
    let stamp = format!("{}-{}", job.id.0, now.at.timestamp_millis());
    let blob = format!("photo-{stamp}");
    let keeps = app.settings.photos == PhotoPolicy::Originals;
    let (copy, original) = match copy {
        Some(copy) => (copy, keeps.then_some(picture)),
        None => (picture, None),
    };
    let original = original.map(|picture| (format!("original-{stamp}"), picture.bytes));
    let (width, height, at) = (copy.width, copy.height, now.at);
    let event = match shows {
        Shows::Behind(whose) => JobEvent::Behind(BehindEvent::PhotoKept(BehindPhoto {
            blob: blob.clone(),
            whose,
            width,
            height,
            at,
        })),
        Shows::Job(of) => JobEvent::Photo(PhotoEvent::Taken(Box::new(Photo {
            blob: blob.clone(),
            original: original.as_ref().map(|(key, _)| key.clone()),
            width,
            height,
            of,
            at,
            elevation: None,
            notes: Vec::new(),
        }))),
    };
    let original = original.filter(|_| matches!(event, JobEvent::Photo(_)));
    let put = Action::PutBlob(PictureUse::Job, blob.clone(), copy.bytes.clone());
    app.drafts.photos.storing = Some(Storing {
        job: job.id.clone(),
        event,
        now: (blob, copy.bytes),
        then: original,
        failed: None,
    });
    vec![put]
}

/// Tries once more what could not be stored.
fn store_again(app: &mut AppState) -> Vec<Action> {
    let Some(storing) = &mut app.drafts.photos.storing else {
        return Vec::new();
    };
    if storing.failed.take().is_none() {
        return Vec::new();
    }
    app.notice = None;
    let (key, bytes) = storing.now.clone();
    vec![Action::PutBlob(PictureUse::Job, key, bytes)]
}

/// The picture is stored, or waits for another try: it is not taken twice.
/// Where only the original finds no room, the copy is the photo.
fn stored(app: &mut AppState, outcome: Result<(), StorageFault>, now: &Now) -> Vec<Action> {
    let Some(mut storing) = app.drafts.photos.storing.take() else {
        return Vec::new();
    };
    // The job was left meanwhile.
    if app.job().is_none_or(|job| job.id != storing.job) {
        return Vec::new();
    }
    match (outcome, storing.then.take()) {
        (Ok(()), Some((key, bytes))) => {
            let put = Action::PutBlob(PictureUse::Job, key.clone(), bytes.clone());
            storing.now = (key, bytes);
            app.drafts.photos.storing = Some(storing);
            vec![put]
        }
        (Ok(()), None) => {
            app.notice = None;
            work::event(app, storing.event, Back::Step, now)
        }
        (Err(fault), None) if is_original(&storing) => {
            let mut event = storing.event;
            if let JobEvent::Photo(PhotoEvent::Taken(photo)) = &mut event {
                photo.original = None;
            }
            let actions = work::event(app, event, Back::Step, now);
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
            app.drafts.photos.storing = Some(storing);
            refuse(app, msg("level-not-stored").message("why", fault.message()))
        }
    }
}

/// Whether the picture under way is the original beside a stored copy.
fn is_original(storing: &Storing) -> bool {
    match &storing.event {
        JobEvent::Photo(PhotoEvent::Taken(photo)) => {
            photo.original.as_ref() == Some(&storing.now.0)
        }
        _ => false,
    }
}
