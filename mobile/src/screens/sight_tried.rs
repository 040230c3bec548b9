//! What can be tried on the map: the aim of the chosen heads, and the chosen
//! head's mark some millimetres on.

use dioxus::prelude::*;
use rakeline_core::drawing::Squares;
use rakeline_core::figure;
use rakeline_core::job;
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Offset;

use crate::driver::{Intent, MarkOutIntent, SightIntent, TILT_GREATEST};
use crate::shell::{Shell, use_shell};
use crate::texts::{say, t};

/// Steps that a mark is moved by, mm.
const STEPS: [f64; 4] = [-10.0, -1.0, 1.0, 10.0];

/// '5° lower', 'as it is now'.
fn tilt_words(by: f64) -> Message {
    msg(if by < 0.0 {
        "sight-lower"
    } else if by > 0.0 {
        "sight-higher"
    } else {
        "sight-as-is"
    })
    .number("angle", by.abs(), 0)
}

/// The aim of the chosen heads, tried higher or lower.
#[component]
pub(super) fn Tilt() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let draft = &state.drafts.sight;
    let tilt = draft.tilt();
    let words = match tilt {
        Some(by) => tilt_words(by),
        None => {
            let heads = job.spots.iter().zip(&draft.asked.tilted);
            let each = heads.map(|(spot, by)| {
                msg("sheet-head-line")
                    .text("label", spot.label.clone())
                    .message("what", tilt_words(*by))
            });
            msg("sight-tilts-differ").list("heads", each.collect::<Vec<_>>())
        }
    };
    let words = say(&words);
    let label = match draft.asked.only.and_then(|only| job.spots.get(only)) {
        Some(spot) => msg("sight-aim-of").text("label", spot.label.clone()),
        None => msg("sight-aim-all"),
    };
    let value = tilt.unwrap_or_default();
    let (moving, rest) = (shell.clone(), shell.clone());
    let send = |shell: &Shell, typed: &str, squares: Squares| {
        if let Some(by) = figure::read(typed) {
            shell.send(Intent::Sight(SightIntent::Tilt(by, squares)));
        }
    };
    rsx! {
        div { class: "slide",
            label { r#for: "tilt",
                b { {say(&label)} }
                " "
                {words.clone()}
            }
            input {
                id: "tilt",
                r#type: "range",
                min: "{-TILT_GREATEST}",
                max: "{TILT_GREATEST}",
                step: "1",
                value: "{value}",
                "aria-valuetext": words,
                oninput: move |event| send(&moving, &event.value(), Squares::Coarse),
                onchange: move |event| send(&rest, &event.value(), Squares::Fine),
            }
        }
    }
}

/// '10 mm left'.
fn step_words(by: f64) -> Message {
    msg(if by < 0.0 {
        "sight-nudge-left"
    } else {
        "sight-nudge-right"
    })
    .number("by", by.abs(), 0)
}

/// The chosen head's mark, moved by millimetres; the map follows. It is the
/// job's mark that moves: the plan's rules hold, and it can be taken back.
#[component]
pub(super) fn Nudge() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let chosen = state.job().and_then(|job| {
        let spot = state.drafts.sight.asked.only?;
        let at = *job.marks.as_ref()?.offsets.get(spot)?;
        Some((job, spot, at, job.spots.get(spot)?.label.clone()))
    });
    let Some((job, spot, at, label)) = chosen else {
        return rsx! {
            p { class: "why", {t("sight-nudge-choose")} }
        };
    };
    let stops: Vec<String> = STEPS
        .iter()
        .filter_map(|by| {
            let why = job::would_break(job, spot, Offset(at.0 + by))
                .into_iter()
                .next()?;
            let words = msg("sight-nudge-stops").message("step", step_words(*by));
            Some(say(&words.message("why", why)))
        })
        .collect();
    let words = msg("mark-at")
        .text("label", label)
        .message("place", job::offset_words(at));
    rsx! {
        p { class: "says", {say(&words)} }
        div { class: "choice", role: "group", "aria-label": t("move-by"),
            for by in STEPS {
                button {
                    key: "{by}",
                    onclick: {
                        let shell = shell.clone();
                        move |_| shell.send(Intent::MarkOut(MarkOutIntent::Move(spot, Offset(at.0 + by))))
                    },
                    {say(&step_words(by))}
                }
            }
        }
        p { class: "why", {t("sight-nudge-why")} }
        if !stops.is_empty() {
            ul { class: "candidates", role: "status",
                for line in stops {
                    li { {line} }
                }
            }
        }
    }
}
