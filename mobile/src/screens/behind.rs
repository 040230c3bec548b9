//! Look behind: answered once for the bumper, with exceptions for heads.

use dioxus::prelude::*;
use rakeline_core::decide::look_behind::{Behind as Seen, BehindFoam, Obstacle};
use rakeline_core::job::{
    self, BehindEvent, Field, JobEvent, JobState, Whose, behind_headline, behind_words,
};
use rakeline_core::kit::Material;
use rakeline_core::text::msg;

use super::photos::Photos;
use crate::driver::Intent;
use crate::parts::{Frame, Kind, TypedEntry};
use crate::route::Step;
use crate::shell::{Shell, use_shell};
use crate::texts::{say, t};

fn answer(shell: &Shell, event: BehindEvent) {
    shell.send(Intent::Fit(Box::new(JobEvent::Behind(event))));
}

/// The screen of the look behind.
#[component]
pub fn Behind() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let onward = shell.clone();
    rsx! {
        Frame {
            here: Step::Behind,
            foot: rsx! {
                button {
                    class: "do at-car",
                    onclick: move |_| {
                        onward.send(Intent::GoStep(if onward.state.read().job().is_some_and(|job| job.marks.is_some()) {
                            Step::Holes
                        } else {
                            Step::Measures
                        }));
                    },
                    if job.marks.is_some() { {t("to-holes")} } else { {t("to-measures")} }
                }
            },
            div {
                h1 { {say(&behind_headline(job))} }
                p { class: "why", {t("behind-look-why")} }
            }
            Answers { job: job.clone(), whose: Whose::Bumper }
            Photos { job: job.clone(), whose: Whose::Bumper }
            Sizes { job: job.clone(), whose: Whose::Bumper }
            Panel { job: job.clone() }
            h2 { {t("behind-exceptions")} }
            for (index , spot) in job.spots.iter().enumerate() {
                Exception {
                    key: "{spot.label}",
                    job: job.clone(),
                    spot: u8::try_from(index).unwrap_or(u8::MAX),
                    label: spot.label.clone(),
                }
            }
        }
    }
}

fn id_of(whose: Whose) -> String {
    match whose {
        Whose::Bumper => "bumper".to_owned(),
        Whose::Spot(spot) => format!("spot-{spot}"),
    }
}

fn answered(job: &JobState, whose: Whose) -> Option<Seen> {
    match whose {
        Whose::Bumper => job.behind.bumper.behind.clone(),
        Whose::Spot(spot) => job.behind.spots.get(&spot)?.behind.clone(),
    }
}

/// The three answers, and what is there.
#[component]
fn Answers(job: JobState, whose: Whose) -> Element {
    let shell = use_shell();
    let now = answered(&job, whose);
    let choices = [
        ("behind-seen-and-clear", Seen::SeenAndClear),
        ("behind-something", Seen::SomethingThere(Vec::new())),
        ("behind-could-not-see", Seen::CouldNotSee),
    ];
    let is = |choice: &Seen| match (&now, choice) {
        (Some(Seen::SomethingThere(_)), Seen::SomethingThere(_)) => true,
        (Some(now), choice) => now == choice,
        (None, _) => false,
    };
    rsx! {
        fieldset { class: "field",
            legend { {t(if whose == Whose::Bumper { "behind-what" } else { "behind-what-here" })} }
            div { class: "choice tall",
                for (key , choice) in choices {
                    button {
                        key: "{key}",
                        "aria-pressed": if is(&choice) { "true" } else { "false" },
                        onclick: {
                            let (shell, choice) = (shell.clone(), choice.clone());
                            move |_| answer(&shell, BehindEvent::Seen(whose, choice.clone()))
                        },
                        {t(key)}
                    }
                }
            }
        }
        if let Some(Seen::SomethingThere(what)) = now {
            Things { job: job.clone(), whose, what }
        }
    }
}

/// What is there: any of these, and other words.
#[component]
fn Things(job: JobState, whose: Whose, what: Vec<Obstacle>) -> Element {
    let shell = use_shell();
    let plain = [
        Obstacle::CrashBeam,
        Obstacle::AirbagOrCrashSensor,
        Obstacle::Radar,
        Obstacle::Wiring,
        Obstacle::FuelOrVapour,
        Obstacle::HotParts,
        Obstacle::RidgeOrStep,
    ];
    let foam = what.iter().find_map(|thing| match thing {
        Obstacle::Foam(behind) => Some(*behind),
        _ => None,
    });
    let without_foam = || {
        let rest = what.iter();
        rest.filter(|thing| !matches!(thing, Obstacle::Foam(_)))
            .cloned()
            .collect::<Vec<_>>()
    };
    let toggled = |thing: &Obstacle| {
        let mut next = what.clone();
        if next.contains(thing) {
            next.retain(|other| other != thing);
        } else {
            next.push(thing.clone());
        }
        next
    };
    let with_foam = |behind: Option<BehindFoam>| {
        let mut next = without_foam();
        next.extend(behind.map(Obstacle::Foam));
        next
    };
    let keep = shell.clone();
    let other = job.typed(Field::BehindWords(whose)).trim().to_owned();
    let with_other = {
        let mut next: Vec<Obstacle> = what
            .iter()
            .filter(|thing| !matches!(thing, Obstacle::Other(_)))
            .cloned()
            .collect();
        if !other.is_empty() {
            next.push(Obstacle::Other(other.clone()));
        }
        next
    };
    rsx! {
        div { class: "things", role: "group", "aria-label": t("behind-which"),
            for (index , thing) in plain.iter().enumerate() {
                button {
                    key: "{index}",
                    class: "also",
                    "aria-pressed": if what.contains(thing) { "true" } else { "false" },
                    onclick: {
                        let (shell, next) = (shell.clone(), toggled(thing));
                        move |_| set_things(&shell, whose, next.clone())
                    },
                    {say(&thing.message())}
                }
            }
            button {
                class: "also",
                "aria-pressed": if foam.is_some() { "true" } else { "false" },
                onclick: {
                    let next = with_foam(if foam.is_some() { None } else { Some(BehindFoam::NotSeen) });
                    let shell = shell.clone();
                    move |_| set_things(&shell, whose, next.clone())
                },
                {t("behind-foam")}
            }
            if foam.is_some() {
                button {
                    class: "also",
                    "aria-pressed": if foam == Some(BehindFoam::SeenAndClear) { "true" } else { "false" },
                    onclick: {
                        let next = with_foam(Some(if foam == Some(BehindFoam::SeenAndClear) {
                            BehindFoam::NotSeen
                        } else {
                            BehindFoam::SeenAndClear
                        }));
                        let shell = shell.clone();
                        move |_| set_things(&shell, whose, next.clone())
                    },
                    {t("behind-foam-seen")}
                }
            }
        }
        TypedEntry {
            id: "behind-other-{id_of(whose)}",
            job,
            field: Field::BehindWords(whose),
            kind: Kind::Words,
            label: t("behind-other-words"),
        }
        if !other.is_empty() && !what.contains(&Obstacle::Other(other)) {
            button {
                class: "also",
                onclick: move |_| set_things(&keep, whose, with_other.clone()),
                {t("behind-other-keep")}
            }
        }
        if foam.is_some() {
            p { class: "why", {t("behind-foam-why")} }
        }
    }
}

fn set_things(shell: &Shell, whose: Whose, things: Vec<Obstacle>) {
    answer(
        shell,
        BehindEvent::Seen(whose, Seen::SomethingThere(things)),
    );
}

/// Depth and panel thickness.
#[component]
fn Sizes(job: JobState, whose: Whose) -> Element {
    let id = id_of(whose);
    let trouble = |found: Option<Result<_, _>>| found.and_then(Result::err).as_ref().map(say);
    rsx! {
        div { class: "side-by-side",
            TypedEntry {
                id: "depth-{id}",
                job: job.clone(),
                field: Field::Depth(whose),
                label: t("behind-depth"),
                wrong: trouble(job::typed_depth(&job, whose)),
                note: t("in-mm"),
            }
            TypedEntry {
                id: "panel-{id}",
                job: job.clone(),
                field: Field::Panel(whose),
                label: t("behind-panel"),
                wrong: trouble(job::typed_panel(&job, whose)),
                note: t("in-mm"),
            }
        }
    }
}

/// What the panel is made of.
#[component]
fn Panel(job: JobState) -> Element {
    let shell = use_shell();
    let materials = [
        ("kit-word-plastic", Material::Plastic),
        ("kit-word-fibre", Material::Fibre),
        ("kit-word-metal", Material::Metal),
    ];
    rsx! {
        fieldset { class: "field",
            legend { {t("behind-material")} }
            div { class: "choice",
                for (key , material) in materials {
                    button {
                        key: "{key}",
                        "aria-pressed": if job.behind.material == material { "true" } else { "false" },
                        onclick: {
                            let shell = shell.clone();
                            move |_| answer(&shell, BehindEvent::MaterialChosen(material))
                        },
                        {t(key)}
                    }
                }
            }
        }
    }
}

/// One head's own answer.
#[component]
fn Exception(job: JobState, spot: u8, label: String) -> Element {
    let shell = use_shell();
    let look = job::look(&job);
    let own = job.behind.spots.contains_key(&spot);
    let whose = Whose::Spot(spot);
    let words = msg(if own {
        "behind-head-own"
    } else {
        "behind-head-as-bumper"
    })
    .text("label", label.clone())
    .message("what", behind_words(look.behind(&label)));
    rsx! {
        details {
            summary { {say(&words)} }
            div { class: "stack",
                Answers { job: job.clone(), whose }
                Photos { job: job.clone(), whose }
                Sizes { job: job.clone(), whose }
                if own {
                    button {
                        class: "plain",
                        onclick: move |_| answer(&shell, BehindEvent::ExceptionDropped(spot)),
                        {t("behind-as-bumper")}
                    }
                }
            }
        }
    }
}
