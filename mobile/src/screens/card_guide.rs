//! The live picture while mark cards are shot, with what is seen in it.

use dioxus::prelude::*;
use rakeline_core::drawing::level_over_picture;
use rakeline_core::job;

use crate::driver::{CameraState, CardsIntent, GuideIntent, Intent, live_level};
use crate::parts::DrawingView;
use crate::shell::{LIVE_PICTURE, use_shell};
use crate::texts::{say, t};

/// The live picture's place, in units of its own drawing.
const PLACE: (f64, f64) = (400.0, 300.0);

fn guide(said: GuideIntent) -> Intent {
    Intent::Cards(CardsIntent::Guide(said))
}

/// A live picture that says which cards are in it and how well, or the
/// button that starts it.
#[component]
pub fn CardGuide(full: bool) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let draft = &state.drafts.guide;
    let (start, shoot, stop, look) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    if draft.camera == CameraState::Off {
        return rsx! {
            button {
                class: "also",
                disabled: full,
                onclick: move |_| start.send(guide(GuideIntent::Start)),
                {t("guide-start")}
            }
        };
    }
    let none = match &draft.camera {
        CameraState::No(why) => Some(say(why)),
        _ => None,
    };
    let trouble = draft.trouble.as_ref().map(say);
    let told = job::guide(job, draft.seen.as_deref());
    let lies = live_level(&state);
    rsx! {
        section { class: "stack guide",
            h2 { {say(&told.from)} }
            div { class: "picture",
                video {
                    id: LIVE_PICTURE,
                    "aria-label": t("level-live"),
                    "playsinline": true,
                    muted: true,
                }
                if let Ok(lies) = lies {
                    DrawingView { drawing: level_over_picture(lies, None, PLACE) }
                }
            }
            if let Some(none) = none {
                div { class: "trouble-box", role: "alert",
                    p { {none} }
                    button {
                        class: "also",
                        onclick: move |_| start.send(guide(GuideIntent::Start)),
                        {t("level-again")}
                    }
                }
            } else if let Some(trouble) = trouble {
                div { class: "trouble-box", role: "status",
                    p { {trouble} }
                    button {
                        class: "also",
                        onclick: move |_| look.send(guide(GuideIntent::Look)),
                        {t("guide-look")}
                    }
                }
            } else {
                div { class: "note-box", role: "status",
                    if told.ready {
                        p { b { {t("guide-ready")} } }
                    }
                    for line in told.lines {
                        p { {say(&line)} }
                    }
                }
            }
            div { class: "side-by-side",
                button {
                    class: "also",
                    disabled: draft.camera != CameraState::Live,
                    onclick: move |_| shoot.send(guide(GuideIntent::Shoot)),
                    {t("guide-shoot")}
                }
                button {
                    class: "also",
                    onclick: move |_| stop.send(guide(GuideIntent::Stop)),
                    {t("guide-stop")}
                }
            }
            p { class: "why", {t("guide-coarse")} }
        }
    }
}
