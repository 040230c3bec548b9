//! What a beep means for a run.

use super::event::{Action, Heard, Source};
use super::proof::BEEPS_KEPT;
use super::run::{counted, doubt, fail, finish, prompt, quiet};
use super::slip;
use super::state::{
    ALONE_PAUSE, BURST, Cycle, Doubt, EARLY, END_EARLY, Kind, LAG, LATE, Listening, Noted,
    OWN_TONE, Phase, Quiet, Run, SAME_TONE, SKEW, Ways, Why,
};
use crate::kit::Signal;
use crate::units::Millis;

/// The microphone heard a beep.
pub(super) fn beep(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    if !next.hears() {
        return;
    }
    if !makes_sense(heard, at) {
        next.refused = next.refused.saturating_add(1);
        if let Phase::Quiet(quiet) = next.phase {
            broken(next, quiet, at, at, actions);
        }
        return;
    }
    let counting = matches!(next.phase, Phase::Ready | Phase::Engaged | Phase::Released);
    let kits = |tone: f64| (tone - heard.hertz).abs() <= SAME_TONE;
    if counting && own(next, heard) && !next.tone.is_some_and(kits) {
        note(next, heard, Kind::Own);
        return;
    }
    let alone = next.ways == Ways::Microphone && counting;
    let before = alone.then(|| slip::as_it_is(next));
    if !kits(*next.tone.get_or_insert(heard.hertz)) {
        note(next, heard, Kind::OtherTone);
        return;
    }
    next.started.get_or_insert(heard.start);
    note(next, heard, Kind::Kit);
    takes(next, heard, at, actions);
    if let Some(before) = before
        && next.number() > before.number()
    {
        slip::counted_by_sound(next, before, at);
    }
}

/// Keeps a beep that counts only when the run goes on after all. Tells
/// whether it could be kept.
pub(super) fn note_for_later(next: &mut Run, heard: Heard, at: Millis) -> bool {
    let fits = makes_sense(heard, at) || !next.hears();
    if fits && next.hears() {
        note(next, heard, Kind::Kit);
    }
    fits
}

fn makes_sense(heard: Heard, at: Millis) -> bool {
    let figures = [heard.start.0, heard.end.0, heard.hertz];
    figures.iter().all(|figure| figure.is_finite())
        && heard.start <= heard.end
        && heard.end.0 <= at.0 + SKEW.0
}

/// Whether the app itself sounded meanwhile. A beep at the kit's known tone is
/// the kit's all the same: the ear is told the app's own tones one by one.
fn own(next: &Run, heard: Heard) -> bool {
    next.own_until
        .is_some_and(|until| heard.start < until && heard.end.0 > until.0 - OWN_TONE.0)
}

/// What a beep at the kit's tone does to the run.
pub(super) fn takes(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    match next.phase {
        Phase::Quiet(quiet) => in_quiet(next, quiet, heard, at, actions),
        Phase::Closing { .. } if next.procedure.ends_with == Signal::Beep => {
            finish(next, at, actions);
        }
        Phase::Ready | Phase::Engaged | Phase::Released => {
            if next.ways == Ways::Microphone {
                alone(next, heard, at, actions);
            } else {
                tapped(next, heard, at, actions);
            }
        }
        _ => {}
    }
}

/// Taps say when reverse is in; a beep confirms what it falls into.
fn tapped(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    if after_out(next, heard) {
        return;
    }
    if next.phase != Phase::Engaged {
        if at.0 - heard.start.0 > EARLY.0 || next.early.len() >= BEEPS_KEPT {
            stray(next, heard);
        } else {
            next.early.push(heard);
        }
        return;
    }
    let open = next.cycles.last_mut();
    let Some(cycle) = open.filter(|cycle| heard.start.0 >= cycle.engaged.0 - EARLY.0) else {
        stray(next, heard);
        return;
    };
    cycle.hear(heard);
    if cycle.beeps == 1 {
        counted(next, heard.end, at, actions);
    }
}

/// Whether it belongs to a cycle that is already left: it began up to
/// [`LATE`] after 'out', and not in the cycle that is open now.
fn after_out(next: &mut Run, heard: Heard) -> bool {
    let open = next.cycles.last().filter(|cycle| cycle.released.is_none());
    let open = open.map(|cycle| cycle.engaged);
    let mut left = next
        .cycles
        .iter_mut()
        .filter(|cycle| cycle.released.is_some());
    let Some(before) = left.next_back() else {
        return false;
    };
    let Some(out) = before.released else {
        return false;
    };
    let its_own = heard.start <= out
        || open.is_none()
        || (before.beeps == 0 && open.is_some_and(|open| heard.end < open));
    if !its_own || heard.start > out + LATE || heard.start.0 < before.engaged.0 - EARLY.0 {
        return false;
    }
    before.hear(heard);
    true
}

/// By sound alone: a beep after a pause is the next engagement.
fn alone(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    actions.push(Action::Hush);
    let pause = next.cycles.last().and_then(|cycle| cycle.last_beep);
    let together = pause.is_some_and(|last| heard.start.0 - last.0 < ALONE_PAUSE.0);
    if together && let Some(cycle) = next.cycles.last_mut() {
        cycle.hear(heard);
        return;
    }
    let silent_last = !next.procedure.last_beeps;
    if silent_last && next.number() + 1 >= next.procedure.cycles {
        // Only the silent one is left, and it beeped.
        let after = Millis(0.0);
        fail(next, Why::BeepInQuiet { after }, at, actions);
        return;
    }
    if let (Some(last), Some(longest)) = (pause, next.procedure.longest_gap)
        && heard.start.0 - last.0 > longest.0
    {
        fail(next, Why::TooSlow, at, actions);
        return;
    }
    leave_alone(next);
    let mut cycle = Cycle::new(heard.start, Source::Heard);
    cycle.hear(heard);
    next.cycles.push(cycle);
    next.phase = Phase::Engaged;
    counted(next, heard.end, at, actions);
}

fn leave_alone(next: &mut Run) {
    if let Some(cycle) = next.cycles.last_mut() {
        cycle.released = cycle.released.or(cycle.last_beep);
    }
}

/// By sound alone: after a pause without a beep the engagement is over.
pub(super) fn pause_alone(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    if next.ways != Ways::Microphone || next.phase != Phase::Engaged {
        return;
    }
    let through = match next.listening {
        Listening::On(Some(through)) => through,
        _ => Millis(at.0 - LAG.0),
    };
    let last = next.cycles.last().and_then(|cycle| cycle.last_beep);
    if last.is_some_and(|last| through.0 - last.0 >= ALONE_PAUSE.0) {
        leave_alone(next);
        next.phase = Phase::Released;
        prompt(next, actions);
    }
}

fn in_quiet(next: &mut Run, now: Quiet, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    if heard.start >= now.deadline || (heard.end < now.from && after_out(next, heard)) {
        return;
    }
    if next.procedure.last_beeps
        && let Some(cycle) = next.cycles.last_mut()
        && let Some(ended) = cycle.last_beep
        && heard.start.0 - ended.0 <= BURST.0
    {
        cycle.hear(heard);
        let from = if heard.end > now.from {
            heard.end
        } else {
            now.from
        };
        quiet(next, from, actions);
        return;
    }
    let left = now.deadline.0 - heard.start.0;
    if next.procedure.ends_with == Signal::Beep && left <= END_EARLY.0 {
        doubt(next, Doubt::EndEarly { by: Millis(left) });
        finish(next, at, actions);
        return;
    }
    broken(next, now, heard.start, at, actions);
}

fn broken(next: &mut Run, quiet: Quiet, from: Millis, at: Millis, actions: &mut Vec<Action>) {
    let after = Millis((from.0 - quiet.from.0).max(0.0));
    fail(next, Why::BeepInQuiet { after }, at, actions);
}

/// A beep at the kit's tone that no tap belongs to: the ways disagree.
pub(super) fn stray(next: &mut Run, heard: Heard) {
    let mut noted = next.beeps.iter_mut();
    if let Some(noted) = noted.find(|noted| noted.heard == heard) {
        noted.kind = Kind::Stray;
    }
    let tapped = next.number();
    doubt(next, Doubt::BeepNotTapped { tapped });
}

/// Keeps a beep for the proof; a run that beeps for ever keeps the first ones.
fn note(next: &mut Run, heard: Heard, kind: Kind) {
    if next.beeps.len() < BEEPS_KEPT {
        next.beeps.push(Noted { heard, kind });
    } else {
        next.beeps_more = next.beeps_more.saturating_add(1);
    }
}
