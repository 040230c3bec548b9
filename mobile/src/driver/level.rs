//! The camera level: live picture, photo, and the line laid over it.

use rakeline_core::estimate::level::{ScreenTurn, vehicle_level_in_picture};
use rakeline_core::estimate::still::StillReading;
use rakeline_core::job::{LevelPhoto, MeasuringEvent, PictureLine};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::{Degrees, Estimate};

use super::guide;
use super::held::{self, Held, Target};
use super::intent::{Action, Now};
use super::phone;
use super::photos::PictureUse;
use super::state::{AppState, Notice};
use crate::platform::{CameraFault, Picture, PictureFrom, StorageFault};

/// The camera level under way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LevelDraft {
    /// What the camera does.
    pub camera: CameraState,
    /// How the screen is turned against the device.
    pub screen: ScreenTurn,
    /// How the phone was held when the photo was asked for.
    asked: Option<StillReading>,
    /// A picture on its way to the store.
    storing: Option<LevelPhoto>,
    /// The photo that is looked at.
    pub shown: Option<ShownPhoto>,
}

/// A kept photo on the screen.
#[derive(Clone, Debug, PartialEq)]
pub struct ShownPhoto {
    /// Key of its picture.
    pub blob: String,
    /// Where the screen finds it, once it was read.
    pub url: Option<String>,
    /// The line while it is dragged.
    pub line: Option<PictureLine>,
}

/// What the camera does.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum CameraState {
    /// Not asked.
    #[default]
    Off,
    /// The system is asked for it.
    Asked,
    /// The live picture is on the screen.
    Live,
    /// There is none; a file still works.
    No(Message),
}

impl CameraState {
    /// The system answered. Where the screen was left while it was asked,
    /// what comes now is stopped.
    pub(super) fn answered(&mut self, outcome: Result<(), CameraFault>) -> Vec<Action> {
        if *self == Self::Off {
            return vec![Action::StopCamera];
        }
        *self = match outcome {
            Ok(()) => Self::Live,
            Err(fault) => Self::No(fault.message()),
        };
        Vec::new()
    }
}

/// What is said on the camera level.
#[derive(Clone, Debug, PartialEq)]
pub enum LevelIntent {
    /// Starts the camera again.
    Start,
    /// The camera answered; with the angle of the screen.
    Started(Result<(), CameraFault>),
    /// The screen was turned.
    ScreenTurned(Degrees),
    /// Takes a photo from the live picture.
    Take,
    /// Chooses a picture from a file.
    Choose,
    /// A picture came, or none was chosen.
    Came(Result<Option<Picture>, CameraFault>),
    /// The picture is in the store, or not.
    Stored(Result<(), StorageFault>),
    /// Looks at a kept photo.
    Open(String),
    /// The photo was read from the store.
    Read(String, Result<Option<String>, StorageFault>),
    /// Back to the live picture.
    Close,
    /// An end of the line is dragged.
    Drag(PictureLine),
    /// The line is let go.
    Lay,
    /// Takes a photo out.
    Drop(String),
}

/// Starts sensor and camera on the level's screen.
pub(super) fn start(app: &mut AppState) -> Vec<Action> {
    app.drafts.level = LevelDraft {
        screen: app.drafts.level.screen,
        camera: CameraState::Asked,
        ..LevelDraft::default()
    };
    let mut actions = held::start(app, Target::Level);
    actions.push(Action::StartCamera);
    actions
}

/// Stops the camera when the level's screen is left.
pub(super) fn leave(app: &mut AppState) -> Vec<Action> {
    if app.drafts.level.camera == CameraState::Off {
        return Vec::new();
    }
    app.drafts.level.camera = CameraState::Off;
    app.drafts.level.shown = None;
    vec![Action::StopCamera]
}

pub(super) fn handle(app: &mut AppState, said: LevelIntent, now: &Now) -> Vec<Action> {
    let on_cards = guide::is_here(app);
    match said {
        LevelIntent::Started(outcome) if on_cards => app.drafts.guide.camera.answered(outcome),
        LevelIntent::Came(came) if on_cards => guide::came(app, came, now),
        LevelIntent::Start => start(app),
        LevelIntent::Started(outcome) => app.drafts.level.camera.answered(outcome),
        LevelIntent::ScreenTurned(angle) => {
            app.drafts.level.screen = screen_turn(angle);
            Vec::new()
        }
        LevelIntent::Take => {
            app.drafts.level.asked = app.reading.as_ref().and_then(Held::attitude);
            vec![Action::TakePhoto]
        }
        LevelIntent::Choose => {
            app.drafts.level.asked = None;
            vec![Action::ChoosePicture(PictureUse::Level, PictureFrom::Files)]
        }
        LevelIntent::Came(Ok(None)) => Vec::new(),
        LevelIntent::Came(Ok(Some(picture))) => store(app, picture, now),
        LevelIntent::Came(Err(fault)) => refuse(app, fault.message()),
        LevelIntent::Stored(outcome) => stored(app, outcome, now),
        LevelIntent::Open(blob) => open(app, blob),
        LevelIntent::Read(blob, found) => {
            read(app, &blob, found);
            Vec::new()
        }
        LevelIntent::Close => {
            app.drafts.level.shown = None;
            if app.drafts.level.camera == CameraState::Live {
                // The live picture's place was taken by the photo.
                app.drafts.level.camera = CameraState::Asked;
                return vec![Action::StartCamera];
            }
            Vec::new()
        }
        LevelIntent::Drag(line) => {
            if let Some(shown) = &mut app.drafts.level.shown {
                shown.line = Some(line);
            }
            Vec::new()
        }
        LevelIntent::Lay => lay(app, now),
        LevelIntent::Drop(blob) => {
            app.drafts.level.shown = None;
            // The picture itself stays while the step can be taken back.
            phone::event(app, MeasuringEvent::PhotoDropped { blob }, now)
        }
    }
}

/// How the screen is turned, from its angle against the device.
#[must_use]
pub fn screen_turn(angle: Degrees) -> ScreenTurn {
    match angle.0.rem_euclid(360.0).round() as u16 {
        90 => ScreenTurn::RightUp,
        180 => ScreenTurn::UpsideDown,
        270 => ScreenTurn::LeftUp,
        _ => ScreenTurn::Upright,
    }
}

/// Angle of the vehicle's level in the live picture, anticlockwise.
///
/// # Errors
/// Why there is none: no sensor yet, or the camera looks away.
pub fn live_level(app: &AppState) -> Result<Estimate<Degrees>, Message> {
    let held = app.reading.as_ref().and_then(Held::attitude);
    let (Some(held), Some(job)) = (held, app.job()) else {
        return Err(msg("level-hold-upright"));
    };
    vehicle_level_in_picture(&held, app.drafts.level.screen, &job.ground)
}

fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    held::refused()
}

fn store(app: &mut AppState, picture: Picture, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let blob = format!("photo-{}-{}", job.id.0, now.at.timestamp_millis());
    app.drafts.level.storing = Some(LevelPhoto {
        blob: blob.clone(),
        width: picture.width,
        height: picture.height,
        held: app.drafts.level.asked.take(),
        turn: app.drafts.level.screen,
        at: now.at,
        line: None,
    });
    vec![Action::PutBlob(PictureUse::Level, blob, picture.bytes)]
}

fn stored(app: &mut AppState, outcome: Result<(), StorageFault>, now: &Now) -> Vec<Action> {
    let Some(photo) = app.drafts.level.storing.take() else {
        return Vec::new();
    };
    if let Err(fault) = outcome {
        return refuse(app, msg("level-not-stored").message("why", fault.message()));
    }
    let blob = photo.blob.clone();
    let mut actions = phone::event(app, MeasuringEvent::PhotoKept(photo), now);
    actions.extend(held::captured());
    actions.extend(open(app, blob));
    actions
}

fn open(app: &mut AppState, blob: String) -> Vec<Action> {
    let line = app.job().and_then(|job| {
        let photos = &job.measuring.photos;
        photos.iter().find(|photo| photo.blob == blob)?.line
    });
    app.drafts.level.shown = Some(ShownPhoto {
        blob: blob.clone(),
        url: None,
        line,
    });
    vec![
        Action::HidePictures,
        Action::ReadBlob(PictureUse::Level, blob),
    ]
}

fn read(app: &mut AppState, blob: &str, found: Result<Option<String>, StorageFault>) {
    let Some(shown) = &mut app.drafts.level.shown else {
        return;
    };
    if shown.blob != blob {
        return;
    }
    let message = match found {
        Ok(Some(url)) => {
            shown.url = Some(url);
            return;
        }
        Ok(None) => msg("level-photo-gone"),
        Err(fault) => fault.message(),
    };
    app.notice = Some(Notice {
        message,
        undo: None,
    });
}

fn lay(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(shown) = &app.drafts.level.shown else {
        return Vec::new();
    };
    let (blob, Some(line)) = (shown.blob.clone(), shown.line) else {
        return Vec::new();
    };
    phone::event(app, MeasuringEvent::LineLaid { blob, line }, now)
}
