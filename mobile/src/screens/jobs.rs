//! The list of jobs, and one tap that starts the next.

use chrono::{DateTime, FixedOffset};
use dioxus::prelude::*;
use rakeline_core::moment;
use rakeline_core::text::msg;

use super::job_list::{Lost, Search, Trash};
use crate::driver::{
    AgainIntent, Boot, Intent, JobEntry, KitIntent, ListIntent, StoreIntent, WorkshopIntent,
    backup_due, bereft_words, listed,
};
use crate::parts::NoticeBar;
use crate::route::Route;
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// From so many jobs on they can be searched.
const SEARCHED_FROM: usize = 4;

/// A count as texts take it.
#[must_use]
pub fn count_of(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// The first screen.
#[component]
pub fn Jobs() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let trouble = match &state.boot {
        Boot::NoStorage(why) => Some(say(why)),
        _ => None,
    };
    let kit = state
        .settings
        .last_kit
        .as_ref()
        .map(|kit| say(&msg("start-with-kit").text("kit", kit.name.clone())));
    let empty = state.jobs.is_empty();
    let (start, sample, kits, restock) =
        (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let (fault, workshop) = (shell.clone(), shell.clone());
    let (storage, more) = (shell.clone(), shell.clone());
    let (remind, take_in) = (shell.clone(), shell.clone());
    let (to_bereft, to_half) = (shell.clone(), shell.clone());
    let may_be_cleared = state.store.may_be_cleared();
    let shown = listed(&state);
    let due = backup_due(&state, &shell.now().at);
    let again = shell.clone();
    rsx! {
        div { class: "frame",
            header { class: "head",
                div { class: "what",
                    b { {t("app-name")} }
                    span { class: "state", {t("app-line")} }
                }
            }
            main { class: "body",
                if let Some(trouble) = trouble {
                    div { class: "trouble-box", role: "alert", {trouble} }
                }
                if let Some(due) = due {
                    button {
                        class: "note-box reminder",
                        onclick: move |_| remind.send(Intent::Store(StoreIntent::Go)),
                        {say(&due)}
                        if may_be_cleared {
                            " "
                            {t("storage-may-be-cleared")}
                        }
                    }
                }
                if let Some(bereft) = bereft_words(&state) {
                    button {
                        class: "trouble-box reminder",
                        onclick: move |_| to_bereft.send(Intent::Store(StoreIntent::Go)),
                        {say(&bereft)}
                    }
                }
                if let Some(name) = state.store.half.clone() {
                    button {
                        class: "trouble-box reminder",
                        onclick: move |_| to_half.send(Intent::Store(StoreIntent::Go)),
                        {say(&msg("restore-half").text("name", plain(&name)))}
                    }
                }
                for lost in state.lost.iter() {
                    Lost { key: "{lost.id.0}", job: lost.clone() }
                }
                for broken in state.unreadable.iter() {
                    div { class: "trouble-box", role: "alert", key: "{broken.key}",
                        if let Some(about) = &broken.about {
                            p { b { {say(about)} } }
                        }
                        p { {say(&msg(if broken.is_newer() { "record-kept-newer" } else { "record-kept" }).text("key", broken.key.clone()))} }
                        p { {say(&broken.why)} }
                    }
                }
                if empty {
                    h1 { {t("jobs-empty-title")} }
                    p { class: "why", {t("jobs-empty-why")} }
                    ol { class: "steps",
                        li { {t("jobs-empty-1")} }
                        li { {t("jobs-empty-2")} }
                        li { {t("jobs-empty-3")} }
                        li { {t("jobs-empty-4")} }
                    }
                    button {
                        class: "also",
                        onclick: move |_| take_in.send(Intent::Store(StoreIntent::Go)),
                        {t("restore-title")}
                    }
                } else {
                    h1 { {t("jobs-title")} }
                    if state.jobs.len() >= SEARCHED_FROM || !state.list.is_open() {
                        Search {}
                    }
                    ul { class: "jobs",
                        for job in shown.rows.iter() {
                            Row { key: "{job.id.0}", job: (*job).clone() }
                        }
                    }
                    if shown.found > shown.rows.len() {
                        button {
                            class: "also",
                            onclick: move |_| more.send(Intent::List(ListIntent::More)),
                            {say(&msg("list-more").count("more", count_of(shown.found - shown.rows.len())))}
                        }
                    }
                }
                button {
                    class: "plain",
                    onclick: move |_| sample.send(Intent::OpenSample(sample.new_id())),
                    {t("open-sample")}
                }
                div { class: "things",
                    button {
                        class: "also whole-row",
                        onclick: move |_| again.send(Intent::Again(AgainIntent::Go)),
                        {t("to-again")}
                    }
                    button {
                        class: "also",
                        onclick: move |_| kits.send(Intent::Kits(KitIntent::Go(Route::Kits))),
                        {t("to-kits")}
                    }
                    button {
                        class: "also",
                        onclick: move |_| restock.send(Intent::Kits(KitIntent::Go(Route::Restock))),
                        {t("to-restock")}
                    }
                    button {
                        class: "also",
                        onclick: move |_| workshop.send(Intent::Workshop(WorkshopIntent::Go)),
                        {t("to-settings")}
                    }
                    button {
                        class: "also whole-row",
                        onclick: move |_| storage.send(Intent::Store(StoreIntent::Go)),
                        {t("to-store")}
                    }
                    button {
                        class: "also whole-row",
                        onclick: move |_| fault.send(Intent::StartFault(fault.new_id())),
                        {t("start-fault")}
                    }
                }
                if !state.trash.is_empty() {
                    Trash {}
                }
            }
            div { class: "base",
                footer { class: "foot",
                    if let Some(kit) = kit {
                        span { class: "why", {kit} }
                    }
                    button {
                        class: "do at-car",
                        onclick: move |_| start.send(Intent::StartJob(start.new_id())),
                        {t("start-job")}
                    }
                }
                NoticeBar {}
            }
        }
    }
}

/// What a job is called: its name, or the day and time of its start.
#[must_use]
pub fn job_title(name: &str, created: &DateTime<FixedOffset>) -> String {
    let name = plain(name.trim());
    if name.is_empty() {
        say(&msg("job-of-day").text("when", moment::day_and_clock(created)))
    } else {
        name
    }
}

/// A moment as the list shows it.
#[must_use]
pub fn day_and_time(at: &DateTime<FixedOffset>) -> String {
    moment::date_and_clock(at)
}

#[component]
fn Row(job: JobEntry) -> Element {
    let shell = use_shell();
    let (open, delete) = (shell.clone(), shell);
    let (open_id, delete_id) = (job.id.clone(), job.id.clone());
    let title = job_title(&job.name, &job.created);
    let about = [&job.vehicle, &job.plate, &job.customer].map(|text| plain(text));
    let about: Vec<&str> = about
        .iter()
        .map(String::as_str)
        .filter(|text| !text.is_empty())
        .collect();
    let about = about.join(" · ");
    let progress = say(&msg("job-progress")
        .count("read", count_of(job.read))
        .count("heads", count_of(job.heads))
        .text("when", day_and_time(&job.changed)));
    rsx! {
        li {
            button {
                class: "open",
                onclick: move |_| open.send(Intent::OpenJob(open_id.clone())),
                b { {title.clone()} }
                if !about.is_empty() {
                    span { {about} }
                }
                span { {progress} }
            }
            button {
                class: "plain",
                "aria-label": say(&msg("delete-job").text("job", title)),
                onclick: move |_| delete.send(Intent::DeleteJob(delete_id.clone())),
                {t("delete")}
            }
        }
    }
}
