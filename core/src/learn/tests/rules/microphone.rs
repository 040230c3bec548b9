//! A microphone that stops, hangs or hears too little.

use super::*;

#[test]
fn a_microphone_that_stops_leaves_the_hand() {
    let mut events = to_quiet();
    events.push((Event::MicrophoneLost, 7_500.0));
    events.push((Event::Tick, 11_200.0));
    let end = both(&events);
    assert_eq!(end.phase, Phase::ByHand);
    assert_eq!(end.doubts, [Doubt::MicrophoneLost]);
    let alone = [kit(1_000.0), (Event::MicrophoneLost, 2_000.0)];
    let alone = run(procedure(), Ways::Microphone, &alone);
    assert_eq!(ended(alone.phase), Why::MicrophoneLost);
}

#[test]
fn a_microphone_that_hangs_interrupts_wherever_the_run_stands() {
    let quiet = to_quiet();
    for taken in [0, 2, 3, 4, 5] {
        let mut run = both(&quiet[..taken]);
        let from = run.last.map_or(0.0, |last| last.0);
        let mut outcomes = Vec::new();
        for tick in 1..=8 {
            run = step(&run, Event::Tick, Millis(from + 100.0 * f64::from(tick))).next;
            outcomes.push(run.phase);
        }
        assert!(!outcomes[4].ended(), "{taken}: half a second may pass");
        assert_eq!(run.phase, Phase::Interrupted(Cause::NoSound), "{taken}");
    }
}

#[test]
fn a_page_that_stood_still_does_not_take_the_microphone_for_hung() {
    let run = both(&to_quiet());
    let late = step(&run, Event::Tick, Millis(9_000.0)).next;
    let late = step(&late, Event::Tick, Millis(9_010.0)).next;
    assert!(matches!(late.phase, Phase::Quiet(_)));
    let heard = step(&late, Event::Listened(Millis(8_600.0)), Millis(9_020.0)).next;
    let on = step(&heard, Event::Tick, Millis(9_400.0)).next;
    assert!(matches!(on.phase, Phase::Quiet(_)));
}

#[test]
fn too_loud_in_the_quiet_time_is_no_proof() {
    let mut events = to_quiet();
    events.push((Event::Noise { too_loud: true }, 8_000.0));
    events.push((Event::Noise { too_loud: false }, 8_200.0));
    events.push(through(11_400.0));
    assert_eq!(both(&events).phase, Phase::ByHand);
}

#[test]
fn missing_sound_in_the_quiet_time_is_no_proof() {
    for (until, wanted) in [(7_100.0, Phase::Learned), (8_000.0, Phase::ByHand)] {
        let mut events = to_quiet();
        events.push((Event::Gap(Millis(until)), 8_200.0));
        events.push(through(11_400.0));
        assert_eq!(both(&events).phase, wanted, "{until}");
    }
}
