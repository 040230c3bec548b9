//! What the microphone says before and during an obstacle learn.

use rakeline_core::estimate::beep::{
    Beep, EarState, LEAST_MARGIN_DB, Lasts, Onset, Sounding, Trouble,
};
use rakeline_core::learn::{Event, Heard, Phase, SAME_TONE, Ways};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Millis;

use super::intent::{Action, Now};
use super::learn::{begin_soon, feed};
use super::state::AppState;
use crate::platform::MicrophoneEvent;

/// A sounding tone began at the earliest so long before it was noticed.
const NOTICED_AFTER: Millis = Millis(1_000.0);
/// The meter begins so many decibels below the loudest.
const METER_DB: f64 = 60.0;

/// How the microphone does.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Ear {
    /// It is not used.
    #[default]
    Off,
    /// It was asked for.
    Starting,
    /// It listens.
    On(EarNow),
    /// There is none, and why.
    No(Message),
}

/// How it hears at a moment.
#[derive(Clone, Debug, PartialEq)]
pub struct EarNow {
    /// Loudness for the meter, 0 to 1.
    pub level: f64,
    /// What is wrong with the sound.
    pub trouble: Option<Message>,
}

/// What the microphone says: beeps first, then up to when it heard.
pub(super) fn said(app: &mut AppState, event: MicrophoneEvent, now: &Now) -> Vec<Action> {
    if app.drafts.learn.ear == Ear::Off {
        return Vec::new();
    }
    match event {
        MicrophoneEvent::Started { .. } => Vec::new(),
        MicrophoneEvent::Fault(fault) => no_ear(app, fault.message(), now),
        MicrophoneEvent::Heard(hearing) => {
            let mut actions = Vec::new();
            for beep in &hearing.beeps {
                actions.extend(beeped(app, beep, now));
            }
            actions.extend(hears(app, &hearing.state, now));
            actions
        }
    }
}

fn beeped(app: &mut AppState, beep: &Beep, now: &Now) -> Vec<Action> {
    let draft = &mut app.drafts.learn;
    draft.beep = Some((now.monotonic, beep.tone_hz));
    let heard = Heard {
        start: Millis(beep.start_ms),
        end: Millis(beep.end_ms),
        hertz: beep.tone_hz,
    };
    let event = match beep.onset {
        Onset::Heard => Event::Beep(heard),
        // How long it had sounded is not known.
        Onset::CutByStart => Event::Cut(heard),
    };
    feed(app, event, now)
}

/// A tone that goes on. One from before the microphone listened began nobody
/// knows when: it confirms nothing, and is no silence.
fn tone_on(app: &mut AppState, on: Sounding, now: &Now) -> Vec<Action> {
    let run = app.drafts.learn.run.as_ref();
    let quiet = run.is_some_and(|run| matches!(run.phase, Phase::Quiet(_)));
    if on.lasts == Lasts::NotSure || (on.lasts == Lasts::GoesOnFromBefore && !quiet) {
        return Vec::new();
    }
    let heard = Heard {
        start: Millis(on.since_ms),
        end: Millis(on.until_ms.max(on.since_ms)),
        hertz: on.tone_hz,
    };
    feed(app, Event::Tone(heard), now)
}

fn hears(app: &mut AppState, state: &EarState, now: &Now) -> Vec<Action> {
    let draft = &mut app.drafts.learn;
    let trouble = state.trouble.map(|why| why.message(state.margin_db));
    draft.ear = Ear::On(EarNow {
        level: (state.level_db + METER_DB) / METER_DB,
        trouble: trouble.or_else(|| state.sounding.and_then(goes_on)),
    });
    let mut actions = begin_soon(app, now);
    let Some(run) = &app.drafts.learn.run else {
        return actions;
    };
    let kit = |hertz: f64| {
        run.tone
            .is_none_or(|tone| (tone - hertz).abs() <= SAME_TONE)
    };
    let sounding = state.sounding.filter(|sounding| kit(sounding.tone_hz));
    let through = match sounding {
        Some(sounding) => (sounding.since_ms - NOTICED_AFTER.0).min(state.settled_ms),
        None => state.settled_ms,
    };
    // Sound that clips may be too loud to hear as well: the graver is named.
    let too_loud = state.margin_db < LEAST_MARGIN_DB || state.trouble == Some(Trouble::TooNoisy);
    // A muted microphone hears no silence.
    let gap = match state.trouble {
        Some(Trouble::Silent) => now.monotonic,
        _ => Millis(state.unbroken_since_ms),
    };
    let loud = run.loud;
    actions.extend(sounding.map_or_else(Vec::new, |on| tone_on(app, on, now)));
    if loud != too_loud {
        actions.extend(feed(app, Event::Noise { too_loud }, now));
    }
    actions.extend(feed(app, Event::Gap(gap), now));
    actions.extend(feed(app, Event::Listened(Millis(through)), now));
    actions
}

/// What is wrong with a tone that does not end.
fn goes_on(sounding: Sounding) -> Option<Message> {
    let on = sounding.lasts != Lasts::NotSure;
    on.then(|| msg("hearing-tone-on").number("hertz", sounding.tone_hz, 0))
}

/// Without a microphone the hand counts, and the screen says what that is worth.
fn no_ear(app: &mut AppState, why: Message, now: &Now) -> Vec<Action> {
    let mut actions = feed(app, Event::MicrophoneLost, now);
    let draft = &mut app.drafts.learn;
    draft.ear = Ear::No(why);
    draft.soon = false;
    if !draft.is_on() {
        draft.ways = Ways::Hand;
    }
    actions.push(Action::StopMicrophone);
    actions
}
