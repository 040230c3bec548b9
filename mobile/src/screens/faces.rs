//! The phone at each mark: it reads by itself and goes on to the next.

use dioxus::prelude::*;
use rakeline_core::drawing::face_from_side;
use rakeline_core::job::{self, JobState, Spot};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Degrees;

use super::marks::NoMarks;
use super::typed_face::TypedFace;
use crate::driver::{Intent, Phase};
use crate::parts::{DrawingView, Frame};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// The screen of the face angles.
#[component]
pub fn Faces() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    if job.marks.is_none() {
        return rsx! { NoMarks {} };
    }
    let (spot, phase, live, source) = match &state.held {
        Some(reading) => (
            reading.spot(),
            reading.phase.clone(),
            reading.live,
            reading.source,
        ),
        None => (0, Phase::Off, None, None),
    };
    let label = job
        .spots
        .get(spot)
        .map(|spot| spot.label.clone())
        .unwrap_or_default();
    let (again, rings) = (shell.clone(), shell.clone());
    let last = last_read(job, spot);
    let all_read = job.all_read();
    let start = shell.clone();
    rsx! {
        Frame {
            here: Step::Faces,
            foot: rsx! {
                if let Some((index, last_label)) = last {
                    button {
                        class: "also at-car",
                        onclick: move |_| again.send(Intent::ReadAgain(index)),
                        {say(&msg("read-again").text("label", last_label))}
                    }
                }
                if all_read {
                    button {
                        class: "do at-car",
                        onclick: move |_| rings.send(Intent::GoStep(Step::Rings)),
                        {t("see-rings")}
                    }
                } else if matches!(phase, Phase::Off | Phase::NoSensor(_)) {
                    button {
                        class: "do at-car",
                        onclick: move |_| start.send(Intent::StartReading),
                        {t("read-the-face")}
                    }
                }
            },
            div {
                h1 { {say(&msg("faces-title").text("label", label.clone()))} }
                p { class: "why", {t("faces-why")} }
            }
            SpotBar { job: job.clone(), here: spot }
            Live { phase: phase.clone(), live }
            if let Some(source) = source {
                p { class: "why", {say(&source.message())} }
            }
            TypedFace { label, open: matches!(phase, Phase::NoSensor(_)) }
        }
    }
}

/// The spot read just before this one, for 'read again'.
fn last_read(job: &JobState, here: usize) -> Option<(usize, String)> {
    let read = |(_, spot): &(usize, &Spot)| spot.is_read();
    let latest = job
        .spots
        .iter()
        .enumerate()
        .filter(read)
        .max_by_key(|(index, spot)| (spot.readings.last().map(|taken| taken.at), *index))?;
    let chosen = job
        .spots
        .iter()
        .enumerate()
        .find(|(index, spot)| *index == here && spot.is_read())
        .unwrap_or(latest);
    Some((chosen.0, chosen.1.label.clone()))
}

/// One box a spot: read ones filled with their face angle.
#[component]
fn SpotBar(job: JobState, here: usize) -> Element {
    let shell = use_shell();
    rsx! {
        div { class: "spots", role: "group", "aria-label": t("spots"),
            for (index , spot) in job.spots.iter().enumerate() {
                button {
                    key: "{spot.label}",
                    class: if spot.is_read() { "done" },
                    "aria-current": if index == here { "true" },
                    "aria-label": say(&spot_words(&job, spot)),
                    onclick: {
                        let shell = shell.clone();
                        move |_| shell.send(Intent::ChooseSpot(index))
                    },
                    span { {spot.label.clone()} }
                    if let Some(estimate) = job::rake_at(&job, spot) {
                        small { {figure(estimate.rake.value.0, 1)} }
                    }
                }
            }
        }
    }
}

fn spot_words(job: &JobState, spot: &Spot) -> Message {
    match job::face_with_plus_minus(job, spot) {
        Some(face) => msg("spot-read")
            .text("label", spot.label.clone())
            .message("face", face),
        None => msg("spot-open").text("label", spot.label.clone()),
    }
}

/// The figure as the phone lies now, and what the phone waits for.
#[component]
fn Live(phase: Phase, live: Option<Degrees>) -> Element {
    let (says, trouble) = match &phase {
        Phase::Starting => (t("reading-starting"), false),
        Phase::OnLastMark => (t("reading-on-last-mark"), false),
        Phase::Moving => (t("reading-moving"), false),
        Phase::Settling(_) => (t("reading-settling"), false),
        Phase::NotTaken(why) | Phase::NoSensor(why) => (say(why), true),
        Phase::Off => (t("reading-off"), false),
    };
    let share = match phase {
        Phase::Settling(share) => share.clamp(0.0, 1.0) * 100.0,
        _ => 0.0,
    };
    rsx! {
        if let Some(rake) = live {
            div {
                div { class: "reading", "aria-hidden": "true",
                    {figure(rake.0.abs(), 1)}
                    small { "°" }
                }
                div { class: "says", {say(&job::facing_words(rake))} }
            }
            DrawingView { drawing: face_from_side(rake, None) }
        }
        div { role: "status",
            if trouble {
                div { class: "trouble-box", {says} }
            } else {
                p { class: "says", {says} }
            }
        }
        div { class: "hold", "aria-hidden": "true",
            svg { view_box: "0 0 100 10", preserve_aspect_ratio: "none",
                rect { x: "0", y: "0", width: "{share}", height: "10" }
            }
        }
    }
}
