//! What the microphone says before and during an obstacle learn.

use rakeline_core::estimate::beep::{Beep, EarState, LEAST_MARGIN_DB, Onset, Trouble};
use rakeline_core::learn::{Event, Heard, Phase, SAME_TONE, Ways};
use rakeline_core::text::Message;
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
    let ready = draft.run.as_ref().map(|run| run.phase) == Some(Phase::Ready);
    if ready && beep.onset == Onset::CutByStart {
        // How long it had sounded is not known: nothing begins with it.
        return Vec::new();
    }
    let heard = Heard {
        start: Millis(beep.start_ms),
        end: Millis(beep.end_ms),
        hertz: beep.tone_hz,
    };
    feed(app, Event::Beep(heard), now)
}

fn hears(app: &mut AppState, state: &EarState, now: &Now) -> Vec<Action> {
    let draft = &mut app.drafts.learn;
    draft.ear = Ear::On(EarNow {
        level: (state.level_db + METER_DB) / METER_DB,
        trouble: state
            .trouble
            .map(|trouble| trouble.message(state.margin_db)),
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
    if run.loud != too_loud {
        actions.extend(feed(app, Event::Noise { too_loud }, now));
    }
    actions.extend(feed(app, Event::Gap(gap), now));
    actions.extend(feed(app, Event::Listened(Millis(through)), now));
    actions
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
