//! The workshop: how the screen looks, what stands on printed sheets.

use dioxus::prelude::*;

use crate::driver::{Intent, Letter, Theme, WorkshopIntent};
use crate::parts::{Entry, Kind, NoticeBar};
use crate::shell::use_shell;
use crate::texts::t;

/// The screen of the workshop's settings.
#[component]
pub fn SettingsScreen() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let chosen = state.settings.theme;
    let letterhead = state.settings.letterhead.clone();
    let (back, look, typed) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        div { class: "frame",
            header { class: "head",
                button {
                    class: "quiet back",
                    "aria-label": t("back-to-jobs"),
                    onclick: move |_| back.send(Intent::GoJobs),
                    "‹"
                }
                div { class: "what",
                    b { {t("settings-title")} }
                    span { class: "state", {t("settings-kept")} }
                }
            }
            main { class: "body",
                h2 { {t("look-title")} }
                div { class: "choice", role: "group", "aria-label": t("look-title"),
                    for theme in Theme::ALL {
                        button {
                            key: "{theme:?}",
                            r#type: "button",
                            "aria-pressed": if chosen == theme { "true" } else { "false" },
                            onclick: {
                                let shell = look.clone();
                                move |_| shell.send(Intent::Workshop(WorkshopIntent::Look(theme)))
                            },
                            {t(theme.name())}
                        }
                    }
                }
                p { class: "why", {t("look-why")} }
                h2 { {t("letter-title")} }
                p { class: "why", {t("letter-why")} }
                for which in Letter::ALL {
                    Entry {
                        key: "{which:?}",
                        id: "letter-{which:?}",
                        label: t(which.label()),
                        kind: Kind::Words,
                        value: letterhead.line(which).to_owned(),
                        on_type: {
                            let shell = typed.clone();
                            move |text| shell.send(Intent::Workshop(WorkshopIntent::Typed(which, text)))
                        },
                    }
                }
            }
            div { class: "base", NoticeBar {} }
        }
    }
}
