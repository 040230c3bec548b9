//! What has to be so before an obstacle learn, in one picture.

use dioxus::prelude::*;
use rakeline_core::job::JobState;
use rakeline_core::text::msg;

use crate::texts::{say, t};

/// All cautions of the run in one picture.
#[component]
pub fn Gate(job: JobState) -> Element {
    let sensing = job.kit.sensing.as_ref();
    let area = match sensing.and_then(|sensing| sensing.rated_range) {
        Some(range) => say(&msg("learn-gate-area-range").number("metres", range.0 / 1000.0, 1)),
        None => t("learn-gate-area"),
    };
    let lines = [
        "learn-gate-nobody",
        "learn-gate-brake",
        "learn-gate-park",
        "learn-gate-chocks",
        "learn-gate-ignition",
        "learn-gate-air",
        "caution-maker",
    ];
    rsx! {
        section { class: "caution stack",
            svg {
                class: "drawing gate",
                view_box: "0 0 200 92",
                role: "img",
                "aria-label": t("learn-gate-picture"),
                // The vehicle from above, its rear to the right.
                path { class: "outline", d: "M6 26h58q10 0 12 20q-2 20-12 20H6z" }
                rect { class: "solid", x: "16", y: "19", width: "20", height: "8" }
                rect { class: "solid", x: "16", y: "65", width: "20", height: "8" }
                path { class: "solid", d: "M38 26h9l-9-8zM38 66h9l-9 8zM14 26H5l9-8zM14 66H5l9 8z" }
                // The object that stays.
                rect { class: "tape", x: "77", y: "41", width: "10", height: "10" }
                // What has to be clear.
                path { class: "faint", d: "M78 30L160 6Q192 46 160 86L78 62" }
                path { class: "wrong", d: "M128 34l24 24M152 34l-24 24" }
                circle { class: "outline", cx: "140", cy: "36", r: "5" }
                path { class: "outline", d: "M140 41v14M132 46h16M140 55l-6 11M140 55l6 11" }
            }
            p { b { {t("learn-gate-why")} } }
            ul {
                li { {area} }
                for line in lines {
                    li { {t(line)} }
                }
            }
        }
    }
}
