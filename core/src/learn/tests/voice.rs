//! What may not be taken for the kit: chimes before the first tap, and the app
//! itself.

use super::*;

fn open(events: &[(Event, f64)]) -> Run {
    let mut open = procedure();
    open.tone = None;
    run(open, Ways::Both, events)
}

fn both(events: &[(Event, f64)]) -> Run {
    run(procedure(), Ways::Both, events)
}

#[test]
fn a_chime_before_the_first_tap_is_not_the_kits_tone() {
    let chime = (heard(700.0, 900.0, 900.0), 950.0);
    let kit_at = |start: f64| (heard(start, start + 200.0, 2_150.0), start + 300.0);
    let run = open(&[chime, (IN, 1_000.0), kit_at(1_300.0)]);
    assert_eq!((run.tone, run.confirmed()), (Some(2_150.0), 1));
    assert_eq!(run.beeps[0].kind, Kind::OtherTone);
    assert_eq!(run.doubts, [], "it is no beep of the kit");
    // Begun before the tap, and told after it.
    let late = (heard(900.0, 1_200.0, 900.0), 1_300.0);
    let run = open(&[(IN, 1_000.0), late]);
    assert_eq!((run.tone, run.confirmed()), (None, 0));
    // The kit's own beep before the tap is not known to be one either.
    let run = open(&[kit_at(500.0), (IN, 1_000.0)]);
    assert_eq!((run.tone, run.confirmed()), (None, 0));
}

#[test]
fn a_tone_that_is_known_is_heard_before_the_tap_and_a_chime_is_not() {
    let chime = (heard(700.0, 900.0, 900.0), 950.0);
    let run = both(&[chime, (IN, 1_000.0)]);
    assert_eq!((run.tone, run.confirmed()), (Some(2_150.0), 0));
    let run = both(&[kit(500.0), (IN, 1_000.0)]);
    assert_eq!(run.confirmed(), 1);
}

#[test]
fn what_is_cut_or_sounds_on_from_before_teaches_no_tone() {
    let run = open(&[(IN, 1_000.0), cut(1_200.0, 1_500.0)]);
    assert_eq!((run.tone, run.confirmed()), (None, 0));
    let run = open(&[(IN, 4_000.0), tone(-2_000.0, 4_500.0)]);
    assert_eq!((run.tone, run.confirmed()), (None, 0));
}

#[test]
fn what_begins_while_the_app_speaks_confirms_nothing() {
    let mut three = procedure();
    three.cycles = 3;
    let spoken = [(IN, 1_000.0), kit(1_200.0), (OUT, 3_000.0), kit(4_000.0)];
    let early = run(three.clone(), Ways::Both, &spoken);
    assert_eq!(early.beeps[1].kind, Kind::Own);
    let tapped = after(&early, &[(IN, 4_400.0)]);
    assert_eq!(tapped.cycles[1].beeps, 0);
    assert_eq!(tapped.doubts, []);
    // Also what its voice leaves in the room; after that the kit counts.
    let rings = after(&early, &[(IN, 4_400.0), kit(4_550.0), kit(4_900.0)]);
    assert_eq!(rings.cycles[1].beeps, 1);
    // When it has long ended the kit may come before the tap.
    let later = [&spoken[..3], &[kit(6_000.0), (IN, 6_500.0)]].concat();
    assert_eq!(run(three, Ways::Both, &later).cycles[1].beeps, 1);
}

#[test]
fn a_beep_before_the_silent_last_tap_breaks_it_although_the_app_spoke() {
    let mut silent = procedure();
    silent.last_beeps = false;
    let events = [
        (IN, 1_000.0),
        kit(1_200.0),
        (OUT, 4_000.0),
        kit(5_800.0),
        (IN, 6_500.0),
    ];
    let run = run(silent, Ways::Both, &events);
    assert!(matches!(run.phase, Phase::Failed(Why::BeepInQuiet { .. })));
}

#[test]
fn the_app_says_nothing_while_the_beep_of_a_cycle_is_due() {
    let says = |run: &Run, event: Event, at: f64| {
        let did = step(run, event, Millis(at));
        let said = did
            .actions
            .iter()
            .any(|action| matches!(action, Action::Say(_)));
        (did.next, said)
    };
    let engaged = both(&[(IN, 1_000.0)]);
    let (out, said) = says(&engaged, OUT, 3_000.0);
    assert!(!said);
    let (late, at) = kit(3_300.0);
    let (out, said) = says(&out, late, at);
    assert!(said, "what comes next, as soon as it was heard");
    assert_eq!((out.phase, out.confirmed()), (Phase::Released, 1));
}

#[test]
fn by_sound_alone_the_app_says_nothing_before_the_end() {
    let mut now = Run::new(procedure(), Ways::Microphone, None);
    for (event, at) in [
        kit(1_000.0),
        (Event::Listened(Millis(2_500.0)), 2_700.0),
        kit(5_000.0),
    ] {
        let did = step(&now, event, Millis(at));
        now = did.next;
        assert!(
            !did.actions
                .iter()
                .any(|action| matches!(action, Action::Say(_)))
        );
    }
    assert!(matches!(now.phase, Phase::Quiet(_)));
}

#[test]
fn a_beep_whose_beginning_was_not_heard_teaches_nothing_when_it_is_heard_again() {
    let mut unknown = procedure();
    unknown.tone = None;
    let events = [
        (IN, 1_000.0),
        cut(1_300.0, 1_600.0),
        (OUT, 2_000.0),
        (Event::Undo, 2_300.0),
    ];
    let run = run(unknown, Ways::Both, &events);
    assert_eq!((run.tone, run.confirmed()), (None, 0));
}
