//! What the heads will see: squares from above and from the side, and what
//! it comes to.

use std::rc::Rc;

use dioxus::html::geometry::ClientPoint;
use dioxus::prelude::*;
use rakeline_core::drawing::{Drawing, Probe, Sight, Standing};
use rakeline_core::text::Message;

use super::marks::NoMarks;
use super::sight_asked::{Based, ObjectBehind, Weather};
use super::sight_legend::Legend;
use super::sight_tried::{Nudge, Tilt};
use crate::driver::{Intent, SightIntent};
use crate::parts::{DrawingView, Frame, Hatches};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of what the heads will see.
#[component]
pub fn SightScreen() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    if job.marks.is_none() {
        return rsx! { NoMarks {} };
    }
    let draft = &state.drafts.sight;
    let (rings, again) = (shell.clone(), shell.clone());
    rsx! {
        Frame {
            here: Step::Sight,
            foot: rsx! {
                button {
                    class: "do",
                    onclick: move |_| rings.send(Intent::GoStep(Step::Rings)),
                    {t("back-to-rings")}
                }
            },
            div {
                h1 {
                    match &draft.shown {
                        Some(sight) => say(&sight.headline),
                        None => t("step-sight"),
                    }
                }
                p { class: "why", {t("sight-why")} }
            }
            if let Some(trouble) = &draft.trouble {
                div { class: "trouble-box", role: "alert",
                    p { {say(trouble)} }
                    button {
                        class: "also",
                        onclick: move |_| again.send(Intent::Sight(SightIntent::Again)),
                        {t("sight-again")}
                    }
                }
            } else if draft.shown.is_none() {
                p { role: "status", {t("sight-computing")} }
            }
            if let Some(sight) = draft.shown.clone() {
                Shown { sight: sight.clone() }
                Weather { sight: sight.clone() }
                ObjectBehind { sight: sight.clone() }
                Based { sight }
            }
        }
    }
}

/// Both pictures with what is chosen beside them.
#[component]
fn Shown(sight: Rc<Sight>) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.drafts.sight;
    let standing = draft.asked.standing;
    let probed: Vec<String> = sight.probe.iter().map(say).collect();
    rsx! {
        Hatches {}
        for line in sight.troubles.iter() {
            div { class: "trouble-box", role: "status", {say(line)} }
        }
        Heads {}
        div { class: "choice", role: "group", "aria-label": t("sight-standing"),
            for (which , key) in [
                (Standing::Pole, "sight-pole"),
                (Standing::Wall, "sight-wall"),
                (Standing::Kerb, "sight-kerb"),
            ] {
                Pick {
                    on: standing == which,
                    words: t(key),
                    intent: SightIntent::Standing(which),
                }
            }
        }
        Legend {}
        Asking { drawing: sight.above.clone(), side: false }
        div { class: "note-box", role: "status",
            if probed.is_empty() {
                p { {t("sight-probe-ask")} }
            } else {
                ul {
                    for line in probed {
                        li { {line} }
                    }
                }
            }
        }
        Tilt {}
        Nudge {}
        Lines { lines: sight.ground.clone() }
        Lines { lines: sight.lines.clone() }
        h2 { {t("sight-from-side")} }
        p { class: "why", {t("sight-side-why")} }
        Asking { drawing: sight.side.clone(), side: true }
    }
}

#[component]
fn Lines(lines: Vec<Message>) -> Element {
    rsx! {
        ul { class: "candidates",
            for line in lines {
                li { {say(&line)} }
            }
        }
    }
}

/// One of a row of choices.
#[component]
pub(super) fn Pick(on: bool, words: String, intent: SightIntent) -> Element {
    let shell = use_shell();
    rsx! {
        button {
            "aria-pressed": if on { "true" } else { "false" },
            onclick: move |_| shell.send(Intent::Sight(intent.clone())),
            {words}
        }
    }
}

/// Together, or one head alone.
#[component]
fn Heads() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let only = state.drafts.sight.asked.only;
    rsx! {
        div { class: "choice heads", role: "group", "aria-label": t("sight-heads"),
            Pick {
                on: only.is_none(),
                words: t("sight-together"),
                intent: SightIntent::Only(None),
            }
            for (index , spot) in job.spots.iter().enumerate() {
                Pick {
                    key: "{index}",
                    on: only == Some(index),
                    words: spot.label.clone(),
                    intent: SightIntent::Only(Some(index)),
                }
            }
        }
    }
}

/// How far the arrow keys move the place asked about, mm.
const KEY_STEP: f64 = 100.0;
/// A finger that moved by more than this scrolls, px.
const PRESS_MOVES: f64 = 12.0;

/// A picture that tells of a place: by a tap, a long press, or the arrow
/// keys.
#[component]
fn Asking(drawing: Drawing, side: bool) -> Element {
    let shell = use_shell();
    let mut sheet = use_signal(|| None::<Rc<MountedData>>);
    let now = shell.state.read().drafts.sight.asked.probe;
    let (width, from) = (drawing.size.0, drawing.from);
    let ask = {
        let shell = shell.clone();
        move |x: f64, y: f64| {
            let probe = if side {
                Probe::Side(x.max(0.0), (-y).max(0.0))
            } else {
                Probe::Above(x, y.max(0.0))
            };
            shell.send(Intent::Sight(SightIntent::Probe(probe)));
        }
    };
    let at = {
        let ask = ask.clone();
        move |client: ClientPoint| {
            let ask = ask.clone();
            async move {
                let Some(mounted) = sheet() else { return };
                let Ok(rect) = mounted.get_client_rect().await else {
                    return;
                };
                let mm_a_pixel = width / rect.width().max(1.0);
                let x = from.0 + (client.x - rect.origin.x) * mm_a_pixel;
                let y = from.1 + (client.y - rect.origin.y) * mm_a_pixel;
                ask(x.round(), y.round());
            }
        }
    };
    // Not every browser tells of a long press: a finger that is put down and
    // lifted at one place asks, however long it lies there.
    let mut down = use_signal(|| None::<ClientPoint>);
    let held = at.clone();
    rsx! {
        div {
            class: "asking",
            tabindex: "0",
            role: "group",
            "aria-label": t("sight-ask-keys"),
            onmounted: move |event| sheet.set(Some(event.data())),
            onpointerdown: move |event: PointerEvent| down.set(Some(event.client_coordinates())),
            onpointercancel: move |_| down.set(None),
            onpointerup: move |event: PointerEvent| {
                let at = at.clone();
                let here = event.client_coordinates();
                let pressed = down.take().filter(|from| (here - *from).length() < PRESS_MOVES);
                async move {
                    if pressed.is_some() {
                        at(here).await;
                    }
                }
            },
            oncontextmenu: move |event| {
                event.prevent_default();
                held(event.client_coordinates())
            },
            onkeydown: move |event| {
                let (dx, dy) = match event.key() {
                    Key::ArrowLeft => (-KEY_STEP, 0.0),
                    Key::ArrowRight => (KEY_STEP, 0.0),
                    Key::ArrowUp => (0.0, -KEY_STEP),
                    Key::ArrowDown => (0.0, KEY_STEP),
                    _ => return,
                };
                event.prevent_default();
                let (x, y) = match (side, now) {
                    (false, Some(Probe::Above(x, y))) => (x, y),
                    (true, Some(Probe::Side(x, y))) => (x, -y),
                    (false, _) => (0.0, 1000.0),
                    (true, _) => (1000.0, -500.0),
                };
                ask(x + dx, y + dy);
            },
            DrawingView { drawing }
        }
    }
}
