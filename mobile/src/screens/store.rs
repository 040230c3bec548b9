//! Storage: room left, whether the jobs stay, checks, deletions for good.

use dioxus::prelude::*;
use rakeline_core::text::msg;

use super::backup::{ExportTables, MakeBackup, Restore};
use super::job_list::Asked;
use super::jobs::count_of;
use super::put_by::PutByJobs;
use crate::driver::{EraseWhat, Intent, StoreIntent, bereft_words, customers};
use crate::parts::NoticeBar;
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// The screen of the store.
#[component]
pub fn StoreScreen() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let back = shell.clone();
    let jobs = msg("store-jobs").count("jobs", count_of(state.jobs.len()));
    rsx! {
        div { class: "frame",
            header { class: "head",
                button {
                    class: "quiet back",
                    "aria-label": t("back-to-jobs"),
                    onclick: move |_| back.send(Intent::GoJobs),
                    "‹"
                }
                div { class: "what",
                    b { {t("store-title")} }
                    span { class: "state", {say(&jobs)} }
                }
            }
            main { class: "body",
                MakeBackup {}
                Restore {}
                ExportTables {}
                h2 { {t("room-title")} }
                if let Some(words) = state.store.room_words() {
                    p { {say(&words)} }
                } else {
                    p { class: "why", {t("room-unknown")} }
                }
                if let Some(answer) = state.store.kept {
                    p { {say(&answer.message())} }
                }
                Bereft {}
                Check {}
                PutByJobs {}
                EraseCustomer {}
            }
            div { class: "base", NoticeBar {} }
        }
    }
}

/// Pictures whose jobs are gone.
#[component]
fn Bereft() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(words) = bereft_words(&state) else {
        return rsx! {};
    };
    let asked = state.store.asking == Some(EraseWhat::Pictures);
    let ask = shell.clone();
    rsx! {
        div { class: "trouble-box", role: "alert",
            p { {say(&words)} }
            button {
                class: "also",
                onclick: move |_| ask.send(Intent::Store(StoreIntent::AskErase(EraseWhat::Pictures))),
                {t("pictures-bereft-erase")}
            }
        }
        if asked {
            Asked {}
        }
    }
}

/// The check of every record.
#[component]
fn Check() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let check = shell.clone();
    rsx! {
        h2 { {t("check-store-title")} }
        p { class: "why", {t("check-store-why")} }
        if let Some((read, all)) = state.store.checking {
            p { role: "status",
                {say(&msg("check-store-going").count("read", count_of(read)).count("all", count_of(all)))}
            }
        } else {
            button {
                class: "also",
                onclick: move |_| check.send(Intent::Store(StoreIntent::Check)),
                {t("check-store")}
            }
        }
        if let Some(found) = &state.store.checked {
            for (at , words) in found.words().iter().enumerate() {
                p { key: "{at}", role: "status", {say(words)} }
            }
        }
    }
}

/// Everything of one customer goes for good.
#[component]
fn EraseCustomer() -> Element {
    let shell = use_shell();
    let mut chosen = use_signal(String::new);
    let state = shell.state.read();
    let all = customers(&state);
    if all.is_empty() {
        return rsx! {};
    }
    let ask = shell.clone();
    rsx! {
        details {
            summary { {t("erase-customer-title")} }
            p { class: "why", {t("erase-customer-why")} }
            div { class: "field",
                label { r#for: "erase-who", {t("erase-who")} }
                select {
                    id: "erase-who",
                    onchange: move |event| chosen.set(event.value()),
                    option { value: "", selected: chosen.read().is_empty(), {t("erase-nobody")} }
                    for (name , jobs) in all {
                        option {
                            key: "{name}",
                            value: "{name}",
                            selected: *chosen.read() == name,
                            {say(&msg("erase-who-jobs").text("customer", plain(&name)).count("jobs", count_of(jobs)))}
                        }
                    }
                }
            }
            button {
                class: "also",
                disabled: chosen.read().is_empty(),
                onclick: move |_| {
                    let what = EraseWhat::Customer(chosen.peek().clone());
                    ask.send(Intent::Store(StoreIntent::AskErase(what)));
                },
                {t("erase-customer-ask")}
            }
            if state.store.asking != Some(EraseWhat::Pictures) {
                Asked {}
            }
        }
    }
}

/// Another page of the app works on the jobs.
#[component]
pub fn Elsewhere() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let unsaved = state.open.is_some();
    let here = shell.clone();
    rsx! {
        div { class: "frame",
            header { class: "head",
                div { class: "what", b { {t("app-name")} } }
            }
            main { class: "body",
                h1 { {t("elsewhere-title")} }
                p { {t("elsewhere-why")} }
                if unsaved {
                    div { class: "trouble-box", role: "alert", {t("elsewhere-unsaved")} }
                }
            }
            div { class: "base",
                footer { class: "foot",
                    button {
                        class: "do",
                        onclick: move |_| here.send(Intent::Store(StoreIntent::TakeOver)),
                        {t("elsewhere-here")}
                    }
                }
            }
        }
    }
}
