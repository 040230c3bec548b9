//! What time alone brings to a run.

use super::event::{Action, Event};
use super::hear;
use super::run::{fail, finish, lost};
use super::state::{
    DEAF, EARLY, END_WAIT, LAG, LATE, LONGEST_BEEP, Listening, NO_BEEP_AFTER, Phase, Quiet, Run,
    Ways, Why,
};
use crate::kit::Signal;
use crate::units::Millis;

/// A turn counts for no more than this: a page that stood still for longer has
/// the microphone's sound still before it (our own figure).
const TURN: f64 = 200.0;
/// A sound that was on so lately is on (our own figure).
const LATELY: f64 = 1_000.0;

/// Whether the microphone gives nothing any more, and said nothing of it.
pub(super) fn deaf(next: &mut Run, event: Event, at: Millis) -> bool {
    match event {
        Event::Tick => {
            let last = next.last_tick.replace(at).unwrap_or(at);
            if next.hears() {
                next.deaf = next.deaf + Millis((at.0 - last.0).clamp(0.0, TURN));
            }
        }
        Event::Listened(_)
        | Event::Beep(_)
        | Event::Cut(_)
        | Event::Tone(_)
        | Event::Noise { .. }
        | Event::Gap(_) => next.deaf = Millis(0.0),
        _ => {}
    }
    next.hears() && next.deaf > DEAF
}

/// What time alone brings.
pub(super) fn due(next: &mut Run, at: Millis, actions: &mut Vec<Action>) {
    if next.before.as_ref().is_some_and(|before| at > before.until) {
        next.before = None;
    }
    while let Some(early) = next.early.first().copied()
        && at.0 - early.start.0 > EARLY.0
    {
        next.early.remove(0);
        hear::stray(next, early);
    }
    next.early_own
        .retain(|early| at.0 - early.start.0 <= EARLY.0);
    match next.phase {
        Phase::Ready | Phase::Engaged | Phase::Released => {
            hear::pause_alone(next, at);
            if next.hears() && unheard(next, at, actions) {
                return;
            }
            if next.phase == Phase::Released && too_slow(next, at) {
                fail(next, Why::TooSlow, at, actions);
            }
        }
        Phase::Quiet(quiet) => {
            // The cycle before may still be open when the last one begins.
            let failed = next.hears() && unheard(next, at, actions);
            if !failed {
                reached(next, quiet, at, actions);
            }
        }
        Phase::Closing { until } if at >= until => fail(next, Why::NoEnd, at, actions),
        _ => {}
    }
}

/// A cycle that nobody heard confirmed, and no beep of it can come any more.
fn unheard(next: &mut Run, at: Millis, actions: &mut Vec<Action>) -> bool {
    let through = match next.listening {
        Listening::On(through) => through,
        _ => None,
    };
    let gone =
        |moment: Millis| through.is_some_and(|through| through >= moment) || at >= moment + LAG;
    let quiet = matches!(next.phase, Phase::Quiet(_));
    let last = next.procedure.cycles;
    let missing = next.cycles.iter().zip(1..).find(|(cycle, number)| {
        cycle.beeps == 0
            // The last one, once quiet, is asked for silence only.
            && !(quiet && *number == last)
            && match cycle.released {
                Some(released) => gone(released + LATE),
                None => gone(cycle.engaged + NO_BEEP_AFTER),
            }
    });
    let Some((_, cycle)) = missing else {
        return false;
    };
    // A tone that began before the cycle does not confirm it.
    let on = next
        .sound
        .filter(|sound| sound.to.0 + LATELY >= at.0 && sound.lasted() > LONGEST_BEEP);
    match on {
        Some(sound) => hear::sounds_on(next, sound.lasted(), at, actions),
        None => fail(next, Why::NoBeep { cycle }, at, actions),
    }
    true
}

fn too_slow(next: &Run, at: Millis) -> bool {
    let Some(longest) = next.procedure.longest_gap else {
        return false;
    };
    // By sound alone a beep of the next cycle may still be on its way.
    let lag = if next.ways == Ways::Microphone {
        LAG
    } else {
        Millis(0.0)
    };
    let released = next.cycles.last().and_then(|cycle| cycle.released);
    released.is_some_and(|released| at.0 - released.0 > longest.0 + lag.0)
}

fn reached(next: &mut Run, quiet: Quiet, at: Millis, actions: &mut Vec<Action>) {
    if at < quiet.deadline {
        return;
    }
    if let Listening::On(through) = next.listening
        && through.is_none_or(|through| through < quiet.deadline)
    {
        if at >= quiet.deadline + LAG {
            lost(next, at, actions);
        }
        if next.phase.ended() || next.hears() {
            return;
        }
    }
    if next.procedure.ends_with == Signal::Nothing {
        finish(next, at, actions);
    } else {
        next.phase = Phase::Closing {
            until: at + END_WAIT,
        };
    }
}
