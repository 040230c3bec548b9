//! Obstacle learn on the screen: the ear beforehand, the run, and what of it
//! goes into the job.

use rakeline_core::job::{JobEvent, LearnedEvent, learn_gate_open};
use rakeline_core::learn::{
    self, Action as Sign, Cause, Cue, Event, Phase, Proof, Run, Source, Ways, step,
};
use rakeline_core::units::Millis;

use super::ear::{self, Ear};
use super::intent::{Action, Intent, Now};
use super::phone;
use super::state::AppState;
use super::work::{self, Back};
use crate::platform::{MicrophoneEvent, Pulse, Tone, Visibility};

/// The mark 'heard' stands so long.
const HEARD_FOR: Millis = Millis(1_200.0);

/// What is under way and not yet a fact of the job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LearnDraft {
    /// How cycles will be counted.
    pub ways: Ways,
    /// How the microphone does.
    pub ear: Ear,
    /// The last beep: when it came, and its hertz.
    pub beep: Option<(Millis, f64)>,
    /// The tone taken from a test beep.
    pub tone: Option<f64>,
    /// A run begins as soon as the microphone hears again.
    pub soon: bool,
    /// The run, also when it is over, until it is put away.
    pub run: Option<Run>,
    /// Whether its end stands in the job.
    pub kept: bool,
    /// The moment on the screen.
    pub at: Millis,
}

impl LearnDraft {
    /// Whether a run is on that has not ended.
    #[must_use]
    pub fn is_on(&self) -> bool {
        self.run.as_ref().is_some_and(|run| !run.phase.ended())
    }

    /// Whether a beep was heard just now.
    #[must_use]
    pub fn just_heard(&self) -> bool {
        self.beep
            .is_some_and(|(came, _)| self.at.0 - came.0 <= HEARD_FOR.0)
    }
}

/// What the fitter or the microphone says about an obstacle learn.
#[derive(Clone, Debug, PartialEq)]
pub enum LearnIntent {
    /// How to count.
    WaysChosen(Ways),
    /// Listen before the run.
    Listen,
    /// The last beep was the kit's: its tone counts.
    ToneTaken,
    /// Begins the run.
    Start,
    /// Reverse is in.
    In(Source),
    /// Reverse is out.
    Out(Source),
    /// The other of both.
    Change(Source),
    /// The kit beeped, or its light came on.
    Seen,
    /// The last tap was a slip.
    Undo,
    /// Ends the run.
    Stop,
    /// Once more from the start.
    Again,
    /// Puts the result away.
    Done,
    /// Time passes.
    Tick,
    /// What the microphone says.
    Ear(MicrophoneEvent),
}

pub(super) fn handle(app: &mut AppState, said: LearnIntent, now: &Now) -> Vec<Action> {
    app.drafts.learn.at = now.monotonic;
    match said {
        LearnIntent::WaysChosen(ways) => choose(app, ways),
        LearnIntent::Listen => listen(app),
        LearnIntent::ToneTaken => {
            app.drafts.learn.tone = app.drafts.learn.beep.map(|(_, hertz)| hertz);
            Vec::new()
        }
        LearnIntent::Start => start(app, now),
        LearnIntent::In(by) => feed(app, Event::Reverse(by), now),
        LearnIntent::Out(by) => feed(app, Event::Out(by), now),
        LearnIntent::Change(by) => change(app, by, now),
        LearnIntent::Seen => feed(app, Event::SignalSeen, now),
        LearnIntent::Undo => feed(app, Event::Undo, now),
        LearnIntent::Stop => feed(app, Event::Cancelled, now),
        LearnIntent::Again => again(app, now),
        LearnIntent::Done => done(app, now),
        LearnIntent::Tick => feed(app, Event::Tick, now),
        LearnIntent::Ear(event) => ear::said(app, event, now),
    }
}

fn choose(app: &mut AppState, ways: Ways) -> Vec<Action> {
    if app.drafts.learn.is_on() {
        return Vec::new();
    }
    app.drafts.learn.ways = ways;
    app.drafts.learn.soon = false;
    if ways == Ways::Hand && app.drafts.learn.ear != Ear::Off {
        app.drafts.learn.ear = Ear::Off;
        return vec![Action::StopMicrophone];
    }
    Vec::new()
}

fn listen(app: &mut AppState) -> Vec<Action> {
    if matches!(app.drafts.learn.ear, Ear::Starting | Ear::On(_)) {
        return Vec::new();
    }
    app.drafts.learn.ear = Ear::Starting;
    vec![Action::StartMicrophone]
}

fn start(app: &mut AppState, now: &Now) -> Vec<Action> {
    let draft = &app.drafts.learn;
    let (ways, tone) = (draft.ways, draft.tone);
    let unheard = ways != Ways::Hand && !matches!(draft.ear, Ear::On(_));
    let Some(kit) = app.job().map(|job| job.kit.clone()) else {
        return Vec::new();
    };
    let Ok(procedure) = learn::procedure(&kit) else {
        return Vec::new();
    };
    let by_ear = procedure.beeps();
    if draft.run.is_some() || (unheard && by_ear) {
        return Vec::new();
    }
    let ways = if by_ear { ways } else { Ways::Hand };
    let actions = fact(app, LearnedEvent::Began(ways), now);
    let begun = app.job().is_some_and(|job| job.learned.running.is_some());
    if !begun {
        return actions;
    }
    let draft = &mut app.drafts.learn;
    draft.run = Some(Run::new(procedure, ways, tone));
    draft.kept = false;
    let tone = draft.run.as_ref().and_then(|run| run.tone);
    let mut all = vec![Action::StartLearn];
    if ways != Ways::Hand {
        all.push(Action::HearOnly(tone));
    }
    all.extend(actions);
    all
}

/// A fact about the learn is no step that could be taken back.
fn fact(app: &mut AppState, event: LearnedEvent, now: &Now) -> Vec<Action> {
    work::event(app, JobEvent::Learned(event), Back::Typing, now)
}

fn change(app: &mut AppState, by: Source, now: &Now) -> Vec<Action> {
    let phase = app.drafts.learn.run.as_ref().map(|run| run.phase);
    let event = match phase {
        Some(Phase::Ready | Phase::Released) => Event::Reverse(by),
        _ => Event::Out(by),
    };
    feed(app, event, now)
}

/// One event of the run; what follows is kept in the job.
pub(super) fn feed(app: &mut AppState, event: Event, now: &Now) -> Vec<Action> {
    let draft = &mut app.drafts.learn;
    draft.at = now.monotonic;
    let Some(run) = &draft.run else {
        return Vec::new();
    };
    let did = step(run, event, now.monotonic);
    let tone = run.tone;
    let came = std::mem::discriminant(&run.phase) != std::mem::discriminant(&did.next.phase)
        || run.number() != did.next.number()
        || run.confirmed() != did.next.confirmed();
    let heard = did.next.tone;
    draft.run = Some(did.next);
    let mut actions = signs(app, did.actions);
    if heard != tone {
        actions.push(Action::HearOnly(heard));
    }
    actions.extend(keep(app, came, now));
    actions
}

/// Puts the run into the job: its end once nothing can change it any more,
/// before that as far as it came.
fn keep(app: &mut AppState, came: bool, now: &Now) -> Vec<Action> {
    let draft = &mut app.drafts.learn;
    let Some(run) = &draft.run else {
        return Vec::new();
    };
    if draft.kept {
        return Vec::new();
    }
    if run.settled() {
        let proof = Box::new(Proof::of(run));
        draft.kept = true;
        let mut actions = vec![Action::StopLearn];
        actions.extend(fact(app, LearnedEvent::Ended(proof), now));
        return actions;
    }
    if came {
        let proof = Box::new(Proof::of(run));
        return fact(app, LearnedEvent::Came(proof), now);
    }
    Vec::new()
}

fn signs(app: &AppState, signs: Vec<Sign>) -> Vec<Action> {
    let mut actions = Vec::new();
    for sign in signs {
        match sign {
            Sign::Tone(cue) => actions.extend(tone(cue).map(Action::Sound)),
            Sign::Pulse(cue) => actions.push(Action::Pulse(pulse(cue))),
            Sign::Say(words) => actions.extend(phone::say(app, words)),
            Sign::Hush => actions.push(Action::Hush),
        }
    }
    actions
}

fn tone(cue: Cue) -> Option<Tone> {
    match cue {
        Cue::In => Some(Tone::In),
        Cue::Out => Some(Tone::Out),
        Cue::Counted => Some(Tone::Captured),
        Cue::Quiet => None,
        Cue::Reached => Some(Tone::Done),
        Cue::Failed => Some(Tone::Refused),
    }
}

fn pulse(cue: Cue) -> Pulse {
    match cue {
        Cue::In => Pulse::In,
        Cue::Out => Pulse::Out,
        Cue::Counted => Pulse::Captured,
        Cue::Quiet => Pulse::Quiet,
        Cue::Reached => Pulse::Done,
        Cue::Failed => Pulse::Refused,
    }
}

/// Ends what is on, and the way back of its last tap, at once.
fn close(app: &mut AppState, event: Event, now: &Now) -> Vec<Action> {
    let run = app.drafts.learn.run.as_ref();
    if run.is_some_and(|run| !run.settled()) {
        return feed(app, event, now);
    }
    Vec::new()
}

/// Once more: a run that is on is begun anew in the same moment; after one
/// that is over, whoever presses has read the gate beside the button.
fn again(app: &mut AppState, now: &Now) -> Vec<Action> {
    if app.drafts.learn.is_on() {
        return restart(app, now);
    }
    let mut actions = close(app, Event::Cancelled, now);
    let Some(run) = app.drafts.learn.run.take() else {
        return actions;
    };
    app.drafts.learn.ways = run.ways;
    actions.extend(fact(app, LearnedEvent::GateHeeded, now));
    if run.phase == Phase::Interrupted(Cause::NoSound) {
        // One that hangs is opened anew.
        app.drafts.learn.ear = Ear::Off;
        actions.push(Action::StopMicrophone);
    }
    if run.ways != Ways::Hand && !matches!(app.drafts.learn.ear, Ear::On(_)) {
        // Heard again first; the run begins from there.
        actions.extend(listen(app));
        app.drafts.learn.soon = true;
        return actions;
    }
    actions.extend(start(app, now));
    actions
}

fn restart(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(run) = app.drafts.learn.run.clone() else {
        return Vec::new();
    };
    if !app.job().is_some_and(|job| learn_gate_open(job, now.at)) {
        // It has lapsed meanwhile, and is read anew first.
        return close(app, Event::Cancelled, now);
    }
    let given_up = step(&run, Event::Cancelled, now.monotonic).next;
    let proof = Box::new(Proof::of(&given_up));
    let mut actions = fact(app, LearnedEvent::Restarted(proof), now);
    let did = step(&run, Event::Restart, now.monotonic);
    actions.push(Action::Hush);
    actions.push(Action::HearOnly(did.next.tone));
    app.drafts.learn.run = Some(did.next);
    actions
}

/// The run that waited for the microphone.
pub(super) fn begin_soon(app: &mut AppState, now: &Now) -> Vec<Action> {
    if std::mem::take(&mut app.drafts.learn.soon) {
        return start(app, now);
    }
    Vec::new()
}

fn done(app: &mut AppState, now: &Now) -> Vec<Action> {
    let actions = close(app, Event::Cancelled, now);
    app.drafts.learn.run = None;
    actions
}

/// Whoever leaves the screen ends the run that is on.
pub(super) fn before(app: &mut AppState, intent: &Intent, now: &Now) -> Vec<Action> {
    let leaves = matches!(
        intent,
        Intent::Popped(_) | Intent::GoStep(_) | Intent::GoJobs
    );
    if leaves && app.drafts.learn.run.is_some() {
        return close(app, Event::Cancelled, now);
    }
    Vec::new()
}

/// What the screen of the learn held goes with it.
pub(super) fn leave(app: &AppState) -> Vec<Action> {
    let draft = &app.drafts.learn;
    let mut actions = Vec::new();
    if draft.run.is_some() && !draft.kept {
        actions.push(Action::StopLearn);
    }
    if matches!(draft.ear, Ear::Starting | Ear::On(_)) {
        actions.push(Action::StopMicrophone);
    }
    actions
}

/// Nobody watches a run in the background.
pub(super) fn seen(app: &mut AppState, visibility: Visibility, now: &Now) -> Vec<Action> {
    if visibility == Visibility::Shown {
        return Vec::new();
    }
    let mut actions = close(app, Event::Interrupted(Cause::Hidden), now);
    if matches!(app.drafts.learn.ear, Ear::Starting | Ear::On(_)) {
        app.drafts.learn.ear = Ear::Off;
        app.drafts.learn.soon = false;
        actions.push(Action::StopMicrophone);
    }
    actions
}

/// A job that was stored in the middle of a run: the app was ended with it.
pub(super) fn found(app: &mut AppState, now: &Now) -> Vec<Action> {
    if app.job().is_some_and(|job| job.learned.running.is_some()) {
        return fact(app, LearnedEvent::FoundBroken, now);
    }
    Vec::new()
}
