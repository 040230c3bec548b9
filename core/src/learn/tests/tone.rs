//! Tones that go on, and beeps whose beginning was not heard.

use super::*;

fn both(events: &[(Event, f64)]) -> Run {
    run(procedure(), Ways::Both, events)
}

fn silent(events: &[(Event, f64)]) -> Run {
    let mut silent = procedure();
    silent.last_beeps = false;
    run(silent, Ways::Both, events)
}

/// The tone is told ten times a second while it sounds, and once when it has
/// ended.
fn sounds(from: f64, told_from: f64, to: f64) -> Vec<(Event, f64)> {
    let mut events = Vec::new();
    let mut until = told_from;
    while until < to {
        events.push(tone(from, until));
        until += 100.0;
    }
    events.push((heard(from, to, 2_150.0), to + 300.0));
    events
}

/// What happens by taps, and a tone meanwhile, in the order of time.
fn with(taps: &[(Event, f64)], sounds: Vec<(Event, f64)>) -> Vec<(Event, f64)> {
    let mut all = [taps, &sounds[..]].concat();
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    all
}

/// How it ends, listened to for ten seconds more.
fn ends(run: &Run) -> Phase {
    let last = run.last.expect("something happened").0;
    let later: Vec<_> = (1..=100)
        .map(|tick| last + 100.0 * f64::from(tick))
        .map(|at| (Event::Listened(Millis(at - 400.0)), at))
        .collect();
    after(run, &later).phase
}

#[test]
fn a_tone_that_goes_on_confirms_the_cycle_that_it_began_in_and_no_other() {
    let taps = [(IN, 1_000.0), (OUT, 4_000.0), (IN, 6_500.0)];
    let run = both(&with(&taps, sounds(1_300.0, 2_900.0, 12_000.0)));
    let beeps: Vec<u32> = run.cycles.iter().map(|cycle| cycle.beeps).collect();
    assert_eq!(beeps, [1, 0], "one tone, one beep");
    assert_eq!(run.confirmed(), 1);
    // Its end is no quiet time: the second cycle has no beep of its own.
    let cycle = 2;
    assert_eq!(ends(&run), Phase::Failed(Why::NoBeep { cycle }));
    // While it still sounds that is what is said.
    let on: Vec<_> = sounds(1_300.0, 2_900.0, 25_000.0);
    let on = both(&with(&taps, on[..on.len() - 1].to_vec()));
    assert!(matches!(on.phase, Phase::Failed(Why::ToneOn { .. })));
}

#[test]
fn a_tone_told_in_parts_is_one_sound() {
    let part = |from: f64| (heard(from, from + 1_500.0, 2_150.0), from + 1_800.0);
    let taps = [(IN, 1_000.0), (OUT, 4_000.0), (IN, 6_500.0)];
    let parts: Vec<_> = (0..8)
        .map(|n| part(1_200.0 + 1_600.0 * f64::from(n)))
        .collect();
    let run = both(&with(&taps, parts));
    assert_eq!(run.cycles[1].beeps, 0, "nothing of it confirms the second");
    assert_eq!(run.confirmed(), 1);
    let cycle = 2;
    assert_eq!(ends(&run), Phase::Failed(Why::NoBeep { cycle }));
}

#[test]
fn a_tone_from_the_last_cycle_on_is_never_learned() {
    let taps = &to_quiet()[..4];
    let mut sounding = sounds(7_000.0, 8_600.0, 21_000.0);
    let whole = sounding.clone();
    sounding.truncate(10);
    let on = both(&with(taps, sounding));
    assert!(
        matches!(on.phase, Phase::Quiet(_)),
        "it may still be a beep"
    );
    let run = both(&with(taps, whole));
    let Phase::Failed(Why::ToneOn { lasted }) = run.phase else {
        panic!("{:?}", run.phase);
    };
    assert!((3_000.0..3_200.0).contains(&lasted.0), "{lasted:?}");
    assert_eq!(ends(&run), run.phase);
    assert_eq!(Proof::of(&run).standing(), Standing::NotKnown);
}

#[test]
fn the_quiet_time_begins_where_a_long_beep_ends() {
    let taps = &to_quiet()[..4];
    let run = both(&with(taps, sounds(7_000.0, 8_600.0, 9_500.0)));
    assert_eq!(run.quiet.map(|quiet| quiet.from), Some(Millis(9_500.0)));
    assert_eq!(run.cycles[1].beeps, 1);
    assert_eq!(ends(&run), Phase::Learned);
}

#[test]
fn a_tone_in_the_quiet_time_breaks_it_before_it_has_ended() {
    for events in [
        [to_quiet(), vec![tone(8_500.0, 10_100.0)]].concat(),
        [to_quiet(), vec![cut(8_500.0, 8_900.0)]].concat(),
    ] {
        let after = Millis(1_300.0);
        let why = Why::BeepInQuiet { after };
        assert_eq!(both(&events).phase, Phase::Failed(why));
    }
    // One that began before a silent last cycle, and sounds into it.
    let taps = &to_quiet()[..4];
    let run = silent(&with(taps, sounds(3_000.0, 4_600.0, 9_000.0)));
    assert!(matches!(run.phase, Phase::Failed(Why::BeepInQuiet { .. })));
    // One that began nobody knows when.
    let unknown = [taps, &[tone(-5_000.0, 8_000.0)]].concat();
    assert!(matches!(
        silent(&unknown).phase,
        Phase::Failed(Why::BeepInQuiet { .. })
    ));
}

#[test]
fn a_tone_before_the_first_tap_makes_the_ways_disagree_and_confirms_nothing() {
    let taps = [(IN, 4_000.0)];
    let run = both(&with(&taps, sounds(500.0, 2_100.0, 6_000.0)));
    assert_eq!((run.number(), run.cycles[0].beeps), (1, 0));
    assert_eq!(run.doubts, [Doubt::BeepNotTapped { tapped: 0 }]);
}

#[test]
fn a_beep_whose_beginning_was_not_heard_confirms_nothing() {
    let run = both(&[(IN, 1_000.0), cut(1_200.0, 1_500.0), (OUT, 3_000.0)]);
    assert_eq!((run.cycles[0].beeps, run.confirmed()), (0, 0));
    assert_eq!(run.beeps[0].kind, Kind::Cut);
    let cycle = 1;
    assert_eq!(ends(&run), Phase::Failed(Why::NoBeep { cycle }));
    let again = both(&[(IN, 1_000.0), cut(1_200.0, 1_500.0), kit(2_000.0)]);
    assert_eq!(again.confirmed(), 1, "the next one does");
}

#[test]
fn by_sound_alone_a_tone_that_goes_on_counts_once_when_it_is_over() {
    let alone = |events: &[(Event, f64)]| run(procedure(), Ways::Microphone, events);
    let mut sounding = sounds(1_000.0, 2_600.0, 9_000.0);
    let ended = sounding.pop().expect("its end");
    let on = alone(&sounding);
    assert_eq!((on.number(), on.phase), (0, Phase::Ready));
    let over = after(&on, &[ended]);
    assert_eq!((over.number(), over.cycles[0].beeps), (1, 1));
}

#[test]
fn a_tone_at_another_pitch_is_nothing() {
    let other = Heard {
        start: Millis(7_500.0),
        end: Millis(9_500.0),
        hertz: 900.0,
    };
    let events = [to_quiet(), vec![(Event::Tone(other), 9_600.0)]].concat();
    assert_eq!(ends(&both(&events)), Phase::Learned);
}
