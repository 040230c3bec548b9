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
