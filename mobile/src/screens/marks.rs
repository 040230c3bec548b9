//! The marks, to be read from two metres and taped on.

use dioxus::prelude::*;
use rakeline_core::drawing::marks_drawing;
use rakeline_core::job::{self, JobState};
use rakeline_core::text::msg;

use super::full_size::FullSize;
use crate::driver::Intent;
use crate::parts::{DrawingView, Frame};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// The screen of the mark-out.
#[component]
pub fn Marks() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let Some(marks) = &job.marks else {
        return rsx! { NoMarks {} };
    };
    let explained: Vec<String> = job::marks_explained(job).iter().map(say).collect();
    let tape = shell.clone();
    let rows: Vec<(String, f64)> = job
        .spots
        .iter()
        .zip(&marks.offsets)
        .map(|(spot, offset)| (spot.label.clone(), offset.0))
        .collect();
    rsx! {
        Frame {
            here: Step::Marks,
            foot: rsx! {
                button {
                    class: "do at-car",
                    onclick: move |_| tape.send(Intent::TapeOn),
                    {t("tape-on")}
                }
            },
            div {
                h1 { {say(&marks.kind.message())} }
                p { class: "why",
                    for line in explained.iter().take(2) {
                        {line.clone()} " "
                    }
                }
            }
            DrawingView { drawing: marks_drawing(job) }
            table { class: "marks",
                caption { class: "offscreen", {t("marks-caption")} }
                tbody {
                    for (label , offset) in rows {
                        tr { key: "{label}",
                            th { class: "spot", scope: "row", {label} }
                            td { class: "big", {figure(offset.abs(), 0)} }
                            td { class: "where", {t(side(offset))} }
                        }
                    }
                }
            }
            p { class: "why", {t("marks-straight")} }
            if explained.len() > 2 {
                details {
                    summary { {t("marks-why-here")} }
                    ul { class: "candidates",
                        for line in explained.iter().skip(2) {
                            li { {line.clone()} }
                        }
                    }
                }
            }
            Stale { job: job.clone() }
            FullSize {}
        }
    }
}

fn side(offset: f64) -> &'static str {
    if offset < 0.0 {
        "left-of-centre"
    } else if offset > 0.0 {
        "right-of-centre"
    } else {
        "on-centre"
    }
}

/// The half widths were typed anew since the marks were planned.
#[component]
fn Stale(job: JobState) -> Element {
    let shell = use_shell();
    if !job::marks_are_stale(&job) {
        return rsx! {};
    }
    rsx! {
        div { class: "trouble-box", role: "alert",
            p { {t("marks-stale")} }
            button {
                class: "also",
                onclick: move |_| shell.send(Intent::GoStep(Step::Measures)),
                {t("to-measures")}
            }
        }
    }
}

/// What to show where the marks are needed and not there.
#[component]
pub fn NoMarks() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let here = match &state.route {
        crate::route::Route::Job(_, step) => *step,
        crate::route::Route::Jobs => Step::Marks,
    };
    let back = shell.clone();
    rsx! {
        Frame {
            here,
            foot: rsx! {
                button {
                    class: "do at-car",
                    onclick: move |_| back.send(Intent::GoStep(Step::Measures)),
                    {t("to-measures")}
                }
            },
            h1 { {t("no-marks-title")} }
            p { {say(&msg("no-marks-why"))} }
        }
    }
}
