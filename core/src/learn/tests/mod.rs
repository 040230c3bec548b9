//! Runs by script.

mod ends;
mod rules;
mod table;
mod tone;
mod voice;

use super::*;
use crate::kit::Signal;
use crate::units::Millis;

/// Two cycles and 4 s of silence after the beep of the second.
fn procedure() -> Procedure {
    Procedure {
        cycles: 2,
        silent: Millis(4_000.0),
        confirmed_by: Signal::Beep,
        last_beeps: true,
        ends_with: Signal::Nothing,
        shortest_dwell: Millis(1_200.0),
        longest_gap: Some(Millis(8_000.0)),
        tone: Some(2_150.0),
    }
}

fn heard(start: f64, end: f64, hertz: f64) -> Event {
    Event::Beep(Heard {
        start: Millis(start),
        end: Millis(end),
        hertz,
    })
}

/// The kit's tone, which sounds on.
fn tone(from: f64, until: f64) -> (Event, f64) {
    let heard = Heard {
        start: Millis(from),
        end: Millis(until),
        hertz: 2_150.0,
    };
    (Event::Tone(heard), until + 50.0)
}

/// A beep of the kit whose beginning was not heard.
fn cut(from: f64, until: f64) -> (Event, f64) {
    let heard = Heard {
        start: Millis(from),
        end: Millis(until),
        hertz: 2_150.0,
    };
    (Event::Cut(heard), until + 100.0)
}

/// The kit's beep, told 100 ms after its end.
fn kit(start: f64) -> (Event, f64) {
    (heard(start, start + 200.0, 2_150.0), start + 300.0)
}

const IN: Event = Event::Reverse(Source::Tap);
const OUT: Event = Event::Out(Source::Tap);

/// Performs events at their times; in between the microphone listens and a
/// second never passes without a tick.
fn after(run: &Run, events: &[(Event, f64)]) -> Run {
    let mut run = run.clone();
    for (event, at) in events {
        while let Some(last) = run.last
            && at - last.0 > 1_000.0
        {
            let tick = Millis(last.0 + 1_000.0);
            run = step(&run, Event::Listened(Millis(tick.0 - 400.0)), tick).next;
        }
        run = step(&run, *event, Millis(*at)).next;
    }
    run
}

fn run(procedure: Procedure, ways: Ways, events: &[(Event, f64)]) -> Run {
    after(&Run::new(procedure, ways, None), events)
}

/// Up to the quiet time, which begins at 7,200.
fn to_quiet() -> Vec<(Event, f64)> {
    vec![
        (IN, 1_000.0),
        kit(1_200.0),
        (OUT, 4_000.0),
        (IN, 6_800.0),
        kit(7_000.0),
    ]
}
