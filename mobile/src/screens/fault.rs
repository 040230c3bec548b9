//! Find the fault: what the system does, the next question, the causes in
//! order with what speaks for and against them.

use dioxus::prelude::*;
use rakeline_core::diagnose::{Evidence, Question, Suspect, diagnose, next_question};
use rakeline_core::job::{FaultEvent, Finding, Found, JobEvent, JobState, Symptom, Where, YesNo};
use rakeline_core::text::msg;

use super::fault_answers::Answers;
use super::fault_measures::Measures;
use crate::driver::{Intent, WalkIntent};
use crate::parts::Frame;
use crate::route::Step;
use crate::shell::{Shell, use_shell};
use crate::texts::{say, t};

/// So many causes are shown at once; the rest is folded.
const SHOWN: usize = 4;

pub(super) fn event(shell: &Shell, event: FaultEvent) {
    shell.send(Intent::Fit(Box::new(JobEvent::Fault(event))));
}

/// The screen of the search for a fault.
#[component]
pub fn Fault() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let found = diagnose(job);
    let question = next_question(job, &found, &state.drafts.walk.passed);
    let (likely, rest) = found.suspects.split_at(found.suspects.len().min(SHOWN));
    let none = found.suspects.is_empty();
    let against: Vec<String> = found.contradictions.iter().map(say).collect();
    let (sheet, anew) = (shell.clone(), shell.clone());
    let onward = match question {
        Some(question) => rsx! { Ask { job: job.clone(), question } },
        None if none => rsx! {},
        None => rsx! {
            button {
                class: "do",
                onclick: move |_| sheet.send(Intent::GoStep(Step::Walk)),
                {t("fault-to-walk")}
            }
        },
    };
    rsx! {
        Frame { here: Step::Fault, foot: onward,
            div {
                h1 { {t("fault-title")} }
                p { class: "why", {say(&found.outcome)} }
            }
            Symptoms { job: job.clone() }
            if !against.is_empty() {
                div { class: "trouble-box", role: "status",
                    for line in against {
                        p { {line} }
                    }
                }
            }
            if !none {
                section { class: "stack",
                    h2 { {t("fault-causes")} }
                    ol { class: "rings",
                        for (place , suspect) in likely.iter().enumerate() {
                            Cause { key: "{suspect.cause:?}", job: job.clone(), place, suspect: suspect.clone() }
                        }
                    }
                    details {
                        summary { {say(&msg("fault-others").count("causes", i64::try_from(rest.len()).unwrap_or(0)))} }
                        ol { class: "rings",
                            for (place , suspect) in rest.iter().enumerate() {
                                Cause { key: "{suspect.cause:?}", job: job.clone(), place: place + SHOWN, suspect: suspect.clone() }
                            }
                        }
                    }
                    details {
                        summary { {t("fault-order")} }
                        p { class: "why", {t("fault-order-why")} }
                    }
                }
            }
            Answers { job: job.clone() }
            Measures { job: job.clone() }
            if !none {
                button {
                    class: "plain",
                    onclick: move |_| event(&anew, FaultEvent::Cleared),
                    {t("fault-clear")}
                }
            }
        }
    }
}

/// What the system does; where, for those of which that is of use.
#[component]
fn Symptoms(job: JobState) -> Element {
    let shell = use_shell();
    rsx! {
        section { class: "stack",
            h2 { {t("fault-does")} }
            div { class: "things",
                for symptom in Symptom::ALL {
                    {
                        let said = job.fault.symptoms.contains_key(&symptom);
                        let shell = shell.clone();
                        rsx! {
                            button {
                                key: "{symptom:?}",
                                class: "also at-car",
                                "aria-pressed": if said { "true" } else { "false" },
                                onclick: move |_| event(&shell, if said {
                                    FaultEvent::SymptomTaken(symptom)
                                } else {
                                    FaultEvent::SymptomSaid(symptom, Where::NotKnown)
                                }),
                                {say(&symptom.message())}
                            }
                        }
                    }
                }
            }
            for (symptom , place) in job.fault.symptoms.iter().filter(|(symptom, _)| symptom.has_place()) {
                Place { key: "{symptom:?}", job: job.clone(), symptom: *symptom, place: *place }
            }
        }
    }
}

/// Where it does it.
#[component]
fn Place(job: JobState, symptom: Symptom, place: Where) -> Element {
    let shell = use_shell();
    let heads = (0_u8..).zip(&job.spots).map(|(spot, place)| {
        let words = msg("evidence-at-head").text("label", place.label.clone());
        (Where::Head(spot), say(&words))
    });
    let sides = [
        (Where::NotKnown, t("where-not-known")),
        (Where::Left, t("where-left")),
        (Where::Right, t("where-right")),
    ];
    let places: Vec<(Where, String)> = sides.into_iter().chain(heads).collect();
    rsx! {
        div { class: "stack",
            p { class: "why", {say(&msg("where-does").message("symptom", symptom.message()))} }
            div { class: "chips", role: "group",
                for (which , words) in places {
                    button {
                        key: "{which:?}",
                        class: "also",
                        "aria-pressed": if which == place { "true" } else { "false" },
                        onclick: {
                            let shell = shell.clone();
                            move |_| event(&shell, FaultEvent::SymptomSaid(symptom, which))
                        },
                        {words}
                    }
                }
            }
        }
    }
}

/// The cheapest check of the likeliest cause that is not settled.
#[component]
fn Ask(job: JobState, question: Question) -> Element {
    let shell = use_shell();
    let (finding, spot) = (question.finding, question.spot);
    let pass = shell.clone();
    rsx! {
        p { class: "why", {say(&question.suspect.cause.check())} }
        p { class: "says small", {say(&asked(&job, finding, spot))} }
        div { class: "pair thirds",
            for (key , answer) in [("fault-yes", YesNo::Yes), ("fault-no", YesNo::No)] {
                button {
                    key: "{key}",
                    class: "do at-car",
                    onclick: {
                        let shell = shell.clone();
                        move |_| event(&shell, FaultEvent::Answered(Found { finding, spot, answer }))
                    },
                    {t(key)}
                }
            }
            button {
                class: "also at-car",
                onclick: move |_| pass.send(Intent::Walk(WalkIntent::Pass(finding, spot))),
                {t("fault-pass")}
            }
        }
    }
}

fn asked(job: &JobState, finding: Finding, spot: Option<u8>) -> rakeline_core::text::Message {
    let place = spot.and_then(|spot| job.spots.get(usize::from(spot)));
    match place {
        Some(place) => msg("fault-asked-at")
            .text("label", place.label.clone())
            .message("question", finding.message()),
        None => finding.message(),
    }
}

/// One possible cause.
#[component]
fn Cause(job: JobState, place: usize, suspect: Suspect) -> Element {
    let class = if suspect.is_ruled_out() {
        "ring close"
    } else {
        "ring"
    };
    let unknown: Vec<String> = suspect.unknown.iter().map(say).collect();
    let steps: Vec<String> = suspect.steps.iter().map(say).collect();
    rsx! {
        li { class,
            span { class: "spot", "{place + 1}" }
            span { class: "verdict", {say(&suspect.name(&job))} }
            p { {say(&suspect.cause.check())} }
            if !steps.is_empty() {
                ol { class: "steps small",
                    for line in steps {
                        li { span { {line} } }
                    }
                }
            }
            details {
                summary {
                    {say(&msg("fault-points").count("points", i64::from(suspect.points)))}
                }
                EvidenceList { title: t("fault-for"), list: suspect.for_it.clone() }
                EvidenceList { title: t("fault-against"), list: suspect.against.clone() }
                if !unknown.is_empty() {
                    h2 { {t("fault-not-known")} }
                    ul { class: "candidates",
                        for line in unknown {
                            li { class: "capital", {line} }
                        }
                    }
                }
            }
        }
    }
}

#[component]
fn EvidenceList(title: String, list: Vec<Evidence>) -> Element {
    if list.is_empty() {
        return rsx! {};
    }
    rsx! {
        h2 { {title} }
        ul { class: "candidates",
            for one in list {
                li { {say(&msg("fault-evidence").message("said", one.said).count("points", i64::from(one.points)))} }
            }
        }
    }
}
