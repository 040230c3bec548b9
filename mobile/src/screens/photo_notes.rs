//! What is drawn on a photo: arrows, circles, words, each by taps.

use dioxus::prelude::*;
use rakeline_core::job::{JobEvent, Note, PhotoEvent, PicturePlace};

use super::magnifier::Over;
use super::whole::fit;
use crate::parts::{Entry, Kind};
use crate::shell::use_shell;
use crate::texts::t;

/// What the next taps draw.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Tool {
    Arrow,
    Circle,
    Words,
}

impl Tool {
    const ALL: [Self; 3] = [Self::Arrow, Self::Circle, Self::Words];

    fn name(self) -> &'static str {
        match self {
            Self::Arrow => "note-arrow",
            Self::Circle => "note-circle",
            Self::Words => "note-words",
        }
    }

    /// What the next tap means.
    fn next(self, from: Option<PicturePlace>) -> &'static str {
        match (self, from) {
            (Self::Arrow, None) => "note-arrow-from",
            (Self::Arrow, Some(_)) => "note-arrow-to",
            (Self::Circle, None) => "note-circle-middle",
            (Self::Circle, Some(_)) => "note-circle-edge",
            (Self::Words, _) => "note-words-where",
        }
    }
}

/// A photo with what is drawn on it; large, one can draw.
#[component]
pub fn Drawn(
    blob: String,
    size: (u32, u32),
    notes: Vec<Note>,
    url: String,
    name: String,
    large: bool,
) -> Element {
    let shell = use_shell();
    let mut tool = use_signal(|| Tool::Arrow);
    let mut from = use_signal(|| None::<PicturePlace>);
    let mut words = use_signal(String::new);
    let (draw, back) = (shell.clone(), shell.clone());
    let (to, last, field) = (blob.clone(), blob.clone(), blob.clone());
    let high = f64::from(size.1) / f64::from(size.0.max(1)) * WIDE;
    let tap = move |at: [f64; 2]| {
        let here = place(at);
        let note = match (tool(), from()) {
            (Tool::Words, _) => Some(Note::Words(here, words())),
            (_, None) => {
                from.set(Some(here));
                None
            }
            (Tool::Arrow, Some(start)) => Some(Note::Arrow(start, here)),
            (Tool::Circle, Some(middle)) => Some(Note::Circle(middle, here)),
        };
        if let Some(note) = note {
            from.set(None);
            words.set(String::new());
            fit(&draw, JobEvent::Photo(PhotoEvent::Noted(to.clone(), note)));
        }
    };
    rsx! {
        div { class: "noted",
            img { src: "{url}", alt: "{name}", draggable: false }
            svg { class: "notes", view_box: "0 0 {WIDE} {high}", "aria-hidden": "true",
                for note in notes.iter() {
                    {drawn(note, high)}
                }
                if let Some(start) = from() {
                    circle { class: "begun", cx: "{on(start, high).0}", cy: "{on(start, high).1}", r: "14" }
                }
            }
            if large {
                Over { on_tap: tap }
            }
        }
        if large {
            div { class: "choice", role: "group", "aria-label": t("note-tools"),
                for which in Tool::ALL {
                    button {
                        key: "{which.name()}",
                        r#type: "button",
                        "aria-pressed": if tool() == which { "true" } else { "false" },
                        onclick: move |_| {
                            tool.set(which);
                            from.set(None);
                        },
                        {t(which.name())}
                    }
                }
            }
            if tool() == Tool::Words {
                Entry {
                    id: "note-{field}",
                    label: t("note-words-label"),
                    kind: Kind::Words,
                    value: words(),
                    on_type: move |text| words.set(text),
                }
            }
            p { role: "status", {t(tool().next(from()))} }
            if !notes.is_empty() {
                button {
                    class: "plain",
                    onclick: move |_| fit(&back, JobEvent::Photo(PhotoEvent::NoteDropped(last.clone()))),
                    {t("note-back")}
                }
            }
        }
    }
}

/// Width of a picture in the drawing's own units.
const WIDE: f64 = 1_000.0;

fn place([x, y]: [f64; 2]) -> PicturePlace {
    PicturePlace {
        x: x as f32,
        y: y as f32,
    }
}

fn on(place: PicturePlace, high: f64) -> (f64, f64) {
    (f64::from(place.x) * WIDE, f64::from(place.y) * high)
}

/// A note on a picture so high in the drawing's own units.
pub fn drawn(note: &Note, high: f64) -> Element {
    match note {
        Note::Arrow(from, to) => {
            let (from, to) = (on(*from, high), on(*to, high));
            let (x, y) = (to.0 - from.0, to.1 - from.1);
            let long = x.hypot(y).max(1.0);
            let (x, y) = (x / long * 45.0, y / long * 45.0);
            let barb = |side: f64| {
                let (right, low) = (to.0 - x - side * y * 0.5, to.1 - y + side * x * 0.5);
                format!("{right:.0},{low:.0}")
            };
            let head = format!("{} {:.0},{:.0} {}", barb(1.0), to.0, to.1, barb(-1.0));
            rsx! {
                line { x1: "{from.0}", y1: "{from.1}", x2: "{to.0}", y2: "{to.1}" }
                polyline { points: "{head}" }
            }
        }
        Note::Circle(middle, edge) => {
            let (middle, edge) = (on(*middle, high), on(*edge, high));
            let radius = (edge.0 - middle.0).hypot(edge.1 - middle.1);
            rsx! {
                circle { cx: "{middle.0}", cy: "{middle.1}", r: "{radius}" }
            }
        }
        Note::Words(place, words) => {
            let at = on(*place, high);
            rsx! {
                text { x: "{at.0}", y: "{at.1}", {words.clone()} }
            }
        }
    }
}
