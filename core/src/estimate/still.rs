//! The still window: finds by itself when the phone rests, averages, ends
//! as early as the asked noise is reached, and says why when it is not.

use serde::{Deserialize, Serialize};

use crate::estimate::window::{Verdict, Window};
use crate::sample::{Source, TiltSample, UpVector};
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees, Millis};

/// A silent change-only source is fed with its last value this often.
const HOLD_EVERY: f64 = 50.0;
/// Silence longer than this is silence, not jitter.
const SILENT_AFTER: f64 = 100.0;
/// A steady stream that is silent for longer than this has stopped.
const STOPPED_AFTER: f64 = 1_500.0;
/// No call for so long: the tab slept, and what the phone did meanwhile is
/// not known.
const SLEPT_AFTER: f64 = 1_500.0;
/// The same figures so many times in a row: the source is a steady stream.
const REPEATS_OF_A_STREAM: u32 = 3;
/// Younger windows are not shown as settling after the phone moved.
const SETTLES_AFTER: f64 = 150.0;
/// Leaving the place by more than this is handling, not a bad window.
const PLACE: Degrees = Degrees(10.0);
/// So many restarts belong to putting the phone in place.
const MOVES_OF_ARRIVING: u32 = 3;
/// A reason for giving up stands for so long; then the next try begins.
const RETRY_AFTER: f64 = 4_000.0;
/// Fewer samples than this are no reading.
const LEAST_SAMPLES: usize = 3;

/// What a still window asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StillSettings {
    /// Standard uncertainty from noise at which the window ends, in degrees.
    pub asked: Degrees,
    /// Shortest rest.
    pub least: Millis,
    /// Longest try at one place.
    pub most: Millis,
}

impl Default for StillSettings {
    /// 0.1 degree, at least 0.7 s, at most 8 s.
    fn default() -> Self {
        Self {
            asked: Degrees(0.1),
            least: Millis(700.0),
            most: Millis(8_000.0),
        }
    }
}

/// One finished still window.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct StillReading {
    /// Robust mean of the up-vector, device frame.
    pub up: UpVector,
    /// Standard uncertainty of the direction from noise.
    pub u_noise: Degrees,
    /// Standard uncertainty from the source's rounding, step/sqrt(12).
    pub u_rounding: Degrees,
    /// Samples taken, outliers left out.
    pub samples: usize,
    /// Independent samples that tell as much (noise correlates).
    pub effective: f64,
    /// Where the samples came from.
    pub source: Source,
    /// Mean raw acceleration in m/s², where the source gives it.
    pub raw_mean: Option<[f64; 3]>,
    /// Mean azimuth of the screen's normal, where the source gives it.
    pub azimuth: Option<Degrees>,
    /// Time of the end of the window.
    pub at: Millis,
}

/// What the window shows now.
#[derive(Clone, Debug, PartialEq)]
pub enum StillState {
    /// No sample yet.
    Waiting,
    /// The phone is being moved.
    Moving,
    /// At rest, averaging.
    Settling {
        /// How far the window is, 0 to 1.
        share: f64,
        /// Mean so far.
        up: UpVector,
    },
    /// Done. Stays until [`StillWindow::again`].
    Still(StillReading),
    /// Not reached in the longest time, or the sensor stopped. Stays until
    /// [`StillWindow::again`], until the phone leaves the place, or for
    /// 4 s; then the next try begins by itself.
    GaveUp(Message),
}

/// See the module. Holds at most [`crate::estimate::window::KEPT`] samples.
#[derive(Clone)]
pub struct StillWindow {
    settings: StillSettings,
    window: Option<Window>,
    first_call: Option<Millis>,
    last_call: Option<Millis>,
    place: Option<(UpVector, Millis)>,
    last: Option<TiltSample>,
    fed: Millis,
    events: usize,
    held: usize,
    repeats: u32,
    moved: u32,
    swing: Degrees,
    end: Option<StillState>,
    gave_up: Millis,
}

impl StillWindow {
    /// A window that waits for its first sample.
    #[must_use]
    pub fn new(settings: StillSettings) -> Self {
        Self {
            settings,
            window: None,
            first_call: None,
            last_call: None,
            place: None,
            last: None,
            fed: Millis(0.0),
            events: 0,
            held: 0,
            repeats: 0,
            moved: 0,
            swing: Degrees(0.0),
            end: None,
            gave_up: Millis(0.0),
        }
    }

    /// Starts over, for the next mark.
    pub fn again(&mut self) {
        *self = Self::new(self.settings);
    }

    /// Takes one sample; times must not go back ([`crate::sample::SampleGate`]
    /// sees to it).
    pub fn push(&mut self, sample: &TiltSample) -> StillState {
        if let Some(end) = self.ended(sample) {
            return end;
        }
        let other = self.last.is_some_and(|last| {
            core::mem::discriminant(&last.source) != core::mem::discriminant(&sample.source)
        });
        if other || self.slept(sample.at) {
            self.again();
        }
        self.last_call = Some(sample.at);
        self.hold_until(sample.at);
        let same = self
            .last
            .is_some_and(|last| last.up == sample.up && last.azimuth == sample.azimuth);
        self.repeats = if same { self.repeats + 1 } else { 0 };
        let stream = self.repeats >= REPEATS_OF_A_STREAM;
        self.repeats = if stream {
            REPEATS_OF_A_STREAM
        } else {
            self.repeats
        };
        self.events += 1;
        self.last = Some(*sample);
        self.feed(sample);
        self.judge(sample.at)
    }

    /// Lets time pass, on the samples' clock. Call it about ten times a
    /// second: a source that reports only on change is steady when silent.
    pub fn tick(&mut self, now: Millis) -> StillState {
        if let Some(last) = self.last
            && self.retries(now)
            && self.reports_on_change()
        {
            self.again();
            return self.push(&TiltSample { at: now, ..last });
        }
        if let Some(end) = &self.end {
            return end.clone();
        }
        if self.reports_on_change() && self.slept(now) {
            self.again();
        }
        self.last_call = Some(now);
        self.hold_until(now);
        self.judge(now)
    }

    fn ended(&mut self, sample: &TiltSample) -> Option<StillState> {
        let end = self.end.clone()?;
        // Without a place it gave up on silence, which a sample ends.
        let left = self
            .place
            .is_none_or(|(place, _)| place.angle_to(sample.up) > PLACE);
        if matches!(end, StillState::GaveUp(_)) && (left || self.retries(sample.at)) {
            self.again();
            return None;
        }
        Some(end)
    }

    fn retries(&self, now: Millis) -> bool {
        matches!(self.end, Some(StillState::GaveUp(_))) && (now - self.gave_up).0 > RETRY_AFTER
    }

    fn slept(&self, now: Millis) -> bool {
        self.last_call
            .is_some_and(|last| (now - last).0 > SLEPT_AFTER)
    }

    /// Only a source that rounds can be silent because nothing changes.
    fn reports_on_change(&self) -> bool {
        self.repeats < REPEATS_OF_A_STREAM
            && self
                .last
                .is_some_and(|last| last.source.step_angle().0 > 0.0)
    }

    fn hold_until(&mut self, now: Millis) {
        let Some(last) = self.last else { return };
        if !self.reports_on_change() || (now - last.at).0 <= SILENT_AFTER {
            return;
        }
        // A sleep of the tab must not turn into a long loop.
        let earliest = now - self.settings.most;
        if self.fed < earliest {
            self.fed = earliest;
        }
        while (now - self.fed).0 > HOLD_EVERY {
            let at = self.fed + Millis(HOLD_EVERY);
            self.held += 1;
            self.feed(&TiltSample { at, ..last });
        }
    }

    fn feed(&mut self, sample: &TiltSample) {
        self.fed = sample.at;
        let in_place = self
            .place
            .is_some_and(|(place, _)| place.angle_to(sample.up) <= PLACE);
        if !in_place {
            self.place = Some((sample.up, sample.at));
            self.moved = u32::from(self.window.is_some());
            self.swing = Degrees(0.0);
        }
        let verdict = match &mut self.window {
            Some(window) => window.push(sample),
            None => {
                self.window = Some(Window::new(sample));
                Verdict::Steady
            }
        };
        if verdict == Verdict::Moved {
            if let Some(window) = &self.window {
                let swing = window.up().angle_to(sample.up);
                self.swing = if swing > self.swing {
                    swing
                } else {
                    self.swing
                };
            }
            self.window = Some(Window::new(sample));
            self.events = 1;
            self.held = 0;
            self.moved += 1;
        }
    }

    fn judge(&mut self, now: Millis) -> StillState {
        let first_call = *self.first_call.get_or_insert(now);
        let (Some(window), Some(last)) = (&self.window, self.last) else {
            if now - first_call > self.settings.most {
                let seconds = self.settings.most.0 / 1_000.0;
                return self.give_up(now, msg("still-no-samples").number("seconds", seconds, 0));
            }
            return StillState::Waiting;
        };
        let age = now - window.start;
        let interval = (last.at - window.start).0 / self.events.max(2) as f64;
        let stopped = STOPPED_AFTER.max(4.0 * interval);
        if !self.reports_on_change() && self.events > 1 && (now - last.at).0 > stopped {
            return self.give_up(now, msg("still-sensor-stopped"));
        }
        let u = window.u_noise();
        let enough = window.count() >= LEAST_SAMPLES && age >= self.settings.least;
        if enough && u <= self.settings.asked {
            let reading = self.reading(window, &last, now);
            self.end = Some(StillState::Still(reading));
            return StillState::Still(reading);
        }
        if let Some((_, since)) = self.place
            && now - since > self.settings.most
        {
            let why = self.why_not(window, u);
            return self.give_up(now, why);
        }
        if self.moved > 0 && (age.0 < SETTLES_AFTER || window.count() < LEAST_SAMPLES) {
            return StillState::Moving;
        }
        let by_time = age.0 / self.settings.least.0.max(1.0);
        let by_noise = (self.settings.asked.0 / u.0.max(1e-9)).powi(2);
        let by_count = window.count() as f64 / LEAST_SAMPLES as f64;
        StillState::Settling {
            share: by_time.min(by_noise).min(by_count).clamp(0.0, 1.0),
            up: window.up(),
        }
    }

    fn reading(&self, window: &Window, last: &TiltSample, at: Millis) -> StillReading {
        let held = self.held.min(window.count().saturating_sub(1));
        let samples = window.count() - held;
        StillReading {
            up: window.up(),
            u_noise: window.u_noise(),
            u_rounding: last.source.u_rounding(),
            samples,
            effective: window.effective().min(samples as f64).max(1.0),
            source: last.source,
            raw_mean: window.raw_mean(),
            azimuth: window.azimuth(),
            at,
        }
    }

    fn why_not(&self, window: &Window, u: Degrees) -> Message {
        let seconds = self.settings.most.0 / 1_000.0;
        if self.moved > MOVES_OF_ARRIVING {
            let swing = self.swing.0.max(window.spread().0);
            return msg("still-hand-moves")
                .deg("spread", swing)
                .number("seconds", seconds, 0);
        }
        if window.count() < LEAST_SAMPLES {
            return msg("still-too-few")
                .count("samples", window.count() as i64)
                .number("seconds", seconds, 0);
        }
        msg("still-too-noisy")
            .number("reached", u.0 * COVERAGE_95, 2)
            .number("asked", self.settings.asked.0 * COVERAGE_95, 2)
            .number("seconds", seconds, 0)
    }

    fn give_up(&mut self, now: Millis, why: Message) -> StillState {
        self.gave_up = now;
        let end = StillState::GaveUp(why);
        self.end = Some(end.clone());
        end
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample::{Convention, RawSample, SampleGate};

    /// A phone upright, its screen leaned up by `rake`; Euler, step 0.1.
    fn held(at: f64, rake: f64) -> TiltSample {
        let raw = RawSample::Euler {
            at: Millis(at),
            alpha: Some(0.0),
            beta: ((90.0 - rake) * 10.0).round() / 10.0,
            gamma: 0.0,
            step: Degrees(0.1),
        };
        SampleGate::new(Convention::PointsUp).accept(raw).unwrap()
    }

    /// The same from a raw source of so much noise in degrees.
    fn raw(at: f64, rake: f64, noise: &mut impl FnMut() -> f64) -> TiltSample {
        let (r, n) = (Degrees(rake + noise()), Degrees(noise()));
        let xyz = [9.8 * n.sin(), 9.8 * r.cos(), 9.8 * r.sin()];
        let raw = RawSample::Acceleration {
            at: Millis(at),
            xyz,
            step: 0.0,
        };
        SampleGate::new(Convention::PointsUp).accept(raw).unwrap()
    }

    /// Rough normal noise: twelve uniform values.
    fn noise(sigma: f64) -> impl FnMut() -> f64 {
        let mut state = 0x2545_f491_4f6c_dd1du64;
        move || {
            let mut sum = -6.0;
            for _ in 0..12 {
                state ^= state << 13;
                state ^= state >> 7;
                state ^= state << 17;
                sum += (state >> 11) as f64 / (1u64 << 53) as f64;
            }
            sum * sigma
        }
    }

    fn rake(state: &StillState) -> f64 {
        let up = match state {
            StillState::Still(reading) => reading.up,
            StillState::Settling { up, .. } => *up,
            other => panic!("{other:?}"),
        };
        up.0[2].asin().to_degrees()
    }

    #[test]
    fn one_sample_then_silence_is_steady_for_a_source_that_reports_changes() {
        let mut window = StillWindow::new(StillSettings::default());
        window.push(&held(1_000.0, -4.2));
        let early = window.tick(Millis(1_500.0));
        assert!(matches!(early, StillState::Settling { share, .. } if share < 0.8));
        let state = window.tick(Millis(1_720.0));
        assert!((rake(&state) + 4.2).abs() < 1e-9);
        let StillState::Still(reading) = state else {
            panic!("not still")
        };
        assert_eq!(reading.samples, 1);
        assert!((reading.u_rounding.0 - 0.1 / 12f64.sqrt()).abs() < 1e-9);
    }

    #[test]
    fn a_last_change_before_the_silence_counts_with_all_its_time() {
        let mut window = StillWindow::new(StillSettings::default());
        for i in 0..5 {
            window.push(&held(f64::from(i) * 20.0, -4.0));
        }
        window.push(&held(120.0, -6.0));
        let mut state = StillState::Waiting;
        for i in 2..20 {
            state = window.tick(Millis(f64::from(i) * 100.0));
        }
        assert!((rake(&state) + 6.0).abs() < 0.02, "{state:?}");
    }

    #[test]
    fn a_quiet_stream_ends_as_early_as_the_asked_noise_is_reached() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.2);
        let mut at = 0.0;
        let end = loop {
            let state = window.push(&raw(at, -4.0, &mut noise));
            if let StillState::Still(reading) = state {
                break reading;
            }
            at += 10.0;
            assert!(at < 8_000.0);
        };
        assert!((699.0..900.0).contains(&end.at.0), "{end:?}");
        assert!(end.u_noise <= Degrees(0.1));
        assert!((end.up.0[2].asin().to_degrees() + 4.0).abs() < 0.15);
    }

    #[test]
    fn a_knock_is_left_out() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.1);
        let mut state = StillState::Waiting;
        for i in 0..72 {
            let knock = if (30..33).contains(&i) { 4.0 } else { 0.0 };
            state = window.push(&raw(f64::from(i) * 10.0, -4.0 + knock, &mut noise));
        }
        let StillState::Still(reading) = state else {
            panic!("{state:?}")
        };
        assert_eq!(reading.samples, 71 - 3);
        assert!((rake(&state) + 4.0).abs() < 0.05);
    }

    #[test]
    fn a_moving_phone_is_never_captured() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.05);
        for i in 0..1_000 {
            let t = f64::from(i) * 10.0;
            let swing = 3.0 * (t / 400.0).sin();
            let state = window.push(&raw(t, swing, &mut noise));
            assert!(!matches!(state, StillState::Still(_)), "captured at {t}");
        }
    }

    #[test]
    fn a_hand_that_keeps_moving_is_told_after_eight_seconds() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.05);
        let mut state = StillState::Waiting;
        for i in 0..810 {
            let t = f64::from(i) * 10.0;
            state = window.push(&raw(t, 3.0 * (t / 400.0).sin(), &mut noise));
        }
        let StillState::GaveUp(why) = state else {
            panic!("{state:?}")
        };
        assert_eq!(why.key, "still-hand-moves");
    }

    #[test]
    fn the_next_try_begins_by_itself() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.05);
        let mut state = StillState::Waiting;
        for i in 0..810 {
            let t = f64::from(i) * 10.0;
            state = window.push(&raw(t, 3.0 * (t / 400.0).sin(), &mut noise));
        }
        assert!(matches!(state, StillState::GaveUp(_)));
        for i in 810..1_300 {
            state = window.push(&raw(f64::from(i) * 10.0, -2.0, &mut noise));
        }
        assert!(matches!(state, StillState::Still(_)), "{state:?}");
    }

    #[test]
    fn too_much_noise_is_told_with_what_was_reached() {
        let asked = Degrees(0.005);
        let settings = StillSettings {
            asked,
            ..StillSettings::default()
        };
        let mut window = StillWindow::new(settings);
        let mut noise = noise(0.3);
        let mut state = StillState::Waiting;
        for i in 0..810 {
            state = window.push(&raw(f64::from(i) * 10.0, -4.0, &mut noise));
        }
        let StillState::GaveUp(why) = state else {
            panic!("{state:?}")
        };
        assert_eq!(why.key, "still-too-noisy");
    }

    #[test]
    fn a_stream_that_stops_is_not_taken_for_steady() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.1);
        for i in 0..30 {
            window.push(&raw(f64::from(i) * 10.0, -4.0, &mut noise));
        }
        let state = window.tick(Millis(2_000.0));
        assert_eq!(state, StillState::GaveUp(msg("still-sensor-stopped")));
    }

    #[test]
    fn a_tab_that_slept_starts_over() {
        let mut window = StillWindow::new(StillSettings::default());
        window.push(&held(0.0, -4.0));
        window.tick(Millis(300.0));
        assert_eq!(window.tick(Millis(20_000.0)), StillState::Waiting);
        let mut noise = noise(0.1);
        for i in 0..30 {
            window.push(&raw(20_000.0 + f64::from(i) * 10.0, -4.0, &mut noise));
        }
        let state = window.push(&raw(40_000.0, -9.0, &mut noise));
        assert!(matches!(state, StillState::Settling { share, .. } if share < 0.1));
        assert!((rake(&state) + 9.0).abs() < 0.5);
    }

    #[test]
    fn another_source_in_the_middle_starts_over() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.1);
        for i in 0..60 {
            window.push(&raw(f64::from(i) * 10.0, -4.0, &mut noise));
        }
        let state = window.push(&held(700.0, -4.0));
        assert!(matches!(state, StillState::Settling { share, .. } if share < 0.1));
    }

    #[test]
    fn no_sample_at_all_is_told() {
        let mut window = StillWindow::new(StillSettings::default());
        assert_eq!(window.tick(Millis(0.0)), StillState::Waiting);
        let state = window.tick(Millis(8_001.0));
        let why = msg("still-no-samples").number("seconds", 8.0, 0);
        assert_eq!(state, StillState::GaveUp(why));
    }

    #[test]
    fn one_sample_a_second_is_enough_when_they_agree() {
        let mut window = StillWindow::new(StillSettings::default());
        let mut noise = noise(0.02);
        let mut state = StillState::Waiting;
        for i in 0..4 {
            state = window.push(&raw(f64::from(i) * 1_000.0, -4.0, &mut noise));
        }
        assert!(matches!(state, StillState::Still(_)), "{state:?}");
    }

    #[test]
    fn correlated_noise_counts_less_and_its_uncertainty_is_honest() {
        let settings = StillSettings {
            asked: Degrees(1e-9),
            least: Millis(2_000.0),
            most: Millis(1e9),
        };
        let mut noise = noise(0.1);
        let (mut square, mut stated, mut count) = (0.0, 0.0, 0.0);
        for _ in 0..150 {
            let mut window = StillWindow::new(settings);
            let mut off = [0.0; 2];
            for i in 0..200 {
                off = off.map(|o| 0.8 * o + 0.6 * noise());
                let mut both = off.into_iter();
                let mut next = || both.next().unwrap_or(0.0);
                window.push(&raw(f64::from(i) * 10.0, -4.0, &mut next));
            }
            let inner = window.window.as_ref().unwrap();
            if inner.count() < 150 {
                continue;
            }
            square += (inner.up().0[2].asin().to_degrees() + 4.0).powi(2);
            stated += inner.u_noise().0.powi(2);
            count += 1.0;
            assert!(inner.effective() < 80.0);
        }
        assert!(count > 140.0);
        let ratio = (square / stated).sqrt();
        assert!((0.75..1.15).contains(&ratio), "{ratio}");
    }

    #[test]
    fn a_stream_that_rounds_coarsely_is_read_too() {
        // 0.1 m/s² on each axis, 60 times a second, the same figures again.
        let mut window = StillWindow::new(StillSettings::default());
        let mut state = StillState::Waiting;
        for i in 0..50 {
            let raw = RawSample::Acceleration {
                at: Millis(f64::from(i) * 16.0),
                xyz: [0.0, 9.8, if i % 5 == 0 { -0.6 } else { -0.7 }],
                step: 0.1,
            };
            state = window.push(&SampleGate::default().accept(raw).unwrap());
        }
        let StillState::Still(reading) = state else {
            panic!("{state:?}")
        };
        assert!((reading.u_rounding.0 - 0.169).abs() < 0.001);
        assert!((rake(&state) + 3.97).abs() < 0.1, "{}", rake(&state));
    }
}
