//! Date, time zone and monotonic time.

use chrono::{DateTime, FixedOffset};
use rakeline_core::units::Millis;

/// The phone's clock.
pub trait Clock {
    /// Date and time with the device's own offset from UTC at this moment.
    /// It may go back: the fitter or the network sets it.
    fn now(&self) -> DateTime<FixedOffset>;

    /// The IANA name of the device's time zone (`Europe/Paris`), `UTC` when
    /// the system does not tell.
    fn zone(&self) -> String;

    /// Monotonic time on the same scale as the times of sensor events.
    fn monotonic(&self) -> Millis;
}
