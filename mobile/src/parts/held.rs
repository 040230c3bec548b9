//! What the phone waits for, how far the reading is, and what was wrong.

use dioxus::prelude::*;
use rakeline_core::drawing::face_from_side;
use rakeline_core::job;
use rakeline_core::text::msg;

use super::DrawingView;
use crate::driver::{Intent, Measure, Phase, Target};
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// Whether the face angle is shown beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figures {
    /// As a figure, in words and drawn.
    Face,
    /// Not at all.
    None,
}

/// The state of the capture under way.
#[component]
pub fn HeldBox(figures: Figures) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let (phase, live) = match &state.reading {
        Some(held) => (held.phase.clone(), held.live),
        None => (Phase::Off, None),
    };
    let spot = match state.reading.as_ref().map(|held| held.target) {
        Some(Target::Spot(spot)) => state.job().and_then(|job| job.spots.get(spot)),
        _ => None,
    };
    let on_last = match spot {
        Some(spot) => say(&msg("reading-on-last-mark").text("label", spot.label.clone())),
        None => t("reading-taken"),
    };
    let all_read = state.job().is_some_and(|job| job.all_read());
    let (says, trouble) = match &phase {
        Phase::Starting => (t("reading-starting"), None),
        Phase::OnLastMark => (on_last, None),
        Phase::Moving => (t("reading-moving"), None),
        Phase::Settling(_) => (t("reading-settling"), None),
        Phase::NotTaken(why) | Phase::NoSensor(why) => (say(why), Some(why.key.clone())),
        Phase::Off if all_read => (t("reading-off"), None),
        Phase::Off => (t("reading-waits"), None),
    };
    let share = match phase {
        Phase::Settling(share) => share.clamp(0.0, 1.0) * 100.0,
        _ => 0.0,
    };
    let other_phone = trouble.as_ref().is_some_and(|key| {
        matches!(
            key.as_ref(),
            "refused-other-phone" | "refused-phone-changed"
        )
    });
    let again = shell.clone();
    // While a face is awaited its place is kept free, so that nothing below
    // moves away under the finger.
    let awaits = figures == Figures::Face && !matches!(phase, Phase::NoSensor(_) | Phase::Off);
    rsx! {
        div { class: if awaits { "held awaits" } else { "held" },
            if let (Figures::Face, Some(rake)) = (figures, live) {
                div {
                    div { class: "reading", "aria-hidden": "true",
                        {figure(rake.0.abs(), 1)}
                        small { "°" }
                    }
                    div { class: "says", {say(&job::facing_words(rake))} }
                }
                DrawingView { drawing: face_from_side(rake, None) }
            }
            div { class: "held-says", role: "status",
                if trouble.is_some() {
                    div { class: "trouble-box", {says} }
                } else {
                    p { class: "says", {says} }
                }
            }
            if other_phone {
                button {
                    class: "also",
                    onclick: move |_| again.send(Intent::Measure(Measure::ReadAllAgain)),
                    {t("read-all-again")}
                }
            }
            if live.is_some() {
                div { class: "hold", "aria-hidden": "true",
                    svg { view_box: "0 0 100 10", preserve_aspect_ratio: "none",
                        rect { x: "0", y: "0", width: "{share}", height: "10" }
                    }
                }
            }
        }
    }
}
