//! The outcome of a run by a regular expression over the string of what
//! happened, one letter a second: another form of the same rules.
//!
//! `i` in, `o` out, `b` a beep of the kit (begun 300 ms before its second is
//! told), `x` one at another tone, `.` nothing, `c` cancelled, `h` hidden.
//! Three cycles, 4 s of quiet, longest pause 3.5 s. A beep belongs to an 'in'
//! one second later (1.3 s, limit 1.5 s) and to no later one; to no 'out'
//! before it (0.7 s, limit 0.5 s). Without a beep a cycle fails after 10 s. The
//! quiet time is over with the last letter of it: 'out' there is not too soon.
#![cfg(test)]

use rakeline_core::kit::Signal;
use rakeline_core::learn::{Cause, Event, Heard, Phase, Procedure, Run, Source, Ways, step};
use rakeline_core::units::Millis;
use rakeline_tests::dice::Dice;
use regex::Regex;

const CASES: usize = 100_000;

struct Expressions {
    learned: Regex,
    by_hand: Regex,
}

/// `gap` is what may stand between 'out' and 'in' without a beep that counts
/// for nothing, `stray` what may stand there with one.
fn expressions(last_beeps: bool) -> Expressions {
    let whole = |free: &str| {
        let before = |most: &str, fewer: &str| {
            // The letter before 'in' is a beep of this cycle, or no beep.
            let silent = format!("(?:{free}{fewer}[ox.])?");
            let early = format!("{free}{fewer}b");
            (silent, early, most.to_owned())
        };
        let cycle = |fewer: &str| {
            let (silent, early, _) = before("", fewer);
            format!("(?:{silent}i[ix.]{{0,9}}b|{early}i)")
        };
        let body = "[ixb.]*o";
        let first = cycle("*");
        let then = cycle("?");
        let (silent, early, _) = before("", "?");
        let last = if last_beeps {
            format!("(?:{silent}i[ix.]{{0,9}}b[ix.]{{3}}[iox.]|{early}i[ix.]{{2}}[iox.])")
        } else {
            format!("{silent}i[ix.]{{3}}[iox.]")
        };
        Regex::new(&format!("^{first}{body}{then}{body}{last}")).unwrap()
    };
    Expressions {
        learned: whole("[ox.]"),
        by_hand: whole("[oxb.]"),
    }
}

fn outcome(expressions: &Expressions, told: &str) -> &'static str {
    if expressions.learned.is_match(told) {
        "learned"
    } else if expressions.by_hand.is_match(told) {
        "by hand"
    } else {
        "neither"
    }
}

fn procedure(last_beeps: bool) -> Procedure {
    Procedure {
        cycles: 3,
        silent: Millis(4_000.0),
        confirmed_by: Signal::Beep,
        last_beeps,
        ends_with: Signal::Nothing,
        shortest_dwell: Millis(0.0),
        longest_gap: Some(Millis(3_500.0)),
        tone: Some(2_150.0),
    }
}

fn performed(last_beeps: bool, told: &str) -> Phase {
    let mut run = Run::new(procedure(last_beeps), Ways::Both, None);
    for (letter, second) in told.bytes().zip(1_u32..) {
        let at = 1_000.0 * f64::from(second);
        let beep = |hertz| {
            Event::Beep(Heard {
                start: Millis(at - 300.0),
                end: Millis(at - 100.0),
                hertz,
            })
        };
        let event = match letter {
            b'i' => Event::Reverse(Source::Tap),
            b'o' => Event::Out(Source::Key),
            b'b' => beep(2_150.0),
            b'x' => beep(1_700.0),
            b'c' => Event::Cancelled,
            b'h' => Event::Interrupted(Cause::Hidden),
            _ => Event::Tick,
        };
        run = step(&run, event, Millis(at)).next;
        run = step(&run, Event::Listened(Millis(at)), Millis(at)).next;
    }
    run.phase
}

/// A run that goes well, most of the time, with letters changed at random.
fn told(dice: &mut Dice, last_beeps: bool) -> String {
    let mut told = String::new();
    let fill = |told: &mut String, dice: &mut Dice, most: usize| {
        for _ in 0..dice.below(most + 1) {
            told.push(['.', '.', '.', 'x'][dice.below(4)]);
        }
    };
    for cycle in 0..3 {
        if dice.below(8) == 0 {
            told.push_str("b.");
        } else {
            fill(&mut told, dice, 2);
        }
        let beeps = cycle < 2 || last_beeps;
        let early = beeps && dice.below(4) == 0;
        told.push_str(if early { "bi" } else { "i" });
        if beeps && !early {
            fill(&mut told, dice, 3);
            told.push('b');
        }
        if cycle < 2 {
            fill(&mut told, dice, 2);
            told.push('o');
        }
    }
    told.push_str("....");
    for _ in 0..dice.below(4) {
        let place = dice.below(told.len());
        let letter = ["i", "o", "b", "b", "x", ".", ".", "", "c", "h"][dice.below(10)];
        told.replace_range(place..=place, letter);
    }
    told
}

#[test]
fn a_hundred_thousand_runs_end_as_the_expression_says() {
    let mut dice = Dice(0x5eed_0009);
    let both = [false, true].map(expressions);
    let mut seen = [0_usize; 3];
    for case in 0..CASES {
        let last_beeps = case % 2 == 1;
        let told = told(&mut dice, last_beeps);
        let wanted = outcome(&both[usize::from(last_beeps)], &told);
        let phase = performed(last_beeps, &told);
        let became = match phase {
            Phase::Learned => "learned",
            Phase::ByHand => "by hand",
            _ => "neither",
        };
        assert_eq!(became, wanted, "{told} last beeps {last_beeps}: {phase:?}");
        let which = ["learned", "by hand", "neither"];
        seen[which.iter().position(|name| *name == wanted).unwrap()] += 1;
    }
    assert!(seen.iter().all(|count| *count > 1_000), "{seen:?}");
}
