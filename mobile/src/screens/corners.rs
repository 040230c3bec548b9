//! Corner angles and shape from above: a sweep, or typed figures; and how
//! round the face is.

use dioxus::prelude::*;
use rakeline_core::drawing::{round_face, shape_from_above};
use rakeline_core::estimate::contact::Roundness;
use rakeline_core::job::{self, Spot};
use rakeline_core::text::msg;

use super::phone_form::Pick;
use crate::driver::{
    Beside, Intent, Measure, Target, corner_field, station_words, sweep_field, sweep_places,
};
use crate::parts::{DrawingView, Entry, Figures, Frame, HeldBox};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// The screen of the corner angles.
#[component]
pub fn Corners() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let target = state.reading.as_ref().map(|held| held.target);
    let asked = match target {
        Some(Target::Station(station)) => Some(station_words(&state.drafts.sweep, station)),
        Some(Target::Round(Beside::Above)) => Some(msg("round-above")),
        Some(Target::Round(Beside::Below)) => Some(msg("round-below")),
        _ => None,
    };
    let fault = state.drafts.sweep.fault.as_ref().map(say);
    let swept = job::sweep(job);
    let marked = job.marks.is_some();
    let (start, stop, faces) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        Frame {
            here: Step::Corners,
            foot: rsx! {
                if asked.is_some() {
                    button {
                        class: "also at-car",
                        onclick: move |_| stop.send(Intent::Measure(Measure::Stop)),
                        {t("stop-reading")}
                    }
                } else {
                    button {
                        class: "also at-car",
                        onclick: move |_| start.send(Intent::Measure(Measure::SweepStart)),
                        {t("sweep-start")}
                    }
                    button {
                        class: "do at-car",
                        onclick: move |_| faces.send(Intent::GoStep(if marked { Step::Faces } else { Step::Measures })),
                        {t(if marked { "back-to-faces" } else { "to-measures" })}
                    }
                }
            },
            if let Some(asked) = asked {
                div {
                    h1 { class: "asked", {say(&asked)} }
                    p { class: "why", {t("zero-listen")} }
                }
                HeldBox { figures: Figures::None }
            } else {
                div {
                    h1 { {t("corners-title")} }
                    p { class: "why", {t("corners-why")} }
                }
                if let Some(fault) = fault {
                    div { class: "trouble-box", role: "alert", {fault} }
                }
                match swept {
                    Some(Ok(closed)) => rsx! {
                        p { {say(&msg("sweep-closed").deg("closing", closed.closing.abs().0))} }
                        if let Some(drawing) = shape_from_above(job) {
                            DrawingView { drawing }
                        }
                        AlongTheFace {}
                    },
                    Some(Err(why)) => rsx! {
                        div { class: "trouble-box", role: "alert", {say(&why)} }
                    },
                    None => rsx! { SweepPlaces {} },
                }
                TypedCorners {}
                HowRound {}
            }
        }
    }
}

/// Straight to along the face and back.
#[component]
fn AlongTheFace() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let drop = shell.clone();
    rsx! {
        details {
            summary { {t("along-title")} }
            p { class: "why", {t("along-why")} }
            ul { class: "candidates",
                for line in job::along_the_face(job) {
                    li { {say(&line)} }
                }
                for line in job::stations_straight(job) {
                    li { {say(&line)} }
                }
            }
            button {
                class: "plain",
                onclick: move |_| drop.send(Intent::Measure(Measure::SweepDropped)),
                {t("sweep-drop")}
            }
        }
    }
}

/// Where the sweep stops.
#[component]
fn SweepPlaces() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let wrong = sweep_places(job).err().map(|why| say(&why));
    let place = |spot: usize| {
        let offset = job.marks.as_ref()?.offsets.get(spot)?;
        Some(figure(offset.0, 0))
    };
    let places = (0..job.spots.len()).map(|spot| match place(spot) {
        Some(place) => say(&msg("sweep-place-note").text("place", place)),
        None => t("in-mm"),
    });
    rsx! {
        details { open: job.marks.is_none(),
            summary { {t("sweep-places")} }
            p { class: "why", {t("sweep-places-why")} }
            if let Some(wrong) = wrong {
                div { class: "trouble-box", role: "status", {wrong} }
            }
            div { class: "side-by-side",
                for (index , note) in places.enumerate() {
                    Entry {
                        key: "{index}",
                        id: "sweep-{index}",
                        label: say(&msg("sweep-place").count("number", i64::try_from(index + 1).unwrap_or(1))),
                        value: job.typed(sweep_field(index)).to_owned(),
                        note,
                        on_type: {
                            let shell = shell.clone();
                            move |text| shell.send(Intent::Type(sweep_field(index), text))
                        },
                    }
                }
            }
        }
    }
}

/// Corner angles by spot, typed.
#[component]
fn TypedCorners() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let rows: Vec<(usize, &Spot)> = job.spots.iter().enumerate().collect();
    let take = shell.clone();
    rsx! {
        ul { class: "candidates",
            for (index , spot) in rows.iter() {
                li {
                    b { {spot.label.clone()} }
                    ": "
                    {say(&job::corner_words(job::corner_angle(job, *index)))}
                }
            }
        }
        details {
            summary { {t("corners-type")} }
            p { class: "why", {t("corners-type-why")} }
            div { class: "stack",
                div { class: "side-by-side",
                    for (index , spot) in rows.iter() {
                        Entry {
                            key: "{spot.label}",
                            id: "corner-{index}",
                            label: say(&msg("corner-of").text("label", spot.label.clone())),
                            value: job.typed(corner_field(*index)).to_owned(),
                            note: t("in-degrees"),
                            on_type: {
                                let (shell, index) = (shell.clone(), *index);
                                move |text| shell.send(Intent::Type(corner_field(index), text))
                            },
                        }
                    }
                }
                button {
                    class: "also",
                    onclick: move |_| take.send(Intent::Measure(Measure::CornersTaken)),
                    {t("corners-take")}
                }
            }
        }
    }
}

/// How round the face is, up and down: three pictures or two readings.
#[component]
fn HowRound() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let round = job.measuring.roundness;
    let start = shell.clone();
    rsx! {
        h2 { {t("round-title")} }
        p { {say(&job::roundness_words(round))} }
        div { class: "pictures",
            for choice in [Roundness::Flat, Roundness::Rounded, Roundness::Tight] {
                div { class: "choice",
                    key: "{choice:?}",
                    DrawingView { drawing: round_face(choice.radius().0) }
                    Pick {
                        chosen: round == choice,
                        said: Measure::Round(choice),
                        words: say(&job::roundness_words(choice)),
                    }
                }
            }
        }
        button {
            class: "also",
            onclick: move |_| start.send(Intent::Measure(Measure::RoundStart)),
            {t("round-read")}
        }
    }
}
