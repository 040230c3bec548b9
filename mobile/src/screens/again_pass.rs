//! The file for a colleague: what goes along, and what the model is called.

use dioxus::prelude::*;
use rakeline_core::text::msg;

use crate::driver::{AgainIntent, Intent, Letter, Said, pass_words};
use crate::parts::{Entry, Kind};
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// The file for a colleague, and what goes along.
#[component]
pub fn PassOn() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let letterhead = &state.settings.letterhead;
    let workshop = letterhead.line(Letter::Name).trim().to_owned();
    let fitter = state.settings.fitter.trim().to_owned();
    let (say_workshop, say_fitter) = (state.again.say_workshop, state.again.say_fitter);
    let words = pass_words(&state);
    let model = state.again.pass_model.clone();
    let left_out = (!words.left_out.is_empty()).then(|| {
        let left_out = plain(&words.left_out.join(" "));
        say(&msg("pass-left-out").text("words", left_out))
    });
    let (out, typed) = (shell.clone(), shell.clone());
    let flipped = |said: Said| match said {
        Said::No => Said::Yes,
        Said::Yes => Said::No,
    };
    rsx! {
        details {
            summary { {t("pass-title")} }
            p { class: "why", {t("pass-why")} }
            Entry {
                id: "pass-model",
                label: t("pass-model"),
                kind: Kind::Words,
                value: model.unwrap_or(words.model),
                note: t("pass-model-note"),
                on_type: move |text| typed.send(Intent::Again(AgainIntent::PassModel(text))),
            }
            if let Some(left_out) = left_out {
                div { class: "note-box", role: "status", {left_out} }
            }
            if !workshop.is_empty() {
                Tick {
                    label: say(&msg("pass-say").text("name", plain(&workshop))),
                    said: say_workshop,
                    intent: AgainIntent::SayWorkshop(flipped(say_workshop)),
                }
            }
            if !fitter.is_empty() {
                Tick {
                    label: say(&msg("pass-say").text("name", plain(&fitter))),
                    said: say_fitter,
                    intent: AgainIntent::SayFitter(flipped(say_fitter)),
                }
            }
            button {
                class: "also",
                onclick: move |_| out.send(Intent::Again(AgainIntent::PassOn)),
                {t("pass-save")}
            }
        }
    }
}

#[component]
fn Tick(label: String, said: Said, intent: AgainIntent) -> Element {
    let shell = use_shell();
    rsx! {
        button {
            class: "also",
            "aria-pressed": if said == Said::Yes { "true" } else { "false" },
            onclick: move |_| shell.send(Intent::Again(intent.clone())),
            {label}
        }
    }
}
