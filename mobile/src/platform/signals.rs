//! What the phone says without the screen: tones, pulses, paper, and the
//! screen itself that stays on.

/// A short tone; they can be told apart without looking.
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
    /// Reverse is in.
    In,
    /// Reverse is out.
    Out,
}

/// One note of a tone: from and to in seconds after its begin, hertz.
pub type Note = (f64, f64, f32);

impl Tone {
    /// What is sounded.
    #[must_use]
    pub fn notes(self) -> &'static [Note] {
        match self {
            Self::Moving => &[(0.0, 0.06, 330.0)],
            Self::Captured => &[(0.0, 0.09, 880.0), (0.1, 0.24, 1320.0)],
            Self::Refused => &[(0.0, 0.12, 196.0), (0.18, 0.34, 196.0)],
            Self::Done => &[(0.0, 0.1, 660.0), (0.12, 0.22, 880.0), (0.24, 0.5, 1320.0)],
            Self::In => &[(0.0, 0.07, 440.0), (0.07, 0.15, 587.0)],
            Self::Out => &[(0.0, 0.07, 587.0), (0.07, 0.15, 440.0)],
        }
    }
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
    /// Reverse is in.
    In,
    /// Reverse is out.
    Out,
    /// The quiet time runs: keep still.
    Quiet,
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
