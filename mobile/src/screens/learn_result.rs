//! How an obstacle learn ended, what stands about the box, and runs before.

use dioxus::prelude::*;
use rakeline_core::drawing::learn_timeline;
use rakeline_core::job::{self, Attempt, JobState, LearnedEvent};
use rakeline_core::learn::{Outcome, Phase, Proof, Ways};
use rakeline_core::moment;
use rakeline_core::text::msg;

use super::learn::fit;
use super::learn_ear::Hearing;
use super::learn_gate::Gate;
use crate::driver::{Intent, LearnDraft, LearnIntent};
use crate::parts::DrawingView;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// How the run ended and what to do.
#[component]
pub fn Result(job: JobState, draft: LearnDraft) -> Element {
    let shell = use_shell();
    let Some(run) = &draft.run else {
        return rsx! {};
    };
    let proof = Proof::of(run);
    let remedy = match run.phase {
        Phase::Failed(why) => Some(say(&why.remedy(&run.procedure))),
        Phase::Interrupted(_) => Some(t("learn-do-cancelled")),
        Phase::ByHand if run.ways == Ways::Microphone => Some(t("learn-do-by-sound")),
        Phase::ByHand => Some(t("learn-do-by-hand")),
        _ => Some(t("learn-do-learned")),
    };
    let good = matches!(run.phase, Phase::Learned);
    let slip = run.can_undo(draft.at);
    let again = matches!(run.phase, Phase::Learned | Phase::ByHand);
    let (undo, once_more, away) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        div { class: if good { "ring wide" } else { "ring wide none" }, role: "status",
            h1 { {say(&proof.message())} }
            if let Some(remedy) = remedy {
                p { {remedy} }
            }
            if slip {
                button {
                    class: "also at-car",
                    onclick: move |_| undo.send(Intent::Learn(LearnIntent::Undo)),
                    {t("learn-undo")}
                }
            }
        }
        p { {say(&proof.summary())} }
        if let Some(tone) = proof.listened_at() {
            p { class: "why", {say(&tone)} }
        }
        for doubt in &proof.doubts {
            p { class: "trouble-box", {say(&doubt.message())} }
        }
        if !proof.cycles.is_empty() {
            DrawingView { drawing: learn_timeline(&proof) }
        }
        // The gate is read anew before every run; the press says so.
        if again {
            details {
                summary { {t("learn-once-more")} }
                Gate { job: job.clone() }
                button {
                    class: "also",
                    onclick: move |_| once_more.send(Intent::Learn(LearnIntent::Again)),
                    {t("learn-again-gate")}
                }
            }
        } else {
            Hearing { draft: draft.clone() }
            Gate { job: job.clone() }
        }
        button {
            class: "plain",
            onclick: move |_| away.send(Intent::Learn(LearnIntent::Done)),
            {t("learn-done")}
        }
        if job.learned.attempts.is_empty() {
            p { class: "why", {t("learn-kept-soon")} }
        }
    }
}

/// What stands about the box, and how to clear it.
#[component]
pub fn Standing(job: JobState) -> Element {
    let shell = use_shell();
    let stands = job::ignores(&job);
    let customer = stands.for_customer();
    if customer.is_none() {
        return rsx! {};
    }
    let trouble = stands == job::Ignores::NotKnown;
    rsx! {
        section { class: if trouble { "trouble-box stack" } else { "note-box stack" },
            h2 { {say(&stands.message())} }
            if let Some(customer) = customer {
                p { {say(&msg("sheet-for-customer").message("line", customer))} }
            }
            p { {say(&job::how_cleared(&job))} }
            button {
                class: "also",
                onclick: move |_| shell.send(fit(LearnedEvent::Cleared)),
                {t("learn-cleared")}
            }
        }
    }
}

/// Runs before, last first.
#[component]
pub fn Attempts(job: JobState, but_last: bool) -> Element {
    let skip = usize::from(but_last);
    let attempts: Vec<(usize, Attempt)> = job
        .learned
        .attempts
        .iter()
        .cloned()
        .enumerate()
        .rev()
        .skip(skip)
        .collect();
    if attempts.is_empty() {
        return rsx! {};
    }
    rsx! {
        details {
            summary { {say(&msg("learn-attempts").count("count", i64::try_from(attempts.len()).unwrap_or(i64::MAX)))} }
            ol { class: "rings",
                for (number , attempt) in attempts {
                    li {
                        key: "{number}",
                        class: if attempt.proof.outcome == Outcome::Learned { "ring wide" } else { "ring wide close" },
                        span { class: "verdict", {say(&attempt.proof.message())} }
                        span { class: "aim", {moment::day_and_clock(&attempt.at)} }
                        p { {say(&attempt.proof.summary())} }
                        if !attempt.proof.cycles.is_empty() {
                            DrawingView { drawing: learn_timeline(&attempt.proof) }
                        }
                    }
                }
            }
        }
    }
}
