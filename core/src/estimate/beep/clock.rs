//! From the time of the sound device to the time of the page.
//!
//! Frames are counted by a clock of their own and come over at some moment
//! after they were heard. The smallest delay seen is the one without a
//! queue; what came later waited. A queue runs empty; a delay that stays
//! longer is sound that was lost: the frames after it were heard later than
//! their number says.

/// How fast the two clocks may drift apart, ms a second: far more than
/// quartz does.
const DRIFT: f64 = 0.25;
/// A delay longer by this was no queue when it stays, ms: shorter than the
/// shortest beep.
const JUMP_MS: f64 = 60.0;
/// ... for so long, ms of the page's time.
const STAYS_MS: f64 = 500.0;

/// Frames that came later than they should.
#[derive(Clone, Copy, Debug)]
struct Late {
    /// Since when, on the page's clock.
    since_ms: f64,
    /// The smallest difference of the clocks since.
    least_ms: f64,
}

/// The difference between the two clocks.
#[derive(Clone, Debug, Default)]
pub struct AudioClock {
    offset_ms: Option<f64>,
    late: Option<Late>,
}

impl AudioClock {
    /// When the first of some frames was heard: they are `length_ms` long,
    /// begin at `first_ms` of the device's time and came over at
    /// `arrived_ms` of the page's.
    pub fn first_ms(&mut self, first_ms: f64, length_ms: f64, arrived_ms: f64) -> f64 {
        let seen = arrived_ms - first_ms - length_ms;
        let offset = match self.offset_ms {
            Some(known) if seen - known > JUMP_MS => self.late(known, seen, arrived_ms),
            Some(known) => {
                self.late = None;
                (known + DRIFT * length_ms / 1000.0).min(seen)
            }
            None => seen,
        };
        self.offset_ms = Some(offset);
        first_ms + offset
    }

    fn late(&mut self, known: f64, seen: f64, arrived_ms: f64) -> f64 {
        let late = self.late.get_or_insert(Late {
            since_ms: arrived_ms,
            least_ms: seen,
        });
        late.least_ms = late.least_ms.min(seen);
        if arrived_ms - late.since_ms < STAYS_MS {
            return known;
        }
        let least = late.least_ms;
        self.late = None;
        least
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_queue_does_not_move_the_time() {
        let mut clock = AudioClock::default();
        assert_eq!(clock.first_ms(1000.0, 80.0, 5100.0), 5020.0);
        let late = clock.first_ms(1080.0, 80.0, 5320.0);
        assert!((late - 5100.0).abs() < 0.1, "{late}");
    }

    #[test]
    fn the_shortest_way_is_the_true_one() {
        let mut clock = AudioClock::default();
        clock.first_ms(0.0, 80.0, 200.0);
        assert_eq!(clock.first_ms(80.0, 80.0, 180.0), 100.0);
    }

    #[test]
    fn a_device_that_paused_is_followed() {
        let mut clock = AudioClock::default();
        clock.first_ms(0.0, 80.0, 80.0);
        let mut last = 0.0;
        for at in 1..20 {
            let first = f64::from(at) * 80.0;
            last = clock.first_ms(first, 80.0, first + 80.0 + 3000.0) - first;
        }
        assert!((last - 3000.0).abs() < 1.0, "{last}");
    }

    #[test]
    fn a_queue_that_runs_empty_is_no_jump_and_lost_sound_is_one() {
        let mut clock = AudioClock::default();
        clock.first_ms(0.0, 80.0, 80.0);
        // Nothing came over for 400 ms, then all of it at once.
        for at in 1..6 {
            let first = 80.0 * f64::from(at);
            let time = clock.first_ms(first, 80.0, 480.0 + f64::from(at));
            assert!((time - first).abs() < 1.0, "{first}: {time}");
        }
        // From here on 200 ms of frames are missing.
        let mut last = 0.0;
        for at in 6..16 {
            let first = 80.0 * f64::from(at);
            last = clock.first_ms(first, 80.0, first + 80.0 + 200.0) - first;
        }
        assert!((last - 200.0).abs() < 1.0, "{last}");
    }
}
