//! How an obstacle learn is counted, and how the microphone hears.

use dioxus::prelude::*;
use rakeline_core::estimate::beep::ToneGate;
use rakeline_core::job::JobState;
use rakeline_core::learn::{self, Ways};
use rakeline_core::text::msg;

use crate::driver::{Ear, Intent, LearnDraft, LearnIntent};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// How to count, and how the microphone hears.
#[component]
pub fn Counting(job: JobState, draft: LearnDraft) -> Element {
    let shell = use_shell();
    let procedure = learn::procedure(&job.kit).ok();
    let tone = procedure.as_ref().and_then(|procedure| procedure.tone);
    let gate = draft.tone.or(tone).map_or(ToneGate::Any, ToneGate::Near);
    if !procedure.is_some_and(|procedure| procedure.beeps()) {
        return rsx! {
            p { class: "why", {say(&Ways::Hand.proof())} }
        };
    }
    let ways = [Ways::Both, Ways::Hand, Ways::Microphone];
    rsx! {
        section { class: "stack",
            h2 { {t("learn-counting")} }
            div { class: "choice tall", role: "group", "aria-label": t("learn-counting"),
                for way in ways {
                    button {
                        key: "{way:?}",
                        "aria-pressed": "{draft.ways == way}",
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::Learn(LearnIntent::WaysChosen(way)))
                        },
                        {say(&way.message())}
                    }
                }
            }
            p { class: "why", {say(&draft.ways.proof())} }
            if draft.ways != Ways::Hand {
                p { class: "why", {say(&gate.message())} }
            }
            Hearing { draft: draft.clone() }
        }
    }
}

/// The meter, the mark 'heard', and what is wrong with the sound.
#[component]
pub fn Hearing(draft: LearnDraft) -> Element {
    let shell = use_shell();
    let heard = draft.just_heard();
    match &draft.ear {
        Ear::Off => rsx! {},
        Ear::Starting => rsx! { p { {t("learn-ear-starts")} } },
        Ear::No(why) => rsx! {
            div { class: "trouble-box", role: "alert",
                p { {say(why)} }
                p { {t("learn-ear-none")} }
            }
        },
        Ear::On(now) => {
            let level = now.level.clamp(0.0, 1.0) * 100.0;
            let tone = draft.beep.filter(|_| draft.run.is_none());
            rsx! {
                div { class: if heard { "ear heard" } else { "ear" },
                    div { class: "hold", "aria-hidden": "true",
                        svg { view_box: "0 0 100 10", preserve_aspect_ratio: "none",
                            rect { x: "0", y: "0", width: "{level}", height: "10" }
                        }
                    }
                    b { role: "status", {t(if heard { "learn-ear-heard" } else { "learn-ear-listens" })} }
                }
                if let Some(why) = &now.trouble {
                    div { class: "trouble-box", role: "alert", {say(why)} }
                }
                if let Some((_, hertz)) = tone {
                    div { class: "pair",
                        p {
                            {say(&msg("learn-ear-tone").number("hertz", hertz, 0))}
                        }
                        button {
                            class: "also",
                            "aria-pressed": "{draft.tone == Some(hertz)}",
                            onclick: move |_| shell.send(Intent::Learn(LearnIntent::ToneTaken)),
                            {t("learn-ear-take-tone")}
                        }
                    }
                }
            }
        }
    }
}
