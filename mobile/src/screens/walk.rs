//! The walk test: the gate, the points one by one, what they come to; and
//! each head on its own.

use dioxus::prelude::*;
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::drawing::{walk_gate, walk_plan};
use rakeline_core::job::{self, Field, JobEvent, JobState, WalkEvent, WalkKind};
use rakeline_core::text::msg;

use super::walk_heads::HeadsCheck;
use crate::driver::{Intent, Pace, WalkIntent, walk_point};
use crate::parts::{DrawingView, Frame, Kind, TypedEntry};
use crate::route::Step;
use crate::shell::{Shell, use_shell};
use crate::texts::{say, t};

pub(super) fn event(shell: &Shell, event: WalkEvent) {
    shell.send(Intent::Fit(Box::new(JobEvent::Walk(event))));
}

/// The screen of the walk test.
#[component]
pub fn Walk() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let open = job::walk_gate_open(job, shell.now().at);
    let point = walk_point(&state).filter(|_| open);
    let (heed, start, sheet, fault) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let foot = match (open, point, &job.walk.test) {
        (false, ..) => rsx! {
            button {
                class: "do at-car",
                onclick: move |_| event(&heed, WalkEvent::GateHeeded),
                {t("walk-heed")}
            }
        },
        (true, Some(_), _) => rsx! { Zones {} },
        (true, None, None) => rsx! {
            button {
                class: "do at-car",
                onclick: move |_| start.send(Intent::Walk(WalkIntent::Start(WalkKind::Nine))),
                {t("walk-start-nine")}
            }
        },
        (true, None, Some(_)) => rsx! {
            button {
                class: "do at-car",
                onclick: move |_| sheet.send(Intent::GoStep(Step::Sheet)),
                {t("to-sheet")}
            }
        },
    };
    rsx! {
        Frame { here: Step::Walk, foot,
            h1 { {say(&job::walk_headline(job))} }
            if !open {
                Gate {}
            } else if let Some(point) = point {
                Point { job: job.clone(), point }
            } else {
                Result { job: job.clone() }
            }
            if open {
                HeadsCheck { job: job.clone() }
            }
            Learned { job: job.clone() }
            button {
                class: "plain",
                onclick: move |_| fault.send(Intent::GoStep(Step::Fault)),
                {t("to-fault")}
            }
        }
    }
}

/// What has to be so, in one picture with its list.
#[component]
fn Gate() -> Element {
    rsx! {
        DrawingView { drawing: walk_gate() }
        ol { class: "steps caution-steps",
            for line in job::walk_cautions() {
                li { {say(&line)} }
            }
        }
    }
}

/// The point that is walked now.
#[component]
fn Point(job: JobState, point: u16) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(test) = &job.walk.test else {
        return rsx! {};
    };
    let index = usize::from(point);
    let place = test.points.get(index).map(job::point_words);
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    let number = msg("walk-point-of")
        .count("number", count(index).saturating_add(1))
        .count("of", count(test.points.len()));
    let lead = state.drafts.walk.lead;
    let waits = lead.map(|lead| {
        let key = match lead.pace {
            Pace::Carry => msg("walk-carry"),
            Pace::Listen => msg("walk-listen"),
        };
        say(&key.count("seconds", lead.seconds))
    });
    let (voice, anew) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "stack",
            p { class: "why", {say(&number)} }
            if let Some(place) = place {
                p { class: "asked", {say(&place)} }
            }
            if let Some(waits) = waits {
                p { class: "says one-line", role: "timer", {waits} }
            }
        }
        if let Some(drawing) = walk_plan(&job, test, Some(index)) {
            DrawingView { drawing }
        }
        button {
            class: "also at-car",
            "aria-pressed": if lead.is_some() { "true" } else { "false" },
            onclick: move |_| voice.send(Intent::Walk(WalkIntent::Lead)),
            {t(if lead.is_some() { "walk-lead-off" } else { "walk-lead" })}
        }
        p { class: "why", {t("walk-lead-why")} }
        details {
            summary { {t("walk-other-point")} }
            div { class: "point-grid", role: "group", "aria-label": t("walk-other-point"),
                for other in 0..u16::try_from(test.points.len()).unwrap_or(u16::MAX) {
                    button {
                        key: "{other}",
                        class: "also",
                        "aria-pressed": if other == point { "true" } else { "false" },
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::Walk(WalkIntent::Choose(other)))
                        },
                        "{other + 1}"
                    }
                }
            }
            button {
                class: "plain",
                onclick: move |_| anew.send(Intent::Walk(WalkIntent::Start(WalkKind::Nine))),
                {t("walk-anew")}
            }
        }
    }
}

/// What sounded: four large targets at the thumb.
#[component]
fn Zones() -> Element {
    let shell = use_shell();
    rsx! {
        div { class: "zones", role: "group", "aria-label": t("walk-what-sounds"),
            for sounded in Sounded::ALL {
                button {
                    key: "{sounded:?}",
                    class: "also",
                    onclick: {
                        let shell = shell.clone();
                        move |_| shell.send(Intent::Walk(WalkIntent::Sounded(sounded)))
                    },
                    svg { view_box: "-12 -12 24 24", "aria-hidden": "true", {sign(sounded)} }
                    span { {say(&sounded.message())} }
                }
            }
        }
    }
}

/// The same shapes as on the plan.
fn sign(sounded: Sounded) -> Element {
    match sounded {
        Sounded::Nothing => rsx! { path { d: "M -8 -8 L 8 8 M -8 8 L 8 -8" } },
        Sounded::Far => rsx! {
            circle { r: "9" }
            circle { class: "full", r: "2.4" }
        },
        Sounded::Middle => rsx! {
            circle { r: "9" }
            circle { r: "4.6" }
            circle { class: "full", r: "1.8" }
        },
        Sounded::Near => rsx! { circle { class: "full", r: "9" } },
    }
}

/// What a whole test comes to, or what there is to start.
#[component]
fn Result(job: JobState) -> Element {
    let shell = use_shell();
    let Some(test) = &job.walk.test else {
        return rsx! { Ready { job } };
    };
    let said = job::share_words(&job, test);
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
                onclick: move |_| again.send(Intent::Walk(WalkIntent::Start(WalkKind::Nine))),
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
                div { class: "side-by-side",
                    TypedEntry {
                        id: "walk-start-up",
                        job: job.clone(),
                        field: Field::WalkStartUp,
                        label: t("walk-time-start-up"),
                        note: t("in-ms"),
                    }
                    TypedEntry {
                        id: "walk-latency",
                        job: job.clone(),
                        field: Field::WalkLatency,
                        label: t("walk-time-latency"),
                        note: t("in-ms"),
                    }
                }
                for line in times {
                    p { class: "why", {line} }
                }
            }
        }
    }
}

/// What the control box learned to ignore.
#[component]
fn Learned(job: JobState) -> Element {
    let shell = use_shell();
    let learned = job.walk.learned.clone();
    let (take, clear) = (shell.clone(), shell);
    rsx! {
        details {
            summary { {t("walk-learned-fold")} }
            div { class: "stack",
                if let Some(object) = learned {
                    p { {say(&msg("sheet-walk-ignored").text("what", object.what.clone()))} }
                    button {
                        class: "also",
                        onclick: move |_| event(&clear, WalkEvent::LearnCleared),
                        {t("walk-learn-cleared")}
                    }
                } else {
                    p { class: "why", {t("walk-learned-why")} }
                    TypedEntry {
                        id: "object-what",
                        job: job.clone(),
                        field: Field::ObjectWhat,
                        kind: Kind::Words,
                        label: t("walk-object-what"),
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
                        {t("walk-object-learned")}
                    }
                }
            }
        }
    }
}
