//! Obstacle learn: zone shift first, what is to be ignored, the gate in one
//! picture, how to count; after a run its result and those before it.

use chrono::{DateTime, FixedOffset};
use dioxus::prelude::*;
use rakeline_core::job::{self, Field, JobEvent, JobState, LearnedEvent, Object, ShiftTried};
use rakeline_core::learn::{self, NotGiven, Phase, Ways};
use rakeline_core::text::msg;

use super::learn_ear::Counting;
use super::learn_gate::Gate;
use super::learn_result::{Attempts, Result, Standing};
use super::learn_run::LearnRun;
use crate::driver::{Ear, Intent, LearnDraft, LearnIntent};
use crate::parts::{AskedFields, Frame, Kind, TypedEntry};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// What the button at the foot does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Next {
    /// Something above has to be answered first.
    Answer,
    Heed,
    Listen,
    Start,
    Again,
    Onward,
}

fn next(job: &JobState, draft: &LearnDraft, at: DateTime<FixedOffset>) -> Next {
    let learned = &job.learned;
    if draft.run.is_some() {
        return match draft.run.as_ref().map(|run| run.phase) {
            Some(Phase::Learned | Phase::ByHand) => Next::Onward,
            _ => Next::Again,
        };
    }
    let Ok(procedure) = learn::procedure(&job.kit) else {
        return Next::Answer;
    };
    let by_ear = procedure.beeps() && draft.ways != Ways::Hand;
    if learned.object.is_none() && job::shift_tried(job) == Some(ShiftTried::Enough) {
        Next::Onward
    } else if learned.object.is_none() {
        Next::Answer
    } else if !job::learn_gate_open(job, at) {
        Next::Heed
    } else if by_ear && !matches!(draft.ear, Ear::On(_)) {
        Next::Listen
    } else {
        Next::Start
    }
}

/// The screen of the obstacle learn.
#[component]
pub fn Learn() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let draft = &state.drafts.learn;
    if draft.is_on() {
        return rsx! { LearnRun {} };
    }
    let at = shell.now().at;
    let next = next(job, draft, at);
    let fact = |event| Intent::Fit(Box::new(JobEvent::Learned(event)));
    let (words, intent) = match next {
        Next::Answer => ("learn-to-start", None),
        Next::Heed => ("all-of-this-is-so", Some(fact(LearnedEvent::GateHeeded))),
        Next::Listen if draft.ear == Ear::Starting => ("learn-ear-starts", None),
        Next::Listen => ("learn-listen", Some(Intent::Learn(LearnIntent::Listen))),
        Next::Start => ("learn-to-start", Some(Intent::Learn(LearnIntent::Start))),
        Next::Again => ("learn-again-gate", Some(Intent::Learn(LearnIntent::Again))),
        Next::Onward => ("to-walk", Some(Intent::GoStep(Step::Walk))),
    };
    let over = draft.run.is_some();
    let gate_is_next = next == Next::Heed;
    let open: Vec<String> = match next {
        Next::Answer => job::learn_open(job, at).iter().map(say).collect(),
        _ => Vec::new(),
    };
    let act = shell.clone();
    rsx! {
        Frame {
            here: Step::Learn,
            foot: rsx! {
                button {
                    class: "do at-car",
                    disabled: intent.is_none(),
                    onclick: move |_| {
                        if let Some(intent) = intent.clone() {
                            act.send(intent);
                        }
                    },
                    {t(words)}
                }
            },
            if over {
                Result { job: job.clone(), draft: draft.clone() }
            } else {
                div {
                    h1 { {say(&job::learn_headline(job))} }
                    p { class: "why", {t("learn-why")} }
                    if !open.is_empty() {
                        ul { class: "candidates",
                            for line in open {
                                li { {line} }
                            }
                        }
                    }
                }
                if gate_is_next {
                    Gate { job: job.clone() }
                }
                Shift { job: job.clone() }
                if job::shift_tried(job) != Some(ShiftTried::Enough) {
                    What { job: job.clone() }
                    Procedure { job: job.clone() }
                    Counting { job: job.clone(), draft: draft.clone() }
                }
                if !gate_is_next && job::learn_gate_open(job, at) {
                    details {
                        summary { {t("learn-gate-heeded")} }
                        Gate { job: job.clone() }
                    }
                }
            }
            Standing { job: job.clone() }
            Attempts { job: job.clone(), but_last: over }
        }
    }
}

/// Moving the near zone out comes first: it ignores nothing.
#[component]
fn Shift(job: JobState) -> Element {
    let shell = use_shell();
    let Some(shift) = job::shift_offered(&job) else {
        return rsx! {};
    };
    let offer = msg("learn-shift-offer")
        .mm("distance", shift.distance.0)
        .text("how", shift.how.clone().unwrap_or_default());
    let ways = [
        (ShiftTried::Enough, "learn-shift-say-enough"),
        (ShiftTried::NotEnough, "learn-shift-say-not-enough"),
        (ShiftTried::NotTried, "learn-shift-say-not-tried"),
    ];
    rsx! {
        section { class: "note-box stack",
            h2 { {t("learn-shift-first")} }
            p { {say(&offer)} }
            div { class: "choice tall", role: "group", "aria-label": t("learn-shift-first"),
                for (tried , words) in ways {
                    button {
                        key: "{words}",
                        "aria-pressed": "{job.learned.shift == Some(tried)}",
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(fit(LearnedEvent::ShiftTried(tried)))
                        },
                        {t(words)}
                    }
                }
            }
        }
    }
}

pub(super) fn fit(event: LearnedEvent) -> Intent {
    Intent::Fit(Box::new(JobEvent::Learned(event)))
}

/// What is to be ignored.
#[component]
fn What(job: JobState) -> Element {
    let shell = use_shell();
    let keep = shell.clone();
    let other = match &job.learned.object {
        Some(other @ Object::Other(_)) => Some(say(&other.name())),
        _ => None,
    };
    let typed = !job.typed(Field::LearnObject).trim().is_empty();
    rsx! {
        section { class: "stack",
            h2 { {t("learn-what")} }
            div { class: "things",
                for object in Object::NAMED {
                    button {
                        class: "also capital",
                        "aria-pressed": "{job.learned.object.as_ref() == Some(&object)}",
                        onclick: {
                            let (shell, object) = (shell.clone(), object.clone());
                            move |_| shell.send(fit(LearnedEvent::ObjectPicked(object.clone())))
                        },
                        {say(&object.name())}
                    }
                }
            }
            if let Some(other) = other {
                p { class: "says", {other} }
            }
            div { class: "pair",
                TypedEntry {
                    id: "learn-object",
                    job: job.clone(),
                    field: Field::LearnObject,
                    kind: Kind::Words,
                    label: t("learn-what-else"),
                }
                button {
                    class: "also beside",
                    disabled: !typed,
                    onclick: move |_| keep.send(fit(LearnedEvent::ObjectTyped)),
                    {t("learn-what-keep")}
                }
            }
        }
    }
}

/// What the kit wants; what its sheet does not say is asked.
#[component]
fn Procedure(job: JobState) -> Element {
    let shell = use_shell();
    match learn::procedure(&job.kit) {
        Ok(procedure) => rsx! {
            p { class: "says", {say(&procedure.message())} }
        },
        Err(asked @ NotGiven::CyclesAndQuiet) => rsx! {
            p { {say(&asked.message())} }
            AskedFields { job: job.clone(), asked: job::asked_for_learn(&job) }
        },
        Err(asked @ NotGiven::LastBeep) => {
            let say_it = |beeps| fit(LearnedEvent::LastBeepSaid { beeps });
            let other = shell.clone();
            rsx! {
                section { class: "note-box stack",
                    p { {say(&asked.message())} }
                    div { class: "choice tall",
                        button {
                            onclick: move |_| shell.send(say_it(true)),
                            {t("learn-last-beeps")}
                        }
                        button {
                            onclick: move |_| other.send(say_it(false)),
                            {t("learn-last-silent")}
                        }
                    }
                }
            }
        }
    }
}
