//! Another kit for the open job, while no hole is drilled.

use dioxus::prelude::*;
use rakeline_core::text::msg;

use super::kits::kits;
use crate::driver::KitIntent;
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// The kits to choose from, folded.
#[component]
pub fn KitPick() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let name = job.kit.name.clone();
    if !job.holes.drilled.is_empty() {
        return rsx! {
            p { class: "why", {say(&msg("kit-fixed").text("kit", name))} }
        };
    }
    let all: Vec<_> = state.kits.own.iter().chain(&state.kits.samples).collect();
    rsx! {
        details {
            summary { {say(&msg("kit-of-job").text("kit", name))} }
            div { class: "things",
                for entry in all {
                    button {
                        key: "{entry.id.0}",
                        class: "also",
                        "aria-pressed": if *entry.sheet == job.kit { "true" } else { "false" },
                        onclick: {
                            let (shell, id) = (shell.clone(), entry.id.clone());
                            move |_| kits(&shell, KitIntent::UseHere(id.clone()))
                        },
                        {plain(&entry.sheet.name)}
                    }
                }
            }
            p { class: "why", {t("kit-pick-why")} }
        }
    }
}
