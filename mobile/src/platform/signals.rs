//! What the phone says without the screen: tones, pulses, paper, and the
//! screen itself that stays on.

/// A short tone; the four can be told apart without looking.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tone {
    /// The phone moves: hold it still.
    Moving,
    /// A reading was taken.
    Captured,
    /// A reading or an entry was not taken.
    Refused,
    /// The last of a series was taken.
    Done,
}

/// A short vibration, named as the tones are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Pulse {
    /// The phone moves: hold it still.
    Moving,
    /// A reading was taken.
    Captured,
    /// A reading or an entry was not taken.
    Refused,
    /// The last of a series was taken.
    Done,
}

/// The loudspeaker.
pub trait Sound {
    /// Makes tones possible; call it inside a tap, once or as often as you like.
    fn unlock(&self);

    /// Sounds a tone and returns at once. Silent where sound is not allowed.
    fn tone(&self, tone: Tone);
}

/// The vibration motor.
pub trait Vibration {
    /// Gives a pulse and returns at once. Nothing happens on a phone without a motor.
    fn pulse(&self, pulse: Pulse);
}

/// The printer.
pub trait Print {
    /// Opens the system's print view of what the screen shows.
    fn print(&self);
}

/// The screen's own sleep.
pub trait Wake {
    /// Keeps the screen on until [`Wake::release`], also after the app was
    /// in the background for a while.
    fn hold(&self);

    /// Lets the screen sleep again.
    fn release(&self);
}
