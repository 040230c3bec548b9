//! Around the list of jobs: search, what was deleted, what is gone.

use dioxus::prelude::*;
use rakeline_core::job::Standing;
use rakeline_core::text::msg;

use super::jobs::{count_of, day_and_time, job_title};
use crate::driver::{
    EraseWhat, Intent, JobEntry, ListIntent, SHOWN, SortBy, StoreIntent, TRASH_DAYS, kits_of,
    listed,
};
use crate::parts::{Entry, Kind};
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// Search, filters and order.
#[component]
pub fn Search() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let wish = state.list.clone();
    let found = listed(&state).found;
    let kits = kits_of(&state);
    let say_list = |said: fn(String) -> ListIntent| {
        let shell = shell.clone();
        move |value: String| shell.send(Intent::List(said(value)))
    };
    let (stands, of_kit, in_order) = (
        say_list(|value| ListIntent::Standing(standing(&value))),
        say_list(|value| ListIntent::Kit(Some(value).filter(|kit| !kit.is_empty()))),
        say_list(|value| ListIntent::Sort(order(&value))),
    );
    let words = say_list(ListIntent::Words);
    let (from, to) = (say_list(ListIntent::From), say_list(ListIntent::To));
    let open = shell.clone();
    rsx! {
        Entry {
            id: "search",
            label: t("list-search"),
            kind: Kind::Words,
            value: wish.words.clone(),
            note: t("list-search-note"),
            on_type: words,
        }
        details {
            summary { {t("list-filter")} }
            div { class: "stack",
                div { class: "field",
                    label { r#for: "list-standing", {t("list-standing")} }
                    select {
                        id: "list-standing",
                        onchange: move |event| stands(event.value()),
                        option { value: "", selected: wish.standing.is_none(), {t("list-all")} }
                        for (at , one) in Standing::ALL.into_iter().enumerate() {
                            option {
                                key: "{at}",
                                value: "{at}",
                                selected: wish.standing == Some(one),
                                {say(&one.message())}
                            }
                        }
                    }
                }
                if kits.len() > 1 {
                    div { class: "field",
                        label { r#for: "list-kit", {t("list-kit")} }
                        select {
                            id: "list-kit",
                            onchange: move |event| of_kit(event.value()),
                            option { value: "", selected: wish.kit.is_none(), {t("list-all")} }
                            for kit in kits {
                                option {
                                    key: "{kit}",
                                    value: "{kit}",
                                    selected: wish.kit.as_deref() == Some(kit.as_str()),
                                    {plain(&kit)}
                                }
                            }
                        }
                    }
                }
                div { class: "field",
                    label { r#for: "list-order", {t("list-order")} }
                    select {
                        id: "list-order",
                        onchange: move |event| in_order(event.value()),
                        for sort in SortBy::ALL {
                            option {
                                key: "{sort:?}",
                                value: sort.name(),
                                selected: wish.sort == sort,
                                {t(sort.name())}
                            }
                        }
                    }
                }
            }
        }
        details {
            summary { {t("list-between")} }
            div { class: "pair",
                Date { id: "list-from", label: t("list-from"), value: wish.from.clone(), on_type: from }
                Date { id: "list-to", label: t("list-to"), value: wish.to.clone(), on_type: to }
            }
            if wish.is_upside_down() {
                p { class: "trouble", role: "alert", {t("list-upside-down")} }
            }
        }
        if !wish.is_open() {
            p { role: "status",
                {say(&msg("list-found").count("found", count_of(found)).count("all", count_of(state.jobs.len())))}
            }
            button {
                class: "plain",
                onclick: move |_| open.send(Intent::List(ListIntent::Open)),
                {t("list-open")}
            }
        }
    }
}

/// A field for a day.
#[component]
fn Date(id: String, label: String, value: String, on_type: EventHandler<String>) -> Element {
    rsx! {
        div { class: "field",
            label { r#for: "{id}", {label} }
            input {
                id: "{id}",
                r#type: "date",
                value: "{value}",
                onchange: move |event| on_type.call(event.value()),
            }
        }
    }
}

fn standing(value: &str) -> Option<Standing> {
    let at: usize = value.parse().ok()?;
    Standing::ALL.get(at).copied()
}

fn order(value: &str) -> SortBy {
    let mut all = SortBy::ALL.into_iter();
    all.find(|sort| sort.name() == value).unwrap_or_default()
}

/// Deleted jobs: each can come back for its days, or go for good.
#[component]
pub fn Trash() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let all = shell.clone();
    let mut most = use_signal(|| SHOWN);
    rsx! {
        details {
            summary { {say(&msg("deleted-jobs").count("jobs", count_of(state.trash.len())))} }
            p { class: "why", {say(&msg("deleted-days").count("days", TRASH_DAYS))} }
            Asked {}
            ul { class: "jobs",
                for job in state.trash.iter().take(most()) {
                    Deleted { key: "{job.id.0}", job: job.clone() }
                }
            }
            if state.trash.len() > most() {
                button {
                    class: "also",
                    onclick: move |_| most += SHOWN,
                    {say(&msg("list-more").count("more", count_of(state.trash.len() - most())))}
                }
            }
            if state.trash.len() > 1 {
                button {
                    class: "also",
                    onclick: move |_| all.send(Intent::Store(StoreIntent::AskErase(EraseWhat::Trash))),
                    {t("erase-all")}
                }
            }
        }
    }
}

/// The question before something is deleted for good.
#[component]
pub fn Asked() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(what) = &state.store.asking else {
        return rsx! {};
    };
    let question = say(&what.question(&state));
    let (erase, spare) = (shell.clone(), shell.clone());
    rsx! {
        div { class: "trouble-box", role: "alert",
            p { {question} }
            div { class: "pair",
                button {
                    class: "also",
                    onclick: move |_| erase.send(Intent::Store(StoreIntent::Erase)),
                    {t("erase-yes")}
                }
                button {
                    class: "also",
                    onclick: move |_| spare.send(Intent::Store(StoreIntent::Spare)),
                    {t("erase-no")}
                }
            }
        }
    }
}

#[component]
fn Deleted(job: JobEntry) -> Element {
    let shell = use_shell();
    let title = job_title(&job.name, &job.created);
    let since = job.deleted.as_ref().map(day_and_time).unwrap_or_default();
    let (back, gone) = (shell.clone(), shell);
    let (back_id, gone_id) = (job.id.clone(), job.id.clone());
    rsx! {
        li { class: "two",
            span { class: "open kept",
                b { {title.clone()} }
                span { {say(&msg("deleted-since").text("when", since))} }
            }
            button {
                class: "plain",
                onclick: move |_| back.send(Intent::RestoreJob(back_id.clone())),
                {t("bring-back")}
            }
            button {
                class: "plain",
                "aria-label": say(&msg("erase-job").text("job", title)),
                onclick: move |_| {
                    let what = EraseWhat::Job(gone_id.clone());
                    gone.send(Intent::Store(StoreIntent::AskErase(what)));
                },
                {t("erase")}
            }
        }
    }
}

/// A job that the list knows and whose record is gone.
#[component]
pub fn Lost(job: JobEntry) -> Element {
    let shell = use_shell();
    let id = job.id.clone();
    rsx! {
        div { class: "trouble-box", role: "alert",
            p {
                {say(&msg("job-lost")
                    .text("job", job_title(&job.name, &job.created))
                    .text("when", day_and_time(&job.changed)))}
            }
            button {
                class: "also",
                onclick: move |_| shell.send(Intent::Store(StoreIntent::Forget(id.clone()))),
                {t("job-lost-forget")}
            }
        }
    }
}
