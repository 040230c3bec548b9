//! Date, time zone and monotonic time of the browser.

use chrono::{DateTime, FixedOffset};
use js_sys::{Array, Date, Intl, Object};
use rakeline_core::units::Millis;
use web_sys::Window;

use super::call::property;
use crate::platform::Clock;

/// The browser's clock.
pub(super) struct WebClock(Window);

impl WebClock {
    pub(super) fn new(window: &Window) -> Self {
        Self(window.clone())
    }
}

impl Clock for WebClock {
    fn now(&self) -> DateTime<FixedOffset> {
        let date = Date::new_0();
        let utc = DateTime::from_timestamp_millis(date.get_time() as i64)
            .unwrap_or_default()
            .fixed_offset();
        // The browser counts minutes from local time to UTC: east is negative.
        let east = -(date.get_timezone_offset() * 60.0) as i32;
        match FixedOffset::east_opt(east) {
            Some(offset) => utc.with_timezone(&offset),
            None => utc,
        }
    }

    fn zone(&self) -> String {
        let format = Intl::DateTimeFormat::new(&Array::new(), &Object::new());
        property(&format.resolved_options(), "timeZone")
            .and_then(|zone| zone.as_string())
            .unwrap_or_else(|| "UTC".to_owned())
    }

    fn monotonic(&self) -> Millis {
        monotonic(&self.0)
    }
}

/// Milliseconds since the page's time origin, the scale of event times.
pub(super) fn monotonic(window: &Window) -> Millis {
    Millis(window.performance().map_or(0.0, |clock| clock.now()))
}
