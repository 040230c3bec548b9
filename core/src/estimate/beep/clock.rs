//! From the time of the sound device to the time of the page.
//!
//! Frames are counted by a clock of their own and come over at some moment
//! after they were heard. The smallest delay seen is the one without a
//! queue; what came later waited.

/// How fast the two clocks may drift apart, ms a second: far more than
/// quartz does.
const DRIFT: f64 = 0.25;
/// A delay longer by this was no queue when it stays, ms.
const JUMP_MS: f64 = 250.0;
/// ... for so long, ms of sound.
const STAYS_MS: f64 = 1_000.0;

/// The difference between the two clocks.
#[derive(Clone, Debug, Default)]
pub struct AudioClock {
    offset_ms: Option<f64>,
    late_ms: f64,
}

impl AudioClock {
    /// When the first of some frames was heard: they are `length_ms` long,
    /// begin at `first_ms` of the device's time and came over at
    /// `arrived_ms` of the page's.
    pub fn first_ms(&mut self, first_ms: f64, length_ms: f64, arrived_ms: f64) -> f64 {
        let seen = arrived_ms - first_ms - length_ms;
        let offset = match self.offset_ms {
            Some(known) if seen - known > JUMP_MS => {
                self.late_ms += length_ms;
                if self.late_ms > STAYS_MS { seen } else { known }
            }
            Some(known) => (known + DRIFT * length_ms / 1000.0).min(seen),
            None => seen,
        };
        if seen - offset <= JUMP_MS {
            self.late_ms = 0.0;
        }
        self.offset_ms = Some(offset);
        first_ms + offset
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
    fn a_device_that_paused_is_followed_after_a_second() {
        let mut clock = AudioClock::default();
        clock.first_ms(0.0, 80.0, 80.0);
        let mut last = 0.0;
        for at in 1..20 {
            let first = f64::from(at) * 80.0;
            last = clock.first_ms(first, 80.0, first + 80.0 + 3000.0) - first;
        }
        assert!((last - 3000.0).abs() < 1.0, "{last}");
    }
}
