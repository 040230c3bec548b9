//! The time line of a run of the obstacle learn.

use super::{Anchor, At, Drawing, Item, Lettering, Pen, Words, area, line};
use crate::learn::{Kind, Proof};
use crate::text::{Message, msg};
use crate::units::Millis;

/// Width and height of the drawing, mm.
const SIZE: (f64, f64) = (120.0, 52.0);
/// Where time begins and how much room it has.
const LEFT: f64 = 19.0;
const WIDE: f64 = 97.0;
/// Rows: what was heard, reverse, and the quiet time.
const HEARD: (f64, f64) = (10.0, 17.0);
const REVERSE: (f64, f64) = (20.0, 29.0);
const QUIET: (f64, f64) = (31.0, 37.0);
const AXIS: f64 = 41.0;
/// Size of the letters.
const LETTERS: f64 = 3.6;

/// Cycles as bars with their number, beeps above them, the quiet time as an
/// open bar below them, then seconds.
#[must_use]
pub fn learn_timeline(proof: &Proof) -> Drawing {
    // At least a second, so that the scale has a meaning.
    let length = proof.length.0.max(1_000.0);
    let x = |at: Millis| LEFT + WIDE * (at.0 / length).clamp(0.0, 1.0);
    let mut items = vec![
        words("learn-line-heard", (1.0, HEARD.1 - 2.0)),
        words("learn-line-reverse", (1.0, REVERSE.1 - 3.0)),
    ];
    scale(length, &mut items);
    for (number, cycle) in (1..).zip(&proof.cycles) {
        let last = number == proof.asked;
        let end = cycle.released.unwrap_or(match proof.quiet_from {
            Some(from) if last => from,
            _ => proof.length,
        });
        bar(x(cycle.engaged), x(end), number, &mut items);
    }
    if let Some(from) = proof.quiet_from {
        let end = Millis(from.0 + proof.reached.0);
        items.push(area(Pen::Outline, &corners(x(from), x(end), QUIET)));
        let reached = msg("learn-line-reached").number("seconds", proof.reached.0 / 1000.0, 1);
        items.push(words("learn-line-quiet", (1.0, QUIET.1 - 1.5)));
        items.push(before(reached, (x(from) - 1.5, QUIET.1 - 1.5)));
    }
    for beep in &proof.beeps {
        let pen = match beep.kind {
            Kind::Kit => Pen::Solid,
            Kind::Stray | Kind::Cut => Pen::Wrong,
            Kind::OtherTone | Kind::Own => Pen::Faint,
        };
        let (from, to) = (x(beep.start), x(beep.end));
        let top = match beep.kind {
            Kind::Kit => HEARD.0 + 2.0,
            // Higher, so that colour is not all that tells.
            Kind::Stray | Kind::Cut => HEARD.0 - 2.0,
            Kind::OtherTone | Kind::Own => HEARD.1 - 2.0,
        };
        items.push(area(
            pen,
            &corners(from, to.max(from + 0.5), (top, HEARD.1)),
        ));
    }
    Drawing {
        from: At(0.0, 5.0),
        size: At(SIZE.0, SIZE.1 - 5.0),
        title: msg("learn-line-title"),
        items,
    }
}

fn corners(from: f64, to: f64, rows: (f64, f64)) -> [(f64, f64); 4] {
    [(from, rows.0), (to, rows.0), (to, rows.1), (from, rows.1)]
}

fn bar(from: f64, to: f64, number: u32, items: &mut Vec<Item>) {
    let to = to.max(from + 0.6);
    items.push(area(Pen::Tape, &corners(from, to, REVERSE)));
    items.push(Item::Text {
        lettering: Lettering::Strong,
        at: At(f64::midpoint(from, to), REVERSE.1 - 3.0),
        anchor: Anchor::Middle,
        size: LETTERS,
        words: Words::Literal(number.to_string()),
    });
}

/// Seconds along the foot, as many as can be read.
fn scale(length: f64, items: &mut Vec<Item>) {
    items.push(line(Pen::Thin, &[(LEFT, AXIS), (LEFT + WIDE, AXIS)]));
    let seconds = length / 1000.0;
    let steps = [1.0, 2.0, 5.0, 10.0, 20.0, 60.0, 120.0, 300.0, 600.0];
    let step = steps.into_iter().find(|step| seconds / step <= 8.0);
    let step = step.unwrap_or(seconds / 8.0);
    let mut second = 0.0;
    while second <= seconds {
        let x = LEFT + WIDE * second / seconds;
        items.push(line(Pen::Thin, &[(x, AXIS), (x, AXIS + 1.5)]));
        items.push(Item::Text {
            lettering: Lettering::Plain,
            at: At(x, AXIS + 5.5),
            anchor: Anchor::Middle,
            size: LETTERS,
            words: Words::Literal(format!("{second:.0}")),
        });
        second += step;
    }
    items.push(words("learn-line-seconds", (1.0, AXIS + 5.5)));
}

fn words(key: &'static str, at: (f64, f64)) -> Item {
    Item::Text {
        lettering: Lettering::Plain,
        at: At(at.0, at.1),
        anchor: Anchor::Start,
        size: LETTERS,
        words: Words::Message(msg(key)),
    }
}

/// Ends at this place: what it names begins there.
fn before(message: Message, at: (f64, f64)) -> Item {
    Item::Text {
        lettering: Lettering::Blue,
        at: At(at.0, at.1),
        anchor: Anchor::End,
        size: LETTERS,
        words: Words::Message(message),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::Signal;
    use crate::learn::{Event, Heard, Procedure, Run, Source, Ways, step};

    fn proof() -> Proof {
        let procedure = Procedure {
            cycles: 2,
            silent: Millis(4_000.0),
            confirmed_by: Signal::Beep,
            last_beeps: true,
            ends_with: Signal::Nothing,
            shortest_dwell: Millis(0.0),
            longest_gap: None,
            tone: None,
        };
        let beep = |start: f64| {
            Event::Beep(Heard {
                start: Millis(start),
                end: Millis(start + 200.0),
                hertz: 2_000.0,
            })
        };
        let mut run = Run::new(procedure, Ways::Both, None);
        for (event, at) in [
            (Event::Reverse(Source::Tap), 1_000.0),
            (beep(1_200.0), 1_500.0),
            (Event::Out(Source::Tap), 3_000.0),
            (Event::Reverse(Source::Tap), 5_000.0),
            (beep(5_200.0), 5_500.0),
            (Event::Listened(Millis(9_500.0)), 9_600.0),
        ] {
            run = step(&run, event, Millis(at)).next;
        }
        Proof::of(&run)
    }

    #[test]
    fn a_run_is_drawn_with_its_cycles_beeps_and_quiet_time_inside_the_frame() {
        let drawing = learn_timeline(&proof());
        let areas = |wanted: Pen| {
            let such = |item: &&Item| matches!(item, Item::Area { pen, .. } if *pen == wanted);
            drawing.items.iter().filter(such).count()
        };
        assert_eq!(
            (areas(Pen::Tape), areas(Pen::Solid), areas(Pen::Outline)),
            (2, 2, 1)
        );
        for item in &drawing.items {
            let (Item::Area { points, .. } | Item::Line { points, .. }) = item else {
                continue;
            };
            for At(x, y) in points {
                assert!((0.0..=SIZE.0).contains(x) && (0.0..=SIZE.1).contains(y));
            }
        }
    }

    #[test]
    fn a_run_of_an_hour_keeps_a_scale_that_can_be_read() {
        let mut long = proof();
        long.length = Millis(3_600_000.0);
        let figures = learn_timeline(&long).items.into_iter().filter(
            |item| matches!(item, Item::Text { words: Words::Literal(text), .. } if text.len() > 1),
        );
        assert!((3..=9).contains(&figures.count()));
    }
}
