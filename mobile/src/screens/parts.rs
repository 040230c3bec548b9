//! Parts of the job and the quote; what all jobs took.

use dioxus::prelude::*;
use rakeline_core::decide::parts::{Part, PartLine};
use rakeline_core::job::{self, Field, JobEvent, JobState, QuoteEvent, money_trouble};
use rakeline_core::report::quote_sheet;
use rakeline_core::text::msg;

use super::sheet::{LetterHead, Paper};
use crate::driver::{Intent, KitIntent, to_buy};
use crate::parts::{Entry, Frame, Kind, NoticeBar, TypedEntry};
use crate::route::{Route, Step};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the job's parts and the quote.
#[component]
pub fn Parts() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let unpriced = job::unpriced(job);
    let (sheet, add, print) = (shell.clone(), shell.clone(), shell.clone());
    let words = job.typed(Field::PartWords).trim().to_owned();
    let took = job.before.took.words();
    rsx! {
        Frame {
            here: Step::Parts,
            foot: rsx! {
                button {
                    class: "also",
                    onclick: move |_| print.send(Intent::PrintQuote),
                    {t("quote-print")}
                }
                button {
                    class: "do",
                    onclick: move |_| sheet.send(Intent::GoStep(Step::Sheet)),
                    {t("to-sheet")}
                }
            },
            div { class: "stack no-print",
            div {
                h1 { {say(&job::total_words(job))} }
                p { class: "why",
                    if unpriced > 0 {
                        {say(&msg("quote-unpriced").count("parts", i64::try_from(unpriced).unwrap_or(i64::MAX)))}
                    } else {
                        {t("quote-why")}
                    }
                }
            }
            if !took.is_empty() {
                div { class: "note-box", role: "status",
                    p { {say(&msg("took-title").count("jobs", i64::from(job.before.took.jobs())))} }
                    ul { class: "candidates",
                        for (index , words) in took.iter().enumerate() {
                            li { key: "{index}", {say(words)} }
                        }
                    }
                    p { class: "why", {t("took-why")} }
                }
            }
            ul { class: "rings",
                for (index , line) in job::parts_quoted(job).into_iter().enumerate() {
                    Priced { key: "{index}", job: job.clone(), index, line }
                }
            }
            div { class: "side-by-side",
                TypedEntry {
                    id: "quote-minutes",
                    job: job.clone(),
                    field: Field::QuoteMinutes,
                    label: t("quote-minutes"),
                    wrong: job::minutes_trouble(job).as_ref().map(say),
                    note: t("quote-minutes-note"),
                }
                TypedEntry {
                    id: "quote-an-hour",
                    job: job.clone(),
                    field: Field::QuoteAnHour,
                    label: t("quote-an-hour"),
                    wrong: money_trouble(job.typed(Field::QuoteAnHour)).as_ref().map(say),
                    note: t("quote-price-note"),
                }
            }
            TypedEntry {
                id: "part-words",
                job: job.clone(),
                field: Field::PartWords,
                kind: Kind::Words,
                label: t("part-another"),
            }
            button {
                class: "also",
                disabled: words.is_empty(),
                onclick: move |_| {
                    add.send(Intent::Fit(Box::new(JobEvent::Quote(QuoteEvent::PartAdded(words.clone())))));
                    add.send(Intent::Type(Field::PartWords, String::new()));
                },
                {t("part-add")}
            }
            }
            Paper {
                document: quote_sheet(job, shell.now().at),
                head: rsx! { LetterHead {} },
            }
        }
    }
}

/// One part with the price of one.
#[component]
fn Priced(job: JobState, index: usize, line: PartLine) -> Element {
    let shell = use_shell();
    let typed = job::price_typed(&job, &line.part).to_owned();
    let extra = match &line.part {
        Part::Other(_) => job.quote.extra.iter().position(|e| e.part == line.part),
        _ => None,
    };
    let (price, part) = (shell.clone(), line.part.clone());
    rsx! {
        li { class: "ring wide",
            Entry {
                id: "price-{index}",
                label: say(&line_words(&line)),
                value: typed.clone(),
                wrong: money_trouble(&typed).as_ref().map(say),
                note: t("quote-price-note"),
                on_type: move |text| {
                    price.send(Intent::Fit(Box::new(JobEvent::Quote(QuoteEvent::PriceTyped(part.clone(), text)))));
                },
            }
            if let Some(place) = extra {
                button {
                    class: "plain",
                    onclick: move |_| shell.send(Intent::Fit(Box::new(JobEvent::Quote(QuoteEvent::PartDropped(place))))),
                    {t("part-drop")}
                }
            }
        }
    }
}

fn line_words(line: &PartLine) -> rakeline_core::text::Message {
    msg("part-line")
        .count("count", i64::from(line.count))
        .message("part", line.part.message())
}

/// The screen of what all jobs took and what is still to be bought of it.
#[component]
pub fn Restock() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let lines = to_buy(&state);
    let count: i64 = lines.iter().map(|line| i64::from(line.count)).sum();
    let (back, done) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "frame",
            header { class: "head",
                button {
                    class: "quiet back",
                    "aria-label": t("back-to-jobs"),
                    onclick: move |_| back.send(Intent::Kits(KitIntent::Go(Route::Jobs))),
                    "‹"
                }
                div { class: "what", b { {t("restock-title")} } }
            }
            main { class: "body",
                h1 { {say(&msg("restock-headline").count("parts", count))} }
                if lines.is_empty() {
                    p { class: "why", {t("restock-empty")} }
                }
                ul { class: "jobs",
                    for (index , line) in lines.iter().enumerate() {
                        li { key: "{index}", span { class: "open kept", {say(&line_words(line))} } }
                    }
                }
            }
            if !lines.is_empty() {
                footer { class: "foot",
                    button {
                        class: "do",
                        onclick: move |_| done.send(Intent::Kits(KitIntent::Restocked)),
                        {t("restock-done")}
                    }
                }
            }
            NoticeBar {}
        }
    }
}
