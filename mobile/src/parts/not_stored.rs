//! A photo that could not be stored yet.

use dioxus::prelude::*;
use rakeline_core::text::msg;

use crate::driver::{Intent, PhotoIntent};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// A photo that found no room: it is kept on the screen until it is stored
/// or given up.
#[component]
pub fn NotStored() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let photos = &state.drafts.photos;
    let why = state.job().and_then(|job| photos.not_stored(&job.id));
    let Some(why) = why.cloned() else {
        return rsx! {};
    };
    let (again, give_up) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "trouble-box", role: "alert",
            p { {say(&msg("photo-not-stored").message("why", why))} }
            div { class: "pair",
                button {
                    class: "also",
                    onclick: move |_| again.send(Intent::Photo(PhotoIntent::StoreAgain)),
                    {t("photo-store-again")}
                }
                button {
                    class: "also",
                    onclick: move |_| give_up.send(Intent::Photo(PhotoIntent::GiveUp)),
                    {t("photo-give-up")}
                }
            }
        }
    }
}
