//! Parts that a job takes, and the quote from them.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, cut};
use super::entry::Field;
use super::loom::lead_plans;
use super::rings_chosen::sets_taken;
use super::state::JobState;
use super::took::parts_quoted;
use crate::decide::leads::LeadPlan;
use crate::decide::parts::{Money, Part, PartLine, Quote, QuoteLine, add, used};
use crate::decide::supply;
use crate::text::{Message, msg};

/// Longest working time that a quote takes, minutes: a week of days and nights.
pub const MINUTES_GREATEST: u32 = 10_080;

/// Parts added by hand and prices as typed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct QuoteState {
    /// Parts beyond those of the kit, in the fitter's words.
    pub extra: Vec<PartLine>,
    /// Price of one, as typed, by part.
    pub prices: Vec<(Part, String)>,
}

/// Something said about parts and prices.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum QuoteEvent {
    /// A part was added by hand.
    PartAdded(String),
    /// One of the parts added by hand was taken off.
    PartDropped(usize),
    /// The price of one of a part was typed.
    PriceTyped(Part, String),
}

pub(super) fn apply(next: &mut JobState, event: QuoteEvent) -> Result<(), Refusal> {
    match event {
        QuoteEvent::PartAdded(words) => {
            let words = cut(words.trim().to_owned());
            if words.is_empty() {
                return Err(Refusal(msg("part-no-words")));
            }
            add(&mut next.quote.extra, Part::Other(words), 1);
        }
        QuoteEvent::PartDropped(index) => {
            if index < next.quote.extra.len() {
                next.quote.extra.remove(index);
            }
        }
        QuoteEvent::PriceTyped(part, typed) => {
            next.quote.prices.retain(|(other, _)| *other != part);
            next.quote.prices.push((part, cut(typed)));
        }
    }
    Ok(())
}

/// What the job takes from the shelf as it is decided now.
#[must_use]
pub fn parts_planned(job: &JobState) -> Vec<PartLine> {
    let sets: Vec<_> = sets_taken(job)
        .into_iter()
        .flatten()
        .map(|taken| taken.set)
        .collect();
    let leads: Vec<LeadPlan> = lead_plans(job);
    let mut lines = used(&job.kit, &sets, &leads);
    add(&mut lines, Part::Fuse(supply::fuse(&job.kit).rating), 1);
    for line in &job.quote.extra {
        add(&mut lines, line.part.clone(), line.count);
    }
    lines
}

/// When the first part was taken: the first hole or head. `None` before.
#[must_use]
pub fn parts_taken_at(job: &JobState) -> Option<DateTime<FixedOffset>> {
    let holes = job.holes.drilled.values().map(|hole| hole.at);
    let heads = job.rings.seated.values().copied();
    holes.chain(heads).min()
}

/// What the job took from the shelf: nothing before its first hole.
#[must_use]
pub fn parts_used(job: &JobState) -> Vec<PartLine> {
    match parts_taken_at(job) {
        Some(_) => parts_planned(job),
        None => Vec::new(),
    }
}

/// The price of one part as typed; empty when not.
#[must_use]
pub fn price_typed<'a>(job: &'a JobState, part: &Part) -> &'a str {
    job.quote
        .prices
        .iter()
        .find(|(priced, _)| priced == part)
        .map_or("", |(_, typed)| typed)
}

/// What is wrong with a typed amount; `None` when it fits or is empty.
#[must_use]
pub fn money_trouble(typed: &str) -> Option<Message> {
    let typed = typed.trim();
    (!typed.is_empty() && Money::typed(typed).is_none())
        .then(|| msg("quote-not-money").text("typed", typed))
}

/// What is wrong with the typed working time; `None` when it fits or is empty.
#[must_use]
pub fn minutes_trouble(job: &JobState) -> Option<Message> {
    let typed = job.typed(Field::QuoteMinutes).trim();
    (!typed.is_empty() && minutes(typed).is_none()).then(|| {
        msg("quote-not-minutes")
            .text("typed", typed)
            .count("most", i64::from(MINUTES_GREATEST))
    })
}

fn minutes(typed: &str) -> Option<u32> {
    let minutes: u32 = typed.trim().parse().ok()?;
    (minutes <= MINUTES_GREATEST).then_some(minutes)
}

/// The quote from what is typed; parts without a price count nothing and
/// are named by [`unpriced`].
#[must_use]
pub fn quote(job: &JobState) -> Quote {
    let lines = parts_quoted(job)
        .into_iter()
        .filter_map(|line| {
            let each = Money::typed(price_typed(job, &line.part))?;
            Some(QuoteLine {
                part: line.part,
                count: line.count,
                each,
            })
        })
        .collect();
    Quote {
        lines,
        minutes: minutes(job.typed(Field::QuoteMinutes)).unwrap_or(0),
        an_hour: Money::typed(job.typed(Field::QuoteAnHour)).unwrap_or_default(),
    }
}

/// How many parts have no price yet.
#[must_use]
pub fn unpriced(job: &JobState) -> usize {
    parts_quoted(job).len() - quote(job).lines.len()
}

/// The total in words; `None` when it is larger than can be counted.
#[must_use]
pub fn total_words(job: &JobState) -> Message {
    match quote(job).total() {
        Some(total) => msg("quote-total").text("total", total.shown()),
        None => msg("quote-too-much"),
    }
}
