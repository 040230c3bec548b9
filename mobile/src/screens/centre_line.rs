//! How the centre line was found; half widths from the full width.

use dioxus::prelude::*;
use rakeline_core::job::{self, CentreBy, Field, JobState};

use crate::driver::{Intent, MarkOutIntent};
use crate::parts::Entry;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The three ways, the one that was used marked, and the full width.
#[component]
pub(super) fn CentreLine(job: JobState) -> Element {
    let shell = use_shell();
    let (halve, type_it) = (shell.clone(), shell.clone());
    let typed = job.typed(Field::FullWidth).to_owned();
    let read = job::read_full_width(&typed);
    let wrong = read.as_ref().err().filter(|_| !typed.trim().is_empty());
    let found = job.mark_out.centre;
    let typing = !typed.is_empty();
    rsx! {
        details { open: typing,
            summary {
                if let Some(words) = job::centre_words(&job) {
                    {say(&words)}
                } else {
                    {t("centre-line-title")}
                }
            }
            div { class: "stack",
                p { class: "why", {t("centre-line-why")} }
                for by in CentreBy::ALL {
                    div { key: "{by:?}", class: "stack",
                        button {
                            class: "also",
                            "aria-pressed": if found == Some(by) { "true" } else { "false" },
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::MarkOut(MarkOutIntent::CentreBy(by)))
                            },
                            {say(&by.message())}
                        }
                        p { class: "why", {say(&by.how())} }
                    }
                }
                div { class: "side-by-side",
                    Entry {
                        id: "full-width",
                        label: t("full-width"),
                        value: typed,
                        wrong: wrong.map(say),
                        note: t("full-width-note"),
                        on_type: move |text| type_it.send(Intent::Type(Field::FullWidth, text)),
                    }
                    button {
                        class: "also beside",
                        disabled: read.is_err(),
                        onclick: move |_| halve.send(Intent::MarkOut(MarkOutIntent::HalveWidth)),
                        {t("full-width-halve")}
                    }
                }
            }
        }
    }
}
