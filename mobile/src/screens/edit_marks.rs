//! Marks moved by hand: drag a cross, step it, or type its place; lock it
//! and solve the rest. Rules answer while it moves.

use std::rc::Rc;

use dioxus::prelude::*;
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::drawing::marks_drawing_with;
use rakeline_core::job::{self, Field, JobState, MarksFrom};
use rakeline_core::text::msg;
use rakeline_core::units::Offset;

use crate::driver::{Intent, MarkOutIntent};
use crate::parts::{DrawingView, Entry, Kind};
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// A cross under the finger.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Drag {
    spot: usize,
    from_x: f64,
    from: Offset,
    mm_a_pixel: f64,
}

/// The drawing whose crosses can be dragged, and what to do with the chosen
/// mark.
#[component]
pub fn EditMarks(job: JobState) -> Element {
    let shell = use_shell();
    let mut chosen = use_signal(|| 0_usize);
    let mut drag = use_signal(|| None::<Drag>);
    let mut moved = use_signal(|| None::<Offset>);
    let mut sheet = use_signal(|| None::<Rc<MountedData>>);
    let Some(marks) = &job.marks else {
        return rsx! {};
    };
    let spot = chosen().min(marks.offsets.len().saturating_sub(1));
    let at = marks.offsets.get(spot).copied().unwrap_or_default();
    let shown = moved().unwrap_or(at);
    let drawing = marks_drawing_with(&job, moved().map(|to| (spot, to)));
    let (width, frame) = (drawing.size.0, drawing.from.0);
    let breaks: Vec<String> = if shown == at {
        Vec::new()
    } else {
        job::would_break(&job, spot, shown)
            .iter()
            .map(say)
            .collect()
    };
    let offsets = marks.offsets.clone();
    let drop = shell.clone();
    rsx! {
        div {
            class: "drag-sheet",
            onmounted: move |event| sheet.set(Some(event.data())),
            onpointerdown: {
                let offsets = offsets.clone();
                move |event: PointerEvent| {
                    let x = event.client_coordinates().x;
                    let offsets = offsets.clone();
                    async move {
                        let Some(mounted) = sheet() else { return };
                        let Ok(rect) = mounted.get_client_rect().await else { return };
                        let mm_a_pixel = width / rect.width().max(1.0);
                        let mm = frame + (x - rect.origin.x) * mm_a_pixel;
                        let Some(nearest) = nearest(&offsets, mm) else { return };
                        chosen.set(nearest);
                        moved.set(None);
                        drag.set(Some(Drag {
                            spot: nearest,
                            from_x: x,
                            from: offsets[nearest],
                            mm_a_pixel,
                        }));
                    }
                }
            },
            onpointermove: move |event: PointerEvent| {
                // A mouse let go outside says so when it is back.
                if let Some(held) = drag() {
                    if event.held_buttons().is_empty() {
                        drag.set(None);
                        moved.set(None);
                        return;
                    }
                    let by = (event.client_coordinates().x - held.from_x) * held.mm_a_pixel;
                    let to = Offset((held.from.0 + by).round());
                    if to != held.from || moved().is_some() {
                        moved.set(Some(to));
                    }
                }
            },
            onpointerup: move |_| {
                let Some(held) = drag.take() else { return };
                if let Some(to) = moved.take() && to != held.from {
                    drop.send(Intent::MarkOut(MarkOutIntent::Move(held.spot, to)));
                }
            },
            onpointercancel: move |_| {
                drag.set(None);
                moved.set(None);
            },
            DrawingView { drawing }
        }
        Chosen { job: job.clone(), spot, shown }
        div { role: "status",
            if !breaks.is_empty() {
                div { class: "trouble-box",
                    for line in breaks {
                        p { {line} }
                    }
                }
            }
        }
        MoveBy { job: job.clone(), spot, at }
        Rest { job: job.clone() }
    }
}

fn nearest(offsets: &[Offset], mm: f64) -> Option<usize> {
    let far = |offset: &Offset| (offset.0 - mm).abs();
    offsets
        .iter()
        .enumerate()
        .min_by(|a, b| far(a.1).total_cmp(&far(b.1)))
        .map(|(index, _)| index)
}

#[component]
fn Chosen(job: JobState, spot: usize, shown: Offset) -> Element {
    let label = job
        .spots
        .get(spot)
        .map(|spot| spot.label.clone())
        .unwrap_or_default();
    rsx! {
        p { class: "says",
            {say(&msg("mark-at")
                .text("label", label)
                .message("place", job::offset_words(shown)))}
        }
    }
}

/// Steps of a millimetre and of ten, a typed place, and the lock.
#[component]
fn MoveBy(job: JobState, spot: usize, at: Offset) -> Element {
    let shell = use_shell();
    let locked = job.mark_out.locked.contains(&spot);
    let typed = job.typed(Field::MoveTo).to_owned();
    let fault = if typed.trim().is_empty() {
        None
    } else {
        match job::typed_offset(&job, Field::MoveTo) {
            Err(why) => Some(say(&why)),
            Ok(to) => job::would_break(&job, spot, to).first().map(say),
        }
    };
    let ready = !typed.trim().is_empty() && fault.is_none();
    let (to, type_it, lock) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        div { class: "choice", role: "group", "aria-label": t("move-by"),
            for by in [-10.0, -1.0, 1.0, 10.0] {
                button {
                    key: "{by}",
                    onclick: {
                        let shell = shell.clone();
                        move |_| {
                            shell.send(Intent::MarkOut(MarkOutIntent::Move(spot, Offset(at.0 + by))));
                        }
                    },
                    {say(&msg("move-step").text("by", figure(by, 0)))}
                }
            }
        }
        div { class: "side-by-side",
            Entry {
                id: "move-to",
                label: t("move-to"),
                kind: Kind::Signed,
                value: typed,
                wrong: fault,
                note: super::keep_clear::offset_note(&job, Field::MoveTo),
                on_type: move |text| type_it.send(Intent::Type(Field::MoveTo, text)),
            }
            button {
                class: "also beside",
                disabled: !ready,
                onclick: move |_| to.send(Intent::MarkOut(MarkOutIntent::MoveTyped(spot))),
                {t("move-there")}
            }
        }
        button {
            class: "also",
            "aria-pressed": if locked { "true" } else { "false" },
            onclick: move |_| {
                let intent = if locked { MarkOutIntent::Unlock(spot) } else { MarkOutIntent::Lock(spot) };
                lock.send(Intent::MarkOut(intent));
            },
            {t(if locked { "mark-unlock" } else { "mark-lock" })}
        }
    }
}

/// Solves the marks that are not locked again.
#[component]
fn Rest(job: JobState) -> Element {
    let shell = use_shell();
    let Some(marks) = &job.marks else {
        return rsx! {};
    };
    if job.mark_out.locked.is_empty() && marks.from != MarksFrom::Hand {
        return rsx! {};
    }
    let kind = match marks.from {
        MarksFrom::Plan(kind) => kind,
        MarksFrom::Hand | MarksFrom::Before => PlanKind::Symmetric,
    };
    rsx! {
        button {
            class: "also",
            onclick: move |_| shell.send(Intent::PlanMarks(kind)),
            {t(if job.mark_out.locked.is_empty() { "solve-again" } else { "solve-rest" })}
        }
    }
}
