//! The job sheet as files: one page for the customer, the whole file for the
//! workshop.

use dioxus::prelude::*;
use rakeline_core::moment;
use rakeline_core::text::msg;

use crate::driver::{Intent, IssueIntent, Sheets};
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
                Earlier {}
            }
        }
    }
}

/// Sheets that were issued earlier, each again as it was.
#[component]
fn Earlier() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let now = job.issued().map(|issue| issue.number);
    let earlier: Vec<_> = (job.sheets.iter().rev())
        .filter(|issue| Some(issue.number) != now)
        .map(|issue| (issue.number, moment::date_and_clock(&issue.at)))
        .collect();
    if earlier.is_empty() {
        return rsx! {};
    }
    rsx! {
        details { class: "fold", id: "issued-earlier",
            summary { h2 { {t("issues-title")} } }
            p { class: "why", {t("issues-why")} }
            for (number , when) in earlier {
                p { key: "{number}", {say(&msg("issue-line").count("number", i64::from(number)).text("when", when))} }
                div { class: "things",
                    for (sheets , words) in [(Sheets::Customer, "issue-customer"), (Sheets::Workshop, "issue-workshop")] {
                        button {
                            key: "{words}",
                            class: "also",
                            "aria-label": say(&msg("issue-of").text("what", t(words)).count("number", i64::from(number))),
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::Issue(IssueIntent::Make(number, sheets)))
                            },
                            {t(words)}
                        }
                    }
                }
            }
        }
    }
}
