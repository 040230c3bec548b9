//! The outcome of a run by a regular expression over the string of what
//! happened, one letter a second: another form of the same rules.
//!
//! `i` in, `o` out, by taps and keys in turn; `b` a beep of the kit (begun
//! 300 ms before its second is told), `x` one at another tone, `.` nothing;
//! `t` the kit's tone sounds on (it began 300 ms before the first such letter
//! and ends with the second of the last), `I` and `O` in and out while it does; `c` cancelled,
//! `h` hidden, `m` a microphone that hangs.
//!
//! Three cycles, 4 s of quiet, longest pause 3.5 s. Before the first tap a sound
//! belongs to an 'in' one second later (1.3 s, limit 1.5 s) and to none after
//! that. Between two cycles the app speaks: what begins there confirms nothing
//! (2.2 s before the second cycle, 4.2 s before the last). A sound belongs to no
//! 'out' before it (0.7 s, limit 0.5 s). One sound confirms one cycle, however
//! long it lasts. Without a sound of its own a cycle fails after 10 s. The quiet
//! time is over with the last letter of it: 'out' there is not too soon, and
//! 'in' does no harm. A sound of the last cycle that lasts longer than 3 s fails.
#![cfg(test)]

use rakeline_core::kit::Signal;
use rakeline_core::learn::{Cause, Event, Heard, Phase, Procedure, Run, Source, Ways, step};
use rakeline_core::units::Millis;
use rakeline_tests::dice::Dice;
use regex::Regex;

const CASES: usize = 100_000;
/// Longest wait for a sound of the cycle's own, letters.
const WAIT: usize = 9;

struct Expressions {
    learned: Regex,
    by_hand: Regex,
}

/// A tone that was on before the tap and is on with it has to end before the
/// next sound; all within the wait.
fn after_a_tone(first: &str) -> String {
    let one = |tone: usize| {
        let rest = WAIT - 1 - tone;
        format!("[tI]{{{tone}}}[ix.][ix.]{{0,{rest}}}")
    };
    let all: Vec<String> = (0..WAIT).map(one).collect();
    format!("{first}(?:{})", all.join("|"))
}

/// What ends a cycle: an 'out', or one that a sound begins with.
struct Release {
    any: String,
    sounding: String,
}

fn release() -> Release {
    Release {
        any: "[oO]".to_owned(),
        sounding: "O".to_owned(),
    }
}

/// ... and all before a silent tap: a sound that began within 1.5 s before it
/// breaks the quiet time; one that began earlier and has ended does not.
fn release_to_silence() -> Release {
    let gaps = ["", "[ox.]", "[oOxb.t][ox.]", "[tO][tO]"];
    let with = |out: &str| gaps.map(|gap| format!("{out}{gap}")).join("|");
    Release {
        any: format!("(?:{}|O[tO])", with("[oO]")),
        sounding: format!("(?:{}|O[tO])", with("O")),
    }
}

/// `free` is what may stand before the first cycle; with strays in it the taps
/// and the sounds disagree.
fn whole(last_beeps: bool, free: &str, strays: bool) -> Regex {
    let tapped = format!("(?:i[ix.]{{0,{WAIT}}}|{})", after_a_tone("I"));
    let body = "[iIxb.t]*";
    // A sound of the cycle's own, and all up to its end.
    let heard = |release: &Release| {
        let Release { any, sounding } = release;
        format!("(?:[btI]{body}{any}|{sounding})")
    };
    let nothing = format!("(?:{free}*[ox.])?");
    let beep = format!("{free}*b");
    let begins = if strays {
        format!("(?:{free}*[oxb.])?[tO]")
    } else {
        format!("{free}*[tO]")
    };
    let out = release();
    let (own, any) = (heard(&out), &out.any);
    let mut first = vec![
        format!("{nothing}i[ix.]{{0,{WAIT}}}{own}"),
        format!("(?:{beep}|{begins})i{body}{any}"),
        format!("(?:{nothing}|{beep}|{begins})I{body}{any}"),
    ];
    if strays {
        first.push(format!("{free}*[tO][tO]{tapped}{own}"));
        first.push(format!("{free}*[tO][tO]I[tI]{{0,8}}b{body}{any}"));
    }
    let first = first.join("|");
    let gap = "[oOxb.t]{0,2}";
    let out = if last_beeps {
        release()
    } else {
        release_to_silence()
    };
    let (own, any) = (heard(&out), &out.any);
    // A sound that begins with the second tap counts once the app has said what
    // it had to.
    // A beep right behind a tone that was on with the tap is the cycle's own.
    let behind = format!("I[tI]{{0,{}}}b", WAIT - 1);
    let then = format!("{gap}{tapped}{own}|{gap}{behind}{body}{any}|[oOxb.t][oxb.]I{body}{any}");
    let quiet = "[x.]{3}[iox.]";
    let last = if last_beeps {
        format!("{gap}(?:{tapped}(?:b|t{{1,3}})|{behind}){quiet}")
    } else {
        format!("i{quiet}")
    };
    Regex::new(&format!("^(?:{first})(?:{then}){last}")).unwrap()
}

fn expressions(last_beeps: bool) -> Expressions {
    Expressions {
        learned: whole(last_beeps, "[ox.]", false),
        by_hand: whole(last_beeps, "[oOxb.t]", true),
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

fn heard(start: f64, end: f64, hertz: f64) -> Heard {
    Heard {
        start: Millis(start),
        end: Millis(end),
        hertz,
    }
}

fn performed(last_beeps: bool, told: &str) -> Phase {
    let mut run = Run::new(procedure(last_beeps), Ways::Both, None);
    let mut tone: Option<f64> = None;
    for (letter, second) in told.bytes().zip(1_u32..) {
        let at = 1_000.0 * f64::from(second);
        if letter == b'm' {
            for turn in 0..8 {
                let then = Millis(at - 700.0 + 100.0 * f64::from(turn));
                run = step(&run, Event::Tick, then).next;
            }
            continue;
        }
        let mut now = Vec::new();
        if matches!(letter, b't' | b'I' | b'O') {
            let from = *tone.get_or_insert(at - 300.0);
            now.push(Event::Tone(heard(from, at - 50.0, 2_150.0)));
        } else if let Some(from) = tone.take() {
            now.push(Event::Beep(heard(from, at - 1_000.0, 2_150.0)));
        }
        let by = [Source::Tap, Source::Key][second as usize % 2];
        now.push(match letter {
            b'i' | b'I' => Event::Reverse(by),
            b'o' | b'O' => Event::Out(by),
            b'b' => Event::Beep(heard(at - 300.0, at - 100.0, 2_150.0)),
            b'x' => Event::Beep(heard(at - 300.0, at - 100.0, 1_700.0)),
            b'c' => Event::Cancelled,
            b'h' => Event::Interrupted(Cause::Hidden),
            _ => Event::Tick,
        });
        // While a tone sounds nothing after its beginning is a silence.
        let through = tone.map_or(at, |from| from - 1_000.0);
        now.push(Event::Listened(Millis(through)));
        for event in now {
            run = step(&run, event, Millis(at)).next;
        }
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
            told.push_str(["b.", "tt", "t."][dice.below(3)]);
        } else {
            fill(&mut told, dice, 2);
        }
        let beeps = cycle < 2 || last_beeps;
        let early = cycle == 0 && dice.below(4) == 0;
        told.push_str(["i", "bi", "ti", "I"][if early { dice.below(4) } else { 0 }]);
        if beeps && !early {
            fill(&mut told, dice, 3);
            told.push_str(["b", "b", "t", "tt"][dice.below(4)]);
        }
        if cycle < 2 {
            fill(&mut told, dice, 2);
            told.push_str(["o", "o", "o", "tO"][dice.below(4)]);
        }
    }
    told.push_str("....");
    for _ in 0..dice.below(4) {
        let place = dice.below(told.len());
        let letters = [
            "i", "o", "b", "b", "x", ".", ".", "", "c", "h", "m", "t", "tt", "I", "O",
        ];
        told.replace_range(place..=place, letters[dice.below(letters.len())]);
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
