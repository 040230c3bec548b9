//! What earlier jobs of a model offer, line by line.

use dioxus::prelude::*;
use rakeline_core::again::{OfferLine, Picture, pictures};
use rakeline_core::text::{Message, msg};

use super::again_pass::PassOn;
use super::job_title;
use crate::driver::{AgainIntent, Intent, PhotoIntent, RECALLED_GREATEST};
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
    let pictures = pictures(&offer, &draft.jobs);
    rsx! {
        h1 { {vehicle.unwrap_or_default()} }
        p { {say(&msg("again-counts").count("jobs", counted(offer.from.len())))} }
        p { class: "why", {say(&msg("again-kit").text("kit", plain(&offer.kit.name)))} }
        IntoJob { kit: plain(&offer.kit.name), heads: offer.kit.head_count() }
        if let Some(old) = old {
            p { class: "why", {old} }
        }
        if draft.not_read > 0 {
            p { class: "why", {say(&msg("again-not-read").count("jobs", counted(draft.not_read)))} }
        }
        for (index , warning) in offer.warnings.iter().enumerate() {
            div { key: "{index}", class: "note-box", role: "status", {say(warning)} }
        }
        if !offer.kinds.is_empty() {
            Kinds { kinds: offer.kinds.clone(), kind: offer.kind }
        }
        Alike {}
        for line in offer.lines.clone() {
            LineView { key: "{line.line:?}", out: left_out.contains(&line.line), line: line.clone() }
        }
        if !pictures.is_empty() {
            details {
                summary { {t("again-pictures")} }
                p { class: "why", {t("again-pictures-why")} }
                for picture in pictures {
                    PictureView { key: "{picture.blob}", picture: picture.clone() }
                }
            }
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
        if draft.into.is_none() {
            FleetOf {}
        }
        if own {
            PassOn {}
        }
    }
}

/// The job that takes over what is offered, and what its own kit means.
#[component]
fn IntoJob(kit: String, heads: usize) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.again.into.as_ref() else {
        return rsx! {};
    };
    let own = plain(&job.kit.name);
    let other = (own != kit).then(|| {
        let key = if job.kit.head_count() == heads {
            "again-into-kit"
        } else {
            "again-into-heads"
        };
        say(&msg(key).text("own", own).text("kit", kit))
    });
    let title = job_title(&job.name, &job.created);
    rsx! {
        div { class: "note-box", role: "status",
            p { {say(&msg("again-into-why").text("job", title))} }
            if let Some(other) = other {
                p { {other} }
            }
        }
    }
}

/// Kinds under the name whose faces contradict each other: one is offered.
#[component]
fn Kinds(kinds: Vec<Message>, kind: usize) -> Element {
    let shell = use_shell();
    rsx! {
        div { class: "things", role: "group", "aria-label": t("again-kinds-which"),
            for (index , words) in kinds.iter().enumerate() {
                button {
                    key: "{index}",
                    class: "also",
                    "aria-pressed": if index == kind { "true" } else { "false" },
                    onclick: {
                        let shell = shell.clone();
                        move |_| shell.send(Intent::Again(AgainIntent::Kind(index)))
                    },
                    {say(words)}
                }
            }
        }
    }
}

/// A photo of what was behind an earlier bumper.
#[component]
fn PictureView(picture: Picture) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let found = state.drafts.photos.found(&picture.blob);
    let (look, blob) = (shell.clone(), picture.blob.clone());
    let name = say(&picture.name);
    rsx! {
        figure {
            class: "thumb",
            onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(blob.clone()))),
            match found {
                Some(Ok(url)) => rsx! { img { src: "{url}", alt: "{name}" } },
                Some(Err(why)) => rsx! { p { class: "trouble-box", {say(why)} } },
                None => rsx! { p { role: "status", {t("level-reading-photo")} } },
            }
            figcaption { {name} " · " {say(&picture.from)} }
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
