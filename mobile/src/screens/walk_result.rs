//! What a walk test comes to: the plan, the share, measured against
//! predicted; and what can be typed about it.

use dioxus::prelude::*;
use rakeline_core::drawing::walk_plan;
use rakeline_core::job::{self, Field, JobState, WalkEvent, WalkKind, WalkTime};
use rakeline_core::text::msg;

use super::walk::event;
use crate::driver::{Intent, WalkIntent};
use crate::parts::{DrawingView, Kind, TypedEntry};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// What a whole test comes to, or what there is to start.
#[component]
pub fn Result(job: JobState) -> Element {
    let shell = use_shell();
    let Some(test) = &job.walk.test else {
        return rsx! { Ready { job } };
    };
    let said = job::share_words(&job, test);
    let kind = test.kind;
    let troubles: Vec<String> = job::no_longer_seen(&job).iter().map(say).collect();
    let (again, grid) = (shell.clone(), shell);
    rsx! {
        if let Some(drawing) = walk_plan(&job, test, None) {
            DrawingView { drawing }
        }
        p { class: "why", {t("sheet-walk-key")} }
        if let Some(said) = said {
            p { class: "why", {say(&said.source)} }
        }
        if !troubles.is_empty() {
            div { class: "trouble-box", role: "status",
                for line in troubles {
                    p { {line} }
                }
            }
        }
        Predicted { job: job.clone() }
        p { class: "why", {t("walk-no-promise")} }
        div { class: "things",
            button {
                class: "also",
                onclick: move |_| again.send(Intent::Walk(WalkIntent::Start(kind))),
                {t("walk-anew")}
            }
            button {
                class: "also",
                onclick: move |_| grid.send(Intent::Walk(WalkIntent::Start(WalkKind::Grid))),
                {t("walk-start-grid")}
            }
        }
        Limits { job }
    }
}

/// Measured against predicted, for the workshop.
#[component]
fn Predicted(job: JobState) -> Element {
    let Some(test) = &job.walk.test else {
        return rsx! {};
    };
    let (lines, assumed) = match job::against_prediction(&job, test) {
        Err(why) => (vec![say(&why)], Vec::new()),
        Ok(found) => {
            let mut lines: Vec<String> = found.misses.iter().map(say).collect();
            lines.extend(found.surprises.iter().map(say));
            if lines.is_empty() {
                let points = i64::try_from(found.points.len()).unwrap_or(i64::MAX);
                lines.push(say(&msg("walk-predicted-agrees").count("points", points)));
            }
            (lines, found.assumed.iter().map(say).collect::<Vec<_>>())
        }
    };
    rsx! {
        details {
            summary { {t("walk-predicted-fold")} }
            div { class: "stack",
                for line in lines {
                    p { {line} }
                }
                p { class: "why", {t("walk-predicted-why")} }
                if !assumed.is_empty() {
                    p { class: "why", {t("walk-assumed")} }
                    ul { class: "candidates",
                        for line in assumed {
                            li { {line} }
                        }
                    }
                }
            }
        }
    }
}

/// Before the first point.
#[component]
fn Ready(job: JobState) -> Element {
    let shell = use_shell();
    let measures = shell.clone();
    let none = job::walk_points(&job, WalkKind::Nine).err();
    let squares = job::walk_points(&job, WalkKind::Grid).map_or(0, |points| points.len());
    rsx! {
        if let Some(why) = none {
            div { class: "trouble-box", role: "status",
                p { {say(&why)} }
                button {
                    class: "also",
                    onclick: move |_| measures.send(Intent::GoStep(Step::Measures)),
                    {t("to-measures")}
                }
            }
        } else {
            p { class: "why", {t("walk-how")} }
        }
        if squares > 0 {
            button {
                class: "also",
                onclick: move |_| shell.send(Intent::Walk(WalkIntent::Start(WalkKind::Grid))),
                {say(&msg("walk-start-grid-of").count("points", i64::try_from(squares).unwrap_or(i64::MAX)))}
            }
        }
        Limits { job }
    }
}

/// The share that is asked, and times for those who measured them.
#[component]
fn Limits(job: JobState) -> Element {
    let times: Vec<String> = job::times_said(&job).iter().map(say).collect();
    rsx! {
        details {
            summary { {t("walk-limits")} }
            div { class: "stack",
                TypedEntry {
                    id: "walk-share",
                    job: job.clone(),
                    field: Field::WalkShare,
                    label: t("walk-share-field"),
                    wrong: job::share_limit(&job).err().as_ref().map(say),
                    note: t("walk-share-note"),
                }
                for (id , most , field , limit , of , name) in [
                    ("walk-start-up", "walk-start-up-most", Field::WalkStartUp, Field::WalkStartUpMost, WalkTime::StartUp, "walk-time-start-up"),
                    ("walk-latency", "walk-latency-most", Field::WalkLatency, Field::WalkLatencyMost, WalkTime::Latency, "walk-time-latency"),
                ] {
                    div { key: "{id}", class: "side-by-side",
                        TypedEntry {
                            id,
                            job: job.clone(),
                            field,
                            label: t(name),
                            note: t("in-ms"),
                        }
                        TypedEntry {
                            id: most,
                            job: job.clone(),
                            field: limit,
                            label: say(&msg("walk-time-most").message("time", msg(name))),
                            wrong: job::time_limit(&job, of).err().as_ref().map(say),
                            note: most_note(of),
                        }
                    }
                }
                for line in times {
                    p { class: "why", {line} }
                }
            }
        }
    }
}

/// What holds where no limit is typed, and where that comes from.
fn most_note(of: WalkTime) -> String {
    let own = of.own_limit();
    let words = msg("walk-time-most-note").number("greatest", own.greatest.0, 0);
    say(&words.message("from", own.from.message()))
}

/// What the control box learned to ignore.
#[component]
pub fn Learned(job: JobState) -> Element {
    let shell = use_shell();
    let learned = job.walk.learned.clone();
    let (take, clear) = (shell.clone(), shell);
    let first = job::object_asked(&job).filter(|_| job.walk.test.is_none());
    let (heading, keep) = match &first {
        Some(object) => (
            say(&msg("walk-object-first").message("object", object.name())),
            "walk-object-keep",
        ),
        None => (t("walk-learned-fold"), "walk-object-learned"),
    };
    rsx! {
        details { open: first.is_some(),
            summary { {heading} }
            div { class: "stack",
                if let Some(object) = learned {
                    p { {say(&msg("sheet-walk-ignored").message("what", object.what.name()))} }
                    button {
                        class: "also",
                        onclick: move |_| event(&clear, WalkEvent::LearnCleared),
                        {t("walk-learn-cleared")}
                    }
                } else {
                    p { class: "why", {t("walk-learned-why")} }
                    if first.is_none() {
                        TypedEntry {
                            id: "object-what",
                            job: job.clone(),
                            field: Field::ObjectWhat,
                            kind: Kind::Words,
                            label: t("walk-object-what"),
                        }
                    }
                    div { class: "side-by-side",
                        TypedEntry {
                            id: "object-width",
                            job: job.clone(),
                            field: Field::ObjectWidth,
                            label: t("walk-object-width"),
                            note: t("in-mm"),
                        }
                        TypedEntry {
                            id: "object-reach",
                            job: job.clone(),
                            field: Field::ObjectReach,
                            label: t("walk-object-reach"),
                            note: t("in-mm"),
                        }
                    }
                    TypedEntry {
                        id: "object-across",
                        job: job.clone(),
                        field: Field::ObjectAcross,
                        kind: Kind::Signed,
                        label: t("walk-object-across"),
                        note: t("walk-object-across-note"),
                    }
                    button {
                        class: "also",
                        onclick: move |_| event(&take, WalkEvent::ObjectLearned),
                        {t(keep)}
                    }
                }
            }
        }
    }
}
