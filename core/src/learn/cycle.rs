//! Engagements of reverse and the beeps in them.

use serde::{Deserialize, Serialize};

use super::event::{Heard, Source};
use crate::units::Millis;

/// One engagement of reverse: one cycle, however many beeps come in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cycle {
    /// When reverse was engaged.
    pub engaged: Millis,
    /// Who said so.
    pub by: Source,
    /// When it was left.
    pub released: Option<Millis>,
    /// When its first beep began.
    pub first_beep: Option<Millis>,
    /// When its last beep ended.
    pub last_beep: Option<Millis>,
    /// How many beeps came in it.
    pub beeps: u32,
}

impl Cycle {
    pub(super) fn new(engaged: Millis, by: Source) -> Self {
        Self {
            engaged,
            by,
            released: None,
            first_beep: None,
            last_beep: None,
            beeps: 0,
        }
    }

    pub(super) fn hear(&mut self, heard: Heard) {
        let first = self.first_beep.unwrap_or(heard.start);
        self.first_beep = Some(if heard.start < first {
            heard.start
        } else {
            first
        });
        self.sounds_to(heard.end);
        self.beeps = self.beeps.saturating_add(1);
    }

    /// Its last beep goes on up to then.
    pub(super) fn sounds_to(&mut self, end: Millis) {
        let last = self.last_beep.unwrap_or(end);
        self.last_beep = Some(if end > last { end } else { last });
    }

    /// Since when reverse was in: the tap, or the beep that came before it.
    #[must_use]
    pub fn began(&self) -> Millis {
        match self.first_beep {
            Some(beep) if beep < self.engaged => beep,
            _ => self.engaged,
        }
    }
}

/// What a beep was taken for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// The kit's.
    Kit,
    /// Another tone: a radio, a chime.
    OtherTone,
    /// While the app itself sounded; never counts.
    Own,
    /// At the kit's tone, but not while reverse was in.
    Stray,
    /// At the kit's tone, its beginning not heard: it confirms nothing.
    Cut,
}

/// A beep and what it was taken for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Noted {
    /// The beep.
    pub heard: Heard,
    /// What it was taken for.
    pub kind: Kind,
}
