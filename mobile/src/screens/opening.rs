//! While records are read.

use dioxus::prelude::*;

use crate::texts::t;

/// Says that the app is opening.
#[component]
pub fn Opening() -> Element {
    rsx! {
        div { class: "opening", role: "status", {t("opening")} }
    }
}
