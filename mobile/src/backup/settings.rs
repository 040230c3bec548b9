//! Settings of a backup held against those here.

use rakeline_core::again::Fleet;
use rakeline_core::json;

use crate::driver::Settings;

/// Settings that this version can read.
pub(super) fn readable(text: &str) -> Option<Settings> {
    json::read(text).ok()
}

/// What comes of two settings.
pub(super) struct Merged {
    /// Fleets that are not here.
    pub(super) fleets: usize,
    /// Whether they differ in anything that is not this phone's own.
    pub(super) differs: bool,
    /// Those here, with the new fleets.
    pub(super) mine: Settings,
    /// Those of the backup, with what is this phone's own: the phone as it
    /// was zeroed and the time of its last backup; and all fleets.
    pub(super) theirs: Settings,
}

impl Merged {
    pub(super) fn of(here: &Settings, there: &Settings) -> Self {
        let is_new = |fleet: &&Fleet| here.fleets.iter().all(|own| own.id != fleet.id);
        let new: Vec<Fleet> = there.fleets.iter().filter(is_new).cloned().collect();
        let mut mine = here.clone();
        let fleets = new.len();
        mine.fleets.extend(new);
        let theirs = Settings {
            phone: mine.phone.clone(),
            backed_up: mine.backed_up,
            fleets: mine.fleets.clone(),
            ..there.clone()
        };
        Self {
            fleets,
            differs: mine != theirs,
            mine,
            theirs,
        }
    }
}
