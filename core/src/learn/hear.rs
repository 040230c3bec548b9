//! What a sound means for a run.

use super::cycle::{Cycle, Kind, Noted};
use super::event::{Action, Heard, Source};
use super::proof::BEEPS_KEPT;
use super::run::{counted, doubt, fail, finish, quiet, quiet_goes_on};
use super::slip;
use super::sound::{Fate, Part, Told, goes_on_with, is_nothing, join, settle};
use super::state::{
    ALONE_PAUSE, BURST, Doubt, EARLY, END_EARLY, LAG, LATE, LONGEST_BEEP, Listening, OWN_TONE,
    Phase, Quiet, Run, SAME_TONE, SKEW, Ways, Why,
};
use super::voice::{hush, prompt, spoke};
use crate::kit::Signal;
use crate::units::Millis;

/// The microphone heard something: a beep, or a tone that sounds on.
pub(super) fn sound(
    next: &mut Run,
    told: Told,
    heard: Heard,
    at: Millis,
    actions: &mut Vec<Action>,
) {
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
    let alone = next.ways == Ways::Microphone && counting;
    let before = alone.then(|| slip::as_it_is(next));
    let kind = kind(next, told, heard, counting);
    if told != Told::GoesOn {
        note(next, heard, kind);
    }
    if kind == Kind::Own && next.tone.is_some_and(|tone| same(tone, heard)) {
        // It confirms nothing, and breaks the silence that it may belong to;
        // a sound that it goes on with is no shorter for it.
        goes_on_with(next, heard);
        let between = matches!(next.phase, Phase::Ready | Phase::Released);
        if told != Told::GoesOn && between && next.early_own.len() < BEEPS_KEPT {
            next.early_own.push(heard);
        }
        return;
    }
    if !matches!(kind, Kind::Kit | Kind::Cut) {
        return;
    }
    next.started.get_or_insert(heard.start);
    let part = join(next, told, heard);
    takes(next, part, at, actions);
    if let Some(before) = before
        && next.number() > before.number()
    {
        slip::counted_by_sound(next, before, at);
    }
}

fn same(tone: f64, heard: Heard) -> bool {
    (tone - heard.hertz).abs() <= SAME_TONE
}

/// What it is taken for at first; the kit's tone may be learned from it.
fn kind(next: &mut Run, told: Told, heard: Heard, counting: bool) -> Kind {
    let kits = next.tone.is_some_and(|tone| same(tone, heard));
    if counting && ((own(next, heard) && !kits) || spoke(next, heard)) {
        return Kind::Own;
    }
    if next.tone.is_none() && !teaches(next, told, heard) {
        // That its beginning was not heard is kept: it may be heard again.
        return match told {
            Told::Cut => Kind::Cut,
            Told::Whole | Told::GoesOn => Kind::OtherTone,
        };
    }
    if !same(*next.tone.get_or_insert(heard.hertz), heard) {
        return Kind::OtherTone;
    }
    if told == Told::Cut {
        Kind::Cut
    } else {
        Kind::Kit
    }
}

/// Whether the kit's tone is learned from this: not from what came before the
/// first tap (a door's chime), nor from what began nobody knows when. A silence
/// is broken by any tone while the kit's is not known.
fn teaches(next: &Run, told: Told, heard: Heard) -> bool {
    match next.phase {
        Phase::Quiet(_) | Phase::Closing { .. } => true,
        _ if told == Told::Cut => false,
        _ if next.ways == Ways::Microphone => told == Told::Whole,
        _ => {
            let first = next.cycles.first();
            first.is_some_and(|first| heard.start >= first.engaged)
        }
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

/// What a sound at the kit's tone does to the run.
fn takes(next: &mut Run, part: Part, at: Millis, actions: &mut Vec<Action>) {
    let heard = part.whole;
    match next.phase {
        Phase::Quiet(quiet) => settle(next, heard, |run| in_quiet(run, quiet, part, at, actions)),
        Phase::Closing { .. }
            if next.procedure.ends_with == Signal::Beep && part.told != Told::Cut =>
        {
            finish(next, at, actions);
        }
        Phase::Ready | Phase::Engaged | Phase::Released => match part.fate {
            Fate::Cycle(index) => belongs(next, index, part),
            Fate::Nothing => noted_as_stray(next, heard),
            Fate::Open if part.told == Told::Cut => is_nothing(next, heard),
            // By sound alone a beep counts when it is over.
            Fate::Open if next.ways == Ways::Microphone && part.told == Told::GoesOn => {}
            Fate::Open => settle(next, heard, |run| {
                if run.ways == Ways::Microphone {
                    alone(run, heard, at, actions);
                } else {
                    tapped(run, heard, at, actions);
                }
            }),
        },
        _ => {}
    }
}

/// A beep that came before its tap.
pub(super) fn takes_early(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    let goes_with = next.sound.filter(|sound| sound.holds(heard));
    let part = Part {
        whole: heard,
        told: Told::Whole,
        fate: goes_with.map_or(Fate::Open, |sound| sound.fate),
        again: false,
    };
    takes(next, part, at, actions);
}

/// More of a sound that an engagement has already.
fn belongs(next: &mut Run, index: usize, part: Part) {
    let Some(cycle) = next.cycles.get_mut(index) else {
        return;
    };
    if part.again {
        cycle.sounds_to(part.whole.end);
    } else {
        cycle.hear(part.whole);
    }
}

/// Taps say when reverse is in; a beep confirms what it falls into.
fn tapped(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    if after_out(next, heard, at, actions) {
        return;
    }
    if next.phase != Phase::Engaged {
        let mut early = next.early.iter_mut();
        if let Some(known) = early.find(|known| known.start == heard.start) {
            // The same one, which sounds on.
            known.end = heard.end;
        } else if at.0 - heard.start.0 > EARLY.0 || next.early.len() >= BEEPS_KEPT {
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
fn after_out(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) -> bool {
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
    if before.beeps == 1 && next.phase == Phase::Released {
        // What comes next was not said yet: this was waited for.
        prompt(next, at, actions);
    }
    true
}

/// By sound alone: a beep after a pause is the next engagement.
fn alone(next: &mut Run, heard: Heard, at: Millis, actions: &mut Vec<Action>) {
    hush(next, at, actions);
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
pub(super) fn pause_alone(next: &mut Run, at: Millis) {
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
    }
}

fn in_quiet(next: &mut Run, now: Quiet, part: Part, at: Millis, actions: &mut Vec<Action>) {
    let heard = part.whole;
    if heard.start >= now.deadline {
        return;
    }
    let last = next.cycles.len().saturating_sub(1);
    if heard.end < now.from {
        let before = match part.fate {
            Fate::Cycle(index) => {
                belongs(next, index, part);
                true
            }
            _ => after_out(next, heard, at, actions),
        };
        if before {
            return;
        }
    }
    let its_own = part.fate == Fate::Cycle(last);
    let ended = next.cycles.last().and_then(|cycle| cycle.last_beep);
    if next.procedure.last_beeps
        && let Some(ended) = ended
        && (its_own || heard.start.0 - ended.0 <= BURST.0)
    {
        if its_own {
            belongs(next, last, part);
        } else if let Some(cycle) = next.cycles.last_mut() {
            cycle.hear(heard);
        }
        let lasted = Millis(heard.end.0 - heard.start.0);
        if lasted > LONGEST_BEEP {
            sounds_on(next, lasted, at, actions);
        } else if heard.end > now.from && part.told == Told::GoesOn {
            quiet_goes_on(next, heard.end);
        } else {
            let from = if heard.end > now.from {
                heard.end
            } else {
                now.from
            };
            quiet(next, from, at, actions);
        }
        return;
    }
    let left = now.deadline.0 - heard.start.0;
    if next.procedure.ends_with == Signal::Beep && left <= END_EARLY.0 {
        doubt(next, Doubt::EndEarly { by: Millis(left) });
        finish(next, at, actions);
        return;
    }
    if part.told == Told::GoesOn {
        note(next, heard, Kind::Kit);
    }
    broken(next, now, heard.start, at, actions);
}

fn broken(next: &mut Run, quiet: Quiet, from: Millis, at: Millis, actions: &mut Vec<Action>) {
    let after = Millis((from.0 - quiet.from.0).max(0.0));
    fail(next, Why::BeepInQuiet { after }, at, actions);
}

/// The kit sounds without a pause: that is no confirmation.
pub(super) fn sounds_on(next: &mut Run, lasted: Millis, at: Millis, actions: &mut Vec<Action>) {
    fail(next, Why::ToneOn { lasted }, at, actions);
}

/// A beep at the kit's tone that no tap belongs to: the ways disagree.
pub(super) fn stray(next: &mut Run, heard: Heard) {
    noted_as_stray(next, heard);
    is_nothing(next, heard);
    let tapped = next.number();
    doubt(next, Doubt::BeepNotTapped { tapped });
}

fn noted_as_stray(next: &mut Run, heard: Heard) {
    let mut noted = next.beeps.iter_mut();
    let such = |noted: &&mut Noted| noted.kind == Kind::Kit && noted.heard.end == heard.end;
    if let Some(noted) = noted.find(such) {
        noted.kind = Kind::Stray;
    }
}

/// Keeps a beep for the proof; a run that beeps for ever keeps the first ones.
fn note(next: &mut Run, heard: Heard, kind: Kind) {
    if next.beeps.len() < BEEPS_KEPT {
        next.beeps.push(Noted { heard, kind });
    } else {
        next.beeps_more = next.beeps_more.saturating_add(1);
    }
}
