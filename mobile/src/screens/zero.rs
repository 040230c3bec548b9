//! Zero the phone: led pose by pose, before and after, age.

use dioxus::prelude::*;
use rakeline_core::estimate::rake::Side;
use rakeline_core::estimate::zero::poses::{Pose, table_poses_buy};
use rakeline_core::estimate::zero::{Phone, Zeroing};
use rakeline_core::text::msg;

use super::phone_form::PhoneForm;
use crate::driver::{Intent, Measure, Target, phone_in_use, zeroing_age};
use crate::parts::{Figures, Frame, HeldBox};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of zeroing.
#[component]
pub fn Zero() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = state.drafts.zero.clone();
    let pose = match state.reading.as_ref().map(|held| held.target) {
        Some(Target::Pose(pose)) => Some(pose),
        _ => None,
    };
    let (phone, renewal) = phone_in_use(&state, &shell.now());
    let zeroing = state.settings.phone.zeroing.clone();
    let fault = draft.fault.as_ref().map(say);
    let tables = pose.is_none() && draft.poses.len() == Pose::WALL;
    let fresh = !draft.poses.is_empty();
    let can_put_back = draft.before.is_some();
    let stops = pose.is_some();
    let (start, stop, more, back, faces) = (
        shell.clone(),
        shell.clone(),
        shell.clone(),
        shell.clone(),
        shell.clone(),
    );
    let start_word = if matches!(phone, Phone::Zeroed(_)) {
        "zero-again"
    } else {
        "zero-start"
    };
    rsx! {
        Frame {
            here: Step::Zero,
            foot: rsx! {
                if stops {
                    button {
                        class: "also at-car",
                        onclick: move |_| stop.send(Intent::Measure(Measure::Stop)),
                        {t("stop-reading")}
                    }
                } else if tables {
                    button {
                        class: "also at-car",
                        onclick: move |_| more.send(Intent::Measure(Measure::ZeroTables)),
                        {t("zero-tables")}
                    }
                    button {
                        class: "do at-car",
                        onclick: move |_| faces.send(Intent::GoStep(Step::Faces)),
                        {t("back-to-faces")}
                    }
                } else if fresh {
                    button {
                        class: "do at-car",
                        onclick: move |_| faces.send(Intent::GoStep(Step::Faces)),
                        {t("back-to-faces")}
                    }
                } else {
                    button {
                        class: "do at-car",
                        onclick: move |_| start.send(Intent::Measure(Measure::ZeroStart)),
                        {t(start_word)}
                    }
                }
            },
            if let Some(pose) = pose {
                Asked { pose }
                HeldBox { figures: Figures::None }
            } else {
                div {
                    h1 { {t("zero-title")} }
                    p { class: "why", {t("zero-why")} }
                }
                if let Some(fault) = fault {
                    div { class: "trouble-box", role: "alert", {fault} }
                }
                if let Some(renewal) = renewal {
                    div { class: "trouble-box", role: "status", {say(&renewal)} }
                }
                if let Some(zeroing) = zeroing {
                    Found { zeroing: zeroing.clone() }
                    if tables {
                        p { {say(&table_poses_buy(zeroing.kind))} }
                    }
                } else {
                    div { class: "note-box", {t("zero-none")} }
                }
                if can_put_back {
                    button {
                        class: "plain",
                        onclick: move |_| back.send(Intent::Measure(Measure::ZeroPutBack)),
                        {t("zero-put-back")}
                    }
                }
                PhoneForm {}
            }
        }
    }
}

/// The pose that is asked for, large enough to be read from beside.
#[component]
fn Asked(pose: Pose) -> Element {
    let number = Pose::ALL.iter().position(|other| *other == pose);
    let number = number.map_or(1, |index| index + 1);
    let of = if number > Pose::WALL { 6 } else { 4 };
    rsx! {
        div {
            p { class: "why",
                {say(&msg("zero-pose-number").count("number", i64::try_from(number).unwrap_or(1)).count("of", of))}
            }
            h1 { class: "asked", {say(&pose.ask())} }
            p { class: "why", {t("zero-listen")} }
        }
    }
}

/// What zeroing found: before and after, spread, age.
#[component]
fn Found(zeroing: Zeroing) -> Element {
    let shell = use_shell();
    let upright = zeroing.poses.first().map(|pose| pose.still);
    let left = upright
        .and_then(|still| zeroing.rake(&still, Side::Back))
        .map_or(0.0, |rake| rake.expanded().0);
    let off = zeroing.was_off_by.0;
    let before = msg(if off < 0.0 {
        "zero-before-down"
    } else {
        "zero-before-up"
    });
    let days = zeroing_age(&zeroing, &shell.now());
    rsx! {
        dl { class: "pairs",
            dt { {t("zero-before")} }
            dd { {say(&before.deg("off", off.abs()))} }
            dt { {t("zero-after")} }
            dd { {say(&msg("zero-after-is").number("plus", left, 1))} }
            dt { {t("zero-spread")} }
            dd { {say(&msg("zero-spread-is").number("spread", zeroing.spread.0, 2))} }
            dt { {t("zero-age")} }
            dd { {say(&msg("zero-age-is").count("days", days))} }
        }
    }
}
