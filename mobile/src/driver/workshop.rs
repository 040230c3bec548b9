//! The workshop's own: how the screen looks, what stands at the head of
//! printed sheets.

use rakeline_core::job::Limit;
use rakeline_core::report::Logo;
use rakeline_core::text::{Message, msg};
use serde::{Deserialize, Serialize};

use super::intent::{Action, Now};
use super::keeping;
use super::photos::{LOGO_SIDE, PictureUse};
use super::state::{AppState, Notice};
use crate::platform::{CameraFault, Picture, PictureFrom, StorageFault};
use crate::route::Route;

/// Longest line of the letterhead, characters.
pub const LETTER_GREATEST: usize = 120;

/// How the screen looks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Theme {
    /// Paper and graphite.
    #[default]
    Paper,
    /// Chalk on rubber, for the dark.
    Dark,
    /// White and black with thicker lines, for the sun.
    Sunlight,
}

impl Theme {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 3] = [Self::Paper, Self::Dark, Self::Sunlight];

    /// What the style sheet knows it by.
    #[must_use]
    pub fn class(self) -> &'static str {
        match self {
            Self::Paper => "theme-paper",
            Self::Dark => "theme-dark",
            Self::Sunlight => "theme-sunlight",
        }
    }

    /// The key of its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Paper => "look-paper",
            Self::Dark => "look-dark",
            Self::Sunlight => "look-sunlight",
        }
    }
}

/// A line of the letterhead.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Letter {
    /// The workshop's name.
    Name,
    /// Street and town.
    Address,
    /// Telephone, mail.
    Reach,
    /// Licence or registration.
    Licence,
}

impl Letter {
    /// All, in the order in which they stand.
    pub const ALL: [Self; 4] = [Self::Name, Self::Address, Self::Reach, Self::Licence];

    /// The key of its label.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::Name => "letter-name",
            Self::Address => "letter-address",
            Self::Reach => "letter-reach",
            Self::Licence => "letter-licence",
        }
    }
}

/// What stands at the head of printed job sheets, as typed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Letterhead([String; 4]);

impl Letterhead {
    /// A line as typed.
    #[must_use]
    pub fn line(&self, which: Letter) -> &str {
        &self.0[which as usize]
    }

    /// Lines that hold something, in order.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        let lines = self.0.iter().map(|line| line.trim());
        lines
            .filter(|line| !line.is_empty())
            .map(str::to_owned)
            .collect()
    }
}

/// What lengths are said in. All is measured, typed and kept in
/// millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// Millimetres.
    #[default]
    Mm,
    /// Inches beside them.
    MmAndInches,
}

impl Units {
    /// Both, in the order in which they are shown.
    pub const ALL: [Self; 2] = [Self::Mm, Self::MmAndInches];

    /// The key of its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Mm => "units-mm",
            Self::MmAndInches => "units-inches",
        }
    }
}

/// What is kept of a photo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PhotoPolicy {
    /// A copy for the screen and the job sheet.
    #[default]
    Copies,
    /// The copy and the picture as it came.
    Originals,
}

impl PhotoPolicy {
    /// Both, in the order in which they are shown.
    pub const ALL: [Self; 2] = [Self::Copies, Self::Originals];

    /// The key of its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Copies => "photos-copies",
            Self::Originals => "photos-originals",
        }
    }
}

/// What is said on the workshop's screen.
#[derive(Clone, Debug, PartialEq)]
pub enum WorkshopIntent {
    /// What lengths are said in.
    Units(Units),
    /// What is kept of photos.
    Photos(PhotoPolicy),
    /// A logo is to be chosen.
    AskLogo,
    /// It came, or none was chosen.
    LogoCame(Result<Option<Picture>, CameraFault>),
    /// It is small enough for a sheet.
    LogoSmaller(Picture),
    /// It is in the store, or not.
    LogoStored(Result<(), StorageFault>),
    /// No logo.
    DropLogo,
    /// Goes there.
    Go,
    /// Another look.
    Look(Theme),
    /// A line was typed.
    Typed(Letter, String),
    /// A limit that new jobs start with was typed; empty takes the sheet's.
    Limit(Limit, String),
}

pub(super) fn handle(app: &mut AppState, intent: WorkshopIntent, now: &Now) -> Vec<Action> {
    match intent {
        WorkshopIntent::AskLogo => {
            return vec![Action::ChoosePicture(PictureUse::Logo, PictureFrom::Files)];
        }
        WorkshopIntent::LogoCame(Ok(None)) => return Vec::new(),
        WorkshopIntent::LogoCame(Ok(Some(picture))) => {
            return vec![Action::MakeSmaller(PictureUse::Logo, picture, LOGO_SIDE)];
        }
        WorkshopIntent::LogoCame(Err(fault)) => return refuse(app, fault.message()),
        WorkshopIntent::LogoSmaller(picture) => {
            let key = format!("logo-{}", now.at.timestamp_millis());
            app.drafts.logo = Some(Logo {
                blob: key.clone(),
                size: (picture.width, picture.height),
            });
            return vec![Action::PutBlob(PictureUse::Logo, key, picture.bytes)];
        }
        WorkshopIntent::LogoStored(Err(fault)) => {
            app.drafts.logo = None;
            return refuse(app, msg("level-not-stored").message("why", fault.message()));
        }
        WorkshopIntent::LogoStored(Ok(())) => match app.drafts.logo.take() {
            Some(logo) => app.settings.logo = Some(logo),
            None => return Vec::new(),
        },
        WorkshopIntent::DropLogo => app.settings.logo = None,
        WorkshopIntent::Units(units) => app.settings.units = units,
        WorkshopIntent::Photos(policy) => app.settings.photos = policy,
        WorkshopIntent::Go => {
            app.notice = None;
            app.route = Route::Settings;
            return vec![Action::Push(Route::Settings)];
        }
        WorkshopIntent::Look(theme) => app.settings.theme = theme,
        WorkshopIntent::Limit(limit, text) => {
            let limits = &mut app.settings.limits;
            limits.retain(|(other, _)| *other != limit);
            if !text.trim().is_empty() {
                limits.push((limit, text.chars().take(LETTER_GREATEST).collect()));
            }
        }
        WorkshopIntent::Typed(which, text) => {
            let line = text.chars().take(LETTER_GREATEST).collect();
            app.settings.letterhead.0[which as usize] = line;
        }
    }
    let writes = keeping::settings(app);
    keeping::commit(app, writes)
}

fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    Vec::new()
}
