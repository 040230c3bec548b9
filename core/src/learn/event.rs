//! What happens in a run, and what the phone does about it.

use serde::{Deserialize, Serialize};

use super::state::Cause;
use crate::text::Message;
use crate::units::Millis;

/// Who said that reverse is in or out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// A tap on the screen.
    Tap,
    /// A key.
    Key,
    /// The microphone alone.
    Heard,
}

/// A beep that was heard, by its own times on the clock of the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heard {
    /// Its first sound.
    pub start: Millis,
    /// Its last sound.
    pub end: Millis,
    /// Its tone in hertz.
    pub hertz: f64,
}

/// Something that happened.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Event {
    /// The selector went into reverse.
    Reverse(Source),
    /// It went out of reverse.
    Out(Source),
    /// The microphone heard a beep.
    Beep(Heard),
    /// A beep was heard whose beginning was not: it confirms nothing.
    Cut(Heard),
    /// A tone sounds on, so far up to its `end`. It is told again and again
    /// while it does, and once more as a beep when it has ended.
    Tone(Heard),
    /// The microphone's sound was looked at up to this time; every beep that
    /// began before was told.
    Listened(Millis),
    /// Some sound was missing up to this time.
    Gap(Millis),
    /// It is too loud to hear the kit, or no longer.
    Noise {
        /// Whether it is.
        too_loud: bool,
    },
    /// The microphone gives nothing any more.
    MicrophoneLost,
    /// The fitter says that the kit beeped or its light came on.
    SignalSeen,
    /// Time passed.
    Tick,
    /// The last tap was a slip.
    Undo,
    /// The fitter gives up.
    Cancelled,
    /// Nobody watched any more.
    Interrupted(Cause),
    /// Once more from the start.
    Restart,
}

/// A sign to the fitter that can be told from the others without looking.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cue {
    /// In reverse.
    In,
    /// Out of reverse.
    Out,
    /// This cycle is confirmed.
    Counted,
    /// The quiet time runs.
    Quiet,
    /// The end, reached.
    Reached,
    /// The end, not reached.
    Failed,
}

/// What the phone does.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Sounds a tone. Never sounds in the quiet time, nor while the kit's
    /// own beep is due.
    Tone(Cue),
    /// Gives a pulse in the hand.
    Pulse(Cue),
    /// Says something aloud.
    Say(Message),
    /// Ends what is being said: the kit will beep.
    Hush,
}
