//! What is said at the foot of the screen, with its way back.

use dioxus::prelude::*;

use crate::driver::{AgainIntent, Intent, KitIntent, UndoOf};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The notice, if there is one.
#[component]
pub fn NoticeBar() -> Element {
    let shell = use_shell();
    let Some(notice) = shell.state.read().notice.clone() else {
        return rsx! {};
    };
    let undo = notice.undo.clone();
    let (back, hide) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "bar no-print", role: "status",
            span { {say(&notice.message)} }
            if let Some(undo) = undo {
                button {
                    onclick: move |_| {
                        back.send(match &undo {
                            UndoOf::Deletion(id) => Intent::RestoreJob(id.clone()),
                            UndoOf::Step => Intent::Undo,
                            UndoOf::Kit => Intent::Kits(KitIntent::BringBack),
                            UndoOf::Fleet => Intent::Again(AgainIntent::FleetBringBack),
                            UndoOf::Bought(before) => Intent::Kits(KitIntent::NotRestocked(before.clone())),
                            UndoOf::Received => Intent::Again(AgainIntent::BringBack),
                        });
                    },
                    {t("undo")}
                }
            }
            button {
                "aria-label": t("notice-hide"),
                onclick: move |_| hide.send(Intent::HideNotice),
                "×"
            }
        }
    }
}
