//! How this vehicle stands against the earlier ones it took over from.

use dioxus::prelude::*;
use rakeline_core::job::{self, Agrees, JobState};

use crate::texts::{say, t};

/// What agrees, or by how much it does not and what is open because of it;
/// and where what was taken over comes from.
#[component]
pub fn AgainTaken(job: JobState) -> Element {
    let words = job::agreement_words(&job);
    if words.is_empty() {
        return rsx! {};
    }
    let no = |agrees: Agrees| matches!(agrees, Agrees::No(_));
    let class = if no(job::halves_agree(&job)) || no(job::faces_agree(&job)) {
        "trouble-box"
    } else {
        "note-box"
    };
    rsx! {
        div { class, role: "status",
            for line in words {
                p { {say(&line)} }
            }
            details {
                summary { {t("before-from-which")} }
                ul { class: "candidates",
                    for (index , from) in job.before.from.iter().enumerate() {
                        li { key: "{index}",
                            {say(&from.message())}
                            " · "
                            {crate::texts::plain(&from.vehicle)}
                        }
                    }
                }
                p { class: "why", {t("before-never")} }
            }
        }
    }
}
