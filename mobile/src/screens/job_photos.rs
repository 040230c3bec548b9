//! Photos at steps and of finished heads: taken, seen, drawn on, taken out.

use dioxus::prelude::*;
use rakeline_core::job::{JobState, Photo, PhotoOf, head_photo, heads_without_photo, photos_of};
use rakeline_core::moment;
use rakeline_core::text::msg;

use super::photo_notes::Drawn;
use crate::driver::{Intent, PhotoIntent, PictureFrom, Shows};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The photos of a step, and the buttons for one more while it is due.
#[component]
pub fn StepPhotos(job: JobState, of: PhotoOf, due: bool) -> Element {
    rsx! {
        for photo in photos_of(&job, &of) {
            Kept {
                key: "{photo.blob}",
                name: say(&msg("photo-at").text("when", moment::day_and_clock(&photo.at))),
                photo: photo.clone(),
            }
        }
        if due {
            Ask { of: of.clone(), camera: t("behind-photo-take"), strong: false }
        }
    }
}

/// A photo of every finished head, one after the other.
#[component]
pub fn HeadPhotos(job: JobState) -> Element {
    let missing = heads_without_photo(&job);
    let heads = job.spots.len();
    let taken = heads - missing.len();
    let next = missing
        .first()
        .and_then(|head| Some((*head, job.spots.get(usize::from(*head))?.label.clone())));
    let title = msg("head-photos")
        .count("taken", i64::try_from(taken).unwrap_or(i64::MAX))
        .count("heads", i64::try_from(heads).unwrap_or(i64::MAX));
    let shots: Vec<(u8, String, Photo)> = (0_u8..)
        .zip(&job.spots)
        .filter_map(|(head, spot)| {
            Some((head, spot.label.clone(), head_photo(&job, head)?.clone()))
        })
        .collect();
    rsx! {
        details { class: "fold no-print", open: taken > 0 && taken < heads,
            summary { h2 { {say(&title)} } }
            p { class: "why", {t("head-photos-why")} }
            if let Some((head, label)) = next {
                Ask {
                    of: PhotoOf::Head(head),
                    camera: say(&msg("head-photo-take").text("label", label)),
                    strong: true,
                }
            }
            for (head , label , photo) in shots {
                Kept {
                    key: "{photo.blob}",
                    name: say(&msg("sheet-head-photo").text("label", label.clone())),
                    photo,
                }
                Ask {
                    of: PhotoOf::Head(head),
                    camera: say(&msg("head-photo-again").text("label", label)),
                    strong: false,
                }
            }
        }
    }
}

/// The buttons for a photo.
#[component]
fn Ask(of: PhotoOf, camera: String, strong: bool) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let photos = &state.drafts.photos;
    let storing = state.job().is_some_and(|job| photos.is_storing(&job.id));
    let ask = |from| {
        let (shell, of) = (shell.clone(), of.clone());
        move |_| {
            let shows = Shows::Job(of.clone());
            shell.send(Intent::Photo(PhotoIntent::Ask(shows, from)));
        }
    };
    rsx! {
        div { class: "things",
            button {
                class: if strong { "do" } else { "also" },
                disabled: storing,
                onclick: ask(PictureFrom::Camera),
                {camera}
            }
            button { class: "also", disabled: storing, onclick: ask(PictureFrom::Files), {t("behind-photo-choose")} }
        }
    }
}

/// A kept photo: small, or large to draw on.
#[component]
fn Kept(photo: Photo, name: String) -> Element {
    let shell = use_shell();
    let mut large = use_signal(|| false);
    let state = shell.state.read();
    let found = state.drafts.photos.found(&photo.blob).cloned();
    let (look, drop) = (shell.clone(), shell.clone());
    let (looked, dropped) = (photo.blob.clone(), photo.blob.clone());
    rsx! {
        figure {
            class: if large() { "thumb large" } else { "thumb" },
            onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(looked.clone()))),
            match found {
                Some(Ok(url)) => rsx! { Drawn { blob: photo.blob.clone(), size: (photo.width, photo.height), notes: photo.notes.clone(), url, name: name.clone(), large: large() } },
                Some(Err(why)) => rsx! { p { class: "trouble-box", {say(&why)} } },
                None => rsx! { p { role: "status", {t("level-reading-photo")} } },
            }
            figcaption { {name} }
            div { class: "things",
                button {
                    class: "plain",
                    "aria-expanded": if large() { "true" } else { "false" },
                    onclick: move |_| large.toggle(),
                    {t(if large() { "photo-smaller" } else { "photo-draw" })}
                }
                button {
                    class: "plain",
                    onclick: move |_| drop.send(Intent::Photo(PhotoIntent::Drop(dropped.clone()))),
                    {t("level-drop")}
                }
            }
        }
    }
}
