//! A field of the open job that keeps what is typed.

use dioxus::prelude::*;
use rakeline_core::job::{Asked, Field, JobState, asked_trouble};

use super::{Entry, Kind};
use crate::driver::Intent;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// A field of the job, labelled, with what is wrong with it.
#[component]
pub fn TypedEntry(
    job: JobState,
    field: Field,
    id: String,
    label: String,
    #[props(default = Kind::Figure)] kind: Kind,
    #[props(default)] wrong: Option<String>,
    #[props(default)] note: Option<String>,
) -> Element {
    let shell = use_shell();
    rsx! {
        Entry {
            id,
            label,
            kind,
            value: job.typed(field).to_owned(),
            wrong,
            note,
            on_type: move |text| shell.send(Intent::Type(field, text)),
        }
    }
}

/// Fields that the kit sheet does not give and the work asks for.
#[component]
pub fn AskedFields(job: JobState, asked: Vec<Asked>) -> Element {
    let shell = use_shell();
    if asked.is_empty() {
        return rsx! {};
    }
    let any = asked
        .iter()
        .any(|asked| !job.typed(Field::Asked(*asked)).trim().is_empty());
    let all = asked.clone();
    rsx! {
        section { class: "note-box stack",
            h2 { {t("asked-title")} }
            p { class: "why", {t("asked-why")} }
            for (index , asked) in asked.iter().copied().enumerate() {
                TypedEntry {
                    key: "{index}",
                    id: "asked-{index}",
                    job: job.clone(),
                    field: Field::Asked(asked),
                    label: say(&asked.name()),
                    wrong: asked_trouble(&job, asked).as_ref().map(say),
                    note: say(&asked.unit()),
                }
            }
            button {
                class: "also",
                disabled: !any,
                onclick: move |_| shell.send(Intent::Fill(all.clone())),
                {t("asked-keep")}
            }
        }
    }
}

/// Cautions in one box with one press, 'All of this is so'.
#[component]
pub fn Cautions(lines: Vec<String>) -> Element {
    rsx! {
        div { class: "caution",
            ul {
                for line in lines {
                    li { {line} }
                }
            }
        }
    }
}
