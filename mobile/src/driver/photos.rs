//! Photos of the look behind: asked for, stored, looked at, taken out.

use rakeline_core::job::{BehindEvent, BehindPhoto, JobEvent, Whose};
use rakeline_core::text::{Message, msg};

use super::held;
use super::intent::{Action, Intent, Now};
use super::level::LevelIntent;
use super::measure::Measure;
use super::state::{AppState, Notice, UndoOf};
use super::work::{self, Back};
use crate::platform::{CameraFault, Picture, PictureFrom, StorageFault};

/// What a picture is for: who hears of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureUse {
    /// The camera level.
    Level,
    /// The look behind.
    Behind,
}

impl PictureUse {
    /// A picture came, or none was chosen.
    #[must_use]
    pub fn came(self, picture: Result<Option<Picture>, CameraFault>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Came(picture))),
            Self::Behind => Intent::Photo(PhotoIntent::Came(picture)),
        }
    }

    /// The picture is in the store, or not.
    #[must_use]
    pub fn stored(self, outcome: Result<(), StorageFault>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Stored(outcome))),
            Self::Behind => Intent::Photo(PhotoIntent::Stored(outcome)),
        }
    }

    /// The picture was read from the store.
    #[must_use]
    pub fn read(self, key: String, url: Result<Option<String>, StorageFault>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Read(key, url))),
            Self::Behind => Intent::Photo(PhotoIntent::Read(key, url)),
        }
    }
}

/// What is said about photos of the look behind.
#[derive(Clone, Debug, PartialEq)]
pub enum PhotoIntent {
    /// A photo is wanted of the bumper or of one head's place.
    Ask(Whose, PictureFrom),
    /// It came, or none was chosen.
    Came(Result<Option<Picture>, CameraFault>),
    /// It is in the store, or not.
    Stored(Result<(), StorageFault>),
    /// A kept photo is to be seen.
    Look(String),
    /// It was read from the store.
    Read(String, Result<Option<String>, StorageFault>),
    /// A photo is taken out; it can come back.
    Drop(String),
}

/// Photos of the look behind under way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PhotosDraft {
    /// What the photo that is asked for will show.
    asked: Option<Whose>,
    /// A photo on its way to the store.
    storing: Option<BehindPhoto>,
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
}

pub(super) fn handle(app: &mut AppState, said: PhotoIntent, now: &Now) -> Vec<Action> {
    let draft = &mut app.drafts.photos;
    match said {
        PhotoIntent::Ask(whose, from) => {
            draft.asked = Some(whose);
            vec![Action::ChoosePicture(PictureUse::Behind, from)]
        }
        PhotoIntent::Came(Ok(None)) => Vec::new(),
        PhotoIntent::Came(Ok(Some(picture))) => store(app, picture, now),
        PhotoIntent::Came(Err(fault)) => refuse(app, fault.message()),
        PhotoIntent::Stored(outcome) => stored(app, outcome, now),
        PhotoIntent::Look(key) => {
            if draft.shown.iter().any(|photo| photo.key == key) {
                return Vec::new();
            }
            draft.shown.push(SeenPhoto {
                key: key.clone(),
                found: None,
            });
            vec![Action::ReadBlob(PictureUse::Behind, key)]
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
            let dropped = JobEvent::Behind(BehindEvent::PhotoDropped(key));
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

fn store(app: &mut AppState, picture: Picture, now: &Now) -> Vec<Action> {
    let asked = app.drafts.photos.asked.take();
    let (Some(job), Some(whose)) = (app.job(), asked) else {
        return Vec::new();
    };
    let blob = format!("behind-{}-{}", job.id.0, now.at.timestamp_millis());
    app.drafts.photos.storing = Some(BehindPhoto {
        blob: blob.clone(),
        whose,
        width: picture.width,
        height: picture.height,
        at: now.at,
    });
    vec![Action::PutBlob(PictureUse::Behind, blob, picture.bytes)]
}

fn stored(app: &mut AppState, outcome: Result<(), StorageFault>, now: &Now) -> Vec<Action> {
    let Some(photo) = app.drafts.photos.storing.take() else {
        return Vec::new();
    };
    match outcome {
        Ok(()) => {
            app.notice = None;
            let kept = JobEvent::Behind(BehindEvent::PhotoKept(photo));
            work::event(app, kept, Back::Step, now)
        }
        Err(fault) => refuse(app, msg("level-not-stored").message("why", fault.message())),
    }
}
