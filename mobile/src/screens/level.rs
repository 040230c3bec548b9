//! The camera level: does the swage line, the tape, do the heads run level
//! with the ground?

use dioxus::prelude::*;
use rakeline_core::drawing::level_over_picture;
use rakeline_core::job::{self, LevelPhoto, PictureLine};
use rakeline_core::moment;
use rakeline_core::text::msg;

use crate::driver::{CameraState, Intent, LevelIntent, Measure, ShownPhoto, live_level};
use crate::parts::{DrawingView, Frame};
use crate::route::Step;
use crate::shell::{LIVE_PICTURE, use_shell};
use crate::texts::{say, t};

/// The live picture's place, in units of its own drawing.
const PLACE: (f64, f64) = (300.0, 400.0);

fn level(said: LevelIntent) -> Intent {
    Intent::Measure(Measure::Level(said))
}

/// The screen of the camera level.
#[component]
pub fn Level() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let draft = state.drafts.level.clone();
    let photo = draft.shown.as_ref().and_then(|shown| {
        let mut photos = job.measuring.photos.iter();
        photos.find(|photo| photo.blob == shown.blob).cloned()
    });
    let live = draft.camera == CameraState::Live;
    let (take, choose, close, faces) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let (shown, open) = (draft.shown.clone(), photo.is_some());
    rsx! {
        Frame {
            here: Step::Level,
            foot: rsx! {
                if open {
                    button {
                        class: "do at-car",
                        onclick: move |_| close.send(level(LevelIntent::Close)),
                        {t("level-close")}
                    }
                } else if live {
                    button {
                        class: "do at-car",
                        onclick: move |_| take.send(level(LevelIntent::Take)),
                        {t("level-take")}
                    }
                } else {
                    button {
                        class: "do at-car",
                        onclick: move |_| choose.send(level(LevelIntent::Choose)),
                        {t("level-choose")}
                    }
                }
            },
            if let (Some(shown), Some(photo)) = (shown, photo) {
                Photo { shown, photo }
            } else {
                div {
                    h1 { {t("level-title")} }
                    p { class: "why", {t("level-why")} }
                }
                Live {}
                Kept {}
                button {
                    class: "plain",
                    onclick: move |_| faces.send(Intent::GoStep(Step::Faces)),
                    {t("back-to-faces")}
                }
            }
        }
    }
}

/// The live picture with level and plumb over it.
#[component]
fn Live() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let lies = live_level(&state);
    let again = shell.clone();
    let trouble = match &state.drafts.level.camera {
        CameraState::No(why) => Some(say(why)),
        _ => None,
    };
    rsx! {
        if let Some(trouble) = trouble {
            div { class: "trouble-box", role: "alert",
                p { {trouble} }
                button {
                    class: "also",
                    onclick: move |_| again.send(level(LevelIntent::Start)),
                    {t("level-again")}
                }
            }
        }
        div { class: "picture",
            video {
                id: LIVE_PICTURE,
                "aria-label": t("level-live"),
                "playsinline": true,
                muted: true,
            }
            if let Ok(lies) = &lies {
                DrawingView { drawing: level_over_picture(*lies, None, PLACE) }
            }
        }
        if let Err(why) = &lies {
            p { class: "says", role: "status", {say(why)} }
        }
    }
}

/// Photos kept before.
#[component]
fn Kept() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let choose = shell.clone();
    let live = state.drafts.level.camera == CameraState::Live;
    rsx! {
        if live {
            button {
                class: "also",
                onclick: move |_| choose.send(level(LevelIntent::Choose)),
                {t("level-choose")}
            }
        }
        ul { class: "jobs",
            for photo in job.measuring.photos.iter() {
                li { key: "{photo.blob}",
                    button {
                        class: "open",
                        onclick: {
                            let (shell, blob) = (shell.clone(), photo.blob.clone());
                            move |_| shell.send(level(LevelIntent::Open(blob.clone())))
                        },
                        b { {say(&msg("level-photo-of").text("when", moment::day_and_clock(&photo.at)))} }
                        if let Some(line) = job::line_on_photo(job, photo) {
                            span { {say(&line)} }
                        }
                    }
                }
            }
        }
    }
}

/// Where a finger is on the picture, as shares of its width.
fn at(event: &PointerEvent, size: (f64, f64)) -> Option<[f64; 2]> {
    let point = event.element_coordinates();
    (size.0 > 1.0).then(|| [point.x / size.0, point.y / size.0])
}

fn nearer(line: &PictureLine, to: [f64; 2]) -> End {
    let far = |end: [f64; 2]| (end[0] - to[0]).hypot(end[1] - to[1]);
    if far(line[0]) < far(line[1]) {
        End::From
    } else {
        End::To
    }
}

#[derive(Clone, Copy, PartialEq)]
enum End {
    From,
    To,
}

/// A kept photo with level, plumb, and the line that is laid by dragging:
/// the first drag draws it, the next moves its nearer end.
#[component]
fn Photo(shown: ShownPhoto, photo: LevelPhoto) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let mut size = use_signal(|| (0.0, 0.0));
    let mut dragging = use_signal(|| None::<End>);
    let lies = job::level_in_photo(job, &photo);
    let frame = (f64::from(photo.width), f64::from(photo.height));
    let (down, drag, lay, drop) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let line = shown.line;
    let laid = line.map(|line| (line, job::line_in_photo(job, &photo, line)));
    let blob = photo.blob.clone();
    let words = job::line_on_photo(job, &photo);
    rsx! {
        div {
            h1 {
                match words {
                    Some(words) => say(&words),
                    None if photo.held.is_none() => t("level-no-attitude"),
                    None => t("level-lay"),
                }
            }
            p { class: "why", {t("level-lay-why")} }
        }
        div { class: "picture kept",
            if let Some(url) = shown.url {
                img { src: url, alt: t("level-photo"), draggable: false }
            } else {
                p { role: "status", {t("level-reading-photo")} }
            }
            if let Some(lies) = lies {
                DrawingView { drawing: level_over_picture(lies, laid, frame) }
            }
            div {
                class: "over",
                onmounted: move |event| async move {
                    if let Ok(rect) = event.get_client_rect().await {
                        size.set((rect.size.width, rect.size.height));
                    }
                },
                onresize: move |event| {
                    if let Ok(now) = event.get_border_box_size() {
                        size.set((now.width, now.height));
                    }
                },
                onpointerdown: move |event| {
                    let Some(here) = at(&event, size()) else { return };
                    let end = line.map_or(End::To, |line| nearer(&line, here));
                    dragging.set(Some(end));
                    let next = match (line, end) {
                        (None, _) => [here, here],
                        (Some([_, to]), End::From) => [here, to],
                        (Some([from, _]), End::To) => [from, here],
                    };
                    down.send(level(LevelIntent::Drag(next)));
                },
                onpointermove: move |event| {
                    let (Some(end), Some(line)) = (dragging(), line) else { return };
                    let Some(here) = at(&event, size()) else { return };
                    let next = match end {
                        End::From => [here, line[1]],
                        End::To => [line[0], here],
                    };
                    drag.send(level(LevelIntent::Drag(next)));
                },
                onpointerup: move |_| {
                    if dragging().is_some() {
                        dragging.set(None);
                        lay.send(level(LevelIntent::Lay));
                    }
                },
            }
        }
        button {
            class: "plain",
            onclick: move |_| drop.send(level(LevelIntent::Drop(blob.clone()))),
            {t("level-drop")}
        }
    }
}
