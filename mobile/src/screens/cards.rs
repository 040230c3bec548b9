//! Measuring from photos of mark cards: photos, what was seen in each, what
//! they measured, held against the plan.

use dioxus::prelude::*;
use rakeline_core::job::{
    self, CardPhotosEvent, JobState, ShapeFrom, corners_by_photos, mark_lines, photo_lines,
    zero_words,
};
use rakeline_core::text::{Arg, msg};

use super::card_guide::CardGuide;
use super::card_photo::CardPhotoView;
use super::full_size::CheckLine;
use crate::driver::{CardsIntent, Intent, PictureFrom};
use crate::parts::Frame;
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the photos of mark cards.
#[component]
pub fn Cards() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let draft = &state.drafts.cards;
    let under_way = draft.under_way().as_ref().map(say);
    let trouble = draft.trouble.as_ref().map(say);
    let again = draft.can_try_again();
    let photos = &job.card_photos.photos;
    let ask = |from| {
        let shell = shell.clone();
        move |_| shell.send(Intent::Cards(CardsIntent::Ask(from)))
    };
    let full = photos.len() >= job::CARD_PHOTOS_GREATEST;
    let busy = under_way.is_some() || full;
    let (stop, retry, back) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        Frame {
            here: Step::Cards,
            foot: rsx! {
                if under_way.is_some() {
                    button {
                        class: "also at-car",
                        onclick: move |_| stop.send(Intent::Cards(CardsIntent::Stop)),
                        {t("cards-stop")}
                    }
                } else {
                    button {
                        class: "also at-car",
                        onclick: move |_| back.send(Intent::GoStep(Step::Check)),
                        {t("cards-back")}
                    }
                    button {
                        class: "do at-car",
                        disabled: busy,
                        onclick: ask(PictureFrom::Camera),
                        {t(if photos.is_empty() { "cards-take" } else { "cards-take-more" })}
                    }
                }
            },
            div {
                h1 { {headline(job)} }
                p { class: "why", {t("cards-measure-why")} }
            }
            if let Some(under_way) = under_way {
                p { role: "status", {under_way} }
            }
            if let Some(trouble) = trouble {
                div { class: "trouble-box", role: "alert",
                    p { {trouble} }
                    if again {
                        button {
                            class: "also",
                            onclick: move |_| retry.send(Intent::Cards(CardsIntent::Again)),
                            {t("cards-again")}
                        }
                    }
                }
            }
            CardGuide { full }
            Measured { job: job.clone() }
            if photos.is_empty() {
                ol { class: "steps small",
                    li { {t("cards-shoot-1")} }
                    li { {t("cards-shoot-2")} }
                    li { {t("cards-shoot-3")} }
                }
            } else {
                Missing { job: job.clone() }
            }
            for (index , photo) in photos.iter().enumerate() {
                CardPhotoView { key: "{photo.blob}", job: job.clone(), index }
            }
            button { class: "also", disabled: busy, onclick: ask(PictureFrom::Files), {t("behind-photo-choose")} }
            if full {
                p { class: "why", {t("cards-full")} }
            }
            CheckLine {}
        }
    }
}

fn headline(job: &JobState) -> String {
    let lines = mark_lines(job);
    let off = lines.iter().filter(|line| line.off).count();
    let planned = lines.iter().any(|line| line.against.is_some());
    match (lines.is_empty(), planned, off) {
        (true, ..) => t("cards-measure-title"),
        (false, true, 0) => t("cards-all-on-plan"),
        (false, true, off) => {
            say(&msg("cards-some-off").count("off", i64::try_from(off).unwrap_or(i64::MAX)))
        }
        (false, false, _) => t("cards-measured"),
    }
}

/// Marks that no photo shows.
#[component]
fn Missing(job: JobState) -> Element {
    let missing = job::cards_missing(&job);
    let words = msg("cards-missing").with("cards", Arg::List(missing.clone()));
    rsx! {
        if !missing.is_empty() {
            p { class: "trouble-box", role: "status", {say(&words)} }
        }
    }
}

/// What the photos measured.
#[component]
fn Measured(job: JobState) -> Element {
    let Some(outcome) = &job.card_photos.outcome else {
        return rsx! {};
    };
    let lines = mark_lines(&job);
    rsx! {
        section { class: "stack",
            ol { class: "rings",
                for line in lines {
                    li { key: "{line.label}", class: "ring tape-row",
                        span { class: "spot", {line.label.clone()} }
                        span { class: if line.off { "verdict trouble" } else { "verdict" },
                            {say(&line.at)}
                        }
                        if let Some(against) = line.against {
                            span { class: if line.off { "trouble" } else { "why" }, {say(&against)} }
                        }
                    }
                }
            }
            p { class: "why", {say(&zero_words(outcome))} }
            details { class: "fold", open: true,
                summary { h2 { {t("cards-distances")} } }
                ul { class: "candidates",
                    for line in photo_lines(&job) {
                        li { {say(&line)} }
                    }
                }
            }
            Shape { job: job.clone() }
        }
    }
}

/// The shape from above that the photos gave, and whether it counts.
#[component]
fn Shape(job: JobState) -> Element {
    let shell = use_shell();
    let corners = corners_by_photos(&job);
    if corners.is_empty() {
        return rsx! {};
    }
    let counts = job.card_photos.shape == ShapeFrom::Photos;
    let other = if counts {
        ShapeFrom::Angles
    } else {
        ShapeFrom::Photos
    };
    rsx! {
        details { class: "fold",
            summary { h2 { {t("cards-shape")} } }
            p { class: "why", {t("cards-shape-why")} }
            ul { class: "candidates",
                for line in corners {
                    li { {say(&line)} }
                }
            }
            p { role: "status", {t(if counts { "cards-shape-counts" } else { "cards-shape-checks" })} }
            button {
                class: "also",
                onclick: move |_| {
                    let chosen = CardPhotosEvent::ShapeChosen(other);
                    shell.send(Intent::Cards(CardsIntent::Said(chosen)));
                },
                {t(if counts { "cards-shape-drop" } else { "cards-shape-take" })}
            }
        }
    }
}
