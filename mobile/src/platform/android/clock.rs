//! Date and zone of the phone; monotonic time as the sensors count it.

use std::time::{SystemTime, UNIX_EPOCH};

use chrono::{DateTime, FixedOffset};
use rakeline_core::units::Millis;

use super::phone::{Handle, PhoneFacts};
use crate::platform::Clock;

/// The phone's clock.
pub(super) struct AndroidClock {
    phone: Handle,
    zone: String,
}

impl AndroidClock {
    pub(super) fn new(phone: &Handle, facts: &PhoneFacts) -> Self {
        let zone = match facts.zone.as_str() {
            "" => "UTC".to_owned(),
            zone => zone.to_owned(),
        };
        Self {
            phone: *phone,
            zone,
        }
    }
}

impl Clock for AndroidClock {
    fn now(&self) -> DateTime<FixedOffset> {
        let since = SystemTime::now().duration_since(UNIX_EPOCH);
        let at = since.map_or(0, |since| i64::try_from(since.as_millis()).unwrap_or(0));
        let minutes = self.phone.ask(|phone| phone.minutes_ahead(at)).unwrap_or(0);
        let utc = DateTime::from_timestamp_millis(at)
            .unwrap_or_default()
            .fixed_offset();
        match FixedOffset::east_opt(minutes.saturating_mul(60)) {
            Some(zone) => utc.with_timezone(&zone),
            None => utc,
        }
    }

    fn zone(&self) -> String {
        self.zone.clone()
    }

    fn monotonic(&self) -> Millis {
        Millis(self.phone.ask(|phone| phone.elapsed_ms()).unwrap_or(0.0))
    }
}
