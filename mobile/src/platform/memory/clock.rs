//! A clock that moves when told, and the timers that hang on it.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use chrono::{DateTime, FixedOffset, TimeDelta};
use rakeline_core::units::Millis;

use crate::platform::Clock;

enum Call {
    Once(Box<dyn FnOnce()>),
    Every(f64, Rc<dyn Fn()>),
}

struct Timer {
    number: u64,
    due: f64,
    call: Call,
}

/// A scripted clock. It starts at 12 March 2026, 09:30 at +01:00, zone
/// `Europe/Paris`, monotonic 0.
pub struct MemoryClock {
    now: Cell<DateTime<FixedOffset>>,
    zone: RefCell<String>,
    monotonic: Cell<f64>,
    timers: RefCell<Vec<Timer>>,
    next: Cell<u64>,
}

/// 2026-03-12T08:30:00Z in seconds.
const START: i64 = 1_773_304_200;

impl Default for MemoryClock {
    fn default() -> Self {
        let now = DateTime::from_timestamp(START, 0)
            .unwrap_or_default()
            .fixed_offset();
        let now = match FixedOffset::east_opt(3600) {
            Some(offset) => now.with_timezone(&offset),
            None => now,
        };
        Self {
            now: Cell::new(now),
            zone: RefCell::new("Europe/Paris".to_owned()),
            monotonic: Cell::new(0.0),
            timers: RefCell::default(),
            next: Cell::new(0),
        }
    }
}

impl MemoryClock {
    /// Sets the date, as the fitter or the network may, forward or back;
    /// monotonic time is not touched.
    pub fn set(&self, now: DateTime<FixedOffset>, zone: &str) {
        self.now.set(now);
        zone.clone_into(&mut self.zone.borrow_mut());
    }

    /// Lets time go by; timers that fall due are called in order, each at
    /// its own time.
    pub fn advance(&self, by: Millis) {
        let end = self.monotonic.get() + by.0.max(0.0);
        while let Some(timer) = self.take_due(end) {
            self.go_to(timer.due);
            match timer.call {
                Call::Once(call) => call(),
                Call::Every(interval, call) => {
                    let again = call.clone();
                    self.put(Timer {
                        due: timer.due + interval,
                        number: timer.number,
                        call: Call::Every(interval, call),
                    });
                    again();
                }
            }
        }
        self.go_to(end);
    }

    /// How many timers are running.
    #[must_use]
    pub fn timers(&self) -> usize {
        self.timers.borrow().len()
    }

    pub(super) fn gone_on(&self) -> Self {
        Self {
            now: Cell::new(self.now.get()),
            zone: RefCell::new(self.zone.borrow().clone()),
            ..Self::default()
        }
    }

    pub(super) fn after(&self, delay: Millis, call: Box<dyn FnOnce()>) {
        let due = self.monotonic.get() + delay.0.max(0.0);
        let number = self.number();
        self.put(Timer {
            number,
            due,
            call: Call::Once(call),
        });
    }

    pub(super) fn every(&self, interval: Millis, call: Rc<dyn Fn()>) -> u64 {
        let interval = interval.0.max(1.0);
        let number = self.number();
        self.put(Timer {
            number,
            due: self.monotonic.get() + interval,
            call: Call::Every(interval, call),
        });
        number
    }

    pub(super) fn cancel(&self, number: u64) {
        // Taken out first: what the call holds may itself hold a ticker.
        let mut timers = self.timers.borrow_mut();
        let place = timers.iter().position(|t| t.number == number);
        let gone = place.map(|i| timers.remove(i));
        drop(timers);
        drop(gone);
    }

    fn number(&self) -> u64 {
        self.next.set(self.next.get() + 1);
        self.next.get()
    }

    fn put(&self, timer: Timer) {
        self.timers.borrow_mut().push(timer);
    }

    fn take_due(&self, end: f64) -> Option<Timer> {
        let mut timers = self.timers.borrow_mut();
        let first = timers
            .iter()
            .enumerate()
            .filter(|(_, t)| t.due <= end)
            .min_by(|(_, a), (_, b)| a.due.total_cmp(&b.due).then(a.number.cmp(&b.number)))
            .map(|(i, _)| i)?;
        Some(timers.remove(first))
    }

    fn go_to(&self, monotonic: f64) {
        let step = monotonic - self.monotonic.get();
        if step <= 0.0 {
            return;
        }
        self.monotonic.set(monotonic);
        let step = TimeDelta::microseconds((step * 1000.0).round() as i64);
        if let Some(now) = self.now.get().checked_add_signed(step) {
            self.now.set(now);
        }
    }
}

impl Clock for MemoryClock {
    fn now(&self) -> DateTime<FixedOffset> {
        self.now.get()
    }

    fn zone(&self) -> String {
        self.zone.borrow().clone()
    }

    fn monotonic(&self) -> Millis {
        Millis(self.monotonic.get())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn timers_are_called_in_order_of_time_each_at_its_own() {
        let clock = Rc::new(MemoryClock::default());
        let seen = Rc::new(RefCell::new(Vec::new()));
        for delay in [30.0, 10.0, 20.0] {
            let (seen, at) = (seen.clone(), clock.clone());
            let note = move || seen.borrow_mut().push((delay, at.monotonic().0));
            clock.after(Millis(delay), Box::new(note));
        }
        clock.advance(Millis(25.0));
        assert_eq!(*seen.borrow(), [(10.0, 10.0), (20.0, 20.0)]);
        assert_eq!(clock.monotonic(), Millis(25.0));
        assert_eq!(clock.timers(), 1);
    }

    #[test]
    fn a_clock_set_back_leaves_monotonic_time_alone() {
        let clock = MemoryClock::default();
        let before = clock.now();
        clock.advance(Millis(1000.0));
        clock.set(before - TimeDelta::days(400), "UTC");
        assert!(clock.now() < before);
        assert_eq!(clock.monotonic(), Millis(1000.0));
        assert_eq!(clock.zone(), "UTC");
    }

    #[test]
    fn the_date_goes_on_with_monotonic_time_in_the_devices_offset() {
        let clock = MemoryClock::default();
        assert_eq!(clock.now().to_string(), "2026-03-12 09:30:00 +01:00");
        clock.advance(Millis(90_000.0));
        assert_eq!(clock.now().to_string(), "2026-03-12 09:31:30 +01:00");
    }
}
