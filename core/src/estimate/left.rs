//! Has the phone left the last mark? Until it has, nothing is captured for
//! the next one.

use crate::estimate::still::StillReading;
use crate::sample::{TiltSample, UpVector, azimuth_change, length};
use crate::units::{Degrees, Millis};

/// Another direction by this much: the phone was taken away.
pub const LEFT_TILT: Degrees = Degrees(2.0);
/// Another azimuth by this much: the phone was taken away.
pub const LEFT_AZIMUTH: Degrees = Degrees(4.0);
/// A sample off by this much counts as handling.
const RESTLESS_TILT: Degrees = Degrees(0.6);
/// Acceleration beside gravity in m/s² that counts as handling.
const RESTLESS_PUSH: f64 = 0.6;
/// So many restless samples within the window below show a moving phase.
const RESTLESS_RUN: u32 = 8;

/// Away for so long, in ms, without coming back: it left (a source that
/// reports only on change may say so once).
const AWAY_LONG: f64 = 300.0;

/// Where the phone is, seen from the last mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Presence {
    /// Still on the mark that was captured last.
    StillThere,
    /// It left: the next mark may be captured.
    Left,
}

/// Watches for the phone leaving the mark that was captured last.
#[derive(Clone, Debug)]
pub struct LeftMark {
    up: UpVector,
    azimuth: Option<Degrees>,
    pull: Option<f64>,
    away: u32,
    away_since: Option<Millis>,
    restless: u32,
    left: Presence,
}

impl LeftMark {
    /// Starts right after a capture.
    #[must_use]
    pub fn new(captured: &StillReading) -> Self {
        Self {
            up: captured.up,
            azimuth: captured.azimuth,
            pull: captured.raw_mean.map(length),
            away: 0,
            away_since: None,
            restless: 0,
            left: Presence::StillThere,
        }
    }

    /// Takes one sample. Another direction, or a phase of handling, means
    /// that the phone left; that does not change back.
    pub fn push(&mut self, sample: &TiltSample) -> Presence {
        let tilt = self.up.angle_to(sample.up);
        let swung = self
            .azimuth
            .zip(sample.azimuth)
            .is_some_and(|(a, b)| azimuth_change(a, b).abs() > LEFT_AZIMUTH);
        let pushed = self
            .pull
            .zip(sample.raw)
            .is_some_and(|(pull, raw)| (length(raw) - pull).abs() > RESTLESS_PUSH);
        let step = sample.source.step_angle().0;
        let away = tilt > LEFT_TILT + Degrees(step) || swung;
        self.away = if away { self.away + 1 } else { 0 };
        let since = self.away_since.unwrap_or(sample.at);
        self.away_since = away.then_some(since);
        if tilt > RESTLESS_TILT + Degrees(step) || pushed {
            self.restless += 2;
        } else {
            self.restless = self.restless.saturating_sub(1);
        }
        // A blow can tilt a raw source for a moment, not a fused one.
        let enough = if sample.raw.is_some() { 3 } else { 1 };
        if self.away >= enough || self.restless >= 2 * RESTLESS_RUN {
            self.left = Presence::Left;
        }
        self.left
    }

    /// Lets time pass, on the samples' clock.
    pub fn tick(&mut self, now: Millis) -> Presence {
        if self
            .away_since
            .is_some_and(|since| (now - since).0 > AWAY_LONG)
        {
            self.left = Presence::Left;
        }
        self.left
    }

    /// What is known so far.
    #[must_use]
    pub fn presence(&self) -> Presence {
        self.left
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::Source;

    const QUIET: Source = Source::Euler { step: Degrees(0.1) };

    fn sample(at: f64, rake: f64) -> TiltSample {
        let up = UpVector::from_euler(Degrees(90.0 - rake), Degrees(0.0));
        TiltSample {
            at: Millis(at),
            up,
            raw: None,
            azimuth: None,
            source: QUIET,
        }
    }

    fn captured(rake: f64) -> LeftMark {
        LeftMark::new(&StillReading {
            up: sample(0.0, rake).up,
            u_noise: Degrees(0.0),
            u_rounding: Degrees(0.0),
            samples: 1,
            effective: 1.0,
            source: QUIET,
            raw_mean: None,
            azimuth: None,
            at: Millis(0.0),
        })
    }

    #[test]
    fn a_phone_that_stays_is_not_captured_for_the_next_mark() {
        let mut mark = captured(-4.0);
        for i in 0..600 {
            let jitter = if i % 7 == 0 { 0.3 } else { 0.0 };
            let seen = mark.push(&sample(f64::from(i) * 16.0, -4.0 + jitter));
            assert_eq!(seen, Presence::StillThere);
        }
    }

    #[test]
    fn a_phase_of_handling_counts_even_when_the_next_face_is_the_same() {
        let mut mark = captured(-4.0);
        for i in 0..20 {
            mark.push(&sample(f64::from(i) * 16.0, -3.0));
        }
        assert_eq!(mark.push(&sample(400.0, -4.0)), Presence::Left);
    }

    #[test]
    fn one_change_then_silence_has_left() {
        let mut mark = captured(-4.0);
        assert_eq!(mark.push(&sample(100.0, -9.0)), Presence::Left);
        let mut mark = captured(-4.0);
        let raw = TiltSample {
            raw: Some([0.0, 9.7, -1.5]),
            ..sample(100.0, -9.0)
        };
        assert_eq!(mark.push(&raw), Presence::StillThere);
        assert_eq!(mark.tick(Millis(500.0)), Presence::Left);
    }
}
