//! What can be measured for a fault: where a fitted head points, paint, how
//! far the rear sinks.

use dioxus::prelude::*;
use rakeline_core::decide::ring_set::aim_words;
use rakeline_core::job::{
    BesideHead, FaultEvent, Field, JobState, RingWay, beside_angle, facing_words, fitted_aim,
    paint_typed, sinks_typed, with_plus_minus,
};
use rakeline_core::text::msg;

use super::fault::event;
use crate::driver::{Intent, Measure, Target, WalkIntent, beside_words};
use crate::parts::{Figures, HeldBox, Kind, TypedEntry};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The measures, folded.
#[component]
pub fn Measures(job: JobState) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let head = state.drafts.walk.aim_of;
    rsx! {
        details {
            summary { {t("fitted-title")} }
            div { class: "stack",
                p { class: "why", {t("fitted-why")} }
                div { class: "spots", role: "group", "aria-label": t("fitted-which"),
                    for (spot , place) in (0_u8..).zip(&job.spots) {
                        button {
                            key: "{spot}",
                            class: if job.fault.aims.contains_key(&spot) { "done" },
                            "aria-current": if head == Some(spot) { "true" },
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::Walk(WalkIntent::AimOf(spot)))
                            },
                            {place.label.clone()}
                        }
                    }
                }
                if let Some(spot) = head {
                    FittedHead { job: job.clone(), spot }
                }
            }
        }
        details {
            summary { {t("fault-more")} }
            TypedEntry {
                id: "rear-sinks",
                job: job.clone(),
                field: Field::RearSinks,
                label: t("rear-sinks"),
                wrong: sinks_typed(&job).and_then(Result::err).as_ref().map(say),
                note: t("in-mm"),
            }
        }
    }
}

/// One fitted head: the panel beside it, its ring, its paint.
#[component]
fn FittedHead(job: JobState, spot: u8) -> Element {
    let shell = use_shell();
    let drop = shell.clone();
    let found =
        fitted_aim(&job, spot).map(|aim| with_plus_minus(aim_words(aim.value), aim.expanded()));
    let state = shell.state.read();
    let asked = match state.reading.as_ref().map(|held| held.target) {
        Some(Target::Beside(of, side)) if of == spot => Some(side),
        _ => None,
    };
    let stop = shell.clone();
    rsx! {
        div { class: "side-by-side",
            PanelBeside { job: job.clone(), spot, side: BesideHead::Left }
            PanelBeside { job: job.clone(), spot, side: BesideHead::Right }
        }
        if let Some(side) = asked {
            h3 { class: "asked", {t(beside_words(side))} }
            HeldBox { figures: Figures::Face }
            button {
                class: "also at-car",
                onclick: move |_| stop.send(Intent::Measure(Measure::Stop)),
                {t("stop-reading")}
            }
        }
        TypedEntry {
            id: "ring-adds",
            job: job.clone(),
            field: Field::RingAdds(spot),
            label: t("fitted-ring"),
            note: t("in-degrees"),
        }
        div { class: "things",
            for (key , way) in [("fitted-lifts", RingWay::Lifts), ("fitted-lowers", RingWay::Lowers)] {
                button {
                    key: "{key}",
                    class: "also at-car",
                    onclick: {
                        let shell = shell.clone();
                        move |_| shell.send(Intent::Walk(WalkIntent::AimTaken(way)))
                    },
                    {t(key)}
                }
            }
        }
        if let Some(found) = found {
            p { class: "says", role: "status", {say(&msg("fitted-aim").message("aim", found))} }
            button {
                class: "plain",
                onclick: move |_| event(&drop, FaultEvent::AimDropped(spot)),
                {t("fitted-drop")}
            }
        }
        TypedEntry {
            id: "paint-on",
            job: job.clone(),
            field: Field::PaintOn(spot),
            label: t("paint-on"),
            wrong: paint_typed(&job, spot).and_then(Result::err).as_ref().map(say),
            note: t("in-mm"),
        }
    }
}

/// The panel on one side of a head: read with the phone, or typed off a gauge.
#[component]
fn PanelBeside(job: JobState, spot: u8, side: BesideHead) -> Element {
    let shell = use_shell();
    let (field, key, id) = match side {
        BesideHead::Left => (Field::BesideLeft(spot), "fitted-left", "beside-left"),
        BesideHead::Right => (Field::BesideRight(spot), "fitted-right", "beside-right"),
    };
    let read = beside_angle(&job, spot, side);
    let (hold, drop) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "stack",
            if let Some(angle) = read {
                p { b { {t(key)} } }
                p { class: "says", role: "status",
                    {say(&with_plus_minus(facing_words(angle.value), angle.expanded()))}
                }
                button {
                    class: "plain",
                    onclick: move |_| event(&drop, FaultEvent::BesideDropped(spot, side)),
                    {t("fitted-panel-drop")}
                }
            } else {
                TypedEntry {
                    id,
                    job: job.clone(),
                    field,
                    kind: Kind::Signed,
                    label: t(key),
                    note: t("fitted-sign"),
                }
            }
            button {
                class: "also at-car",
                onclick: move |_| hold.send(Intent::Measure(Measure::Beside(spot, side))),
                {t(if read.is_some() { "fitted-read-again" } else { "fitted-read" })}
            }
        }
    }
}
