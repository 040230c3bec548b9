//! Which way is up, as the phone's sensors tell it.

use std::rc::Rc;

use rakeline_core::sample::RawSample;
use rakeline_core::text::{Message, msg};

/// The sources in the order in which they are tried: the best figure for a
/// face angle first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SourceName {
    /// Euler angles relative to where the phone started.
    Orientation,
    /// A quaternion from the system's relative orientation sensor.
    RelativeOrientation,
    /// Acceleration with gravity.
    Acceleration,
}

impl SourceName {
    /// What the fitter is told about where the figures come from.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::Orientation => msg("motion-source-orientation"),
            Self::RelativeOrientation => msg("motion-source-relative-orientation"),
            Self::Acceleration => msg("motion-source-acceleration"),
        }
    }
}

/// Why there are no readings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MotionFault {
    /// The fitter or the browser said no.
    PermissionRefused,
    /// No source gave a figure.
    NoSensor,
    /// The page was not opened in a secure context, so sensors are withheld.
    InsecureContext,
    /// A source that reports all the time fell silent, or the system ended it.
    Stopped,
}

impl MotionFault {
    /// What the fitter is told, with what to do.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::PermissionRefused => msg("motion-permission-refused"),
            Self::NoSensor => msg("motion-no-sensor"),
            Self::InsecureContext => msg("motion-insecure-context"),
            Self::Stopped => msg("motion-stopped"),
        }
    }
}

/// What the motion device reports.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MotionEvent {
    /// The source that the following samples come from.
    Using(SourceName),
    /// One reading. A source that reports only on change is silent while
    /// the phone is steady: silence is then no fault.
    Sample(RawSample),
    /// There are no readings. After `Stopped` readings may come again, and
    /// then `Using` comes before them; after the others only a new start helps.
    Fault(MotionFault),
}

/// Where motion events go.
pub type MotionSink = Rc<dyn Fn(MotionEvent)>;

/// The motion sensors.
pub trait Motion {
    /// Starts reading into `sink`. Call it straight inside the fitter's tap:
    /// some systems ask for permission then, and only then. A start while
    /// running ends the run before. The sink may call `stop` or `start`.
    fn start(&self, sink: MotionSink);

    /// As [`Motion::start`], for readings that have to tell how far the phone
    /// turned as well. Where one source tells both, it is the same.
    fn start_turning(&self, sink: MotionSink) {
        self.start(sink);
    }

    /// Ends reading; the sink is not called any more.
    fn stop(&self);
}
