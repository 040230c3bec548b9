//! Two half widths: all that the marks need.

use dioxus::prelude::*;
use rakeline_core::drawing::{half_width_drawing, plan_drawing};
use rakeline_core::job::{self, Field, HalfWidths, JobState, Particular, Taken, WayChange, WayOut};
use rakeline_core::text::{Message, msg};

use super::again_taken::{AgainTaken, FittedBefore};
use super::centre_line::CentreLine;
use super::kit_pick::KitPick;
use crate::driver::{Intent, MarkOutIntent};
use crate::parts::{DrawingView, Entry, Focus, Frame, Kind};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// The screen of the half widths.
#[component]
pub fn Measures() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let (mut left_wrong, mut right_wrong, mut doubt) = (None, None, None);
    let ready = match job::half_widths(job) {
        HalfWidths::Open { left, right } => {
            left_wrong = left.as_ref().map(say);
            right_wrong = right.as_ref().map(say);
            false
        }
        HalfWidths::Ready { doubt: asks, .. } => {
            doubt = asks.as_ref().map(say);
            true
        }
    };
    let (mut impossible, mut ways) = (Vec::<String>::new(), Vec::new());
    if let Some(Err(none)) = job::plans(job) {
        impossible = job::no_plan_messages(job, &none).iter().map(say).collect();
        ways = job::ways_out_of(job, &none);
    }
    let can_plan = ready && impossible.is_empty();
    let next = if job.marks.is_some() {
        "show-marks-again"
    } else {
        "show-marks"
    };
    let type_in = |field: Field| {
        let shell = shell.clone();
        move |text: String| shell.send(Intent::Type(field, text))
    };
    let (plan, submit) = (shell.clone(), shell.clone());
    rsx! {
        Frame {
            here: Step::Measures,
            foot: rsx! {
                button {
                    class: "do at-car",
                    disabled: !can_plan,
                    onclick: move |_| plan.send(Intent::ShowMarks),
                    {t(next)}
                }
            },
            h1 { {t("measures-title")} }
            p { class: "why", {t("measures-why")} }
            AgainTaken { job: job.clone() }
            FittedBefore {}
            DrawingView { drawing: half_width_drawing(job) }
            HowTaken { job: job.clone() }
            form {
                class: "side-by-side",
                onsubmit: move |event| {
                    event.prevent_default();
                    submit.send(Intent::ShowMarks);
                },
                Entry {
                    id: "half-left",
                    label: t("half-left"),
                    value: job.typed(Field::HalfLeft).to_owned(),
                    focus: if job.typed(Field::HalfLeft).is_empty() { Focus::First } else { Focus::Waits },
                    wrong: left_wrong,
                    note: taken_note(job, Field::HalfLeft),
                    on_type: type_in(Field::HalfLeft),
                }
                Entry {
                    id: "half-right",
                    label: t("half-right"),
                    value: job.typed(Field::HalfRight).to_owned(),
                    wrong: right_wrong,
                    note: taken_note(job, Field::HalfRight),
                    on_type: type_in(Field::HalfRight),
                }
                button { r#type: "submit", hidden: true }
            }
            if let Some(doubt) = doubt {
                div { class: "note-box", role: "status", {doubt} }
            }
            if !impossible.is_empty() {
                div { class: "trouble-box", role: "alert",
                    for line in impossible {
                        p { {line} }
                    }
                    p { {t("impossible-what-to-do")} }
                }
                WaysOut { job: job.clone(), ways }
            }
            CentreLine { job: job.clone() }
            super::keep_clear::KeepClear { job: job.clone() }
            KitPick {}
            Particulars {}
        }
    }
}

/// What stands below a distance: its unit, or what it is straight.
pub(super) fn taken_note(job: &JobState, field: Field) -> String {
    job::straight_words(job, field).map_or_else(|| t("in-mm"), |words| say(&words))
}

/// Whether the tape lies straight across or along the face.
#[component]
fn HowTaken(job: JobState) -> Element {
    let shell = use_shell();
    let corners = shell.clone();
    let wants_shape = job::no_shape(&job);
    rsx! {
        fieldset { class: "field",
            legend { {t("taken-title")} }
            div { class: "choice",
                for taken in Taken::ALL {
                    button {
                        key: "{taken:?}",
                        "aria-pressed": if job.mark_out.taken == taken { "true" } else { "false" },
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::MarkOut(MarkOutIntent::TakenAs(taken)))
                        },
                        {say(&taken.message())}
                    }
                }
            }
        }
        if let Some(why) = wants_shape {
            div { class: "note-box", role: "status",
                p { {say(&why)} }
                button {
                    class: "also",
                    onclick: move |_| corners.send(Intent::GoStep(Step::Corners)),
                    {t("taken-sweep")}
                }
            }
        }
    }
}

/// Each single rule that could give, with the marks then.
#[component]
fn WaysOut(job: JobState, ways: Vec<WayOut>) -> Element {
    let shell = use_shell();
    rsx! {
        for way in ways {
            div { class: "ring",
                div { class: "whole",
                    b { {say(&way.words)} }
                    DrawingView { drawing: plan_drawing(&job, &way.plan) }
                    if let Some(change) = way.change {
                        button {
                            class: "also",
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::MarkOut(match change {
                                    WayChange::Limit(limit, value) => MarkOutIntent::Loosen(limit, value),
                                    WayChange::Unlock(spot) => MarkOutIntent::Unlock(spot),
                                }))
                            },
                            {say(&tap_words(&job, change))}
                        }
                    }
                }
            }
        }
    }
}

/// What one tap on a way out does.
fn tap_words(job: &JobState, change: WayChange) -> Message {
    match change {
        WayChange::Limit(limit, value) => msg("loosen-limit")
            .message("limit", limit.message())
            .text("value", figure(value.0, 0)),
        WayChange::Unlock(spot) => {
            let label = job.spots.get(spot).map_or("", |spot| &spot.label);
            msg("loosen-unlock").text("label", label.to_owned())
        }
    }
}

/// Name, customer, vehicle, plate, fitter: any time before the job sheet.
#[component]
pub fn Particulars() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let fields = Particular::ALL.map(|which| match which {
        Particular::Customer => (which, "customer", None),
        Particular::Vehicle => (which, "vehicle", Some(t("particular-vehicle-note"))),
        Particular::Plate => (which, "plate", None),
        Particular::Vin => (which, "vin", None),
        Particular::Odometer => (which, "odometer", Some(t("particular-odometer-note"))),
        Particular::Fitter => (which, "fitter", None),
        Particular::KitSerial => (which, "kit-serial", None),
    });
    let rename = shell.clone();
    rsx! {
        details {
            summary { {t("particulars")} }
            p { class: "why", {t("particulars-why")} }
            Entry {
                id: "job-name",
                label: t("job-name"),
                kind: Kind::Words,
                value: job.name.clone(),
                on_type: move |text| rename.send(Intent::Rename(text)),
            }
            for (which , id , note) in fields {
                Entry {
                    key: "{id}",
                    id,
                    label: say(&which.message()),
                    note,
                    kind: Kind::Words,
                    value: job.particular(which).to_owned(),
                    on_type: {
                        let shell = shell.clone();
                        move |text| shell.send(Intent::Particular(which, text))
                    },
                }
            }
        }
    }
}
