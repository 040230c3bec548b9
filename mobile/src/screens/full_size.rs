//! Sheets at full size: the template of the marks, the mark cards.

use dioxus::prelude::*;
use rakeline_core::job;
use rakeline_core::report::Paper;
use rakeline_core::text::msg;

use crate::driver::{Intent, Sheets};
use crate::parts::Entry;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// Papers by the key of their name.
const PAPERS: [(Paper, &str); 2] = [(Paper::A4, "paper-a4"), (Paper::Letter, "paper-letter")];

/// Paper, the button, and how far the sheets are.
#[component]
pub fn FullSize() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let chosen = state.settings.paper;
    let making = state
        .making
        .as_ref()
        .map(|making| say(&msg("full-size-making").number("percent", making.percent(), 0)));
    let (make, stop) = (shell.clone(), shell.clone());
    rsx! {
        section { class: "stack no-print",
            h2 { {t("full-size-title")} }
            p { class: "why", {t("full-size-why")} }
            div { class: "choice", role: "group", "aria-label": t("paper"),
                for (paper , key) in PAPERS {
                    PaperButton { key: "{key}", paper, name: t(key), chosen: chosen == paper }
                }
            }
            if let Some(making) = making {
                p { role: "status", {making} }
                button {
                    class: "also",
                    onclick: move |_| stop.send(Intent::StopSheets),
                    {t("full-size-stop")}
                }
            } else {
                button {
                    class: "also",
                    id: "print-full-size",
                    onclick: move |_| make.send(Intent::MakeSheets(Sheets::Template)),
                    {t("full-size-print")}
                }
                Cards {}
            }
        }
    }
}

/// The mark cards, and what their check line measures.
#[component]
fn Cards() -> Element {
    let shell = use_shell();
    rsx! {
        h2 { {t("cards-title")} }
        p { class: "why", {t("cards-why")} }
        button {
            class: "also",
            onclick: move |_| shell.send(Intent::MakeSheets(Sheets::MarkCards)),
            {t("cards-print")}
        }
        ol { class: "steps small",
            li { {t("cards-how-1")} }
            li { {t("cards-how-2")} }
            li { {t("cards-how-3")} }
        }
        CheckLine {}
    }
}

/// What the check line of the mark cards measures on the paper in use; kept
/// for all jobs.
#[component]
pub fn CheckLine() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let paper = state.settings.paper;
    let kept = state.settings.check_line();
    let typed = state.drafts.check_line.clone();
    let typed = typed.unwrap_or_else(|| {
        kept.map_or_else(String::new, |line| {
            let length = line.measured().0;
            figure(length, u8::from(length.fract() != 0.0))
        })
    });
    let read = job::read_check_line(&typed);
    let empty = typed.trim().is_empty();
    let paper = PAPERS.iter().find(|(other, _)| *other == paper);
    let label = msg("cards-line").message("paper", msg(paper.map_or("paper", |(_, key)| *key)));
    let type_it = shell.clone();
    rsx! {
        Entry {
            id: "check-line",
            label: say(&label),
            value: typed,
            wrong: read.as_ref().err().filter(|_| !empty).map(say),
            note: read.as_ref().map_or_else(|_| t("cards-line-note"), |line| say(&line.message())),
            on_type: move |text| type_it.send(Intent::CheckLine(text)),
        }
    }
}

#[component]
fn PaperButton(paper: Paper, name: String, chosen: bool) -> Element {
    let shell = use_shell();
    rsx! {
        button {
            r#type: "button",
            "aria-pressed": if chosen { "true" } else { "false" },
            onclick: move |_| shell.send(Intent::ChoosePaper(paper)),
            {name}
        }
    }
}
