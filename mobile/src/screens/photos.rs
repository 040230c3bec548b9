//! Photos of the look behind: taken or chosen, seen small, taken out.

use dioxus::prelude::*;
use rakeline_core::job::{JobState, Whose, behind_photos, photo_name};

use crate::driver::{Intent, PhotoIntent, PictureFrom, Shows};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The photos of the bumper or of one head's place, and the buttons for one more.
#[component]
pub fn Photos(job: JobState, whose: Whose) -> Element {
    let shell = use_shell();
    let storing = shell.state.read().drafts.photos.is_storing(&job.id);
    let ask = |from| {
        let shell = shell.clone();
        move |_| shell.send(Intent::Photo(PhotoIntent::Ask(Shows::Behind(whose), from)))
    };
    rsx! {
        for photo in behind_photos(&job, whose) {
            Photo { key: "{photo.blob}", blob: photo.blob.clone(), name: say(&photo_name(&job, photo)) }
        }
        div { class: "things",
            button { class: "also", disabled: storing, onclick: ask(PictureFrom::Camera), {t("behind-photo-take")} }
            button { class: "also", disabled: storing, onclick: ask(PictureFrom::Files), {t("behind-photo-choose")} }
        }
    }
}

/// One photo, small, with its name.
#[component]
fn Photo(blob: String, name: String) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let found = state.drafts.photos.found(&blob);
    let (look, drop) = (shell.clone(), shell.clone());
    let (looked, dropped) = (blob.clone(), blob.clone());
    rsx! {
        figure {
            class: "thumb",
            onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(looked.clone()))),
            match found {
                Some(Ok(url)) => rsx! { img { src: "{url}", alt: "{name}" } },
                Some(Err(why)) => rsx! { p { class: "trouble-box", {say(why)} } },
                None => rsx! { p { role: "status", {t("level-reading-photo")} } },
            }
            figcaption { {name} }
            button {
                class: "plain",
                onclick: move |_| drop.send(Intent::Photo(PhotoIntent::Drop(dropped.clone()))),
                {t("level-drop")}
            }
        }
    }
}
