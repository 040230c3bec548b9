//! What earlier jobs of a model offer, line by line.

use dioxus::prelude::*;
use rakeline_core::again::OfferLine;
use rakeline_core::text::msg;

use crate::driver::{AgainIntent, Intent, Letter, RECALLED_GREATEST, Said};
use crate::parts::Entry;
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

fn counted(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// What the jobs of the chosen model offer.
#[component]
pub fn OfferView() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.again;
    if draft.waiting {
        return rsx! { p { class: "why", role: "status", {t("again-reading")} } };
    }
    let Some(offer) = draft.offer.clone() else {
        return rsx! { div { class: "note-box", p { {t("again-teaches-nothing")} } } };
    };
    let vehicle = offer.from.first().map(|from| plain(&from.vehicle));
    let total = draft.count_chosen();
    let old = (total > RECALLED_GREATEST).then(|| {
        say(&msg("again-newest")
            .count("jobs", counted(total))
            .count("read", counted(RECALLED_GREATEST)))
    });
    let left_out = draft.left_out.clone();
    let own = !draft.jobs.is_empty();
    rsx! {
        h1 { {vehicle.unwrap_or_default()} }
        p { {say(&msg("again-counts").count("jobs", counted(offer.from.len())))} }
        if let Some(old) = old {
            p { class: "why", {old} }
        }
        if draft.not_read > 0 {
            p { class: "why", {say(&msg("again-not-read").count("jobs", counted(draft.not_read)))} }
        }
        for (index , warning) in offer.warnings.iter().enumerate() {
            div { key: "{index}", class: "note-box", role: "status", {say(warning)} }
        }
        Alike {}
        for line in offer.lines.clone() {
            LineView { key: "{line.line:?}", out: left_out.contains(&line.line), line: line.clone() }
        }
        if !offer.told.is_empty() {
            details {
                summary { {t("again-told")} }
                ul { class: "candidates",
                    for (index , (words , from)) in offer.told.iter().enumerate() {
                        li { key: "{index}", {say(words)} " · " {say(from)} }
                    }
                }
            }
        }
        div { class: "caution", p { {t("before-never")} } }
        FleetOf {}
        if own {
            PassOn {}
        }
    }
}

/// One line with whether it is taken.
#[component]
fn LineView(line: OfferLine, out: bool) -> Element {
    let shell = use_shell();
    let which = line.line;
    rsx! {
        section { class: if out { "ring close" } else { "ring" },
            div { class: "whole",
                h2 { {say(&which.message())} }
                for (index , words) in line.says.iter().enumerate() {
                    p { key: "{index}", {say(words)} }
                }
                p { class: "why", {say(&line.from)} }
                button {
                    class: "also",
                    "aria-pressed": if out { "false" } else { "true" },
                    onclick: move |_| shell.send(Intent::Again(if out {
                        AgainIntent::Take(which)
                    } else {
                        AgainIntent::Leave(which)
                    })),
                    if out {
                        {say(&msg("again-take-line").message("line", which.message()))}
                    } else {
                        {say(&msg("again-leave-line").message("line", which.message()))}
                    }
                }
            }
        }
    }
}

/// Models that may be this one, spelt differently.
#[component]
fn Alike() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let alike: Vec<(String, String, i64)> = state
        .again
        .alike()
        .into_iter()
        .map(|group| {
            (
                group.key.clone(),
                plain(&group.title),
                counted(group.count()),
            )
        })
        .collect();
    rsx! {
        for (key , title , jobs) in alike {
            div { key: "{key}", class: "note-box",
                p { {say(&msg("again-alike-too").text("vehicle", title).count("jobs", jobs))} }
                button {
                    class: "also",
                    onclick: {
                        let (shell, key) = (shell.clone(), key.clone());
                        move |_| shell.send(Intent::Again(AgainIntent::CountToo(key.clone())))
                    },
                    {t("again-count-too")}
                }
            }
        }
    }
}

/// Several vehicles from this offer.
#[component]
fn FleetOf() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let value = state.again.fleet_typed.clone();
    let (typed, start) = (shell.clone(), shell.clone());
    let empty = value.trim().is_empty();
    rsx! {
        details {
            summary { {t("fleet-of")} }
            p { class: "why", {t("fleet-of-why")} }
            Entry {
                id: "fleet-count",
                label: t("fleet-count"),
                value,
                on_type: move |text| typed.send(Intent::Again(AgainIntent::FleetTyped(text))),
            }
            button {
                class: "also",
                disabled: empty,
                onclick: move |_| {
                    start.send(Intent::Again(AgainIntent::FleetStart(start.new_id())));
                },
                {t("fleet-start")}
            }
        }
    }
}

/// The file for a colleague, and what goes along.
#[component]
fn PassOn() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let workshop = state
        .settings
        .letterhead
        .line(Letter::Name)
        .trim()
        .to_owned();
    let fitter = state.settings.fitter.trim().to_owned();
    let (say_workshop, say_fitter) = (state.again.say_workshop, state.again.say_fitter);
    let out = shell.clone();
    let flipped = |said: Said| match said {
        Said::No => Said::Yes,
        Said::Yes => Said::No,
    };
    rsx! {
        details {
            summary { {t("pass-title")} }
            p { class: "why", {t("pass-why")} }
            if !workshop.is_empty() {
                Tick {
                    label: say(&msg("pass-say").text("name", plain(&workshop))),
                    said: say_workshop,
                    intent: AgainIntent::SayWorkshop(flipped(say_workshop)),
                }
            }
            if !fitter.is_empty() {
                Tick {
                    label: say(&msg("pass-say").text("name", plain(&fitter))),
                    said: say_fitter,
                    intent: AgainIntent::SayFitter(flipped(say_fitter)),
                }
            }
            button {
                class: "also",
                onclick: move |_| out.send(Intent::Again(AgainIntent::PassOn)),
                {t("pass-save")}
            }
        }
    }
}

#[component]
fn Tick(label: String, said: Said, intent: AgainIntent) -> Element {
    let shell = use_shell();
    rsx! {
        button {
            class: "also",
            "aria-pressed": if said == Said::Yes { "true" } else { "false" },
            onclick: move |_| shell.send(Intent::Again(intent.clone())),
            {label}
        }
    }
}
