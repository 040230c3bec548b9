//! Days and times as they are read: the phone's own day, 24 hours.
//!
//! Not by chrono's format texts: their reader weighs more in the app's module
//! than all that is written with it.

use chrono::{DateTime, Datelike, FixedOffset, Timelike};

const MONTHS: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];

/// `14:05`.
#[must_use]
pub fn clock(at: &DateTime<FixedOffset>) -> String {
    format!("{:02}:{:02}", at.hour(), at.minute())
}

/// `3 Mar`.
#[must_use]
pub fn day(at: &DateTime<FixedOffset>) -> String {
    let month = MONTHS.get(at.month0() as usize).unwrap_or(&"");
    format!("{} {month}", at.day())
}

/// `3 Mar 2026`.
#[must_use]
pub fn date(at: &DateTime<FixedOffset>) -> String {
    format!("{} {}", day(at), at.year())
}

/// `3 Mar, 14:05`.
#[must_use]
pub fn day_and_clock(at: &DateTime<FixedOffset>) -> String {
    format!("{}, {}", day(at), clock(at))
}

/// `3 Mar 2026, 14:05`.
#[must_use]
pub fn date_and_clock(at: &DateTime<FixedOffset>) -> String {
    format!("{}, {}", date(at), clock(at))
}

/// `2026-03-03`, for what is sorted or kept.
#[must_use]
pub fn sorted_date(at: &DateTime<FixedOffset>) -> String {
    format!("{:04}-{:02}-{:02}", at.year(), at.month(), at.day())
}

/// `+05:45`: how far the phone's clock is ahead of universal time.
#[must_use]
pub fn offset(at: &DateTime<FixedOffset>) -> String {
    at.offset().to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[expect(clippy::disallowed_methods, reason = "what is compared with")]
    fn moments_are_written_as_chrono_writes_them() {
        for text in [
            "2026-03-03T04:05:06+05:45",
            "1999-12-31T23:59:59.999-03:30",
            "2028-02-29T00:00:00Z",
        ] {
            let at = DateTime::parse_from_rfc3339(text).unwrap();
            let by_chrono = |how: &str| at.format(how).to_string();
            assert_eq!(clock(&at), by_chrono("%H:%M"));
            assert_eq!(date_and_clock(&at), by_chrono("%-d %b %Y, %H:%M"));
            assert_eq!(day_and_clock(&at), by_chrono("%-d %b, %H:%M"));
            assert_eq!(sorted_date(&at), by_chrono("%Y-%m-%d"));
            assert_eq!(offset(&at), by_chrono("%:z"));
        }
        for month in 1..=12 {
            let text = format!("2026-{month:02}-15T12:00:00Z");
            let at = DateTime::parse_from_rfc3339(&text).unwrap();
            assert_eq!(date(&at), at.format("%-d %b %Y").to_string());
        }
    }
}
