//! The survey quote on paper: parts, time, total, for the customer.

use chrono::{DateTime, FixedOffset};

use super::{Block, Document, Section};
use crate::decide::parts::{Money, Quote, QuoteLine};
use crate::job::{JobState, Particular, parts_quoted, price_typed, quote};
use crate::moment;
use crate::text::{Message, msg};

/// The quote as of a moment. Prices are the workshop's; what has none yet is
/// named and not in the total.
#[must_use]
pub fn quote_sheet(job: &JobState, at: DateTime<FixedOffset>) -> Document {
    let quote = quote(job);
    let mut money = vec![Block::Table {
        head: ["quote-part", "quote-count", "quote-each", "quote-sum"]
            .into_iter()
            .map(msg)
            .collect(),
        rows: quote.lines.iter().map(row).collect(),
    }];
    money.push(Block::Pairs(time_and_total(&quote)));
    let mut sections = vec![
        Section {
            heading: msg("quote-for"),
            blocks: vec![Block::Pairs(particulars(job, at))],
        },
        Section {
            heading: msg("quote-parts"),
            blocks: money,
        },
    ];
    let mut notes = open(job);
    notes.push(msg("quote-note-behind"));
    sections.push(Section {
        heading: msg("quote-notes"),
        blocks: vec![Block::Lines(notes)],
    });
    Document {
        title: msg("quote-title"),
        sections,
    }
}

fn literal(text: &str) -> Message {
    msg("literal").text("text", text)
}

fn particulars(job: &JobState, at: DateTime<FixedOffset>) -> Vec<(Message, Message)> {
    let named = [
        Particular::Customer,
        Particular::Vehicle,
        Particular::Plate,
        Particular::Fitter,
    ];
    let date = literal(&moment::date(&at));
    let mut pairs = vec![(msg("sheet-date"), date)];
    for which in named {
        let text = job.particular(which).trim();
        if !text.is_empty() {
            pairs.push((which.message(), literal(text)));
        }
    }
    pairs.push((msg("sheet-kit"), literal(&job.kit.name)));
    pairs
}

fn row(line: &QuoteLine) -> Vec<Message> {
    let sum = line.each.0.checked_mul(i64::from(line.count)).map(Money);
    vec![
        line.part.message(),
        literal(&line.count.to_string()),
        literal(&line.each.shown()),
        sum.map_or_else(|| msg("quote-too-much"), |sum| literal(&sum.shown())),
    ]
}

fn time_and_total(quote: &Quote) -> Vec<(Message, Message)> {
    let mut pairs = Vec::new();
    if quote.minutes > 0 {
        let time = quote.time().map_or_else(
            || msg("quote-too-much"),
            |time| {
                msg("quote-time-is")
                    .count("minutes", i64::from(quote.minutes))
                    .text("hour", quote.an_hour.shown())
                    .text("time", time.shown())
            },
        );
        pairs.push((msg("quote-time"), time));
    }
    let total = quote.total();
    let total = total.map_or_else(|| msg("quote-too-much"), |total| literal(&total.shown()));
    pairs.push((msg("quote-sum-total"), total));
    pairs
}

/// Parts that have no price.
fn open(job: &JobState) -> Vec<Message> {
    parts_quoted(job)
        .into_iter()
        .filter(|line| Money::typed(price_typed(job, &line.part)).is_none())
        .map(|line| {
            msg("quote-open")
                .count("count", i64::from(line.count))
                .message("part", line.part.message())
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::parts::Part;
    use crate::job::{Field, JobEvent, JobId, QuoteEvent, apply};
    use crate::kit;

    fn at() -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339("2026-03-12T09:30:00+01:00").unwrap()
    }

    fn quoted() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let mut job = JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at());
        let kit = Part::Kit {
            kit: job.kit.name.clone(),
        };
        for event in [
            QuoteEvent::PartAdded("grommet".to_owned()),
            QuoteEvent::PriceTyped(kit, "140".to_owned()),
        ] {
            job = apply(&job, JobEvent::Quote(event), at()).unwrap();
        }
        job.typed.insert(Field::QuoteMinutes, "90".to_owned());
        job.typed.insert(Field::QuoteAnHour, "60".to_owned());
        job
    }

    #[test]
    fn the_quote_shows_prices_time_and_total_and_names_what_has_no_price() {
        let document = quote_sheet(&quoted(), at());
        let [_, parts, notes] = document.sections.as_slice() else {
            panic!("three sections");
        };
        let Block::Table { head, rows } = &parts.blocks[0] else {
            panic!("a table first");
        };
        assert_eq!(rows.len(), 1);
        assert_eq!(rows[0].len(), head.len());
        assert_eq!(rows[0][3], literal("140.00"));
        let Block::Pairs(pairs) = &parts.blocks[1] else {
            panic!("then the time");
        };
        let time = msg("quote-time-is")
            .count("minutes", 90)
            .text("hour", "60.00")
            .text("time", "90.00");
        assert_eq!(pairs[0].1, time);
        assert_eq!(pairs[1].1, literal("230.00"));
        let Block::Lines(lines) = &notes.blocks[0] else {
            panic!("notes last");
        };
        assert!(lines.iter().any(|line| line.key == "quote-open"));
        assert_eq!(lines.last(), Some(&msg("quote-note-behind")));
    }
}
