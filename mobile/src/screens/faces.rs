//! The phone at each mark: it reads by itself and goes on to the next.

use dioxus::prelude::*;
use rakeline_core::job::{self, JobState, Spot};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Degrees;

use super::again_taken::AgainTaken;
use super::marks::NoMarks;
use super::typed_face::TypedFace;
use crate::driver::{Intent, Measure, Phase, phone_in_use};
use crate::parts::{Figures, Frame, HeldBox};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

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
    let (spot, phase, source) = match &state.reading {
        Some(held) => (held.spot(), held.phase.clone(), held.source),
        // After a restart: the sensor waits for a tap.
        None => (first_open(job), Phase::Off, None),
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
            AgainTaken { job: job.clone() }
            SpotBar { job: job.clone(), here: spot }
            HeldBox { figures: Figures::Face }
            Repeats { index: spot }
            RestsOn {}
            p { class: "why one-line",
                if let Some(source) = source {
                    {say(&source.message())}
                }
            }
            TypedFace { label, open: matches!(phase, Phase::NoSensor(_)) }
        }
    }
}

/// The first spot that is not read.
fn first_open(job: &JobState) -> usize {
    job::faces_open(job).first().copied().unwrap_or_default()
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
                        small { {say(&short_angle(estimate.rake.value))} }
                    }
                }
            }
        }
    }
}

/// An angle where only a figure has room: an arrow says which way.
fn short_angle(rake: Degrees) -> Message {
    let key = if rake.0 < 0.0 { "spot-down" } else { "spot-up" };
    msg(key).deg("angle", rake.0.abs())
}

fn spot_words(job: &JobState, spot: &Spot) -> Message {
    match job::face_with_plus_minus(job, spot) {
        Some(face) => msg("spot-read")
            .text("label", spot.label.clone())
            .message("face", face),
        None => msg("spot-open").text("label", spot.label.clone()),
    }
}

/// What the angles rest on; each part leads to where it can be bettered.
#[component]
fn RestsOn() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let (phone, renewal) = phone_in_use(&state, &shell.now());
    let corners = if job::sweep(job).is_some() {
        "corners-swept"
    } else {
        "corners-open"
    };
    let parts = [
        (Step::Zero, say(&job::phone_words(&phone)), renewal),
        (Step::Ground, say(&job::ground_words(&job.ground)), None),
        (Step::Corners, t(corners), None),
        (Step::Level, t("level-open"), None),
    ];
    rsx! {
        div { class: "rests", role: "group", "aria-label": t("rests-on"),
            for (step , words , renewal) in parts {
                button {
                    key: "{step:?}",
                    class: "plain",
                    onclick: {
                        let shell = shell.clone();
                        move |_| shell.send(Intent::GoStep(step))
                    },
                    {words}
                    if renewal.is_some() {
                        " · "
                        {t("renew")}
                    }
                }
            }
        }
    }
}

/// Readings at the chosen spot: how many, what they say of each other, and
/// the ways to better them.
#[component]
pub fn Repeats(index: usize) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some((job, spot)) = state
        .job()
        .and_then(|job| Some((job, job.spots.get(index)?)))
    else {
        return rsx! {};
    };
    if !spot.is_read() {
        return rsx! {};
    }
    let count = i64::try_from(spot.readings.len()).unwrap_or(i64::MAX);
    let face = job::face_with_plus_minus(job, spot);
    let (more, out) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "note-box",
            if let Some(face) = face {
                p { b { {say(&face)} } }
            }
            p { {say(&msg("repeats-pooled").count("readings", count).text("label", spot.label.clone()))} }
            if let Some(said) = job::repeats_at(job, spot) {
                p { role: "status", {say(&said)} }
            }
            Each { index }
            div { class: "side-by-side",
                button {
                    class: "also",
                    onclick: move |_| more.send(Intent::Measure(Measure::ReadOnceMore(index))),
                    {t("read-once-more")}
                }
                button {
                    class: "also",
                    onclick: move |_| out.send(Intent::Measure(Measure::TakeLastOut(index))),
                    {t("take-last-out")}
                }
            }
        }
    }
}

/// Each reading of a spot that was read more than once, to be taken out.
#[component]
fn Each(index: usize) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(spot) = state.job().and_then(|job| job.spots.get(index)) else {
        return rsx! {};
    };
    if spot.readings.len() < 2 {
        return rsx! {};
    }
    let words = state.job().map(|job| job::reading_words(job, spot));
    rsx! {
        ul { class: "readings",
            for (which , words) in words.into_iter().flatten().enumerate() {
                li { key: "{which}",
                    span { {say(&words)} }
                    button {
                        class: "plain",
                        "aria-label": say(&msg("take-out-reading").message("reading", words.clone())),
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::Measure(Measure::TakeOut(index, which)))
                        },
                        {t("take-out")}
                    }
                }
            }
        }
    }
}
