//! Each head on its own: approached one by one, and which of them answers.

use dioxus::prelude::*;
use rakeline_core::job::{self, Answered, JobState, WalkEvent};
use rakeline_core::text::msg;

use super::walk::event;
use crate::driver::{Intent, WalkIntent, walk_head};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The function check, head by head.
#[component]
pub fn HeadsCheck(job: JobState) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let head = walk_head(&state);
    let troubles: Vec<String> = job::head_troubles(&job).iter().map(say).collect();
    let label = |spot: u8| {
        let place = job.spots.get(usize::from(spot));
        place.map_or_else(String::new, |place| place.label.clone())
    };
    let anew = shell.clone();
    let spots: Vec<u8> = (0_u8..).zip(&job.spots).map(|(spot, _)| spot).collect();
    rsx! {
        section { class: "stack",
            h2 { {t("heads-title")} }
            p { class: "why", {t("heads-why")} }
            div { class: "spots", role: "group", "aria-label": t("heads-title"),
                for spot in spots.iter().copied() {
                    {
                        let answered = job.walk.heads.iter().find(|head| head.spot == spot);
                        let short = match answered.map(|head| head.answered) {
                            None => t("heads-open"),
                            Some(Answered::Shown(shown)) => say(&msg("heads-shows").text("label", label(shown))),
                            Some(Answered::Sounds) => t("heads-sounds"),
                            Some(Answered::Nothing) => t("heads-silent"),
                        };
                        let shell = shell.clone();
                        rsx! {
                            button {
                                key: "{spot}",
                                class: if answered.is_some() { "done" },
                                "aria-current": if head == Some(spot) { "true" },
                                onclick: move |_| shell.send(Intent::Walk(WalkIntent::Head(spot))),
                                span { {label(spot)} }
                                small { {short} }
                            }
                        }
                    }
                }
            }
            if let Some(head) = head {
                p { class: "says", {say(&msg("heads-which").text("label", label(head)))} }
                div { class: "spots", role: "group", "aria-label": t("heads-answer"),
                    for shown in spots {
                        button {
                            key: "{shown}",
                            "aria-label": say(&msg("heads-shows-as").text("label", label(shown))),
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::Walk(WalkIntent::Answer(Answered::Shown(shown))))
                            },
                            {label(shown)}
                        }
                    }
                }
                div { class: "things",
                    for (key , answered) in [("heads-sounds-only", Answered::Sounds), ("heads-none", Answered::Nothing)] {
                        button {
                            key: "{key}",
                            class: "also at-car",
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::Walk(WalkIntent::Answer(answered)))
                            },
                            {t(key)}
                        }
                    }
                }
            }
            if !troubles.is_empty() {
                div { class: "trouble-box", role: "status",
                    for line in troubles {
                        p { {line} }
                    }
                }
            }
            if !job.walk.heads.is_empty() {
                button {
                    class: "plain",
                    onclick: move |_| event(&anew, WalkEvent::HeadsAnew),
                    {t("heads-anew")}
                }
            }
        }
    }
}
