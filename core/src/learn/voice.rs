//! When the app itself speaks, and what it says.

use super::event::{Action, Heard};
use super::state::{Run, Ways};
use crate::text::{Message, msg};
use crate::units::Millis;

/// How long the app speaks for what comes next, and before the last one; with
/// what a phone takes to begin (our own figures).
const NEXT: Millis = Millis(2_000.0);
const LAST: Millis = Millis(4_000.0);
/// How long its voice still rings after it was hushed (our own figure).
const ECHO: Millis = Millis(200.0);

/// What comes next, aloud. Nothing is said while a beep of the kit is due, nor
/// by sound alone: the app would hear itself.
pub(super) fn prompt(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    let due = next.cycles.last().is_some_and(|cycle| cycle.beeps == 0);
    if next.hears() && (due || next.ways == Ways::Microphone) {
        return;
    }
    let (done, all) = (next.number(), next.procedure.cycles);
    let (said, length) = if done + 1 == all {
        (msg("learn-say-last"), LAST)
    } else {
        let then = i64::from(done.saturating_add(1));
        let said = msg("learn-say-again").count("next", then);
        (said.count("cycles", i64::from(all)), NEXT)
    };
    say(next, said, length, at, actions);
}

fn say(next: &mut Run, said: Message, length: Millis, at: Millis, actions: &mut Vec<Action>) {
    next.speaks = Some((at, at + length + ECHO));
    actions.push(Action::Say(said));
}

/// Ends what is being said: the kit will beep.
pub(super) fn hush(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    if let Some((_, until)) = &mut next.speaks
        && *until > at + ECHO
    {
        *until = at + ECHO;
    }
    actions.push(Action::Hush);
}

/// Whether a sound began while the app spoke.
pub(super) fn spoke(next: &Run, heard: Heard) -> bool {
    next.speaks
        .is_some_and(|(from, until)| heard.start >= from && heard.start < until)
}
