//! How this vehicle stands against the earlier ones it took over from.

use dioxus::prelude::*;
use rakeline_core::job::{self, Agrees, BeforeEvent, JobEvent, JobState, Particular};
use rakeline_core::moment;
use rakeline_core::text::msg;

use crate::driver::{AgainIntent, Intent, fitted_before};
use crate::shell::use_shell;

use crate::texts::{say, t};

/// That this job's model was fitted before, while it can still start from
/// that.
#[component]
pub fn FittedBefore() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let (Some(job), Some((jobs, newest))) = (state.job(), fitted_before(&state)) else {
        return rsx! {};
    };
    let vehicle = job.particular(Particular::Vehicle).to_owned();
    let words = msg("again-hint")
        .count("jobs", i64::try_from(jobs).unwrap_or(i64::MAX))
        .text("day", moment::date(&newest));
    let to = shell.clone();
    rsx! {
        div { class: "note-box", role: "status",
            p { {say(&words)} }
            button {
                class: "also",
                onclick: move |_| to.send(Intent::Again(AgainIntent::GoFor(vehicle.clone()))),
                {t("again-hint-go")}
            }
        }
    }
}

/// That the marks come from earlier jobs, and from which.
#[component]
pub fn MarksFromBefore(job: JobState) -> Element {
    let from = job::marks_from_words(&job);
    let Some(best) = from.first() else {
        return rsx! {};
    };
    let more = from.len() - 1;
    let words = msg("before-marks-from")
        .message("from", best.clone())
        .count("more", i64::try_from(more).unwrap_or(i64::MAX));
    rsx! {
        p { class: "why", {say(&words)} }
    }
}

/// What agrees, or by how much it does not and what is open because of it;
/// and where what was taken over comes from.
#[component]
pub fn AgainTaken(job: JobState) -> Element {
    let shell = use_shell();
    let words = job::agreement_words(&job);
    if job.before.from.is_empty() {
        return rsx! {};
    }
    let no = |agrees: Agrees| matches!(agrees, Agrees::No(_));
    let other_bumper = no(job::halves_agree(&job));
    let class = if other_bumper || no(job::faces_agree(&job)) {
        "trouble-box"
    } else {
        "note-box"
    };
    rsx! {
        div { class, role: "status",
            for line in words {
                p { {say(&line)} }
            }
            if other_bumper && job::holds_earlier_bumper(&job) {
                p { {t("before-still-holds")} }
                button {
                    class: "also",
                    onclick: move |_| {
                        let dropped = JobEvent::Before(BeforeEvent::BumperDropped);
                        shell.send(Intent::Fit(Box::new(dropped)));
                    },
                    {t("before-drop-bumper")}
                }
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
