//! The walk test: the gate, the points one by one, what they come to; and
//! each head on its own.

use dioxus::prelude::*;
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::drawing::{walk_gate, walk_plan};
use rakeline_core::job::{self, JobEvent, JobState, WalkEvent, WalkKind};
use rakeline_core::text::msg;

use super::walk_heads::HeadsCheck;
use super::walk_result::{Learned, Result};
use crate::driver::{Intent, Pace, Sheets, WalkIntent, walk_point};
use crate::parts::{DrawingView, Frame, ToTop};
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
    // Once a test is under way it is not asked any more.
    let object_first = job.walk.test.is_none() && job::object_asked(job).is_some();
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
    let part = match (open, point) {
        (false, _) => "gate",
        (true, Some(_)) => "points",
        (true, None) => "result",
    };
    rsx! {
        Frame { here: Step::Walk, foot,
            div {
                ToTop { of: part }
                h1 { {say(&job::walk_headline(job))} }
            }
            if object_first {
                Learned { job: job.clone() }
            }
            if !open {
                Gate {}
            } else if let Some(point) = point {
                Point { job: job.clone(), point }
            } else {
                Result { job: job.clone() }
            }
            if !job.walk.test.as_ref().is_some_and(job::WalkTest::is_whole) {
                WalkPage {}
            }
            if open {
                HeadsCheck { job: job.clone() }
            }
            if !object_first {
                Learned { job: job.clone() }
            }
            button {
                class: "plain",
                onclick: move |_| fault.send(Intent::GoStep(Step::Fault)),
                {t("to-fault")}
            }
        }
    }
}

/// The pages to walk by, for who has the phone in the seat: the nine points,
/// or every square; after a learn each begins at what was learned.
#[component]
fn WalkPage() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let making = state.making.as_ref();
    let making =
        making.map(|making| say(&msg("full-size-making").number("percent", making.percent(), 0)));
    let busy = making.is_some();
    rsx! {
        for (kind , key) in [(WalkKind::Nine, "walk-sheet-print"), (WalkKind::Grid, "walk-sheet-print-grid")] {
            button {
                key: "{key}",
                class: "also",
                disabled: busy,
                onclick: {
                    let shell = shell.clone();
                    move |_| shell.send(Intent::MakeSheets(Sheets::Walk(kind)))
                },
                {t(key)}
            }
        }
        if let Some(making) = making {
            p { role: "status", {making} }
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
