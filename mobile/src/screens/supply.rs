//! The supply: cautions, lamp circuit, readings, lead, fuse.

use dioxus::prelude::*;
use rakeline_core::decide::supply::{
    self, CrossSection, FuseAnswer, LampCircuit, RatingFrom, System,
};
use rakeline_core::job::{
    self, Field, JobEvent, JobState, LoomEvent, READINGS, fuse_typed, volts, volts_trouble,
};
use rakeline_core::text::msg;

use super::place_words::PlaceWords;
use crate::driver::Intent;
use crate::parts::{AskedFields, Cautions, TypedEntry};
use crate::shell::{Shell, use_shell};
use crate::texts::{figure, say, t};

fn answer(shell: &Shell, event: LoomEvent) {
    shell.send(Intent::Fit(Box::new(JobEvent::Loom(event))));
}

/// The supply of the kit.
#[component]
pub fn Supply(job: JobState) -> Element {
    let shell = use_shell();
    let heeded = job.loom.cautions.is_some();
    let cautions: Vec<String> = supply::cautions().iter().map(say).collect();
    let heed = shell.clone();
    let drop = job::supply_drop(&job);
    rsx! {
        h2 { {t("supply-title")} }
        Cautions { lines: cautions }
        if heeded {
            p { class: "why", {t("cautions-heeded")} }
        } else {
            button {
                class: "also at-car",
                onclick: move |_| answer(&heed, LoomEvent::CautionsHeeded),
                {t("supply-heed")}
            }
        }
        div { class: "choice", role: "group", "aria-label": t("supply-system"),
            for (key , system) in [("supply-12", System::Twelve), ("supply-24", System::TwentyFour)] {
                button {
                    key: "{key}",
                    "aria-pressed": if job.loom.system == system { "true" } else { "false" },
                    onclick: {
                        let shell = shell.clone();
                        move |_| answer(&shell, LoomEvent::SystemChosen(system))
                    },
                    {t(key)}
                }
            }
        }
        if let Some(words) = supply::kit_not_for(&job.kit, job.loom.system) {
            div { class: "trouble-box", role: "status", {say(&words)} }
        }
        PlaceWords { job: job.clone(), step: "supply", label: "place-supply" }
        Lamp { job: job.clone() }
        div { class: "stack",
            for (index , reading) in READINGS.into_iter().enumerate() {
                TypedEntry {
                    key: "{index}",
                    id: "volts-{index}",
                    job: job.clone(),
                    field: Field::Volts(reading),
                    label: say(&msg("supply-volts").message("reading", reading.name())),
                    wrong: volts_trouble(&job, reading).as_ref().map(say),
                    note: if volts(&job, reading).is_some() { t("supply-fine") } else { t("in-volts") },
                }
            }
        }
        Sections { job: job.clone() }
        AskedFields { job: job.clone(), asked: job::asked_for_supply(&job) }
        if let Some((drop, low)) = drop {
            p { class: "why", {say(&drop)} }
            if let Some(low) = low {
                div { class: "trouble-box", role: "status", {say(&low)} }
            }
        }
        Fuse { job }
    }
}

/// How the reversing lamp is fed, and what to do about it.
#[component]
fn Lamp(job: JobState) -> Element {
    let shell = use_shell();
    let kinds = [
        ("lamp-plain", LampCircuit::Plain),
        ("lamp-pulsed", LampCircuit::Pulsed),
        ("lamp-led", LampCircuit::Led),
        ("lamp-bus", LampCircuit::BusControlled),
        ("lamp-not-known", LampCircuit::NotKnown),
    ];
    let what_to_do = job.loom.lamp.and_then(LampCircuit::message);
    rsx! {
        div { class: "things", role: "group", "aria-label": t("lamp-title"),
            for (key , kind) in kinds {
                button {
                    key: "{key}",
                    class: "also",
                    "aria-pressed": if job.loom.lamp == Some(kind) { "true" } else { "false" },
                    onclick: {
                        let shell = shell.clone();
                        move |_| answer(&shell, LoomEvent::LampFound(kind))
                    },
                    {t(key)}
                }
            }
        }
        if let Some(words) = what_to_do {
            div { class: "trouble-box", role: "status", {say(&words)} }
        }
    }
}

/// Cross-section of the supply lead.
#[component]
fn Sections(job: JobState) -> Element {
    let shell = use_shell();
    rsx! {
        div { class: "choice", role: "group", "aria-label": t("supply-section"),
            for section in CrossSection::ALL {
                button {
                    key: "{section:?}",
                    "aria-pressed": if job.loom.cross_section == section { "true" } else { "false" },
                    onclick: {
                        let shell = shell.clone();
                        move |_| answer(&shell, LoomEvent::CrossSectionChosen(section))
                    },
                    {say(&msg("square-mm").text("size", plain(section)))}
                }
            }
        }
    }
}

fn plain(section: CrossSection) -> String {
    figure(section.square_millimetres(), 2)
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_owned()
}

/// The fuse at the take-off: required.
#[component]
fn Fuse(job: JobState) -> Element {
    let shell = use_shell();
    let wanted = supply::fuse(&job.kit);
    let key = match wanted.from {
        RatingFrom::Sheet => "fuse-from-sheet",
        RatingFrom::Current => "fuse-from-current",
        RatingFrom::Default => "fuse-from-default",
    };
    let typed = fuse_typed(&job);
    let fits = typed
        .clone()
        .ok()
        .and_then(|rating| supply::fuse_missing(&job.kit, FuseAnswer::FittedAtTakeOff(rating)));
    let wrong = typed.as_ref().err().cloned().or(fits);
    let fitted = match job.loom.fuse {
        Some(FuseAnswer::FittedAtTakeOff(rating)) => {
            Some(say(&msg("fuse-is-fitted").number("rating", rating.0, 1)))
        }
        Some(FuseAnswer::NotFitted) | None => None,
    };
    let ready = wrong.is_none();
    rsx! {
        TypedEntry {
            id: "fuse",
            job,
            field: Field::FuseAmperes,
            label: t("fuse-label"),
            wrong: wrong.as_ref().map(say),
            note: say(&msg(key).number("rating", wanted.rating.0, 1)),
        }
        if let Some(fitted) = fitted {
            p { {fitted} }
        } else {
            button {
                class: "also at-car",
                disabled: !ready,
                onclick: move |_| answer(&shell, LoomEvent::FuseFitted),
                {t("fuse-fit")}
            }
        }
    }
}
