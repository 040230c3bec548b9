//! What the microphone hears: beeps and how well, never sound.

use std::rc::Rc;

use rakeline_core::estimate::beep::{Hearing, OwnTone, ToneGate};
use rakeline_core::text::{Message, msg};

/// Why nothing is heard.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MicrophoneFault {
    /// The fitter or the browser said no.
    Refused,
    /// Another app or a call holds it.
    Taken,
    /// The phone has none.
    NoMicrophone,
    /// The page was not opened in a secure context, so it is withheld.
    InsecureContext,
    /// It was pulled out, or the system ended it.
    Ended,
    /// Anything else, in the system's own words.
    Failed(String),
}

impl MicrophoneFault {
    /// What the fitter is told, with what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Refused => msg("microphone-refused"),
            Self::Taken => msg("microphone-taken"),
            Self::NoMicrophone => msg("microphone-none"),
            Self::InsecureContext => msg("microphone-insecure-context"),
            Self::Ended => msg("microphone-ended"),
            Self::Failed(why) => msg("microphone-failed").text("why", why.clone()),
        }
    }
}

/// What the microphone reports.
#[derive(Clone, Debug, PartialEq)]
pub enum MicrophoneEvent {
    /// It runs, at so many samples a second.
    Started {
        /// The device's own rate, hertz.
        rate: f64,
    },
    /// What came of the last tenth of a second or less.
    Heard(Hearing),
    /// Nothing is heard any more; only a new start helps.
    Fault(MicrophoneFault),
}

/// Where microphone events go.
pub type MicrophoneSink = Rc<dyn Fn(MicrophoneEvent)>;

/// The microphone with the ear behind it. Sound stays inside: it is neither
/// kept nor handed on.
pub trait Microphone {
    /// Starts listening into `sink`; call it inside the fitter's tap. The
    /// system's own echo and noise filters are off: they eat beeps. A start
    /// while running ends the run before. The sink may call `stop`.
    fn start(&self, gate: ToneGate, sink: MicrophoneSink);

    /// From now on only these tones count.
    fn gate(&self, gate: ToneGate);

    /// The app sounds this tone itself: it does not count.
    fn own_tone(&self, own: OwnTone);

    /// Ends listening and frees the microphone; the sink is not called any more.
    fn stop(&self);
}
