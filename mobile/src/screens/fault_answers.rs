//! Every question of the search for a fault, and what was answered: for the
//! vehicle, and where it is of use for one head. Each can be changed.

use dioxus::prelude::*;
use rakeline_core::job::{FaultEvent, Finding, Found, JobState, YesNo};
use rakeline_core::text::msg;

use super::fault::event;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// Every question, and what was answered; each can be changed.
#[component]
pub fn Answers(job: JobState) -> Element {
    rsx! {
        details {
            summary {
                {say(&msg("fault-answers").count("answers", i64::try_from(job.fault.found.len()).unwrap_or(0)))}
            }
            ul { class: "stack",
                for finding in Finding::ALL {
                    AnswerRow { key: "{finding:?}", job: job.clone(), finding }
                }
            }
        }
    }
}

/// What was answered at this place itself.
fn own(job: &JobState, finding: Finding, spot: Option<u8>) -> Option<YesNo> {
    let mut found = job.fault.found.iter();
    let found = found.find(|found| found.finding == finding && found.spot == spot)?;
    Some(found.answer)
}

/// A question with its answer for the vehicle, then head by head: those
/// that were answered at once, the others folded.
#[component]
fn AnswerRow(job: JobState, finding: Finding) -> Element {
    let spots = 0..u8::try_from(job.spots.len()).unwrap_or(u8::MAX);
    let heads: Vec<u8> = spots.filter(|_| finding.has_head()).collect();
    let (answered, open): (Vec<u8>, Vec<u8>) = heads
        .into_iter()
        .partition(|spot| own(&job, finding, Some(*spot)).is_some());
    rsx! {
        li { class: "stack",
            p { {say(&finding.message())} }
            Choose { job: job.clone(), finding, spot: None }
            for spot in answered {
                Choose { key: "{spot}", job: job.clone(), finding, spot: Some(spot) }
            }
            if !open.is_empty() {
                details {
                    summary { {t("fault-at-one-head")} }
                    for spot in open {
                        Choose { key: "{spot}", job: job.clone(), finding, spot: Some(spot) }
                    }
                }
            }
        }
    }
}

/// Yes, no, or not known at one place.
#[component]
fn Choose(job: JobState, finding: Finding, spot: Option<u8>) -> Element {
    let shell = use_shell();
    let answer = own(&job, finding, spot);
    let place = spot.and_then(|spot| job.spots.get(usize::from(spot)));
    let head = place.map(|place| msg("evidence-at-head").text("label", place.label.clone()));
    let label = match place {
        Some(place) => msg("fault-asked-at")
            .text("label", place.label.clone())
            .message("question", finding.message()),
        None => finding.message(),
    };
    rsx! {
        if let Some(head) = head {
            p { class: "why capital", {say(&head)} }
        }
        div { class: "choice", role: "group", "aria-label": say(&label),
            for (key , choice) in [("fault-yes", Some(YesNo::Yes)), ("fault-no", Some(YesNo::No)), ("fault-unknown", None)] {
                button {
                    key: "{key}",
                    "aria-pressed": if answer == choice { "true" } else { "false" },
                    onclick: {
                        let shell = shell.clone();
                        move |_| event(&shell, match choice {
                            Some(answer) => FaultEvent::Answered(Found { finding, spot, answer }),
                            None => FaultEvent::NotKnown(finding, spot),
                        })
                    },
                    {t(key)}
                }
            }
        }
    }
}
