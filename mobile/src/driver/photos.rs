//! Photos of a job: asked for, made smaller, stored, looked at, taken out.

use rakeline_core::job::{BehindEvent, JobEvent, JobId, PhotoEvent, PhotoOf, Whose};
use rakeline_core::text::{Message, msg};

use super::cards::CardsIntent;
use super::held;
use super::intent::{Action, Intent, Now};
use super::level::LevelIntent;
use super::measure::Measure;
use super::state::{AppState, Notice, UndoOf};
use super::storing::{self, Storing};
use super::work::{self, Back};
use super::workshop::WorkshopIntent;
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

    /// The picture of that key is in the store, or not.
    #[must_use]
    pub fn stored(self, key: String, outcome: Result<(), StorageFault>) -> Intent {
        match self {
            Self::Level => Intent::Measure(Measure::Level(LevelIntent::Stored(outcome))),
            Self::Job => Intent::Photo(PhotoIntent::Stored(key, outcome)),
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
    /// The picture of that key is in the store, or not.
    Stored(String, Result<(), StorageFault>),
    /// The record of a job whose photo came after it was left.
    Fetched(JobId, Result<Option<String>, StorageFault>),
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

/// Photos of a job under way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PhotosDraft {
    /// What the photo that is asked for will show, and of which job.
    pub(super) asked: Option<(JobId, Shows)>,
    /// Photos on their way to the store.
    pub(super) storing: Vec<Storing>,
    /// What jobs that are not on the screen hear once they are read.
    pub(super) late: Vec<(JobId, JobEvent)>,
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
        storing.any(|one| one.is_of(job))
    }

    /// Why the photo of this job that was taken last is not stored yet.
    #[must_use]
    pub fn not_stored(&self, job: &JobId) -> Option<&Message> {
        let mut of_this = self.storing.iter().filter(|one| one.is_of(job));
        of_this.find_map(Storing::failed)
    }

    /// What stays when a screen is left: photos on their way, also one that
    /// the camera has not given yet.
    pub(super) fn kept(&mut self) -> Self {
        Self {
            shown: Vec::new(),
            ..std::mem::take(self)
        }
    }
}

pub(super) fn handle(app: &mut AppState, said: PhotoIntent, now: &Now) -> Vec<Action> {
    match said {
        PhotoIntent::Ask(shows, from) => {
            let Some(job) = app.job().map(|job| job.id.clone()) else {
                return Vec::new();
            };
            app.drafts.photos.asked = Some((job, shows));
            vec![Action::ChoosePicture(PictureUse::Job, from)]
        }
        PhotoIntent::Came(Ok(None)) => {
            app.drafts.photos.asked = None;
            Vec::new()
        }
        PhotoIntent::Came(Ok(Some(picture))) => {
            if picture.width.max(picture.height) > COPY_SIDE {
                vec![Action::MakeSmaller(PictureUse::Job, picture, COPY_SIDE)]
            } else {
                storing::store(app, picture, None, now)
            }
        }
        PhotoIntent::Smaller(picture, copy) => storing::store(app, picture, copy, now),
        PhotoIntent::Came(Err(fault)) => refuse(app, fault.message()),
        PhotoIntent::Stored(key, outcome) => storing::stored(app, &key, outcome, now),
        PhotoIntent::Fetched(job, found) => storing::fetched(app, &job, found, now),
        PhotoIntent::StoreAgain => storing::again(app),
        PhotoIntent::GiveUp => storing::give_up(app),
        PhotoIntent::Look(key) => {
            let draft = &mut app.drafts.photos;
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
            let mut shown = app.drafts.photos.shown.iter_mut();
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

pub(super) fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    held::refused()
}
