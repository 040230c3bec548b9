//! Holes, one head a card: the verdict first, the steps folded.

use dioxus::prelude::*;
use rakeline_core::drawing::which_side_up;
use rakeline_core::job::{
    self, AtHoles, Field, Hole, HolesEvent, JobEvent, JobState, RingsEvent, SetTaken, hole,
    seen_from_behind,
};
use rakeline_core::text::{Message, msg};

use super::marks::{NoMarks, Stale};
use super::whole_step::HeadsWait;
use crate::driver::{CheckIntent, Intent};
use crate::parts::{AskedFields, Cautions, DrawingView, Frame, TypedEntry};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the holes.
#[component]
pub fn Holes() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    if job.marks.is_none() {
        return rsx! { NoMarks {} };
    }
    let next = job::next_at_holes(job);
    let label = |spot: usize| job.spots.get(spot).map_or("", |s| &s.label).to_owned();
    let small = |spot: usize| u8::try_from(spot).unwrap_or(u8::MAX);
    let onward: Option<(Message, Intent)> = match next {
        AtHoles::Heed => Some((
            msg("all-of-this-is-so"),
            Intent::Fit(Box::new(JobEvent::Holes(HolesEvent::CautionsHeeded))),
        )),
        AtHoles::Confirm(spot) => Some((
            msg("hole-confirm").text("label", label(spot)),
            Intent::Check(CheckIntent::Seen(spot)),
        )),
        AtHoles::Drill(spot) => Some((
            msg("hole-is-drilled").text("label", label(spot)),
            Intent::Fit(Box::new(JobEvent::Holes(HolesEvent::HoleDrilled(small(
                spot,
            ))))),
        )),
        AtHoles::Seat(spot) => Some((
            msg("head-sits").text("label", label(spot)),
            Intent::Fit(Box::new(JobEvent::Rings(RingsEvent::Seated(small(spot))))),
        )),
        AtHoles::Marks => Some((msg("show-marks-again"), Intent::GoStep(Step::Marks))),
        AtHoles::Look => Some((msg("to-behind"), Intent::GoStep(Step::Behind))),
        AtHoles::Type => None,
        AtHoles::Onward => Some((msg("to-loom"), Intent::GoStep(Step::Loom))),
    };
    let cautions: Vec<String> = job::hole_cautions(job).iter().map(say).collect();
    let heeded = job.holes.cautions.is_some();
    let asked = job::asked_for_holes(job);
    let act = shell.clone();
    rsx! {
        Frame {
            here: Step::Holes,
            foot: onward.map(|(words, intent)| rsx! {
                button {
                    class: "do at-car",
                    onclick: move |_| act.send(intent.clone()),
                    {say(&words)}
                }
            }),
            div {
                h1 { {say(&job::holes_headline(job))} }
                p { class: "why", {t("holes-why")} }
            }
            Stale { job: job.clone() }
            if matches!(next, AtHoles::Seat(_)) {
                HeadsWait { job: job.clone() }
            }
            if !heeded && !cautions.is_empty() {
                Cautions { lines: cautions }
            }
            HoleCards { job: job.clone() }
            AskedFields { job: job.clone(), asked }
        }
    }
}

/// The heads' cards and the tools. The tools come first where they were asked
/// for on arrival, and stay there: a field does not move under who types.
#[component]
fn HoleCards(job: JobState) -> Element {
    let tools_first =
        use_hook(|| (0..job.spots.len()).any(|spot| hole(&job, spot).waits_for_the_tool()));
    rsx! {
        if tools_first {
            ToolFields { job: job.clone() }
        }
        ol { class: "rings",
            for (index , spot) in job.spots.iter().enumerate() {
                HoleCard { key: "{spot.label}", job: job.clone(), index, label: spot.label.clone() }
            }
        }
        if !tools_first {
            ToolFields { job: job.clone() }
        }
    }
}

/// The saw, the step drill and how warm the bumper is; entered once.
#[component]
fn ToolFields(job: JobState) -> Element {
    let trouble = |field| {
        let typed = job.typed(field);
        let faulty = !typed.trim().is_empty() && job::read_length(typed).is_err();
        faulty.then(|| say(&msg("entry-not-a-length").text("typed", typed.to_owned())))
    };
    rsx! {
        div { class: "side-by-side",
            TypedEntry {
                id: "reach",
                job: job.clone(),
                field: Field::ReachPastTeeth,
                label: t("tool-reach"),
                wrong: trouble(Field::ReachPastTeeth),
                note: t("tool-reach-note"),
            }
            TypedEntry {
                id: "step-reach",
                job: job.clone(),
                field: Field::StepDrillReach,
                label: t("tool-step-reach"),
                wrong: trouble(Field::StepDrillReach),
                note: t("tool-step-reach-note"),
            }
            TypedEntry {
                id: "celsius",
                job: job.clone(),
                field: Field::BumperCelsius,
                label: t("tool-celsius"),
                note: t("tool-celsius-note"),
            }
        }
    }
}

#[component]
fn HoleCard(job: JobState, index: usize, label: String) -> Element {
    let shell = use_shell();
    let spot = u8::try_from(index).unwrap_or(u8::MAX);
    let here = hole(&job, index);
    let class = match here {
        Hole::Shut(_) => "ring none",
        Hole::Plan(_) | Hole::Drilled(_) => "ring",
    };
    let (why, steps): (Vec<String>, Vec<String>) = match &here {
        Hole::Shut(why) => (why.iter().map(say).collect(), Vec::new()),
        Hole::Plan(plan) => (Vec::new(), plan.steps.iter().map(say).collect()),
        Hole::Drilled(_) => (Vec::new(), Vec::new()),
    };
    let confirmed = seen_from_behind(&job, index);
    let seated = job::is_seated(&job, index);
    let taken = job::set_taken(&job, index);
    let drilled = matches!(here, Hole::Drilled(_));
    let other = job::set_needs_other_hole(&job, index);
    let going_in: Vec<String> = if drilled && !seated {
        job::fitting_at(&job, index).iter().map(say).collect()
    } else {
        Vec::new()
    };
    let (seat, unseat) = (shell.clone(), shell.clone());
    let by_hand = |event: RingsEvent| Intent::Fit(Box::new(JobEvent::Rings(event)));
    let sits = say(&msg("head-sits").text("label", label.clone()));
    rsx! {
        li { class,
            span { class: "spot", {label.clone()} }
            span { class: "verdict", {say(&here.headline())} }
            if let Some(first) = why.first() {
                p { {first.clone()} }
            }
            if why.len() > 1 {
                details {
                    summary { {say(&msg("hole-more-why").count("more", i64::try_from(why.len() - 1).unwrap_or(i64::MAX)))} }
                    ul { class: "candidates",
                        for line in why.iter().skip(1) {
                            li { {line.clone()} }
                        }
                    }
                }
            }
            if let Some(other) = other {
                div { class: "trouble-box", role: "status", {say(&other)} }
            }
            if let Some(taken) = taken {
                span { {say(&taken.set.name())} }
                if drilled {
                    SideUp { job: job.clone(), index, taken }
                }
            }
            if !drilled && !steps.is_empty() {
                span { class: "aim", {t(if confirmed { "hole-confirmed" } else { "hole-not-confirmed" })} }
                details {
                    summary { {t("hole-steps")} }
                    ol { class: "steps small",
                        for step in steps {
                            li { {step} }
                        }
                    }
                }
            }
            if !going_in.is_empty() {
                b { {t("head-how-it-goes-in")} }
                ol { class: "steps small",
                    for step in going_in {
                        li { {step} }
                    }
                }
            }
            if drilled {
                span { class: "aim", {t(if seated { "head-seated" } else { "head-not-seated" })} }
                if seated {
                    button {
                        class: "plain",
                        onclick: move |_| unseat.send(by_hand(RingsEvent::Unseated(spot))),
                        {t("head-unseat")}
                    }
                } else {
                    button {
                        class: "also",
                        onclick: move |_| seat.send(by_hand(RingsEvent::Seated(spot))),
                        {sits}
                    }
                }
            } else {
                details {
                    summary { {t("hole-old")} }
                    TypedEntry {
                        id: "old-hole-{index}",
                        job: job.clone(),
                        field: Field::OldHoleSize(spot),
                        label: say(&msg("hole-old-size").text("label", label)),
                        wrong: job::typed_old_hole(&job, spot).and_then(Result::err).as_ref().map(say),
                        note: t("in-mm"),
                    }
                }
            }
        }
    }
}

/// Which side up, with what upside down would do.
#[component]
fn SideUp(job: JobState, index: usize, taken: SetTaken) -> Element {
    let drawn = job.spots.get(index).and_then(|spot| {
        let choice = job::ring_choice(&job, spot)?;
        let candidate = choice.candidate(&job.kit, &taken.set)?;
        Some(which_side_up(
            choice.facts.rake.value,
            candidate.aim.value,
            candidate.aim_upside_down(&job.kit),
        ))
    });
    rsx! {
        if let Some(drawing) = drawn {
            DrawingView { drawing }
        }
    }
}
