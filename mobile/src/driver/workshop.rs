//! The workshop's own: how the screen looks, what stands at the head of
//! printed sheets.

use serde::{Deserialize, Serialize};

use super::intent::Action;
use super::keeping;
use super::state::AppState;
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

/// What is said on the workshop's screen.
#[derive(Clone, Debug, PartialEq)]
pub enum WorkshopIntent {
    /// Goes there.
    Go,
    /// Another look.
    Look(Theme),
    /// A line was typed.
    Typed(Letter, String),
}

pub(super) fn handle(app: &mut AppState, intent: WorkshopIntent) -> Vec<Action> {
    match intent {
        WorkshopIntent::Go => {
            app.notice = None;
            app.route = Route::Settings;
            return vec![Action::Push(Route::Settings)];
        }
        WorkshopIntent::Look(theme) => app.settings.theme = theme,
        WorkshopIntent::Typed(which, text) => {
            let line = text.chars().take(LETTER_GREATEST).collect();
            app.settings.letterhead.0[which as usize] = line;
        }
    }
    let writes = keeping::settings(app);
    keeping::commit(app, writes)
}
