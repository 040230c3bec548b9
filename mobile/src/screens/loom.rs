//! Leads and supply.

use dioxus::prelude::*;
use rakeline_core::decide::leads::{LeadKit, RouteRule};
use rakeline_core::job::{
    self, Field, JobEvent, JobState, LoomEvent, WhichLead, lead_name, lead_plan,
};
use rakeline_core::text::msg;

use super::place_words::PlaceWords;
use super::supply::Supply;
use crate::driver::Intent;
use crate::parts::{AskedFields, Cautions, Frame, TypedEntry};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of leads and supply.
#[component]
pub fn Loom() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let kept = job.loom.rules.len() == RouteRule::ALL.len();
    let rules: Vec<String> = RouteRule::ALL
        .iter()
        .map(|rule| say(&rule.message()))
        .collect();
    let open: Vec<String> = job::loom_open(job).iter().map(say).collect();
    let (keep, onward, parts) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        Frame {
            here: Step::Loom,
            foot: rsx! {
                button {
                    class: "do",
                    onclick: move |_| onward.send(Intent::GoStep(Step::Learn)),
                    {t("to-learn")}
                }
            },
            div {
                h1 { {say(&job::loom_headline(job))} }
                if !open.is_empty() {
                    ul { class: "candidates",
                        for line in open {
                            li { {line} }
                        }
                    }
                }
            }
            h2 { {t("loom-leads")} }
            p { class: "why", {t("loom-leads-why")} }
            div { class: "side-by-side",
                TypedEntry {
                    id: "grommet-to-box",
                    job: job.clone(),
                    field: Field::GrommetToBox,
                    label: t("loom-grommet-to-box"),
                    wrong: not_a_length(job, Field::GrommetToBox),
                    note: t("in-mm"),
                }
                TypedEntry {
                    id: "slack",
                    job: job.clone(),
                    field: Field::Slack,
                    label: t("loom-slack"),
                    wrong: not_a_length(job, Field::Slack),
                    note: t("loom-slack-note"),
                }
            }
            PlaceWords { job: job.clone(), step: "grommet", label: "place-grommet" }
            LeadKits { kit: job.loom.lead_kit }
            AskedFields { job: job.clone(), asked: job::asked_for_leads(job) }
            ol { class: "rings",
                for which in job::leads_of(job) {
                    LeadCard { key: "{which:?}", job: job.clone(), which }
                }
            }
            Cautions { lines: rules }
            if kept {
                p { class: "why", {t("loom-rules-kept")} }
            } else {
                button {
                    class: "also at-car",
                    onclick: move |_| keep.send(Intent::Fit(Box::new(JobEvent::Loom(LoomEvent::RulesKept)))),
                    {t("loom-rules-keep")}
                }
            }
            Supply { job: job.clone() }
            button {
                class: "plain",
                onclick: move |_| parts.send(Intent::GoStep(Step::Parts)),
                {t("to-parts")}
            }
        }
    }
}

/// Which leads of the kit are laid.
#[component]
fn LeadKits(kit: LeadKit) -> Element {
    let shell = use_shell();
    rsx! {
        fieldset { class: "field",
            legend { {t("lead-kit-title")} }
            div { class: "choice",
                for choice in LeadKit::ALL {
                    button {
                        key: "{choice:?}",
                        "aria-pressed": if kit == choice { "true" } else { "false" },
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::Fit(Box::new(JobEvent::Loom(LoomEvent::LeadKitChosen(choice)))))
                        },
                        {say(&choice.message())}
                    }
                }
            }
        }
    }
}

fn not_a_length(job: &JobState, field: Field) -> Option<String> {
    let typed = job.typed(field);
    if typed.trim().is_empty() {
        return None;
    }
    job::read_length(typed).err().as_ref().map(say)
}

/// One lead: its route as typed and what that comes to.
#[component]
fn LeadCard(job: JobState, which: WhichLead) -> Element {
    let found = lead_plan(&job, which);
    let class = match found {
        None => "ring close",
        Some(Ok(_)) => "ring",
        Some(Err(_)) => "ring none",
    };
    let id = match which {
        WhichLead::Spot(spot) => format!("{spot}"),
        WhichLead::Display => "display".to_owned(),
        WhichLead::Speaker => "speaker".to_owned(),
        WhichLead::Supply => "supply".to_owned(),
    };
    let label = match which {
        WhichLead::Spot(spot) => msg("loom-spot-to-grommet").text(
            "label",
            job.spots
                .get(usize::from(spot))
                .map_or("", |spot| &spot.label)
                .to_owned(),
        ),
        _ => msg("loom-route-of").message("lead", lead_name(&job, which)),
    };
    let straight = msg("loom-straight").message("lead", lead_name(&job, which));
    rsx! {
        li { class: "{class} wide",
            TypedEntry {
                id: "route-{id}",
                job: job.clone(),
                field: Field::Route(which),
                label: say(&label),
                note: t("in-mm"),
            }
            match &found {
                Some(Ok(plan)) => rsx! { p { {say(&plan.message())} } },
                Some(Err(why)) => rsx! { p { {say(why)} } },
                None => rsx! {},
            }
            details {
                summary { {t("loom-straight-fold")} }
                TypedEntry {
                    id: "straight-{id}",
                    job: job.clone(),
                    field: Field::Straight(which),
                    label: say(&straight),
                    wrong: not_a_length(&job, Field::Straight(which)),
                    note: t("loom-straight-note"),
                }
            }
        }
    }
}
