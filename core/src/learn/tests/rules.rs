//! One rule a test.

mod microphone;

use super::*;

fn both(events: &[(Event, f64)]) -> Run {
    run(procedure(), Ways::Both, events)
}

fn through(at: f64) -> (Event, f64) {
    (Event::Listened(Millis(at - 100.0)), at)
}

fn ended(phase: Phase) -> Why {
    match phase {
        Phase::Failed(why) => why,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_run_heard_through_is_learned_and_proved() {
    let mut events = to_quiet();
    events.push(through(11_350.0));
    let run = both(&events);
    assert_eq!(run.phase, Phase::Learned);
    let proof = Proof::of(&run);
    assert_eq!(proof.standing(), Standing::Ignores);
    assert_eq!((proof.confirmed, proof.asked, proof.heard()), (2, 2, 2));
    assert_eq!(proof.reached, Millis(4_000.0));
    assert_eq!(proof.quiet_from, Some(Millis(6_200.0)));
    assert_eq!(proof.cycles[0].released, Some(Millis(3_000.0)));
}

#[test]
fn the_quiet_time_is_not_reached_before_it_was_listened_through() {
    let mut events = to_quiet();
    events.push((Event::Listened(Millis(11_100.0)), 11_300.0));
    assert!(matches!(both(&events).phase, Phase::Quiet(_)));
    // The beep came late, and began before the end.
    events.push((heard(11_150.0, 11_350.0, 2_150.0), 11_500.0));
    let after = Millis(3_950.0);
    assert_eq!(ended(both(&events).phase), Why::BeepInQuiet { after });
}

#[test]
fn a_beep_in_the_quiet_time_at_another_tone_does_not_fail() {
    let mut events = to_quiet();
    events.push((heard(8_000.0, 8_400.0, 2_195.0), 8_500.0));
    events.push(through(11_350.0));
    let run = both(&events);
    assert_eq!(run.phase, Phase::Learned);
    assert_eq!(run.beeps[2].kind, Kind::OtherTone);
}

#[test]
fn several_beeps_in_one_engagement_are_one_cycle() {
    let run = both(&[
        (IN, 1_000.0),
        kit(1_200.0),
        kit(1_900.0),
        kit(2_600.0),
        (OUT, 4_000.0),
    ]);
    assert_eq!((run.number(), run.confirmed()), (1, 1));
    // The second sounds with the app's own tone, which is another.
    assert_eq!(run.cycles[0].beeps, 3);
}

#[test]
fn the_apps_own_tone_counts_as_its_own_and_the_kits_beside_it_as_the_kits() {
    let own = (heard(1_600.0, 1_800.0, 1_320.0), 1_900.0);
    let run = both(&[(IN, 1_000.0), kit(1_200.0), own, kit(1_700.0)]);
    let kinds: Vec<Kind> = run.beeps.iter().map(|noted| noted.kind).collect();
    assert_eq!(kinds, [Kind::Kit, Kind::Own, Kind::Kit]);
}

#[test]
fn beeps_close_together_begin_the_last_quiet_time_again() {
    let mut events = to_quiet();
    events.push(kit(7_500.0));
    let run = both(&events);
    assert_eq!(run.quiet.unwrap().from, Millis(7_700.0));
    events.push(through(11_650.0));
    assert!(matches!(both(&events).phase, Phase::Quiet(_)));
    events.push(through(11_850.0));
    assert_eq!(both(&events).phase, Phase::Learned);
}

#[test]
fn too_fast_says_how_long_it_was_in_and_can_be_taken_back() {
    let run = both(&[(IN, 1_000.0), kit(1_100.0), (OUT, 2_000.0)]);
    let dwell = Millis(1_000.0);
    assert_eq!(ended(run.phase), Why::TooFast { dwell });
    assert!(!run.settled(), "the tap may have been a slip");
    let back = after(&run, &[(Event::Undo, 3_900.0)]);
    assert_eq!((back.phase, back.undone), (Phase::Engaged, 1));
    let late = after(&run, &[(Event::Undo, 4_100.0)]);
    assert!(late.phase.ended() && late.settled());
}

#[test]
fn a_slip_that_nobody_watched_is_no_longer_taken_back() {
    let run = both(&[(IN, 1_000.0), kit(1_100.0), (OUT, 2_000.0)]);
    let hidden = (Event::Interrupted(Cause::Hidden), 2_500.0);
    let seen = after(&run, &[hidden, (Event::Undo, 2_700.0)]);
    assert!(seen.phase.ended() && seen.settled());
}

#[test]
fn beeps_heard_after_a_slip_count_when_it_is_taken_back() {
    let mut events = to_quiet();
    events.push((OUT, 8_000.0));
    events.push(kit(8_300.0));
    let left = both(&events);
    assert_eq!(ended(left.phase), Why::LeftReverse);
    let back = after(&left, &[(Event::Undo, 9_000.0)]);
    assert!(matches!(back.phase, Phase::Failed(Why::BeepInQuiet { .. })));
}

#[test]
fn a_cycle_without_a_beep_fails_also_when_the_last_has_begun() {
    let mut silent = procedure();
    silent.last_beeps = false;
    let quick = [
        (IN, 1_000.0),
        (OUT, 3_000.0),
        (IN, 3_200.0),
        through(4_000.0),
    ];
    let run = run(silent, Ways::Both, &quick);
    assert_eq!(ended(run.phase), Why::NoBeep { cycle: 1 });
}

#[test]
fn a_pause_that_is_too_long_fails_by_itself() {
    let out = both(&[(IN, 1_000.0), kit(1_200.0), (OUT, 4_000.0)]);
    let waits = after(&out, &[(Event::Tick, 12_000.0)]);
    assert_eq!(waits.phase, Phase::Released);
    let waited = after(&waits, &[(Event::Tick, 12_001.0)]);
    assert_eq!(ended(waited.phase), Why::TooSlow);
}

#[test]
fn without_a_beep_the_cycle_is_named() {
    let out = both(&[(IN, 1_000.0), (OUT, 4_000.0), through(4_700.0)]);
    assert_eq!(ended(out.phase), Why::NoBeep { cycle: 1 });
    let stays = both(&[(IN, 1_000.0), (Event::Tick, 12_500.0)]);
    assert_eq!(ended(stays.phase), Why::NoBeep { cycle: 1 });
}

#[test]
fn a_beep_before_the_tap_and_one_after_out_belong_to_it() {
    let early = both(&[kit(500.0), (IN, 1_900.0)]);
    assert_eq!((early.number(), early.confirmed()), (1, 1));
    assert_eq!(early.cycles[0].began(), Millis(500.0));
    let late = both(&[(IN, 1_000.0), (OUT, 3_000.0), kit(3_400.0)]);
    assert_eq!((late.phase, late.confirmed()), (Phase::Released, 1));
}

#[test]
fn a_beep_before_its_tap_starts_the_last_quiet_time_with_the_tap() {
    let events = [
        (IN, 1_000.0),
        kit(1_200.0),
        (OUT, 2_500.0),
        kit(6_900.0),
        cut(7_400.0, 7_700.0),
        (IN, 8_200.0),
    ];
    let run = both(&events);
    assert_eq!(run.quiet.map(|quiet| quiet.from), Some(Millis(8_200.0)));
}

#[test]
fn a_beep_that_nobody_tapped_makes_the_ways_disagree() {
    let mut events = vec![kit(500.0)];
    events.extend(to_quiet().into_iter().map(|(event, at)| match event {
        Event::Beep(_) => kit(at + 2_700.0),
        other => (other, at + 3_000.0),
    }));
    let quiet = both(&events);
    assert_eq!(quiet.doubts, [Doubt::BeepNotTapped { tapped: 0 }]);
    let end = after(&quiet, &[through(14_400.0)]);
    assert_eq!(end.phase, Phase::ByHand, "never learned");
    assert_eq!(end.beeps[0].kind, Kind::Stray);
}

#[test]
fn beeps_are_heard_again_after_a_tap_is_taken_back() {
    let mut silent = procedure();
    silent.last_beeps = false;
    let before = [(IN, 1_000.0), kit(1_200.0), (OUT, 4_000.0), (IN, 6_000.0)];
    let broken = run(silent, Ways::Both, &before);
    let broken = after(&broken, &[kit(6_400.0), kit(7_000.0)]);
    let after_it = Millis(400.0);
    assert_eq!(ended(broken.phase), Why::BeepInQuiet { after: after_it });
    let back = after(&broken, &[(Event::Undo, 7_500.0)]);
    assert_eq!(back.phase, Phase::Released);
    let again = after(&back, &[(IN, 7_700.0)]);
    assert!(matches!(
        again.phase,
        Phase::Failed(Why::BeepInQuiet { .. })
    ));
}

#[test]
fn the_silent_last_cycle_is_quiet_from_the_moment_reverse_is_in() {
    let mut silent = procedure();
    silent.last_beeps = false;
    let mut events = to_quiet()[..4].to_vec();
    events.push(through(10_850.0));
    assert!(matches!(
        run(silent.clone(), Ways::Both, &events).phase,
        Phase::Quiet(_)
    ));
    events.push(through(10_950.0));
    assert_eq!(run(silent, Ways::Both, &events).phase, Phase::Learned);
}

#[test]
fn by_taps_alone_the_best_is_by_hand() {
    let events = [
        (IN, 1_000.0),
        (OUT, 4_000.0),
        (IN, 6_000.0),
        (Event::SignalSeen, 7_000.0),
        (Event::Tick, 11_000.0),
    ];
    let run = run(procedure(), Ways::Hand, &events);
    assert_eq!(run.phase, Phase::ByHand);
    assert_eq!(Proof::of(&run).standing(), Standing::NotConfirmed);
}

#[test]
fn by_sound_alone_a_pause_parts_the_engagements() {
    let alone = |events: &[(Event, f64)]| run(procedure(), Ways::Microphone, events);
    let mut events = vec![kit(1_000.0), kit(1_700.0), kit(5_000.0)];
    let quiet = alone(&events);
    assert_eq!((quiet.number(), quiet.cycles[0].beeps), (2, 2));
    assert!(matches!(quiet.phase, Phase::Quiet(_)));
    events.push(through(9_400.0));
    let end = alone(&events);
    assert_eq!(end.phase, Phase::ByHand, "nobody saw reverse");
    assert_eq!(end.doubts, [Doubt::ReverseNotSeen]);
    // A tap counts nothing here.
    assert_eq!(alone(&[(IN, 1_000.0)]).phase, Phase::Ready);
}

#[test]
fn whoever_counts_in_while_it_is_quiet_was_out_in_between() {
    for source in [Source::Tap, Source::Key] {
        let mut events = to_quiet();
        events.push((Event::Reverse(source), 9_000.0));
        let left = both(&events);
        assert_eq!(ended(left.phase), Why::LeftReverse);
        let back = after(&left, &[(Event::Undo, 10_000.0)]);
        assert!(matches!(back.phase, Phase::Quiet(_)), "it was a slip");
    }
    // The countdown is over; only the sound is still looked at.
    let mut events = to_quiet();
    events.push((IN, 11_250.0));
    events.push(through(11_900.0));
    assert_eq!(both(&events).phase, Phase::Learned);
}

#[test]
fn the_tone_is_learned_from_the_first_beep_and_forgotten_by_a_restart() {
    let mut open = procedure();
    open.tone = None;
    let first = [(IN, 1_000.0), (heard(1_200.0, 1_400.0, 2_600.0), 1_500.0)];
    let heard_once = run(open, Ways::Both, &first);
    assert_eq!(heard_once.tone, Some(2_600.0));
    let again = step(&heard_once, Event::Restart, Millis(9_000.0)).next;
    assert_eq!((again.phase, again.tone), (Phase::Ready, None));
}

#[test]
fn times_that_go_back_and_bounces_are_refused() {
    let first = both(&[(IN, 1_000.0)]);
    for (event, at) in [(OUT, 1_000.0), (OUT, 900.0), (OUT, f64::NAN), (IN, 1_100.0)] {
        let next = step(&first, event, Millis(at)).next;
        assert_eq!(
            (next.phase, next.refused),
            (Phase::Engaged, 1),
            "{event:?} {at}"
        );
    }
    let hidden = Event::Interrupted(Cause::Hidden);
    let next = step(&first, hidden, Millis(-5.0)).next;
    assert_eq!(next.phase, Phase::Interrupted(Cause::Hidden));
}

#[test]
fn a_beep_with_impossible_times_confirms_nothing_and_breaks_the_quiet_time() {
    for (start, end) in [(f64::NAN, 1_300.0), (1_400.0, 1_300.0), (1_200.0, 9_000.0)] {
        let odd = (heard(start, end, 2_150.0), 1_500.0);
        let counted = both(&[(IN, 1_000.0), odd]);
        assert_eq!((counted.confirmed(), counted.refused), (0, 1));
    }
    let mut events = to_quiet();
    events.push((heard(f64::NAN, 8_000.0, 2_150.0), 8_000.0));
    assert!(matches!(
        both(&events).phase,
        Phase::Failed(Why::BeepInQuiet { .. })
    ));
}

#[test]
fn a_phone_that_slept_interrupts() {
    let run = both(&[(IN, 1_000.0)]);
    let next = step(&run, Event::Tick, Millis(6_500.0)).next;
    assert_eq!(next.phase, Phase::Interrupted(Cause::Asleep));
    assert_eq!(Proof::of(&next).standing(), Standing::NotKnown);
}

#[test]
fn a_run_that_was_ended_with_the_app_is_interrupted_and_never_resumed() {
    let run = both(&to_quiet());
    let proof = Proof::of(&run);
    assert_eq!(proof.outcome, Outcome::Interrupted(Cause::Killed));
    assert_eq!(Proof::of(&both(&[])).standing(), Standing::Untouched);
}

#[test]
fn a_thousand_events_a_second_do_no_harm() {
    let mut now = both(&[]);
    for i in 0..10_000_u32 {
        let at = 1_000.0 + f64::from(i);
        let event = match i % 4 {
            0 => IN,
            1 => OUT,
            2 => heard(at - 60.0, at - 1.0, 2_150.0),
            _ => Event::Tick,
        };
        now = step(&now, event, Millis(at)).next;
    }
    assert!(now.number() <= 2 && now.beeps.len() <= BEEPS_KEPT);
    assert_ne!(now.phase, Phase::Learned);
}

#[test]
fn a_beep_of_the_cycle_before_does_not_break_the_quiet_time() {
    let mut silent = procedure();
    silent.last_beeps = false;
    silent.shortest_dwell = Millis(0.0);
    let events = [(IN, 1_000.0), (OUT, 3_000.0), (IN, 3_450.0)];
    let quick = run(silent, Ways::Both, &events);
    let told_late = after(&quick, &[(heard(3_100.0, 3_300.0, 2_150.0), 3_600.0)]);
    assert!(matches!(told_late.phase, Phase::Quiet(_)));
    assert_eq!(told_late.cycles[0].beeps, 1);
    let inside = after(&quick, &[(heard(3_400.0, 3_480.0, 2_150.0), 3_600.0)]);
    assert!(matches!(
        inside.phase,
        Phase::Failed(Why::BeepInQuiet { .. })
    ));
}

#[test]
fn the_app_never_sounds_in_the_quiet_time() {
    let mut now = Run::new(procedure(), Ways::Both, None);
    let mut events = to_quiet();
    events.extend([(Event::Tick, 8_000.0), (Event::Tick, 10_000.0)]);
    for (event, at) in events {
        let did = step(&now, event, Millis(at));
        now = did.next;
        if matches!(now.phase, Phase::Quiet(_)) {
            let loud = |action: &Action| matches!(action, Action::Tone(_) | Action::Say(_));
            assert!(!did.actions.iter().any(loud), "{event:?}");
        }
    }
}
