//! Another set than the rule's, with the reason.

use dioxus::prelude::*;
use rakeline_core::job::{self, Field, JobEvent, JobState, RingsEvent, TakenBy};
use rakeline_core::text::msg;

use crate::driver::Intent;
use crate::parts::{Kind, TypedEntry};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// Sets to take by hand at a spot.
#[component]
pub fn ByHand(job: JobState, index: usize) -> Element {
    let shell = use_shell();
    let spot = u8::try_from(index).unwrap_or(u8::MAX);
    let Some(choice) = job.spots.get(index).and_then(|s| job::ring_choice(&job, s)) else {
        return rsx! {};
    };
    let taken = job::set_taken(&job, index);
    let by_hand = taken
        .as_ref()
        .is_some_and(|taken| matches!(taken.by, TakenBy::Hand(_)));
    let reason = job.typed(Field::HandReason(spot)).to_owned();
    let sets: Vec<_> = choice.candidates.iter().map(|c| c.set(&job.kit)).collect();
    let back = shell.clone();
    rsx! {
        details {
            summary { {t("ring-by-hand")} }
            div { class: "stack",
                TypedEntry {
                    id: "hand-reason-{index}",
                    job: job.clone(),
                    field: Field::HandReason(spot),
                    kind: Kind::Words,
                    label: t("ring-by-hand-reason"),
                    note: t("ring-by-hand-note"),
                }
                div { class: "things",
                    for set in sets {
                        button {
                            key: "{set:?}",
                            class: "also",
                            "aria-pressed": if taken.as_ref().is_some_and(|t| t.set == set) { "true" } else { "false" },
                            onclick: {
                                let (shell, reason, set) = (shell.clone(), reason.clone(), set.clone());
                                move |_| {
                                    let event = RingsEvent::ByHand { spot, set: set.clone(), reason: reason.clone() };
                                    shell.send(Intent::Fit(Box::new(JobEvent::Rings(event))));
                                }
                            },
                            {say(&msg("ring-take").message("set", set.name()))}
                        }
                    }
                }
                if by_hand {
                    button {
                        class: "plain",
                        onclick: move |_| back.send(Intent::Fit(Box::new(JobEvent::Rings(RingsEvent::ByRule(spot))))),
                        {t("ring-by-rule")}
                    }
                }
            }
        }
    }
}
