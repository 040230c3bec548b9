//! The phone's profile: name, case, feet, voice.

use dioxus::prelude::*;
use rakeline_core::drawing::feet_on_the_back;
use rakeline_core::estimate::contact::Feet;

use crate::driver::{Intent, Measure, Voice};
use crate::parts::{DrawingView, Entry, Kind};
use crate::shell::use_shell;
use crate::texts::t;

/// The profile's fields.
#[component]
pub fn PhoneForm() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let phone = state.settings.phone.clone();
    let voice = state.settings.voice;
    let device = state.device.clone();
    let (name, case) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "choice", role: "group", "aria-label": t("feet-title"),
            Pick {
                chosen: phone.feet == Feet::None,
                said: Measure::FeetSet(Feet::None),
                words: t("feet-off"),
            }
            Pick {
                chosen: phone.feet == Feet::On,
                said: Measure::FeetSet(Feet::On),
                words: t("feet-on"),
            }
        }
        details {
            summary { {t("feet-help")} }
            p { class: "why", {t("feet-why")} }
            DrawingView { drawing: feet_on_the_back() }
        }
        details {
            summary { {t("phone-profile")} }
            div { class: "stack",
                Entry {
                    id: "phone-name",
                    label: t("phone-name"),
                    kind: Kind::Words,
                    value: phone.name,
                    note: device,
                    on_type: move |text| name.send(Intent::Measure(Measure::PhoneNamed(text))),
                }
                Entry {
                    id: "phone-case",
                    label: t("phone-case"),
                    kind: Kind::Words,
                    value: phone.case,
                    note: t("phone-case-note"),
                    on_type: move |text| case.send(Intent::Measure(Measure::CaseNamed(text))),
                }
            }
        }
        div { class: "choice", role: "group", "aria-label": t("voice-title"),
            Pick {
                chosen: voice == Voice::On,
                said: Measure::VoiceSet(Voice::On),
                words: t("voice-on"),
            }
            Pick {
                chosen: voice == Voice::Off,
                said: Measure::VoiceSet(Voice::Off),
                words: t("voice-off"),
            }
        }
    }
}

/// One of several answers.
#[component]
pub fn Pick(chosen: bool, said: Measure, words: String) -> Element {
    let shell = use_shell();
    rsx! {
        button {
            r#type: "button",
            "aria-pressed": if chosen { "true" } else { "false" },
            onclick: move |_| shell.send(Intent::Measure(said.clone())),
            {words}
        }
    }
}
