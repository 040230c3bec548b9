//! Models that were fitted before, and what their jobs offer.

use dioxus::prelude::*;
use rakeline_core::again::Likeness;
use rakeline_core::moment;
use rakeline_core::text::{Message, msg};

use super::again_offer::OfferView;
use crate::driver::{AgainDraft, AgainIntent, Group, Intent};
use crate::parts::{Entry, Kind, NoticeBar};
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// Most models in the list while nothing is typed.
const SHOWN: usize = 30;

fn counted(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// How many jobs a model has and when the last was.
fn group_words(group: &Group) -> Message {
    let words = msg(if group.theirs > 0 {
        "again-group-theirs"
    } else {
        "again-group"
    });
    words
        .count("jobs", counted(group.count()))
        .count("theirs", counted(group.theirs))
        .text("day", moment::date(&group.newest))
}

/// What a tap takes: all, or the lines that are not left out; for a new job,
/// or for the one that was left for it.
fn start_words(draft: &AgainDraft) -> Message {
    let taken = draft.taken();
    let lines = taken.iter().map(|line| line.message()).collect();
    let all = draft
        .offer
        .as_ref()
        .is_none_or(|offer| offer.lines.len() == taken.len());
    let into = draft.into.is_some();
    match (all, taken.is_empty()) {
        (true, _) => msg(if into { "again-into" } else { "again-start" }),
        (false, true) => msg(if into {
            "again-into-none"
        } else {
            "again-start-none"
        }),
        (false, false) => msg(if into {
            "again-into-some"
        } else {
            "again-start-some"
        })
        .list("lines", lines),
    }
}

/// The screen of same again.
#[component]
pub fn AgainScreen() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.again;
    let open = !draft.chosen.is_empty();
    let back = shell.clone();
    let start = shell.clone();
    let offers = draft.offer.is_some();
    rsx! {
        div { class: "frame",
            header { class: "head",
                button {
                    class: "quiet back",
                    "aria-label": if open { t("again-back-to-models") } else { t("back-to-jobs") },
                    onclick: move |_| back.send(if open {
                        Intent::Again(AgainIntent::Close)
                    } else {
                        Intent::GoJobs
                    }),
                    "‹"
                }
                div { class: "what",
                    b { {t("to-again")} }
                    span { class: "state", {t("again-line")} }
                }
            }
            main { class: "body",
                if open {
                    OfferView {}
                } else {
                    Models {}
                }
            }
            div { class: "base",
                if open && offers {
                    footer { class: "foot",
                        span { class: "why", {t("again-start-why")} }
                        button {
                            class: "do at-car",
                            onclick: move |_| {
                                start.send(Intent::Again(AgainIntent::Start(start.new_id())));
                            },
                            {say(&start_words(draft))}
                        }
                    }
                }
                NoticeBar {}
            }
        }
    }
}

/// What was fitted before, best first; fleets in work; colleagues' files.
#[component]
fn Models() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.again;
    let found = draft.found();
    let shown: Vec<(Likeness, Group)> = found
        .iter()
        .take(SHOWN)
        .map(|(like, group)| (*like, (*group).clone()))
        .collect();
    let more = found.len() - shown.len();
    let nameless = draft.nameless;
    let typed = shell.clone();
    let none = draft.groups.is_empty();
    rsx! {
        Fleets {}
        h1 { {t("again-title")} }
        p { class: "why", {t("again-why")} }
        if none && !draft.waiting {
            div { class: "note-box", p { {t("again-empty")} } }
        } else {
            Entry {
                id: "again-vehicle",
                label: t("again-vehicle"),
                kind: Kind::Words,
                value: draft.typed.clone(),
                note: t("again-vehicle-note"),
                on_type: move |text| typed.send(Intent::Again(AgainIntent::Typed(text))),
            }
            if shown.is_empty() && !draft.waiting {
                div { class: "note-box", p { {t("again-none-like")} } }
            }
            ul { class: "jobs",
                for (like , group) in shown {
                    Model { key: "{group.key}", like, group: group.clone() }
                }
            }
            if more > 0 {
                p { class: "why", {say(&msg("again-more").count("models", counted(more)))} }
            }
        }
        if nameless > 0 {
            p { class: "why", {say(&msg("again-nameless").count("jobs", counted(nameless)))} }
        }
        Received {}
    }
}

#[component]
fn Model(like: Likeness, group: Group) -> Element {
    let shell = use_shell();
    let key = group.key.clone();
    rsx! {
        li {
            button {
                class: "open",
                onclick: move |_| shell.send(Intent::Again(AgainIntent::Open(key.clone()))),
                b { {plain(&group.title)} }
                span { {say(&group_words(&group))} }
                if like == Likeness::Alike {
                    span { {t("again-alike")} }
                }
            }
        }
    }
}

/// Fleets in work, each with how far it is.
#[component]
fn Fleets() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    if state.settings.fleets.is_empty() {
        return rsx! {};
    }
    let fleets: Vec<_> = state
        .settings
        .fleets
        .iter()
        .map(|fleet| (fleet.id.clone(), plain(&fleet.vehicle), say(&fleet.words())))
        .collect();
    rsx! {
        h2 { {t("fleets-title")} }
        ul { class: "jobs",
            for (id , vehicle , words) in fleets {
                li { key: "{id}",
                    button {
                        class: "open",
                        onclick: {
                            let (shell, id) = (shell.clone(), id.clone());
                            move |_| shell.send(Intent::Again(AgainIntent::FleetGo(id.clone())))
                        },
                        b { {vehicle} }
                        span { {words} }
                    }
                }
            }
        }
    }
}

/// What colleagues passed on, and the way in for more.
#[component]
fn Received() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.again;
    let files: Vec<(String, String)> = draft
        .received
        .iter()
        .map(|(key, passed)| {
            let words = msg("passed-file")
                .count("jobs", counted(passed.lessons.len()))
                .text("who", passed.by.words());
            (key.clone(), say(&words))
        })
        .collect();
    let broken: Vec<(String, String)> = draft
        .unreadable
        .iter()
        .map(|(key, why)| (key.clone(), say(why)))
        .collect();
    let bring = shell.clone();
    rsx! {
        h2 { {t("passed-title")} }
        p { class: "why", {t("passed-why")} }
        if let Some(fault) = &draft.brought_fault {
            div { class: "trouble-box", role: "alert", {say(fault)} }
        }
        ul { class: "jobs",
            for (key , words) in files.into_iter().chain(broken) {
                li { key: "{key}",
                    span { class: "open kept", {words} }
                    button {
                        class: "plain",
                        onclick: {
                            let (shell, key) = (shell.clone(), key.clone());
                            move |_| shell.send(Intent::Again(AgainIntent::Drop(key.clone())))
                        },
                        {t("passed-remove")}
                    }
                }
            }
        }
        button {
            class: "also",
            onclick: move |_| bring.send(Intent::Again(AgainIntent::Bring)),
            {t("passed-bring")}
        }
    }
}
