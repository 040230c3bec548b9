//! A count that was a slip: for a moment it can be taken back.

use super::cycle::{Kind, Noted};
use super::event::{Action, Event};
use super::hear;
use super::run::{doubt, listened};
use super::sound::Told;
use super::state::{Before, Doubt, Listening, Run, UNDO_WITHIN};
use super::voice::hush;
use crate::units::Millis;

impl Before {
    /// Whether sound that was missing up to that time was missing before
    /// the tap.
    fn covers(&self, until: Millis) -> bool {
        self.run.last.is_some_and(|last| until <= last)
    }
}

/// A tap that changes the run can be taken back.
pub(super) fn tapped(next: &mut Run, at: Millis, tap: impl FnOnce(&mut Run) -> bool) {
    let before = as_it_is(next);
    if tap(next) {
        next.last_tap = Some(at);
        let beeps = before.beeps.len();
        can_go_back(next, before, beeps, at);
    }
}

/// The run to go back to.
pub(super) fn as_it_is(next: &Run) -> Run {
    let mut before = next.clone();
    before.before = None;
    before
}

/// A beep that was counted by sound alone can be taken back: it is kept, and
/// counts no more.
pub(super) fn counted_by_sound(next: &mut Run, before: Run, at: Millis) {
    let beeps = next.beeps.len();
    can_go_back(next, before, beeps, at);
}

fn can_go_back(next: &mut Run, run: Run, beeps: usize, at: Millis) {
    let until = at + UNDO_WITHIN;
    next.before = Some(Box::new(Before { until, run, beeps }));
}

/// What is heard while the tap that ended the run can still be taken back
/// counts then; where it cannot be heard rightly, there is no way back.
pub(super) fn meanwhile(next: &mut Run, event: Event, at: Millis) {
    if next.before.is_none() {
        return;
    }
    match event {
        Event::Beep(heard) if hear::note_for_later(next, heard, at) => {}
        Event::Listened(through) => listened(next, through, at),
        Event::Noise { too_loud: false } | Event::Tick => {}
        Event::Gap(until) if next.before.as_ref().is_some_and(|b| b.covers(until)) => {}
        // A tone that sounds on is not known yet.
        Event::Beep(_)
        | Event::Tone(_)
        | Event::Cut(_)
        | Event::Noise { .. }
        | Event::Gap(_)
        | Event::MicrophoneLost => next.before = None,
        Event::Interrupted(_) | Event::Cancelled => next.before = None,
        _ => {}
    }
}

/// The run before the last count; what was heard since is heard again.
pub(super) fn undo(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    // Beeps that were not kept could not be heard again.
    if !next.can_undo(at) || next.beeps_more > 0 {
        return;
    }
    let Some(before) = next.before.take() else {
        return;
    };
    let mut run = before.run;
    let since: Vec<_> = next.beeps.iter().skip(before.beeps).copied().collect();
    let (own, all) = (run.beeps.len(), before.beeps);
    let taken_back = next.beeps.iter().take(all).skip(own);
    run.beeps.extend(taken_back.map(|noted| Noted {
        kind: Kind::Stray,
        ..*noted
    }));
    run.listening = next.listening;
    run.loud = next.loud;
    run.last = next.last;
    run.last_tap = None;
    run.refused = next.refused;
    run.own_until = next.own_until;
    run.speaks = next.speaks;
    (run.deaf, run.last_tick) = (next.deaf, next.last_tick);
    run.missing = next.missing;
    run.undone = next.undone.saturating_add(1);
    if run.listening == Listening::Lost {
        doubt(&mut run, Doubt::MicrophoneLost);
    }
    *next = run;
    hush(next, at, actions);
    for noted in since {
        if !next.phase.ended() {
            let told = match noted.kind {
                Kind::Cut => Told::Cut,
                _ => Told::Whole,
            };
            hear::sound(next, told, noted.heard, at, actions);
        }
    }
}
