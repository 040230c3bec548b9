//! From one event to the next state of a run.

use super::cycle::Cycle;
use super::due::{deaf, due};
use super::event::{Action, Cue, Event, Source};
use super::hear;
use super::slip;
use super::sound::Told;
use super::state::{
    BOUNCE, Cause, Doubt, Listening, OWN_TONE, Phase, Quiet, Run, SKEW, STALL, Ways, Why,
};
use super::voice::{hush, prompt};
use crate::kit::Signal;
use crate::units::Millis;

/// What follows an event.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The run after it.
    pub next: Run,
    /// What the phone does.
    pub actions: Vec<Action>,
}

/// One event of a run.
///
/// 'In' and 'out' are taps or keys. A beep is one at the kit's tone (± 40 Hz;
/// where it is not known, that of the first one after the first 'in'); one at
/// another tone is noted and changes nothing in any state. `n` is the number of
/// the engagement.
///
/// A sound that goes on is one beep, also where it is told in parts with pauses
/// of up to a quarter of a second: it confirms the engagement that it began in
/// (see 'beep'), and no other. A beep whose beginning was not heard confirms
/// nothing; in the quiet time it is a beep. What began while the app itself
/// spoke confirms nothing either, and what came up to [`super::EARLY`] before a
/// silent last 'in' breaks its quiet time all the same.
///
/// | state | event | what follows |
/// |---|---|---|
/// | ready | in | engaged(1), or quiet when it is the last and silent |
/// | ready | out, signal seen | nothing |
/// | ready | beep | by sound alone engaged(1); else it waits [`super::EARLY`] for its tap, then the ways disagree |
/// | engaged(n) | in | nothing: it is in |
/// | engaged(n) | out | released(n); failed(too fast) below the shortest dwell; failed(left reverse) in the last |
/// | engaged(n) | beep | confirms n, however many come; in the last: quiet from its end. By sound alone after a pause: engaged(n + 1) |
/// | engaged(n) | signal seen | nothing; in the last without a microphone: quiet from now |
/// | engaged(n) | [`super::NO_BEEP_AFTER`] without a beep | failed(no beep) where the microphone hears; failed(tone on) where a sound of before goes on |
/// | released(n) | in | engaged(n + 1), or quiet; failed(too slow) beyond the longest gap |
/// | released(n) | out, signal seen | nothing |
/// | released(n) | beep up to [`super::LATE`] after 'out' | confirms n; later as in ready |
/// | released(n), and the quiet after it | no beep up to [`super::LATE`] after 'out' | failed(no beep) where the microphone hears |
/// | released(n) | longest gap passes | failed(too slow) |
/// | quiet | beep | failed(beep in quiet); right after the beep that began it ([`super::BURST`]), or where that one sounds on, the quiet time begins again |
/// | quiet | a sound longer than [`super::LONGEST_BEEP`] | failed(tone on) |
/// | quiet | signal seen | failed(beep in quiet), said by the fitter |
/// | quiet | out | failed(left reverse) |
/// | quiet, past its deadline | out, where no sign of the end is due | noted; it ends once listened up to the deadline |
/// | quiet | in | failed(left reverse): it was out in between; past the deadline nothing |
/// | quiet | deadline, listened up to it | learned, or closing where the sheet names a sign of the end; by sound alone by hand: nobody saw reverse |
/// | quiet | deadline, not heard throughout or ways disagree | by hand; by sound alone failed(too loud, microphone lost) |
/// | closing | the sign of the end | learned, or by hand |
/// | closing | [`super::END_WAIT`] passes; out, in | failed(no end); failed(left reverse) |
/// | closing | beep or signal seen that is not the sign | nothing |
/// | ready to closing | microphone lost | goes on by hand; by sound alone failed(microphone lost) |
/// | ready to closing | too loud, sound missing | in quiet: not proved; else nothing |
/// | ready to closing | listened, tick | what is due by time, as above |
/// | ready to closing | cancelled | failed(cancelled) |
/// | ready to closing | interrupted, [`STALL`] without any event once it began, or [`super::DEAF`] of ticks without a word from the microphone | interrupted |
/// | any that a tap, or by sound alone a counted beep, led to | undo within [`UNDO_WITHIN`] | as before it; beeps since are heard again |
/// | any else | undo | nothing |
/// | any | restart | ready; the phone says nothing of the old run |
/// | learned, by hand, failed, interrupted | any other | nothing |
///
/// Times are monotonic. A tap, key, undo or signal whose time goes back (or is
/// no number) is refused; a tap within [`BOUNCE`] of the last one is the same
/// tap. Any other event with such a time is taken at the last known one. A beep
/// whose own times make no sense confirms nothing, and breaks the quiet time.
/// The microphone's beeps have to be told before the `Listened` that covers them.
/// After a kill nothing resumes: what was stored is closed as interrupted.
#[must_use]
pub fn step(run: &Run, event: Event, at: Millis) -> Step {
    let mut next = run.clone();
    let mut actions = Vec::new();
    if event == Event::Restart {
        next = Run::new(run.procedure.clone(), run.ways, run.test_tone);
        next.loud = run.loud;
        if run.listening == Listening::Lost {
            next.listening = Listening::Lost;
        }
        next.last = Some(at).filter(|at| at.0.is_finite());
        return Step { next, actions };
    }
    let Some(at) = taken_at(&mut next, event, at) else {
        return Step { next, actions };
    };
    let slept = next.started.is_some() && next.last.is_some_and(|last| at.0 - last.0 > STALL.0);
    next.last = Some(at);
    let cause = if slept {
        Some(Cause::Asleep)
    } else {
        deaf(&mut next, event, at).then_some(Cause::NoSound)
    };
    if let Some(cause) = cause.filter(|_| !next.phase.ended()) {
        end(&mut next, Phase::Interrupted(cause), at, &mut actions);
        return Step { next, actions };
    }
    due(&mut next, at, &mut actions);
    happen(&mut next, event, at, &mut actions);
    due(&mut next, at, &mut actions);
    Step { next, actions }
}

/// The time that the event is taken at; `None` when it is refused.
fn taken_at(next: &mut Run, event: Event, at: Millis) -> Option<Millis> {
    let by_hand = matches!(
        event,
        Event::Reverse(_) | Event::Out(_) | Event::Undo | Event::SignalSeen
    );
    let back = !at.0.is_finite() || next.last.is_some_and(|last| at < last);
    let tap = matches!(event, Event::Reverse(_) | Event::Out(_));
    let bounced = tap && next.last_tap.is_some_and(|last| at.0 - last.0 < BOUNCE.0);
    if by_hand && (back || bounced) {
        next.refused = next.refused.saturating_add(1);
        return None;
    }
    if back {
        return Some(next.last.unwrap_or(Millis(0.0)));
    }
    Some(at)
}

fn happen(next: &mut Run, event: Event, at: Millis, actions: &mut Vec<Action>) {
    if event == Event::Undo {
        slip::undo(next, at, actions);
        return;
    }
    if next.phase.ended() {
        slip::meanwhile(next, event, at);
        return;
    }
    match event {
        Event::Reverse(by) => slip::tapped(next, at, |run| match run.phase {
            Phase::Quiet(_) | Phase::Closing { .. } => was_out(run, at, actions),
            _ => engage(run, at, by, actions),
        }),
        Event::Out(_) => slip::tapped(next, at, |run| release(run, at, actions)),
        Event::Beep(heard) => hear::sound(next, Told::Whole, heard, at, actions),
        Event::Cut(heard) => hear::sound(next, Told::Cut, heard, at, actions),
        Event::Tone(heard) => hear::sound(next, Told::GoesOn, heard, at, actions),
        Event::Listened(through) => listened(next, through, at),
        Event::Noise { too_loud } => next.loud = too_loud,
        Event::Gap(until) if next.missing.is_none_or(|missing| until > missing) => {
            next.missing = Some(until);
        }
        Event::MicrophoneLost => lost(next, at, actions),
        Event::SignalSeen => seen(next, at, actions),
        Event::Cancelled => end(next, Phase::Failed(Why::Cancelled), at, actions),
        Event::Interrupted(cause) => end(next, Phase::Interrupted(cause), at, actions),
        Event::Gap(_) | Event::Tick | Event::Undo | Event::Restart => {}
    }
    if next.loud && matches!(next.phase, Phase::Quiet(_)) && next.hears() {
        doubt(next, Doubt::TooLoud);
    }
    // The beep that began the quiet time may be told after the gap.
    if let (Some(quiet), Some(missing)) = (next.quiet, next.missing)
        && missing > quiet.from
        && next.hears()
        && !next.phase.ended()
    {
        doubt(next, Doubt::Gap);
    }
}

pub(super) fn listened(next: &mut Run, through: Millis, at: Millis) {
    if let Listening::On(before) = next.listening
        && through.0.is_finite()
        && through.0 <= at.0 + SKEW.0
        && before.is_none_or(|before| before < through)
    {
        next.listening = Listening::On(Some(through));
    }
}

/// Reverse is in. Tells whether that changed anything.
fn engage(next: &mut Run, at: Millis, by: Source, actions: &mut Vec<Action>) -> bool {
    let n = next.number();
    let last_alone = n + 1 == next.procedure.cycles && !next.procedure.last_beeps;
    if !matches!(next.phase, Phase::Ready | Phase::Released)
        || (next.ways == Ways::Microphone && !last_alone)
    {
        return false;
    }
    next.started.get_or_insert(at);
    let mut early = std::mem::take(&mut next.early);
    let own = std::mem::take(&mut next.early_own);
    next.cycles.push(Cycle::new(at, by));
    hush(next, at, actions);
    signal(next, Cue::In, at, actions);
    next.phase = Phase::Engaged;
    let last = next.number() == next.procedure.cycles;
    if last && !next.procedure.last_beeps {
        quiet(next, at, at, actions);
        // What came while the app spoke was perhaps the kit.
        early.extend(own);
    }
    for heard in early {
        hear::takes_early(next, heard, at, actions);
    }
    true
}

/// Reverse goes in, and was in: it was left in between.
fn was_out(next: &mut Run, at: Millis, actions: &mut Vec<Action>) -> bool {
    if matches!(next.phase, Phase::Quiet(quiet) if at >= quiet.deadline) {
        return false;
    }
    fail(next, Why::LeftReverse, at, actions);
    true
}

/// A cycle was confirmed; the last one's quiet time begins with it, but not
/// before its tap: what sounded between a beep and its tap is no silence.
pub(super) fn counted(next: &mut Run, end: Millis, at: Millis, actions: &mut Vec<Action>) {
    if next.number() == next.procedure.cycles {
        let tapped = next.cycles.last().map_or(end, |cycle| cycle.engaged);
        quiet(next, if tapped > end { tapped } else { end }, at, actions);
    } else {
        signal(next, Cue::Counted, at, actions);
    }
}

/// The quiet time runs from there.
pub(super) fn quiet(next: &mut Run, from: Millis, at: Millis, actions: &mut Vec<Action>) {
    quiet_goes_on(next, from);
    hush(next, at, actions);
    actions.push(Action::Pulse(Cue::Quiet));
}

/// The beep that begins the quiet time sounds on: nothing new for the fitter.
pub(super) fn quiet_goes_on(next: &mut Run, from: Millis) {
    let quiet = Quiet {
        from,
        deadline: from + next.procedure.silent,
    };
    next.quiet = Some(quiet);
    next.phase = Phase::Quiet(quiet);
}

/// A tone and a pulse; no tone where the kit's beep is due at that moment.
fn signal(next: &mut Run, cue: Cue, at: Millis, actions: &mut Vec<Action>) {
    actions.push(Action::Pulse(cue));
    if !next.hears() || matches!(cue, Cue::Counted | Cue::Reached | Cue::Failed) {
        actions.push(Action::Tone(cue));
        next.own_until = Some(at + OWN_TONE);
    }
}

/// Reverse is out. Tells whether that changed anything.
fn release(next: &mut Run, at: Millis, actions: &mut Vec<Action>) -> bool {
    let last = next.number() == next.procedure.cycles;
    match next.phase {
        Phase::Quiet(quiet)
            if at >= quiet.deadline && next.procedure.ends_with == Signal::Nothing =>
        {
            // The countdown is over; the sound up to there is still looked at.
            let open = next.cycles.last_mut();
            let Some(cycle) = open.filter(|cycle| cycle.released.is_none()) else {
                return false;
            };
            cycle.released = Some(at);
            true
        }
        Phase::Quiet(_) | Phase::Closing { .. } => {
            fail(next, Why::LeftReverse, at, actions);
            true
        }
        Phase::Engaged if next.ways == Ways::Microphone => false,
        Phase::Engaged => {
            let shortest = next.procedure.shortest_dwell;
            let Some(cycle) = next.cycles.last_mut() else {
                return false;
            };
            cycle.released = Some(at);
            let dwell = Millis(at.0 - cycle.began().0);
            if last {
                fail(next, Why::LeftReverse, at, actions);
            } else if dwell < shortest {
                fail(next, Why::TooFast { dwell }, at, actions);
            } else {
                next.phase = Phase::Released;
                signal(next, Cue::Out, at, actions);
                prompt(next, at, actions);
            }
            true
        }
        _ => false,
    }
}

/// The fitter says that the kit beeped or its light came on.
fn seen(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    match next.phase {
        Phase::Quiet(quiet) => {
            let after = Millis((at.0 - quiet.from.0).max(0.0));
            fail(next, Why::BeepInQuiet { after }, at, actions);
        }
        Phase::Closing { .. } => match next.procedure.ends_with {
            Signal::Light => finish(next, at, actions),
            Signal::Beep if !next.hears() => finish(next, at, actions),
            _ => {}
        },
        Phase::Engaged if next.number() == next.procedure.cycles && !next.hears() => {
            quiet(next, at, at, actions);
        }
        _ => {}
    }
}

pub(super) fn lost(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    if !next.hears() {
        return;
    }
    next.listening = Listening::Lost;
    next.early.clear();
    next.early_own.clear();
    if next.ways == Ways::Microphone {
        fail(next, Why::MicrophoneLost, at, actions);
    } else {
        doubt(next, Doubt::MicrophoneLost);
    }
}

/// Notes a contradiction; the same one only once.
pub(super) fn doubt(next: &mut Run, doubt: Doubt) {
    if !next.doubts.contains(&doubt) {
        next.doubts.push(doubt);
    }
}

/// All is done; learned only where it is proved. By sound alone reverse was
/// seen by nobody: beeps of one engagement may have been taken for several.
pub(super) fn finish(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    let silent_last = !next.procedure.last_beeps;
    let heard =
        next.cycles.iter().zip(1..).all(|(cycle, number)| {
            cycle.beeps > 0 || (number == next.procedure.cycles && silent_last)
        });
    let proved = next.hears() && heard && next.doubts.is_empty();
    let phase = match (proved, next.ways) {
        (true, Ways::Microphone) => {
            doubt(next, Doubt::ReverseNotSeen);
            Phase::ByHand
        }
        (true, _) => Phase::Learned,
        (false, Ways::Microphone) if next.doubts.contains(&Doubt::Gap) => {
            Phase::Failed(Why::MicrophoneLost)
        }
        (false, Ways::Microphone) => Phase::Failed(Why::TooLoud),
        (false, _) => Phase::ByHand,
    };
    end(next, phase, at, actions);
}

pub(super) fn fail(next: &mut Run, why: Why, at: Millis, actions: &mut Vec<Action>) {
    end(next, Phase::Failed(why), at, actions);
}

fn end(next: &mut Run, phase: Phase, at: Millis, actions: &mut Vec<Action>) {
    let slip = matches!(
        phase,
        Phase::Failed(Why::TooFast { .. } | Why::LeftReverse | Why::BeepInQuiet { .. })
    );
    if !slip {
        next.before = None;
    }
    next.phase = phase;
    next.ended = Some(at);
    let cue = match phase {
        Phase::Learned | Phase::ByHand => Cue::Reached,
        _ => Cue::Failed,
    };
    hush(next, at, actions);
    signal(next, cue, at, actions);
    actions.push(Action::Say(phase.said()));
}
