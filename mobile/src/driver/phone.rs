//! The phone in the hand: its profile in the settings, whether its zeroing
//! still holds, and its copy in the job. And what it says aloud.

use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::ground::Ground;
use rakeline_core::estimate::zero::{Phone, PhoneProfile, Zeroing};
use rakeline_core::job::{JobEvent, MeasuringEvent};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Millis;
use serde::{Deserialize, Serialize};

use super::intent::{Action, Now};
use super::keeping;
use super::state::AppState;
use super::work::{self, Back};

/// The phone as the settings know it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct PhoneSettings {
    /// What the fitter calls it; empty until typed.
    pub name: String,
    /// What the system says it is, as of the last zeroing.
    pub device: String,
    /// Its case, in the fitter's words.
    pub case: String,
    /// Feet on its back.
    pub feet: Feet,
    /// What zeroing found.
    pub zeroing: Option<Zeroing>,
}

/// A place to work whose ground was measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bay {
    /// What the fitter calls it.
    pub name: String,
    /// How its ground lies.
    pub ground: Ground,
    /// When it was measured.
    pub at: chrono::DateTime<chrono::FixedOffset>,
}

/// Whether prompts are spoken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Voice {
    /// Spoken, where the phone can.
    #[default]
    On,
    /// Tones and pulses only.
    Off,
}

/// The profile of the phone in the hand.
#[must_use]
pub fn profile(app: &AppState) -> PhoneProfile {
    let phone = &app.settings.phone;
    let name = phone.name.trim();
    PhoneProfile {
        name: if name.is_empty() {
            app.device.clone()
        } else {
            name.to_owned()
        },
        case: phone.case.trim().to_owned(),
        feet: phone.feet,
    }
}

/// Milliseconds since 1970 of a moment.
pub(super) fn epoch(now: &Now) -> Millis {
    Millis(now.at.timestamp_millis() as f64)
}

/// Whole days since the phone was zeroed.
#[must_use]
pub fn age(zeroing: &Zeroing, now: &Now) -> i64 {
    let gone = epoch(now) - zeroing.at;
    (gone.0 / 86_400_000.0).max(0.0) as i64
}

/// The phone as it may be used now, and why it should be zeroed anew. What
/// another phone, case or feet found is not used; an old zeroing is.
#[must_use]
pub fn in_use(app: &AppState, now: &Now) -> (Phone, Option<Message>) {
    let kept = &app.settings.phone;
    let Some(zeroing) = &kept.zeroing else {
        return (Phone::Unzeroed, None);
    };
    if kept.device != app.device {
        let other = msg("zero-renew-phone").text("profile", zeroing.profile.name.clone());
        return (Phone::Unzeroed, Some(other));
    }
    let renewal = zeroing.renewal(&profile(app), epoch(now));
    let usable = renewal
        .as_ref()
        .is_none_or(|why| why.key == "zero-renew-age");
    if usable {
        (Phone::Zeroed(Box::new(zeroing.clone())), renewal)
    } else {
        (Phone::Unzeroed, renewal)
    }
}

/// Copies the phone in the hand into the open job, where it differs.
///
/// # Errors
/// Why this phone must not go on with the job's readings.
pub(super) fn put_into_job(app: &mut AppState, now: &Now) -> Result<(), Message> {
    let (phone, _) = in_use(app, now);
    let profile = profile(app);
    let Some(open) = &mut app.open else {
        return Ok(());
    };
    let same = open.job.phone == phone && open.job.measuring.profile.as_ref() == Some(&profile);
    if same {
        return Ok(());
    }
    let used = JobEvent::Measuring(MeasuringEvent::PhoneUsed { phone, profile });
    match rakeline_core::job::apply(&open.job, used, now.at) {
        Ok(next) => {
            open.job = next;
            Ok(())
        }
        Err(refusal) => Err(refusal.0),
    }
}

/// The phone was named; its zeroing is renamed with it.
pub(super) fn named(app: &mut AppState, name: String, now: &Now) -> Vec<Action> {
    let before = profile(app).name;
    app.settings.phone.name = name;
    let after = profile(app).name;
    if app.settings.phone.device == app.device
        && let Some(zeroing) = &mut app.settings.phone.zeroing
    {
        zeroing.profile.name.clone_from(&after);
    }
    let mut actions = Vec::new();
    if app.job().is_some_and(|job| job.measuring.profile.is_some()) {
        let renamed = MeasuringEvent::PhoneRenamed { before, after };
        actions = work::event(app, JobEvent::Measuring(renamed), Back::Typing, now);
    }
    actions.extend(changed(app, now));
    actions
}

/// Case or feet were changed in the settings.
pub(super) fn changed(app: &mut AppState, now: &Now) -> Vec<Action> {
    // Readings of the job stand in the way of a change that would spoil
    // them; the next reading then says so.
    let _ = put_into_job(app, now);
    keeping::save(app)
}

/// An event on how the job is measured.
pub(super) fn event(app: &mut AppState, event: MeasuringEvent, now: &Now) -> Vec<Action> {
    work::event(app, JobEvent::Measuring(event), Back::Step, now)
}

/// Says something aloud, unless the voice is off.
pub(super) fn say(app: &AppState, message: Message) -> Vec<Action> {
    match app.settings.voice {
        Voice::On => vec![Action::Say(message)],
        Voice::Off => Vec::new(),
    }
}
