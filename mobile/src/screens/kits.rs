//! The workshop's kit sheets, and one of them.

use dioxus::prelude::*;
use rakeline_core::kit::library::{Use, used_in};
use rakeline_core::kit::{Draft, LineKind, line_groups, word};
use rakeline_core::table::Table;
use rakeline_core::text::{Message, msg};

use super::jobs::job_title;
use crate::driver::{AppState, Intent, KitEntry, KitIntent};
use crate::parts::NoticeBar;
use crate::route::{KitId, Route};
use crate::shell::{Shell, use_shell};
use crate::texts::{plain, say, t};

/// Sends something about kits.
pub(super) fn kits(shell: &Shell, intent: KitIntent) {
    shell.send(Intent::Kits(intent));
}

/// The head of a kit screen: a way back and what it is.
#[component]
pub(super) fn KitHead(title: String, back: Route, back_words: String) -> Element {
    let shell = use_shell();
    rsx! {
        header { class: "head",
            button {
                class: "quiet back",
                "aria-label": back_words,
                onclick: move |_| kits(&shell, KitIntent::Go(back.clone())),
                "‹"
            }
            div { class: "what", b { {title} } }
        }
    }
}

/// So many rows are drawn at once (our own figure: more than a workshop has,
/// fewer than are felt).
const ROWS_AT_ONCE: usize = 200;

/// The list of kit sheets.
#[component]
pub fn Kits() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let faults: Vec<String> = state.kits.import_faults.iter().map(say).collect();
    let (new, open, full) = (shell.clone(), shell.clone(), shell.clone());
    let used = used_by(&state);
    let mut most = use_signal(|| ROWS_AT_ONCE);
    let own = state.kits.own.len();
    let rest = own.saturating_sub(most());
    let full_words = match state.kits.begun() {
        None => t("kit-type-full"),
        Some((_, draft)) if draft.typed("name").trim().is_empty() => t("kit-type-full-on"),
        Some((_, draft)) => say(&msg("kit-type-full-on-with").text("kit", draft.typed("name"))),
    };
    rsx! {
        div { class: "frame",
            KitHead { title: t("kits-title"), back: Route::Jobs, back_words: t("back-to-jobs") }
            main { class: "body",
                if !faults.is_empty() {
                    div { class: "trouble-box", role: "alert",
                        b { {t("kit-file-refused")} }
                        for fault in faults.iter().take(8) {
                            p { {fault.clone()} }
                        }
                        if faults.len() > 8 {
                            p { {say(&msg("kit-more-faults").count("more", i64::try_from(faults.len() - 8).unwrap_or(i64::MAX)))} }
                        }
                    }
                }
                for broken in state.kits.unreadable.iter() {
                    div { class: "trouble-box", role: "alert", key: "{broken.key}",
                        p { {say(&msg("record-kept").text("key", broken.key.clone()))} }
                        p { {say(&broken.why)} }
                    }
                }
                h1 { {t("kits-own")} }
                if state.kits.own.is_empty() {
                    p { class: "why", {t("kits-empty")} }
                }
                ul { class: "jobs",
                    for entry in state.kits.own.iter().take(most()) {
                        KitRow { key: "{entry.id.0}", id: entry.id.clone(), line: row_words(&used, entry), name: entry.sheet.name.clone() }
                    }
                }
                if rest > 0 {
                    button {
                        class: "also",
                        onclick: move |_| most += ROWS_AT_ONCE,
                        {say(&msg("list-more").count("more", i64::try_from(rest).unwrap_or(i64::MAX)))}
                    }
                }
                h2 { {t("kits-samples")} }
                ul { class: "jobs",
                    for entry in state.kits.samples.iter() {
                        KitRow { key: "{entry.id.0}", id: entry.id.clone(), line: row_words(&used, entry), name: entry.sheet.name.clone() }
                    }
                }
                button {
                    class: "also",
                    onclick: move |_| kits(&full, KitIntent::TypeFull(full.new_kit())),
                    {full_words}
                }
                button {
                    class: "also",
                    onclick: move |_| kits(&open, KitIntent::OpenFile),
                    {t("kit-open-file")}
                }
            }
            footer { class: "foot",
                button {
                    class: "do",
                    onclick: move |_| kits(&new, KitIntent::Go(Route::NewKit)),
                    {t("kit-type-quick")}
                }
            }
            NoticeBar {}
        }
    }
}

/// How many jobs use a kit, by its name.
fn used_by(state: &AppState) -> Table<&str, i64> {
    let mut used = Table::new();
    for job in &state.jobs {
        *used.or_default(job.kit.as_str()) += 1;
    }
    used
}

/// What a kit is and how many jobs use it.
fn row_words(used: &Table<&str, i64>, entry: &KitEntry) -> Message {
    let used = used.get(&entry.sheet.name.as_str()).copied();
    msg("kit-row")
        .count(
            "heads",
            i64::try_from(entry.sheet.head_count()).unwrap_or(i64::MAX),
        )
        .count(
            "rings",
            i64::try_from(entry.sheet.rings.len()).unwrap_or(i64::MAX),
        )
        .count("jobs", used.unwrap_or(0))
}

#[component]
fn KitRow(id: KitId, name: String, line: Message) -> Element {
    let shell = use_shell();
    rsx! {
        li {
            button {
                class: "open",
                onclick: move |_| kits(&shell, KitIntent::Go(Route::Kit(id.clone()))),
                b { {plain(&name)} }
                span { {say(&line)} }
            }
        }
    }
}

/// One kit sheet: what it gives, which jobs use it, what can be done.
#[component]
pub fn Kit(id: KitId) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(entry) = state.kits.find(&id) else {
        return rsx! {
            div { class: "frame",
                KitHead { title: t("kits-title"), back: Route::Kits, back_words: t("kits-title") }
                main { class: "body", p { {t("kit-not-here")} } }
                NoticeBar {}
            }
        };
    };
    let sample = state.kits.is_sample(&id);
    let jobs = used_in(
        &entry.sheet,
        state
            .jobs
            .iter()
            .map(|job| (job.id.clone(), job.kit.as_str(), job.kit_print)),
    );
    let used: Vec<Message> = jobs
        .iter()
        .filter_map(|(job, how)| {
            let entry = state.jobs.iter().find(|entry| entry.id == *job)?;
            let key = match how {
                Use::AsItStands => "kit-used-as-it-stands",
                Use::AsItWas => "kit-used-as-it-was",
            };
            Some(msg(key).text("job", job_title(&entry.name, &entry.created)))
        })
        .collect();
    let act = |intent: KitIntent| {
        let shell = shell.clone();
        move |_| kits(&shell, intent.clone())
    };
    rsx! {
        div { class: "frame",
            KitHead { title: plain(&entry.sheet.name), back: Route::Kits, back_words: t("kits-title") }
            main { class: "body",
                if let Some(note) = &entry.sheet.note {
                    p { class: "why", {plain(note)} }
                }
                div { class: "things",
                    if sample {
                        p { class: "why", {t("kit-is-sample")} }
                    } else {
                        button { class: "also", onclick: act(KitIntent::Go(Route::EditKit(id.clone()))), {t("kit-edit")} }
                    }
                    button { class: "also", onclick: act(KitIntent::Copy(id.clone(), shell.new_kit())), {t("kit-copy")} }
                    button { class: "also", onclick: act(KitIntent::SaveFile(id.clone())), {t("kit-save-file")} }
                    if !sample {
                        button { class: "also", onclick: act(KitIntent::Delete(id.clone())), {t("delete")} }
                    }
                }
                h2 { {t("kit-used-title")} }
                if used.is_empty() {
                    p { class: "why", {t("kit-used-none")} }
                } else {
                    ul { class: "candidates",
                        for line in used {
                            li { {say(&line)} }
                        }
                    }
                }
                Given { entry: entry.clone() }
            }
            footer { class: "foot",
                button { class: "do", onclick: act(KitIntent::UseNext(id.clone())), {t("kit-use-next")} }
            }
            NoticeBar {}
        }
    }
}

/// What the sheet gives, line by line; what it does not, in one line.
#[component]
fn Given(entry: KitEntry) -> Element {
    let draft = Draft::of(&entry.sheet);
    let mut missing: Vec<Message> = Vec::new();
    let groups: Vec<(Message, Vec<(Message, String)>)> = line_groups(&draft)
        .into_iter()
        .filter_map(|group| {
            let given: Vec<(Message, String)> = group
                .lines
                .into_iter()
                .filter(|line| matches!(line.kind, LineKind::Field(..)))
                .filter_map(|line| {
                    let typed = draft.typed(&line.path);
                    (!typed.is_empty()).then(|| (line.name, say(&word(&typed))))
                })
                .collect();
            if given.is_empty() {
                missing.push(group.name);
                return None;
            }
            Some((group.name, given))
        })
        .collect();
    rsx! {
        for (index , (name , lines)) in groups.into_iter().enumerate() {
            details { key: "{index}",
                summary { {say(&name)} }
                dl { class: "given",
                    for (name , value) in lines {
                        dt { {say(&name)} }
                        dd { {plain(&value)} }
                    }
                }
            }
        }
        if !missing.is_empty() {
            p { class: "why", {say(&msg("kit-not-given").list("groups", missing))} }
        }
    }
}
