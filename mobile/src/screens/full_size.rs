//! The template of the marks, printed at full size.

use dioxus::prelude::*;
use rakeline_core::report::Paper;
use rakeline_core::text::msg;

use crate::driver::{Intent, Sheets};
use crate::shell::use_shell;
use crate::texts::{say, t};

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
            }
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
