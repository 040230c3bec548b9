//! A fleet: each vehicle at a glance, the next one, one list of parts.

use dioxus::prelude::*;
use rakeline_core::again::fleet::stands;
use rakeline_core::text::msg;

use crate::driver::{AgainIntent, FleetView, Intent, told_apart_by};
use crate::parts::NoticeBar;
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// The screen of a fleet.
#[component]
pub fn FleetScreen(name: String) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let view = FleetView::of(&state, &name);
    let waiting = state.again.waiting;
    let (back, next, end) = (shell.clone(), shell.clone(), shell.clone());
    let left = view.as_ref().map_or(0, |view| view.fleet.left());
    let title = view.as_ref().map(|view| plain(&view.fleet.vehicle));
    rsx! {
        div { class: "frame",
            header { class: "head",
                button {
                    class: "quiet back",
                    "aria-label": t("again-back-to-models"),
                    onclick: move |_| back.send(Intent::Again(AgainIntent::Go)),
                    "‹"
                }
                div { class: "what",
                    b { {title.unwrap_or_default()} }
                    span { class: "state", {t("fleet-line")} }
                }
            }
            main { class: "body",
                match view {
                    None => rsx! { div { class: "note-box", p { {t("fleet-not-here")} } } },
                    Some(_) if waiting => rsx! { p { class: "why", role: "status", {t("again-reading")} } },
                    Some(view) => rsx! {
                        Vehicles { view }
                        button {
                            class: "plain",
                            onclick: move |_| end.send(Intent::Again(AgainIntent::FleetEnd)),
                            {t("fleet-end")}
                        }
                    },
                }
            }
            div { class: "base",
                if left > 0 && !waiting {
                    footer { class: "foot",
                        button {
                            class: "do at-car",
                            onclick: move |_| {
                                next.send(Intent::Again(AgainIntent::FleetNext(next.new_id())));
                            },
                            {t("fleet-next")}
                        }
                    }
                }
                NoticeBar {}
            }
        }
    }
}

#[component]
fn Vehicles(view: FleetView) -> Element {
    let shell = use_shell();
    rsx! {
        h1 { {say(&view.fleet.words())} }
        ul { class: "jobs",
            for (index , job) in view.jobs.iter().enumerate() {
                li { key: "{job.id.0}",
                    button {
                        class: "open",
                        onclick: {
                            let (shell, id) = (shell.clone(), job.id.clone());
                            move |_| shell.send(Intent::OpenJob(id.clone()))
                        },
                        b {
                            {say(&msg("fleet-vehicle").count("number", i64::try_from(index + 1).unwrap_or(i64::MAX)))}
                            " · "
                            {told_apart_by(job).map_or_else(|| t("fleet-no-plate"), |by| plain(&by))}
                        }
                        span { {say(&stands(job))} }
                    }
                }
            }
        }
        h2 { {t("fleet-parts")} }
        if view.parts.expected > 0 {
            p { class: "why", {say(&msg("fleet-parts-expected").count("vehicles", i64::from(view.parts.expected)))} }
        }
        ul { class: "candidates",
            for (index , line) in view.parts.lines.iter().enumerate() {
                li { key: "{index}",
                    {say(&msg("part-line")
                        .count("count", i64::from(line.count))
                        .message("part", line.part.message()))}
                }
            }
        }
    }
}
