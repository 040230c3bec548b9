//! The job sheet as files: one page for the customer, the whole file for the
//! workshop.

use dioxus::prelude::*;
use rakeline_core::text::msg;

use crate::driver::{Intent, Sheets};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The two forms as PDF, the data, and how far one is.
#[component]
pub fn SheetFiles() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let making = state
        .making
        .as_ref()
        .map(|making| say(&msg("full-size-making").number("percent", making.percent(), 0)));
    let stop = shell.clone();
    rsx! {
        section { class: "stack no-print",
            h2 { {t("sheet-files-title")} }
            if let Some(making) = making {
                p { role: "status", {making} }
                button {
                    class: "also",
                    onclick: move |_| stop.send(Intent::StopSheets),
                    {t("full-size-stop")}
                }
            } else {
                for (sheets , id , words , why) in [
                    (Sheets::Customer, "pdf-customer", "sheet-pdf-customer", "sheet-pdf-customer-why"),
                    (Sheets::Workshop, "pdf-workshop", "sheet-pdf-workshop", "sheet-pdf-workshop-why"),
                    (Sheets::Data, "json-sheet", "sheet-json", "sheet-json-why"),
                ] {
                    button {
                        key: "{id}",
                        class: "also",
                        id,
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::MakeSheets(sheets))
                        },
                        {t(words)}
                    }
                    p { class: "why", {t(why)} }
                }
            }
        }
    }
}
