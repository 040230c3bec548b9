//! What confirms the end.

use super::*;

fn through(at: f64) -> (Event, f64) {
    (Event::Listened(Millis(at - 100.0)), at)
}

#[test]
fn the_sign_of_the_end_is_waited_for() {
    let mut signs = procedure();
    signs.ends_with = Signal::Beep;
    let mut events = to_quiet();
    events.push(through(11_400.0));
    let closing = run(signs.clone(), Ways::Both, &events);
    assert!(matches!(closing.phase, Phase::Closing { .. }));
    let learned = after(&closing, &[kit(11_500.0)]);
    assert_eq!(learned.phase, Phase::Learned);
    let waited = after(&closing, &[(Event::Tick, 21_500.0)]);
    assert_eq!(waited.phase, Phase::Failed(Why::NoEnd));
    let mut early = to_quiet();
    early.push(kit(10_500.0));
    let early = run(signs, Ways::Both, &early);
    assert_eq!(early.phase, Phase::ByHand);
    assert_eq!(early.doubts, [Doubt::EndEarly { by: Millis(700.0) }]);
}

#[test]
fn a_light_at_the_end_is_the_fitters_to_see() {
    let mut lamp = procedure();
    lamp.ends_with = Signal::Light;
    let mut events = to_quiet();
    events.push(through(11_400.0));
    let closing = run(lamp, Ways::Both, &events);
    let seen = after(&closing, &[(Event::SignalSeen, 12_000.0)]);
    assert_eq!(seen.phase, Phase::Learned);
}

#[test]
fn whoever_shifts_out_at_the_end_of_the_countdown_has_not_left_too_soon() {
    let mut events = to_quiet();
    events.push((OUT, 11_250.0));
    let waits = run(procedure(), Ways::Both, &events);
    assert!(matches!(waits.phase, Phase::Quiet(_)), "{:?}", waits.phase);
    assert_eq!(waits.cycles[1].released, Some(Millis(11_250.0)));
    assert_eq!(after(&waits, &[through(11_900.0)]).phase, Phase::Learned);
    // A beep that began before the deadline is told late.
    let late = (heard(11_100.0, 11_240.0, 2_150.0), 11_600.0);
    let broken = after(&waits, &[late]);
    assert!(matches!(
        broken.phase,
        Phase::Failed(Why::BeepInQuiet { .. })
    ));
    events.pop();
    events.push((OUT, 11_150.0));
    let soon = run(procedure(), Ways::Both, &events);
    assert_eq!(soon.phase, Phase::Failed(Why::LeftReverse));
}

#[test]
fn out_after_a_silent_last_cycle_is_no_cycle_without_a_beep() {
    let mut silent = procedure();
    silent.last_beeps = false;
    let mut events = to_quiet()[..4].to_vec();
    events.push((OUT, 10_850.0));
    events.push(through(12_000.0));
    assert_eq!(run(silent, Ways::Both, &events).phase, Phase::Learned);
}

#[test]
fn a_sign_of_the_end_is_waited_for_in_reverse() {
    let mut signs = procedure();
    signs.ends_with = Signal::Beep;
    let mut events = to_quiet();
    events.push((OUT, 11_250.0));
    let left = run(signs, Ways::Both, &events);
    assert_eq!(left.phase, Phase::Failed(Why::LeftReverse));
}

#[test]
fn by_sound_alone_a_count_is_taken_back_and_its_beep_counts_no_more() {
    let mut open = procedure();
    open.tone = None;
    // A chime came first.
    let chime = (heard(1_000.0, 1_300.0, 900.0), 1_500.0);
    let counted = run(open, Ways::Microphone, &[chime]);
    assert_eq!((counted.number(), counted.tone), (1, Some(900.0)));
    let back = after(&counted, &[(Event::Undo, 3_000.0)]);
    assert_eq!((back.phase, back.number()), (Phase::Ready, 0));
    assert_eq!((back.tone, back.undone), (None, 1));
    assert_eq!(back.beeps[0].kind, Kind::Stray, "kept all the same");
    let again = after(&back, &[kit(5_000.0)]);
    assert_eq!((again.number(), again.tone), (1, Some(2_150.0)));
    let late = after(&counted, &[(Event::Undo, 3_600.0)]);
    assert_eq!(late.number(), 1);
}

#[test]
fn beeps_after_the_one_that_is_taken_back_are_heard_again() {
    let alone = run(procedure(), Ways::Microphone, &[kit(1_000.0), kit(2_600.0)]);
    assert_eq!(alone.number(), 2);
    let together = after(&alone, &[kit(3_000.0), (Event::Undo, 3_500.0)]);
    assert_eq!(together.number(), 2, "the one since counts");
    assert_eq!(together.cycles[1].engaged, Millis(3_000.0));
}

#[test]
fn speech_ends_where_the_kit_beeps_and_where_the_quiet_time_begins() {
    for ways in [Ways::Both, Ways::Microphone] {
        let mut now = Run::new(procedure(), ways, None);
        let mut hushed = 0;
        for (event, at) in [
            (IN, 1_000.0),
            kit(1_200.0),
            (OUT, 4_000.0),
            (IN, 5_800.0),
            kit(6_000.0),
        ] {
            let did = step(&now, event, Millis(at));
            now = did.next;
            let hush = did.actions.contains(&Action::Hush);
            hushed += usize::from(hush && matches!(event, Event::Beep(_)));
        }
        assert!(matches!(now.phase, Phase::Quiet(_)), "{ways:?}");
        assert_eq!(hushed, if ways == Ways::Both { 1 } else { 2 }, "{ways:?}");
    }
}

#[test]
fn beeps_of_one_engagement_by_sound_alone_are_never_learned() {
    let mut six = procedure();
    six.cycles = 6;
    let mut events: Vec<_> = (0..6)
        .map(|beep| kit(1_000.0 + 1_400.0 * f64::from(beep)))
        .collect();
    events.push(through(14_000.0));
    let end = run(six, Ways::Microphone, &events);
    assert_eq!((end.number(), end.phase), (6, Phase::ByHand));
    assert_eq!(Proof::of(&end).standing(), Standing::NotConfirmed);
    assert_eq!(Proof::of(&end).message().key, "learn-by-sound");
}

#[test]
fn a_proof_holds_only_whole() {
    let mut events = to_quiet();
    events.push(through(11_900.0));
    let proof = Proof::of(&run(procedure(), Ways::Both, &events));
    assert!(proof.holds());
    let spoiled = |spoil: fn(&mut Proof)| {
        let mut proof = proof.clone();
        spoil(&mut proof);
        (proof.holds(), proof.standing())
    };
    for spoil in [
        (|proof| proof.confirmed = 1) as fn(&mut Proof),
        |proof| proof.asked = 3,
        |proof| proof.reached = Millis(3_900.0),
        |proof| proof.doubts.push(Doubt::Gap),
        |proof| proof.cycles[0].beeps = 0,
        |proof| proof.cycles.truncate(1),
    ] {
        assert_eq!(spoiled(spoil), (false, Standing::NotKnown));
    }
    // The last may be silent.
    assert!(spoiled(|proof| proof.cycles[1].beeps = 0).0);
    // Kept by a version that did not ask to see reverse.
    let alone = spoiled(|proof| proof.ways = Ways::Microphone);
    assert_eq!(alone.1, Standing::NotConfirmed);
}

#[test]
fn sound_that_was_missing_is_remembered_until_the_beep_before_it_is_told() {
    let mut events = to_quiet()[..4].to_vec();
    events.push((Event::Gap(Millis(7_250.0)), 7_280.0));
    events.push(kit(7_000.0));
    events.push(through(11_900.0));
    let end = run(procedure(), Ways::Both, &events);
    assert_eq!(
        (end.phase, &end.doubts[..]),
        (Phase::ByHand, &[Doubt::Gap][..])
    );
}
