//! Every state against every event, by the name of what follows.

use super::*;

fn name(phase: Phase) -> &'static str {
    match phase {
        Phase::Ready => "ready",
        Phase::Engaged => "engaged",
        Phase::Released => "released",
        Phase::Quiet(_) => "quiet",
        Phase::Closing { .. } => "closing",
        Phase::Learned => "learned",
        Phase::ByHand => "by hand",
        Phase::Failed(Why::Cancelled) => "cancelled",
        Phase::Failed(Why::TooFast { .. }) => "too fast",
        Phase::Failed(Why::TooSlow) => "too slow",
        Phase::Failed(Why::NoBeep { .. }) => "no beep",
        Phase::Failed(Why::BeepInQuiet { .. }) => "beep in quiet",
        Phase::Failed(Why::LeftReverse) => "left reverse",
        Phase::Failed(Why::NoEnd) => "no end",
        Phase::Failed(Why::MicrophoneLost) => "no microphone",
        Phase::Failed(Why::TooLoud) => "too loud",
        Phase::Failed(Why::ToneOn { .. }) => "tone on",
        Phase::Interrupted(_) => "interrupted",
    }
}

/// The states, with the time of the event that is tried on them.
fn states() -> Vec<(&'static str, Run, f64)> {
    let both = |events: &[(Event, f64)]| run(procedure(), Ways::Both, events);
    let quiet = to_quiet();
    let mut closing = procedure();
    closing.ends_with = Signal::Beep;
    let closed = [&quiet[..], &[(Event::Listened(Millis(11_300.0)), 11_400.0)]].concat();
    let reached = [&quiet[..], &[(Event::Listened(Millis(11_300.0)), 11_400.0)]].concat();
    let by_hand = [
        &quiet[..],
        &[(Event::MicrophoneLost, 7_500.0), (Event::Tick, 11_300.0)],
    ]
    .concat();
    let given_up = [&quiet[..1], &[(Event::Cancelled, 2_000.0)]].concat();
    let hidden = [&quiet[..1], &[(Event::Interrupted(Cause::Hidden), 2_000.0)]].concat();
    vec![
        ("ready", both(&[]), 500.0),
        ("engaged", both(&quiet[..2]), 3_500.0),
        ("released", both(&quiet[..3]), 5_500.0),
        ("last", both(&quiet[..4]), 8_400.0),
        ("quiet", both(&quiet), 9_000.0),
        ("over", both(&quiet), 11_250.0),
        ("closing", run(closing, Ways::Both, &closed), 11_900.0),
        ("learned", both(&reached), 12_000.0),
        ("by hand", both(&by_hand), 12_000.0),
        ("failed", both(&given_up), 3_000.0),
        ("interrupted", both(&hidden), 3_000.0),
    ]
}

/// One row a state; one column an event, in the order of [`events`].
const TABLE: &str = "
            in       out           beep          cut           tone          other    listened loud     gap      lost     seen          tick     undo     cancel    hidden      restart
ready       engaged  ready         ready         ready         ready         ready    ready    ready    ready    ready    ready         ready    ready    cancelled interrupted ready
engaged     engaged  released      engaged       engaged       engaged       engaged  engaged  engaged  engaged  engaged  engaged       engaged  engaged  cancelled interrupted ready
released    engaged  released      released      released      released      released released released released released released      released engaged  cancelled interrupted ready
last        engaged  left_reverse  quiet         engaged       quiet         engaged  engaged  engaged  engaged  engaged  engaged       engaged  released cancelled interrupted ready
quiet       left_reverse left_reverse beep_in_quiet beep_in_quiet beep_in_quiet quiet    quiet    quiet    quiet    quiet    beep_in_quiet quiet    quiet    cancelled interrupted ready
over        quiet    quiet         beep_in_quiet beep_in_quiet beep_in_quiet quiet    quiet    quiet    quiet    by_hand  beep_in_quiet quiet    quiet    cancelled interrupted ready
closing     left_reverse left_reverse learned    closing       learned       closing  closing  closing  closing  closing  closing       closing  closing  cancelled interrupted ready
learned     learned  learned       learned       learned       learned       learned  learned  learned  learned  learned  learned       learned  learned  learned   learned     ready
by_hand     by_hand  by_hand       by_hand       by_hand       by_hand       by_hand  by_hand  by_hand  by_hand  by_hand  by_hand       by_hand  by_hand  by_hand   by_hand     ready
failed      cancelled cancelled    cancelled     cancelled     cancelled     cancelled cancelled cancelled cancelled cancelled cancelled cancelled cancelled cancelled cancelled ready
interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted interrupted ready
";

/// What is tried, for a moment `at`.
fn events(at: f64) -> [Event; 16] {
    [
        IN,
        OUT,
        heard(at - 300.0, at - 100.0, 2_150.0),
        cut(at - 300.0, at - 100.0).0,
        tone(at - 300.0, at - 50.0).0,
        heard(at - 300.0, at - 100.0, 1_200.0),
        Event::Listened(Millis(at - 400.0)),
        Event::Noise { too_loud: true },
        Event::Gap(Millis(at - 900.0)),
        Event::MicrophoneLost,
        Event::SignalSeen,
        Event::Tick,
        Event::Undo,
        Event::Cancelled,
        Event::Interrupted(Cause::Hidden),
        Event::Restart,
    ]
}

#[test]
fn every_state_meets_every_event_as_the_table_says() {
    let rows: Vec<Vec<&str>> = TABLE
        .lines()
        .filter(|line| !line.is_empty())
        .map(|line| line.split_whitespace().collect())
        .collect();
    let (head, rows) = rows.split_first().unwrap();
    for ((state, run, at), row) in states().into_iter().zip(rows) {
        assert_eq!(state.replace(' ', "_"), row[0]);
        for ((event, wanted), column) in events(at).into_iter().zip(&row[1..]).zip(head) {
            let next = step(&run, event, Millis(at)).next;
            let became = name(next.phase).replace(' ', "_");
            assert_eq!(became, *wanted, "{state} and {column}");
        }
    }
}

#[test]
fn the_same_table_holds_without_a_microphone_where_nothing_is_heard() {
    let hand = |events: &[(Event, f64)]| run(procedure(), Ways::Hand, events);
    let counted = [(IN, 1_000.0), (OUT, 4_000.0), (IN, 6_000.0)];
    for (events, at, event, wanted) in [
        (&counted[..0], 500.0, kit(100.0).0, "ready"),
        (&counted[..1], 2_000.0, kit(1_600.0).0, "engaged"),
        (&counted[..1], 30_000.0, Event::Tick, "engaged"),
        (&counted[..2], 5_000.0, Event::SignalSeen, "released"),
        (&counted[..3], 7_000.0, Event::MicrophoneLost, "engaged"),
        (&counted[..3], 7_000.0, Event::SignalSeen, "quiet"),
        (&counted[..3], 7_000.0, OUT, "left reverse"),
    ] {
        let before = hand(events);
        let next = after(&before, &[(event, at)]);
        assert_eq!(name(next.phase), wanted, "{event:?} at {at}");
    }
}
