//! Backup, the way back, tables for other programs.

use dioxus::prelude::*;
use rakeline_core::job::JobId;
use rakeline_core::moment;
use rakeline_core::text::{Message, msg};

use super::jobs::{count_of, job_title};
use crate::backup::{Brings, Found, Plan, Verdict};
use crate::driver::{BackupIntent, Chosen, Intent, StoreIntent, WayBack, Whole};
use crate::parts::{Entry, Kind};
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// How many jobs of a kind are named before the rest is counted.
const NAMED: usize = 20;
/// So many of the newest jobs are offered for a backup of one job, and so
/// many more at a time.
const OFFERED: usize = 40;

/// Making a backup.
#[component]
pub fn MakeBackup() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.backup;
    let last = match &state.settings.backed_up {
        Some(at) => say(&msg("backup-last").text("when", moment::date_and_clock(at))),
        None => t("backup-none-yet"),
    };
    let busy = draft.is_busy();
    let short = draft.too_short().is_some();
    let (typed, locked, open) = (shell.clone(), shell.clone(), shell.clone());
    let mut only = use_signal(|| None::<JobId>);
    let mut offered = use_signal(|| OFFERED);
    let more = state.jobs.len().saturating_sub(offered());
    let jobs: Vec<(JobId, String)> = state
        .jobs
        .iter()
        .take(offered())
        .map(|job| (job.id.clone(), job_title(&job.name, &job.created)))
        .collect();
    let chosen = only().filter(|id| jobs.iter().any(|(job, _)| job == id));
    let (whole, bare) = match chosen.clone() {
        Some(id) => (Whole::JobLocked(id.clone()), Whole::JobOpen(id)),
        None => (Whole::Locked, Whole::Open),
    };
    rsx! {
        h2 { {t("backup-title")} }
        p { class: "why", {t("backup-why")} }
        p { {last} }
        Entry {
            id: "backup-passphrase",
            label: t("backup-passphrase"),
            kind: Kind::Secret,
            value: draft.passphrase.clone(),
            note: t("backup-passphrase-note"),
            on_type: move |text| typed.send(Intent::Backup(BackupIntent::Typed(text))),
        }
        if !jobs.is_empty() {
            div { class: "field",
                label { r#for: "backup-of", {t("backup-of")} }
                select {
                    id: "backup-of",
                    onchange: move |event| {
                        let id = event.value();
                        only.set((!id.is_empty()).then_some(JobId(id)));
                    },
                    option { value: "", selected: chosen.is_none(), {t("backup-of-all")} }
                    for (id , title) in jobs {
                        option {
                            key: "{id.0}",
                            value: "{id.0}",
                            selected: chosen.as_ref() == Some(&id),
                            {title}
                        }
                    }
                }
            }
        }
        if more > 0 {
            button {
                class: "plain",
                onclick: move |_| offered += OFFERED,
                {say(&msg("backup-of-more").count("more", count_of(more)))}
            }
        }
        button {
            class: "do",
            disabled: busy || short,
            onclick: move |_| locked.send(Intent::Backup(BackupIntent::Make(whole.clone()))),
            {t("backup-make")}
        }
        Going {}
        details {
            summary { {t("backup-open-title")} }
            div { class: "trouble-box", {t("backup-open-warning")} }
            button {
                class: "also",
                disabled: busy,
                onclick: move |_| open.send(Intent::Backup(BackupIntent::Make(bare.clone()))),
                {t("backup-open-make")}
            }
        }
    }
}

/// What is under way, with its end in sight and its way out.
#[component]
fn Going() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.backup;
    let share = |done: u64, of: u64| {
        let percent = done.saturating_mul(100) / of.max(1);
        i64::try_from(percent.min(100)).unwrap_or(100)
    };
    let words = match (&draft.making, &draft.back) {
        (Some(making), _) => Some(
            msg("backup-going")
                .count("done", count_of(making.done))
                .count("all", count_of(making.all)),
        ),
        (None, WayBack::Looking(file, read)) => {
            Some(msg("backup-looking").count("percent", share(*read, file.size)))
        }
        (None, WayBack::Taking(file, _, read)) => {
            Some(msg("backup-taking").count("percent", share(*read, file.size)))
        }
        _ => None,
    };
    let stop = shell.clone();
    rsx! {
        if let Some(words) = words {
            div { class: "note-box", role: "status",
                p { {say(&words)} }
                button {
                    class: "also",
                    onclick: move |_| stop.send(Intent::Backup(BackupIntent::Stop)),
                    {t("backup-stop")}
                }
            }
        }
        if let Some(fault) = &draft.fault {
            div { class: "trouble-box", role: "alert", {say(fault)} }
        }
    }
}

/// The way back.
#[component]
pub fn Restore() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = &state.backup;
    let (choose, key, look, close) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let file = match &draft.back {
        WayBack::Closed => None,
        WayBack::Chosen(file)
        | WayBack::Looking(file, _)
        | WayBack::Planned(file, _)
        | WayBack::Taking(file, ..) => Some(file.clone()),
    };
    let plan = match &draft.back {
        WayBack::Planned(_, plan) => Some(plan.as_ref().clone()),
        _ => None,
    };
    let waits = matches!(draft.back, WayBack::Chosen(_));
    let half = state.store.half.clone().filter(|_| !draft.is_busy());
    let leave = shell.clone();
    rsx! {
        h2 { {t("restore-title")} }
        if let Some(name) = half {
            div { class: "trouble-box", role: "alert",
                p { {say(&msg("restore-half").text("name", plain(&name)))} }
                button {
                    class: "also",
                    onclick: move |_| leave.send(Intent::Store(StoreIntent::LeaveHalf)),
                    {t("restore-half-leave")}
                }
            }
        }
        p { class: "why", {t("restore-why")} }
        button {
            class: "also",
            disabled: draft.is_busy(),
            onclick: move |_| choose.send(Intent::Backup(BackupIntent::Choose)),
            {t("restore-choose")}
        }
        if let Some(Chosen { name, size }) = file {
            p { {say(&msg("restore-file").text("name", plain(&name)).count("kb", i64::try_from(size / 1000).unwrap_or(i64::MAX)))} }
            if waits {
                Entry {
                    id: "restore-passphrase",
                    label: t("restore-passphrase"),
                    kind: Kind::Secret,
                    value: draft.key.clone(),
                    note: t("restore-passphrase-note"),
                    on_type: move |text| key.send(Intent::Backup(BackupIntent::KeyTyped(text))),
                }
                button {
                    class: "do",
                    onclick: move |_| look.send(Intent::Backup(BackupIntent::Look)),
                    {t("restore-look")}
                }
            }
        }
        if let Some(plan) = plan {
            Planned { plan }
            button {
                class: "plain",
                onclick: move |_| close.send(Intent::Backup(BackupIntent::Close)),
                {t("restore-close")}
            }
        }
    }
}

/// What a backup would bring, before it is taken in.
#[component]
fn Planned(plan: Plan) -> Element {
    let shell = use_shell();
    let mut newer = use_signal(|| Brings::Nothing);
    let chosen = *newer.read();
    let take = shell.clone();
    let brings = plan.brings(chosen);
    let photos = match chosen {
        Brings::It => plan.photos.len() + plan.photos_newer.len(),
        Brings::Nothing => plan.photos.len(),
    };
    let lines = [
        ("restore-new", Verdict::New),
        ("restore-same", Verdict::Same),
        ("restore-newer-there", Verdict::NewerThere),
        ("restore-newer-here", Verdict::NewerHere),
        ("restore-deleted-here", Verdict::DeletedHere),
        ("restore-unreadable-here", Verdict::UnreadableHere),
        ("restore-newer-version", Verdict::NewerVersionThere),
    ];
    let theirs = shell.clone();
    rsx! {
        div { class: "stack", role: "status",
            for (key , verdict) in lines {
                if plan.count(verdict) > 0 {
                    div { key: "{key}",
                        p { b { {say(&msg(key).count("jobs", count_of(plan.count(verdict))))} } }
                        if verdict != Verdict::Same {
                            ul { class: "candidates",
                                for found in plan.of(verdict).take(NAMED) {
                                    li { key: "{found.id.0}", {say(&job_words(found))} }
                                }
                            }
                        }
                        if verdict != Verdict::Same && plan.count(verdict) > NAMED {
                            p { class: "why", {say(&msg("list-more").count("more", count_of(plan.count(verdict) - NAMED)))} }
                        }
                    }
                }
            }
            if photos > 0 {
                p { {say(&msg("restore-photos").count("photos", count_of(photos)))} }
            }
            if !plan.kits.is_empty() {
                p { {say(&msg("restore-kits").count("kits", count_of(plan.kits.len())))} }
            }
            if plan.settings == Brings::It {
                p { {t("restore-settings")} }
            }
            if !plan.passed.is_empty() {
                p { {say(&msg("restore-passed").count("files", count_of(plan.passed.len())))} }
            }
            if plan.fleets > 0 {
                p { {say(&msg("restore-fleets").count("fleets", count_of(plan.fleets)))} }
            }
            if plan.settings_differ.is_some() {
                p { {t("restore-settings-differ")} }
            }
            for kit in plan.kits_differ.iter() {
                p { key: "{kit.key}", {say(&msg("restore-kit-differs").text("kit", plain(&kit.name)))} }
            }
            for (at , (name , why)) in plan.odd.iter().take(NAMED).enumerate() {
                div { class: "trouble-box", key: "{at}",
                    {say(&msg("restore-odd").text("name", plain(name)).message("why", why.clone()))}
                }
            }
            if plan.foreign > 0 {
                p { class: "why", {say(&msg("restore-foreign").count("files", count_of(plan.foreign)))} }
            }
            if plan.has_others() {
                div { class: "choice", role: "group", "aria-label": t("restore-which-others"),
                    for (which , words) in [(Brings::Nothing, "restore-keep-my-others"), (Brings::It, "restore-take-others")] {
                        button {
                            key: "{words}",
                            r#type: "button",
                            "aria-pressed": if plan.theirs == which { "true" } else { "false" },
                            onclick: {
                                let theirs = theirs.clone();
                                move |_| theirs.send(Intent::Backup(BackupIntent::TakeTheirs(which)))
                            },
                            {t(words)}
                        }
                    }
                }
                p { class: "why", {t("restore-others-kept")} }
            }
            if plan.has_choice() {
                div { class: "choice", role: "group", "aria-label": t("restore-which"),
                    for (which , words) in [(Brings::Nothing, "restore-keep-mine"), (Brings::It, "restore-take-newer")] {
                        button {
                            key: "{words}",
                            r#type: "button",
                            "aria-pressed": if chosen == which { "true" } else { "false" },
                            onclick: move |_| newer.set(which),
                            {t(words)}
                        }
                    }
                }
                p { class: "why", {t("restore-older-kept")} }
            }
            if brings {
                button {
                    class: "do",
                    onclick: move |_| {
                        let which = *newer.peek();
                        take.send(Intent::Backup(BackupIntent::TakeIn(which)));
                    },
                    {t("restore-take")}
                }
            } else {
                p { b { {t("restore-nothing")} } }
            }
        }
    }
}

/// A job of the backup: what it is called, and how both sides differ.
fn job_words(found: &Found) -> Message {
    let title = match &found.created {
        Some(created) => job_title(&found.name, created),
        None => say(&msg("restore-newer-record").text("id", found.id.0.clone())),
    };
    match (&found.here, &found.there) {
        (Some(here), Some(there)) => msg(if found.parts.is_empty() {
            "restore-differs"
        } else {
            "restore-differs-in"
        })
        .text("parts", parts_words(found))
        .text("job", title)
        .text("here", moment::date_and_clock(&here.changed))
        .count("read_here", count_of(here.read))
        .text("there", moment::date_and_clock(&there.changed))
        .count("read_there", count_of(there.read)),
        (_, Some(there)) => msg("restore-one")
            .text("job", title)
            .text("when", moment::date_and_clock(&there.changed)),
        _ => msg("restore-only").text("job", title),
    }
}

/// The parts in which both sides differ, as words.
fn parts_words(found: &Found) -> String {
    let parts: Vec<String> = found.parts.iter().map(|part| t(part)).collect();
    parts.join(", ")
}

/// Tables for other programs.
#[component]
pub fn ExportTables() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let busy = state.backup.is_busy() || state.jobs.is_empty();
    let make = shell.clone();
    rsx! {
        h2 { {t("export-title")} }
        p { class: "why", {t("export-why")} }
        button {
            class: "also",
            disabled: busy,
            onclick: move |_| make.send(Intent::Backup(BackupIntent::Make(Whole::Tables))),
            {t("export-make")}
        }
    }
}
