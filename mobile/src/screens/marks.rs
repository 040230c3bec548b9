//! The marks, to be read from two metres and taped on.

use dioxus::prelude::*;
use rakeline_core::decide::mark_out::{MarkOutPlans, PlanKind};
use rakeline_core::drawing::{marks_drawing, plan_drawing};
use rakeline_core::job::{self, JobState, MarksFrom};
use rakeline_core::text::msg;

use super::again_taken::{AgainTaken, MarksFromBefore};
use super::edit_marks::EditMarks;
use super::full_size::FullSize;
use super::tape_card::Card;
use crate::driver::Intent;
use crate::parts::{DrawingView, Frame};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the mark-out.
#[component]
pub fn Marks() -> Element {
    let shell = use_shell();
    let mut by_hand = use_signal(|| false);
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let Some(marks) = &job.marks else {
        return match job::plans(job) {
            Some(Ok(plans)) => rsx! {
                Frame { here: Step::Marks,
                    h1 { {t("pick-title")} }
                    PickPlan { job: job.clone(), plans }
                }
            },
            _ => rsx! { NoMarks {} },
        };
    };
    let explained: Vec<String> = job::marks_explained(job).iter().map(say).collect();
    let tape = shell.clone();
    // The height of the row stands on the drawing.
    let centre = job::centre_words(job).map(|words| say(&words));
    rsx! {
        Frame {
            here: Step::Marks,
            foot: rsx! {
                button {
                    class: "also",
                    "aria-pressed": if by_hand() { "true" } else { "false" },
                    onclick: move |_| by_hand.toggle(),
                    {t(if by_hand() { "move-done" } else { "move-a-mark" })}
                }
                button {
                    class: "do at-car",
                    onclick: move |_| tape.send(Intent::TapeOn),
                    {t("tape-on")}
                }
            },
            div {
                h1 { {say(&marks.from.message())} }
                p { class: "why",
                    for line in explained.iter().take(2) {
                        {line.clone()} " "
                    }
                }
            }
            MarksFromBefore { job: job.clone() }
            AgainTaken { job: job.clone() }
            Stale { job: job.clone() }
            if let Some(fault) = job::height_fault(job) {
                div { class: "trouble-box", role: "status", {say(&fault)} }
            }
            if by_hand() {
                EditMarks { job: job.clone() }
            } else {
                DrawingView { drawing: marks_drawing(job) }
                if let Some(centre) = centre {
                    p { class: "why", {centre} }
                }
                Card { job: job.clone() }
                OtherPlans { job: job.clone() }
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
                FullSize {}
            }
        }
    }
}

/// The other plans, folded, each with what it trades.
#[component]
fn OtherPlans(job: JobState) -> Element {
    let Some(Ok(plans)) = job::plans(&job) else {
        return rsx! {};
    };
    rsx! {
        details {
            summary { {t("other-plans")} }
            PickPlan { job, plans }
        }
    }
}

/// The three plans drawn, each with what it leaves and gives up; one tap takes one.
#[component]
fn PickPlan(job: JobState, plans: MarkOutPlans) -> Element {
    let shell = use_shell();
    let taken = job.marks.as_ref().map(|marks| marks.from);
    rsx! {
        p { class: "why", {say(&plans.proposal())} }
        for kind in plans.distinct() {
            div { key: "{kind:?}", class: "ring",
                div { class: "whole",
                    b { class: "verdict", {say(&kind.message())} }
                    DrawingView { drawing: plan_drawing(&job, plans.get(kind)) }
                    for line in plans.trades(kind) {
                        p { {say(&line)} }
                    }
                    if taken == Some(MarksFrom::Plan(kind)) {
                        p { class: "why", {t("plan-taken")} }
                    } else {
                        button {
                            class: "also",
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::PlanMarks(kind))
                            },
                            {say(&msg("plan-take").message("plan", kind.message()))}
                        }
                    }
                }
            }
        }
    }
}

/// What was changed since the marks were planned, and the way on; also where
/// the marks are checked and drilled.
#[component]
pub fn Stale(job: JobState) -> Element {
    let shell = use_shell();
    let broken: Vec<String> = job::marks_broken(&job).iter().map(say).collect();
    let stale = job::marks_are_stale(&job);
    if !stale && broken.is_empty() {
        return rsx! {};
    }
    let kind = match job.marks.as_ref().map(|marks| marks.from) {
        Some(MarksFrom::Plan(kind)) => kind,
        _ => PlanKind::Symmetric,
    };
    let (measure, solve) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "trouble-box", role: "alert",
            if stale {
                p { {t("marks-stale")} }
            }
            for line in broken {
                p { {line} }
            }
            div { class: "pair",
                button {
                    class: "also",
                    onclick: move |_| measure.send(Intent::GoStep(Step::Measures)),
                    {t("to-measures")}
                }
                button {
                    class: "also",
                    onclick: move |_| solve.send(Intent::PlanMarks(kind)),
                    {t("solve-again")}
                }
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
        _ => Step::Marks,
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
