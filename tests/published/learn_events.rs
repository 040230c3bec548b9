//! What holds for any sequence of events, judged from the events alone.
#![cfg(test)]

use rakeline_core::kit::Signal;
use rakeline_core::learn::{
    Cause, Event, Heard, Listening, Phase, Procedure, Proof, Run, SAME_TONE, Source, Ways, step,
};
use rakeline_core::units::Millis;
use rakeline_tests::dice::Dice;

const CASES: usize = 20_000;
const TONE: f64 = 2_150.0;
/// Every beep that began so long ago was told.
const BEHIND: f64 = 850.0;
/// Sounds are told in the order of their ends within this.
const APART: f64 = 300.0;

fn procedure(dice: &mut Dice) -> Procedure {
    let some = |dice: &mut Dice, value: f64| (dice.below(2) == 0).then_some(value);
    Procedure {
        cycles: 1 + u32::try_from(dice.below(4)).unwrap(),
        silent: Millis(400.0 + 100.0 * dice.below(20) as f64),
        confirmed_by: [Signal::Beep, Signal::Beep, Signal::Light][dice.below(3)],
        last_beeps: dice.below(2) == 0,
        ends_with: [
            Signal::Nothing,
            Signal::Nothing,
            Signal::Beep,
            Signal::Light,
        ][dice.below(4)],
        shortest_dwell: Millis(300.0 * dice.below(2) as f64),
        longest_gap: some(dice, 4_000.0).map(Millis),
        tone: some(dice, TONE),
    }
}

fn event(dice: &mut Dice, at: f64) -> Event {
    let sound = |dice: &mut Dice, most: usize, hertz: f64| {
        let end = at - dice.below(300) as f64;
        Heard {
            start: Millis(end - 60.0 - dice.below(most) as f64),
            end: Millis(end),
            hertz,
        }
    };
    match dice.below(43) {
        0..=9 => Event::Reverse([Source::Tap, Source::Key][dice.below(2)]),
        10..=15 => Event::Out(Source::Tap),
        16..=24 => Event::Beep(sound(dice, 400, TONE)),
        25 => Event::Beep(sound(dice, 400, 1_500.0)),
        // A tone is told as soon as a beep is; that it is long is told later.
        40 => Event::Tone(sound(dice, 400, TONE)),
        41 => Event::Tone(sound(dice, 400, 1_500.0)),
        42 => Event::Cut(sound(dice, 400, TONE)),
        26..=33 => Event::Listened(Millis(at - BEHIND)),
        34 => Event::Undo,
        35 => Event::SignalSeen,
        36 if dice.below(20) == 0 => Event::MicrophoneLost,
        37 if dice.below(20) == 0 => Event::Interrupted(Cause::Hidden),
        38 => Event::Noise {
            too_loud: dice.below(4) == 0,
        },
        39 if dice.below(20) == 0 => Event::Restart,
        39 if dice.below(4) == 0 => Event::Gap(Millis(at - dice.below(900) as f64)),
        _ => Event::Tick,
    }
}

/// What the events alone say, without the run's own rules.
#[derive(Default)]
struct Seen {
    taps_in: u32,
    /// Whatever sounded, at any tone, and whether its beginning was heard.
    sounds: Vec<(Heard, bool)>,
    /// Up to when sound was missing.
    missing: Vec<Millis>,
}

#[test]
fn nothing_counts_that_was_not_confirmed_and_learned_means_silence() {
    let mut dice = Dice(0x1ea2_0009);
    let mut learned = 0_usize;
    for case in 0..CASES {
        let ways = [Ways::Both, Ways::Both, Ways::Hand, Ways::Microphone][dice.below(4)];
        let mut run = Run::new(procedure(&mut dice), ways, None);
        let mut seen = Seen::default();
        let (mut at, mut quiet_for) = (1_000.0, 0_usize);
        for _ in 0..120 {
            at += match dice.below(12) {
                0 => 0.0,
                1 => -50.0,
                2 => 2_000.0,
                _ => dice.below(700) as f64,
            };
            let in_quiet = matches!(run.phase, Phase::Quiet(_) | Phase::Closing { .. });
            // Most quiet times are left in peace.
            quiet_for = if in_quiet {
                quiet_for.max(1 + dice.below(8))
            } else {
                0
            };
            let next = if in_quiet && quiet_for > 2 {
                Event::Listened(Millis(at - BEHIND))
            } else {
                event(&mut dice, at)
            };
            match next {
                Event::Reverse(_) => seen.taps_in += 1,
                Event::Beep(heard) | Event::Tone(heard) => seen.sounds.push((heard, true)),
                Event::Cut(heard) => seen.sounds.push((heard, false)),
                Event::Gap(until) if !run.phase.ended() => seen.missing.push(until),
                Event::Restart => seen = Seen::default(),
                _ => {}
            }
            run = step(&run, next, Millis(at)).next;
            judge(&run, &seen, case);
        }
        learned += usize::from(run.phase == Phase::Learned);
    }
    assert!(learned > 300, "{learned}");
}

fn judge(run: &Run, seen: &Seen, case: usize) {
    let confirmed = run.confirmed();
    assert!(run.number() <= run.procedure.cycles, "{case}");
    assert!(confirmed <= run.number(), "{case}");
    if run.ways != Ways::Microphone {
        assert!(confirmed <= seen.taps_in, "{case}: {run:?}");
    }
    let silent = u32::from(!run.procedure.last_beeps);
    if run.hears() {
        let whole = seen.sounds.iter().filter(|(_, whole)| *whole);
        let beeps = u32::try_from(whole.count()).unwrap();
        assert!(confirmed <= beeps + silent, "{case}: {run:?}");
    }
    if run.phase != Phase::Learned {
        return;
    }
    assert_eq!(confirmed, run.procedure.cycles, "{case}");
    assert_ne!(run.ways, Ways::Microphone, "{case}: nobody saw reverse");
    assert!(Proof::of(run).holds(), "{case}: {run:?}");
    let tone = run.tone.unwrap_or(TONE);
    let quiet = run.quiet.unwrap();
    assert_eq!(quiet.deadline, quiet.from + run.procedure.silent, "{case}");
    let Listening::On(Some(through)) = run.listening else {
        panic!("{case}: nobody listened");
    };
    assert!(through >= quiet.deadline, "{case}");
    let missing = seen.missing.iter().find(|until| **until > quiet.from);
    assert_eq!(missing, None, "{case}: {run:?}");
    // Nothing of the kit sounded in it, from wherever it began.
    let broken = seen.sounds.iter().find(|(sound, _)| {
        (sound.hertz - tone).abs() <= SAME_TONE
            && (sound.start >= quiet.from || sound.end.0 > quiet.from.0 + APART)
            && sound.start < quiet.deadline
    });
    assert_eq!(broken, None, "{case}: {run:?}");
}
