//! What was put by of jobs, and the way back to it.

use dioxus::prelude::*;
use rakeline_core::text::msg;

use super::jobs::{day_and_time, job_title};
use crate::driver::{Intent, PutBy, PutByWhy, StoreIntent};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// So many are shown at first, and so many more at a time.
const SHOWN: usize = 20;

/// Jobs as they were before a visit, or before a backup's took their place.
#[component]
pub fn PutByJobs() -> Element {
    let shell = use_shell();
    let mut most = use_signal(|| SHOWN);
    let state = shell.state.read();
    let ask = shell.clone();
    let Some(all) = &state.store.put_by else {
        return rsx! {
            h2 { {t("put-by-title")} }
            p { class: "why", {t("put-by-why")} }
            button {
                class: "also",
                onclick: move |_| ask.send(Intent::Store(StoreIntent::PutBy)),
                {t("put-by-show")}
            }
        };
    };
    let more = i64::try_from(all.len().saturating_sub(most())).unwrap_or(i64::MAX);
    rsx! {
        h2 { {t("put-by-title")} }
        p { class: "why", {t("put-by-why")} }
        if all.is_empty() {
            p { role: "status", {t("put-by-none")} }
        }
        ul { class: "jobs",
            for kept in all.iter().take(most()) {
                One { key: "{kept.key}", kept: kept.clone() }
            }
        }
        if more > 0 {
            button {
                class: "also",
                onclick: move |_| most += SHOWN,
                {say(&msg("list-more").count("more", more))}
            }
        }
    }
}

/// One of them.
#[component]
fn One(kept: PutBy) -> Element {
    let shell = use_shell();
    let why = match kept.why {
        PutByWhy::Visit => "put-by-visit",
        PutByWhy::Restored => "put-by-restored",
    };
    let Some(job) = kept.job else {
        return rsx! {
            li { {say(&msg("put-by-unreadable").text("key", kept.key.clone()))} }
        };
    };
    let title = job_title(&job.name, &job.created);
    let changed = day_and_time(&job.changed);
    let key = kept.key.clone();
    rsx! {
        li { class: "two",
            span { class: "open kept",
                b { {title.clone()} }
                span { {say(&msg(why).text("when", changed))} }
            }
            button {
                class: "plain",
                "aria-label": say(&msg("put-by-own-job").text("job", title)),
                onclick: move |_| {
                    let own = StoreIntent::OwnJob(key.clone(), shell.new_id());
                    shell.send(Intent::Store(own));
                },
                {t("put-by-own")}
            }
        }
    }
}
