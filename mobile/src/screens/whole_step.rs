//! One step of the whole job.

use dioxus::prelude::*;
use rakeline_core::job::{
    self, JobEvent, JobState, PhotoOf, StepStands, StepsEvent, Wait, WaitEvent,
};
use rakeline_core::moment;
use rakeline_core::steps::{Asks, Screen, StepSheet};
use rakeline_core::text::msg;

use super::job_photos::StepPhotos;
use super::whole::fit;
use crate::driver::Intent;
use crate::parts::{Entry, Kind};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the app that does a step.
pub(super) fn step_of(screen: Screen) -> Option<Step> {
    Some(match screen {
        Screen::Quote => Step::Parts,
        Screen::Behind => Step::Behind,
        Screen::Marks => Step::Measures,
        Screen::Tape => Step::Marks,
        Screen::Faces => Step::Faces,
        Screen::Rings => Step::Rings,
        Screen::TapeCheck | Screen::Agreement => Step::Check,
        Screen::Holes => Step::Holes,
        Screen::Leads | Screen::Supply => Step::Loom,
        Screen::Learn => Step::Learn,
        Screen::Walk => Step::Walk,
        Screen::HeadPhotos | Screen::Sheet => Step::Sheet,
    })
}

/// A step: what, why and how folded, its caution, what to record.
#[component]
pub fn OneStep(
    sheet: StepSheet,
    stands: StepStands,
    missing: Vec<String>,
    held_by: Option<Wait>,
    job: JobState,
) -> Element {
    let shell = use_shell();
    let (class, word) = match &stands {
        StepStands::Done => ("done", t("stage-done")),
        StepStands::Skipped(_) => ("skipped", t("step-skipped")),
        StepStands::Blocked(_) => ("shut", t("stage-shut")),
        StepStands::Due => ("", t("stage-due")),
    };
    let due = stands == StepStands::Due;
    let by_kit: Vec<String> = job::kit_says(&job, &sheet.name).iter().map(say).collect();
    let ended = job.steps.ended.contains_key(&sheet.name);
    let name = sheet.name.clone();
    let words = sheet.asks.contains(&Asks::Words);
    let photos = sheet.wants_photo();
    let written = job.steps.words.get(&name).cloned().unwrap_or_default();
    let (done, reopen, write, go) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let (for_done, for_open, for_words) = (name.clone(), name.clone(), name.clone());
    rsx! {
        li { class,
            div { class: "step-head",
                i { "aria-hidden": "true" }
                b { {say(&sheet.what())} }
                span { class: "offscreen", ", " {word} }
            }
            match &stands {
                StepStands::Blocked(first) => rsx! {
                    p { class: "note", {say(first)} }
                    if let Some(wait) = held_by {
                        Countdown { job: job.clone(), wait }
                    }
                },
                StepStands::Skipped(why) => rsx! { p { class: "note", {say(&msg("step-skipped-why").text("why", why.clone()))} } },
                _ => rsx! {},
            }
            if due {
                if let Some(caution) = sheet.caution() {
                    p { class: "caution", {say(&caution)} }
                }
                for line in by_kit {
                    p { class: "note", {line} }
                }
                if !missing.is_empty() {
                    p { class: "note", {say(&msg("step-missing").text("what", missing.join(", ")))} }
                }
            }
            if words && due {
                Entry {
                    id: "words-{name.0}",
                    label: t("step-words"),
                    kind: Kind::Words,
                    value: written.clone(),
                    on_type: move |text| fit(&write, JobEvent::Steps(StepsEvent::Written(for_words.clone(), text))),
                }
            } else if !written.is_empty() {
                p { class: "note", {written.clone()} }
            }
            if photos {
                StepPhotos { job: job.clone(), of: PhotoOf::Step(name.clone()), due }
            }
            if let Some(minutes) = sheet.wait() {
                WaitAt { sheet: sheet.clone(), minutes, job: job.clone(), due }
            }
            details { class: "fold",
                summary { {t("step-why-how")} }
                p { {say(&sheet.why())} }
                p { {say(&sheet.how())} }
                if due {
                    Skip { job: job.clone(), sheet: sheet.clone() }
                }
            }
            div { class: "step-do",
                if let Some(to) = sheet.screen.and_then(step_of) {
                    button {
                        class: "plain",
                        onclick: move |_| go.send(Intent::GoStep(to)),
                        {t("step-go")}
                    }
                } else if due {
                    button {
                        class: "also",
                        onclick: move |_| fit(&done, JobEvent::Steps(StepsEvent::Done(for_done.clone()))),
                        {t("step-done")}
                    }
                }
                if ended {
                    button {
                        class: "plain",
                        onclick: move |_| fit(&reopen, JobEvent::Steps(StepsEvent::Reopened(for_open.clone()))),
                        {t("step-reopen")}
                    }
                }
            }
        }
    }
}

/// A step left out, with its reason.
#[component]
fn Skip(job: JobState, sheet: StepSheet) -> Element {
    let shell = use_shell();
    let mut why = use_signal(String::new);
    if let Err(no) = job::may_skip(&job, &sheet) {
        return rsx! { p { class: "note", {say(&no)} } };
    }
    let name = sheet.name.clone();
    let typed = why().trim().to_owned();
    rsx! {
        Entry {
            id: "skip-{name.0}",
            label: t("step-skip-why"),
            kind: Kind::Words,
            value: why(),
            on_type: move |text| why.set(text),
        }
        button {
            class: "plain",
            disabled: typed.is_empty(),
            onclick: move |_| fit(&shell, JobEvent::Steps(StepsEvent::Skipped(name.clone(), typed.clone()))),
            {t("step-skip")}
        }
    }
}

/// What is left of a wait, drawn anew every second.
#[component]
fn Countdown(job: JobState, wait: Wait) -> Element {
    let shell = use_shell();
    // A second that passed writes the state: whoever reads it is drawn anew.
    drop(shell.state.read());
    let now = shell.now().at;
    rsx! {
        div { role: "timer",
            for line in job::wait_words(&job, &wait, now) {
                p { class: "note", {say(&line)} }
            }
        }
    }
}

/// Why no head goes in yet, with what is left; nothing where they may.
#[component]
pub fn HeadsWait(job: JobState) -> Element {
    let shell = use_shell();
    drop(shell.state.read());
    let held = job::heads_wait(&job, shell.now().at);
    let go = shell.clone();
    rsx! {
        if let Some(held) = held {
            div { class: "trouble-box", role: "timer",
                p { {say(&held)} }
                button {
                    class: "also",
                    onclick: move |_| go.send(Intent::GoStep(Step::Whole)),
                    {t("step-whole")}
                }
            }
        }
    }
}

/// A wait at a step: started, running till a time of day, over.
#[component]
fn WaitAt(sheet: StepSheet, minutes: u16, job: JobState, due: bool) -> Element {
    let shell = use_shell();
    let mut typed = use_signal(|| minutes.to_string());
    let name = sheet.name.clone();
    let running = job::waits_at(&job, &name).next().cloned();
    let fits = read(&typed()).is_some();
    let (start, end) = (shell.clone(), shell.clone());
    let (for_start, for_end) = (name.clone(), name.clone());
    match running {
        Some(wait) => rsx! {
            div { class: "wait", role: "status",
                p {
                    {say(&msg("wait-until").text("time", moment::clock(&wait.until())))}
                }
                Countdown { job: job.clone(), wait: wait.clone() }
                button {
                    class: "plain",
                    onclick: move |_| fit(&end, JobEvent::Wait(WaitEvent::Ended(for_end.clone()))),
                    {t("wait-end")}
                }
            }
        },
        None if due => rsx! {
            Entry {
                id: "wait-{name.0}",
                label: t("wait-minutes-label"),
                value: typed(),
                wrong: (!fits).then(|| say(&msg("wait-minutes").count("most", i64::from(job::WAIT_GREATEST)))),
                on_type: move |text| typed.set(text),
            }
            button {
                class: "also",
                disabled: !fits,
                onclick: move |_| {
                    if let Some(minutes) = read(&typed()) {
                        fit(&start, JobEvent::Wait(WaitEvent::Started(for_start.clone(), minutes)));
                    }
                },
                {t("wait-start")}
            }
        },
        None => rsx! {},
    }
}

fn read(text: &str) -> Option<u16> {
    let minutes: u16 = text.trim().parse().ok()?;
    (1..=job::WAIT_GREATEST)
        .contains(&minutes)
        .then_some(minutes)
}
