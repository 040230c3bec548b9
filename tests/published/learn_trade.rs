//! An obstacle learn as the trade does it.
//!
//! Source: common practice, no source. The figures stand here only.
#![cfg(test)]

use rakeline_core::kit::Signal;
use rakeline_core::learn::{Event, Heard, Phase, Procedure, Run, Source, Ways, Why, step};
use rakeline_core::units::Millis;

/// Common practice, no source: ten times into reverse, a beep each, at the
/// tenth none for 6 s. The words leave open whether the tenth beeps first.
fn procedure(last_beeps: bool) -> Procedure {
    Procedure {
        cycles: 10,
        silent: Millis(6_000.0),
        confirmed_by: Signal::Beep,
        last_beeps,
        ends_with: Signal::Nothing,
        shortest_dwell: Millis(0.0),
        longest_gap: None,
        tone: None,
    }
}

/// Shifts ten times, with a beep in each of the first so many, then watches
/// for so many milliseconds after the last shift. One more beep may come then.
fn shifted(last_beeps: bool, beeps: u32, watched: u32, late_beep: Option<f64>) -> Run {
    let mut run = Run::new(procedure(last_beeps), Ways::Both, None);
    let mut told: Vec<(f64, Event)> = Vec::new();
    let beep = |start: f64| {
        let heard = Heard {
            start: Millis(start),
            end: Millis(start + 250.0),
            hertz: 2_700.0,
        };
        (start + 300.0, Event::Beep(heard))
    };
    for cycle in 0..10_u32 {
        let at = 4_000.0 * f64::from(cycle);
        told.push((at, Event::Reverse(Source::Tap)));
        if cycle < beeps {
            told.push(beep(at + 200.0));
        }
        if cycle < 9 {
            told.push((at + 2_000.0, Event::Out(Source::Tap)));
        }
    }
    let end = 36_000.0 + f64::from(watched);
    told.extend(late_beep.map(|after| beep(36_000.0 + after)));
    for tick in 0_u32.. {
        let at = 100.0 * f64::from(tick);
        if at > end {
            break;
        }
        told.push((at, Event::Listened(Millis(at - 300.0))));
    }
    told.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (at, event) in told {
        run = step(&run, event, Millis(at)).next;
    }
    run
}

#[test]
fn nine_beeps_and_a_silent_tenth() {
    assert!(matches!(
        shifted(false, 9, 6_200, None).phase,
        Phase::Quiet(_)
    ));
    assert_eq!(shifted(false, 9, 6_300, None).phase, Phase::Learned);
}

#[test]
fn ten_beeps_and_then_silence() {
    // The tenth beep ends 450 ms after the shift.
    assert!(matches!(
        shifted(true, 10, 6_700, None).phase,
        Phase::Quiet(_)
    ));
    assert_eq!(shifted(true, 10, 6_800, None).phase, Phase::Learned);
}

#[test]
fn either_reading_fails_where_the_box_does_the_other() {
    let tenth_beeps = shifted(false, 10, 7_000, None);
    let after = Millis(200.0);
    assert_eq!(tenth_beeps.phase, Phase::Failed(Why::BeepInQuiet { after }));
    let tenth_is_silent = shifted(true, 9, 13_000, None);
    let cycle = 10;
    assert_eq!(tenth_is_silent.phase, Phase::Failed(Why::NoBeep { cycle }));
}

#[test]
fn a_beep_in_the_last_of_the_six_seconds_fails_in_both() {
    for (last_beeps, beeps) in [(false, 9), (true, 10)] {
        let run = shifted(last_beeps, beeps, 8_000, Some(5_800.0));
        assert!(matches!(run.phase, Phase::Failed(Why::BeepInQuiet { .. })));
    }
}
