//! The search for a source of motion readings that gives something.
//!
//! A state machine without devices: the web shell feeds it with what it
//! hears and does what it answers.

use rakeline_core::units::Millis;

use super::{MotionFault, SourceName, Visibility};

/// The order of trying.
const ORDER: [SourceName; 3] = [
    SourceName::Orientation,
    SourceName::RelativeOrientation,
    SourceName::Acceleration,
];

/// How long a source may be silent before the next is tried as well.
const PATIENCE: Millis = Millis(700.0);

/// How long a source that gave an event without figures may take to give
/// some: the first event of a browser may come before the first reading.
const GRACE: Millis = Millis(250.0);

/// How long all of them may be silent before there is no sensor.
const GIVE_UP: Millis = Millis(3000.0);

/// How long a source that reports all the time may be silent.
const SILENCE: Millis = Millis(2000.0);

/// What was heard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Heard {
    /// The source gave figures.
    Figures(SourceName),
    /// The source gave an event without figures.
    Nothing(SourceName),
    /// The source is forbidden.
    Refused(SourceName),
    /// The source cannot be made, or was ended by the system.
    Ended(SourceName),
    /// Time went by with the page shown or hidden.
    Tick(Visibility),
}

/// What to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Action {
    /// Listen to this source too.
    Listen(SourceName),
    /// This is the source; leave all others.
    Use(SourceName),
    /// Tell the fault. After `Stopped` of a steady source listening goes on.
    Tell(MotionFault),
    /// Leave all sources.
    Leave,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum State {
    Seeking {
        tried: usize,
        dead: [bool; ORDER.len()],
        refused: usize,
        since: f64,
        waited: f64,
    },
    Using {
        source: SourceName,
        last: f64,
    },
    Silent {
        source: SourceName,
    },
    Over,
}

/// The search, from the first source to the end of the readings.
#[derive(Debug)]
pub(super) struct Search {
    state: State,
    last_tick: f64,
}

impl Search {
    /// Starts at `at` with the first source; the caller listens to it.
    pub(super) fn start(at: Millis) -> (Self, Action) {
        let state = State::Seeking {
            tried: 1,
            dead: [false; ORDER.len()],
            refused: 0,
            since: at.0,
            waited: 0.0,
        };
        let search = Self {
            state,
            last_tick: at.0,
        };
        (search, Action::Listen(ORDER[0]))
    }

    /// One step:
    /// - figures while seeking, or after silence: this source is used;
    /// - nothing: the next source after [`GRACE`]; ended or refused: the next
    ///   at once; a fault after the last;
    /// - a tick while seeking: after [`PATIENCE`] the next source, after
    ///   [`GIVE_UP`] no sensor; time in the background does not count;
    /// - a tick while using acceleration, which reports all the time:
    ///   stopped after [`SILENCE`]; the others may be silent for ever;
    /// - ended, or refused while used: stopped.
    pub(super) fn step(&mut self, heard: Heard, at: Millis) -> Vec<Action> {
        let gone = (at.0 - self.last_tick).max(0.0);
        if matches!(heard, Heard::Tick(_)) {
            self.last_tick = at.0;
        }
        match (self.state, heard) {
            (State::Seeking { .. } | State::Silent { .. }, Heard::Figures(source)) => {
                let last = at.0;
                self.state = State::Using { source, last };
                vec![Action::Use(source)]
            }
            (State::Seeking { .. }, Heard::Nothing(source)) => {
                self.hasten(source, at);
                Vec::new()
            }
            (State::Seeking { .. }, Heard::Ended(source)) => self.dead(source, 0, at),
            (State::Seeking { .. }, Heard::Refused(source)) => self.dead(source, 1, at),
            (State::Seeking { .. }, Heard::Tick(shown)) => self.seek(gone, shown, at),
            (State::Using { source, .. }, Heard::Figures(from)) if from == source => {
                let last = at.0;
                self.state = State::Using { source, last };
                Vec::new()
            }
            (State::Using { source, .. }, Heard::Tick(Visibility::Hidden)) => {
                let last = at.0;
                self.state = State::Using { source, last };
                Vec::new()
            }
            (State::Using { source, last }, Heard::Tick(Visibility::Shown))
                if source == SourceName::Acceleration && at.0 - last >= SILENCE.0 =>
            {
                self.state = State::Silent { source };
                vec![Action::Tell(MotionFault::Stopped)]
            }
            (
                State::Using { source, .. } | State::Silent { source },
                Heard::Ended(ended) | Heard::Refused(ended),
            ) if ended == source => {
                self.state = State::Over;
                vec![Action::Leave, Action::Tell(MotionFault::Stopped)]
            }
            _ => Vec::new(),
        }
    }

    fn dead(&mut self, source: SourceName, more_refused: usize, at: Millis) -> Vec<Action> {
        if let State::Seeking {
            dead,
            refused,
            tried,
            ..
        } = &mut self.state
        {
            for (known, is_dead) in ORDER.iter().zip(dead.iter_mut()) {
                *is_dead |= *known == source;
            }
            *refused += more_refused;
            let gone = dead.iter().filter(|is_dead| **is_dead).count();
            if gone >= ORDER.len() {
                return self.give_up();
            }
            if gone >= *tried {
                return self.next(at);
            }
        }
        Vec::new()
    }

    fn hasten(&mut self, source: SourceName, at: Millis) {
        if let State::Seeking {
            dead, since, tried, ..
        } = &mut self.state
            && let Some(place) = ORDER.iter().position(|known| *known == source)
            && !dead[place]
        {
            dead[place] = true;
            if place + 1 == *tried {
                *since = since.min(at.0 - (PATIENCE.0 - GRACE.0));
            }
        }
    }

    fn seek(&mut self, gone: f64, shown: Visibility, at: Millis) -> Vec<Action> {
        if let State::Seeking {
            since,
            waited,
            dead,
            ..
        } = &mut self.state
        {
            match shown {
                Visibility::Hidden => *since += gone,
                Visibility::Shown => *waited += gone,
            }
            if *waited >= GIVE_UP.0 {
                return self.give_up();
            }
            if at.0 - *since >= PATIENCE.0 {
                if dead.iter().all(|is_dead| *is_dead) {
                    return self.give_up();
                }
                return self.next(at);
            }
        }
        Vec::new()
    }

    fn next(&mut self, at: Millis) -> Vec<Action> {
        if let State::Seeking { tried, since, .. } = &mut self.state
            && let Some(source) = ORDER.get(*tried)
        {
            *tried += 1;
            *since = at.0;
            return vec![Action::Listen(*source)];
        }
        Vec::new()
    }

    fn give_up(&mut self) -> Vec<Action> {
        let fault = match self.state {
            State::Seeking { refused, .. } if refused > 0 => MotionFault::PermissionRefused,
            _ => MotionFault::NoSensor,
        };
        self.state = State::Over;
        vec![Action::Leave, Action::Tell(fault)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use SourceName::{Acceleration, Orientation, RelativeOrientation};

    const TICK: Heard = Heard::Tick(Visibility::Shown);

    /// Ticks every 100 ms from `from` until `to`; gives actions with their times.
    fn ticks(search: &mut Search, heard: Heard, from: i32, to: i32) -> Vec<(i32, Action)> {
        let mut done = Vec::new();
        for at in (from..=to).step_by(100) {
            let actions = search.step(heard, Millis(f64::from(at)));
            done.extend(actions.into_iter().map(|action| (at, action)));
        }
        done
    }

    fn started() -> Search {
        let (search, first) = Search::start(Millis(0.0));
        assert_eq!(first, Action::Listen(Orientation));
        search
    }

    #[test]
    fn silence_tries_each_source_in_turn_and_then_says_there_is_none() {
        let mut search = started();
        assert_eq!(
            ticks(&mut search, TICK, 100, 5000),
            [
                (700, Action::Listen(RelativeOrientation)),
                (1400, Action::Listen(Acceleration)),
                (3000, Action::Leave),
                (3000, Action::Tell(MotionFault::NoSensor)),
            ]
        );
    }

    #[test]
    fn events_without_figures_shorten_the_wait() {
        let mut search = started();
        search.step(Heard::Nothing(Orientation), Millis(0.0));
        let next = ticks(&mut search, TICK, 100, 300);
        assert_eq!(next, [(300, Action::Listen(RelativeOrientation))]);
        let at = Millis(300.0);
        assert_eq!(
            search.step(Heard::Ended(RelativeOrientation), at),
            [Action::Listen(Acceleration)]
        );
        search.step(Heard::Nothing(Acceleration), at);
        assert_eq!(
            ticks(&mut search, TICK, 400, 900),
            [
                (600, Action::Leave),
                (600, Action::Tell(MotionFault::NoSensor))
            ]
        );
    }

    #[test]
    fn a_first_event_without_figures_does_not_lose_the_best_source() {
        let mut search = started();
        search.step(Heard::Nothing(Orientation), Millis(1.0));
        let figures = search.step(Heard::Figures(Orientation), Millis(20.0));
        assert_eq!(figures, [Action::Use(Orientation)]);
    }

    #[test]
    fn a_source_that_repeats_nothing_does_not_put_the_next_off() {
        let mut search = started();
        search.step(Heard::Nothing(Orientation), Millis(1.0));
        for at in 2..90 {
            let again = search.step(Heard::Nothing(Orientation), Millis(f64::from(at)));
            assert_eq!(again, []);
        }
        let next = ticks(&mut search, TICK, 100, 600);
        assert_eq!(next, [(300, Action::Listen(RelativeOrientation))]);
        let figures = search.step(Heard::Figures(RelativeOrientation), Millis(620.0));
        assert_eq!(figures, [Action::Use(RelativeOrientation)]);
    }

    #[test]
    fn a_forbidden_source_makes_the_fault_a_refusal() {
        let mut search = started();
        search.step(Heard::Ended(Orientation), Millis(1.0));
        search.step(Heard::Refused(RelativeOrientation), Millis(2.0));
        let actions = search.step(Heard::Ended(Acceleration), Millis(3.0));
        assert_eq!(
            actions,
            [Action::Leave, Action::Tell(MotionFault::PermissionRefused)]
        );
    }

    #[test]
    fn the_first_source_may_still_answer_late() {
        let mut search = started();
        ticks(&mut search, TICK, 100, 900);
        let actions = search.step(Heard::Figures(Orientation), Millis(950.0));
        assert_eq!(actions, [Action::Use(Orientation)]);
    }

    #[test]
    fn a_source_that_reports_on_change_may_be_silent_for_an_hour() {
        let mut search = started();
        search.step(Heard::Figures(Orientation), Millis(10.0));
        assert_eq!(ticks(&mut search, TICK, 100, 3_600_000), []);
    }

    #[test]
    fn silent_acceleration_has_stopped_and_is_used_again_when_it_speaks() {
        let mut search = started();
        search.step(Heard::Figures(Acceleration), Millis(0.0));
        assert_eq!(
            ticks(&mut search, TICK, 100, 9000),
            [(2000, Action::Tell(MotionFault::Stopped))]
        );
        let actions = search.step(Heard::Figures(Acceleration), Millis(9100.0));
        assert_eq!(actions, [Action::Use(Acceleration)]);
    }

    #[test]
    fn time_in_the_background_does_not_count() {
        let hidden = Heard::Tick(Visibility::Hidden);
        let mut search = started();
        assert_eq!(ticks(&mut search, hidden, 100, 60_000), []);
        assert_eq!(
            ticks(&mut search, TICK, 60_100, 61_000),
            [(60_700, Action::Listen(RelativeOrientation))]
        );
        search.step(Heard::Figures(Acceleration), Millis(61_000.0));
        assert_eq!(ticks(&mut search, hidden, 61_100, 90_000), []);
        assert_eq!(ticks(&mut search, TICK, 90_100, 91_000), []);
    }

    #[test]
    fn a_source_ended_by_the_system_has_stopped() {
        let mut search = started();
        search.step(Heard::Figures(RelativeOrientation), Millis(0.0));
        let actions = search.step(Heard::Ended(RelativeOrientation), Millis(10.0));
        assert_eq!(actions, [Action::Leave, Action::Tell(MotionFault::Stopped)]);
    }
}
