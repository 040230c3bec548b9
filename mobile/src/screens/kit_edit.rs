//! The full editor of a kit sheet, from the table of its fields.

use std::collections::BTreeSet;

use dioxus::prelude::*;
use rakeline_core::kit::{
    Entry as Typed, FieldNeed, Line, LineKind, SheetFault, check_typed, line_groups, word,
};
use rakeline_core::text::{Message, msg};

use super::kits::{KitHead, kits};
use crate::driver::{KitIntent, Told};
use crate::parts::{Entry, Kind, NoticeBar};
use crate::route::{KitId, Route};
use crate::shell::use_shell;
use crate::texts::{plain, say, t};

/// The screen of the full editor.
#[component]
pub fn EditKit(id: KitId) -> Element {
    let shell = use_shell();
    // A group that a fault opened does not shut as the fault is mended.
    let mut opened = use_hook(|| CopyValue::new(BTreeSet::<String>::new()));
    let state = shell.state.read();
    let Some(editing) = state
        .kits
        .editing
        .clone()
        .filter(|editing| editing.id == id)
    else {
        return rsx! {
            div { class: "frame",
                KitHead { title: t("kits-title"), back: Route::Kits, back_words: t("kits-title") }
                main { class: "body", p { {t("kit-not-here")} } }
                NoticeBar {}
            }
        };
    };
    let (keep, throw) = (shell.clone(), shell.clone());
    let unkept = state.kits.is_unkept(&editing.id);
    let faults: Vec<String> = editing
        .faults
        .iter()
        .map(|fault| say(&fault.message()))
        .collect();
    let groups = line_groups(&editing.draft);
    for group in &groups {
        if faulty(&editing.faults, &group.top) {
            opened.write().insert(group.top.clone());
        }
    }
    let new = state.kits.find(&id).is_none();
    let (back, back_words) = if new {
        (Route::Kits, t("kits-title"))
    } else {
        (Route::Kit(id), t("kit-edit-leave"))
    };
    let title = match editing.draft.typed("name") {
        name if name.trim().is_empty() => t("kit-type-full"),
        name => plain(&name),
    };
    let heading = match editing.told {
        Told::SoFar => "kit-edit-wrong-so-far",
        Told::All => "kit-edit-not-kept",
    };
    rsx! {
        div { class: "frame",
            KitHead {
                title,
                back,
                back_words,
            }
            main { class: "body",
                h1 { {t("kit-edit-title")} }
                p { class: "why", {t("kit-edit-why")} }
                if unkept {
                    p { role: "status", {t("kit-edit-unkept")} }
                    button {
                        class: "plain",
                        onclick: move |_| kits(&throw, KitIntent::EditThrow),
                        {t("kit-edit-throw")}
                    }
                }
                if !faults.is_empty() {
                    div { class: "trouble-box", role: "alert",
                        b { {t(heading)} }
                        for fault in faults.iter().take(8) {
                            p { {fault.clone()} }
                        }
                    }
                }
                for group in groups {
                    details { key: "{group.top}", open: opened.read().contains(&group.top),
                        summary { {say(&group.name)} }
                        div { class: "stack",
                            for line in group.lines {
                                LineView {
                                    key: "{line.path}",
                                    typed: editing.draft.typed(&line.path),
                                    fault: fault_at(&editing.faults, &line.path),
                                    line,
                                }
                            }
                        }
                    }
                }
            }
            footer { class: "foot",
                button {
                    class: "do",
                    onclick: move |_| kits(&keep, KitIntent::EditKeep),
                    {t("kit-edit-keep")}
                }
            }
            NoticeBar {}
        }
    }
}

fn faulty(faults: &[SheetFault], top: &str) -> bool {
    let mut here = faults
        .iter()
        .map(|fault| fault.at.split(['.', '[']).next().unwrap_or_default());
    !top.is_empty() && here.any(|at| at == top)
}

fn fault_at(faults: &[SheetFault], path: &str) -> Option<Message> {
    let mut here = faults.iter().filter(|fault| fault.at == path);
    here.next().map(SheetFault::message)
}

/// One line: a field, the head of a list, or of one of its entries.
#[component]
fn LineView(line: Line, typed: String, fault: Option<Message>) -> Element {
    let shell = use_shell();
    let path = line.path.clone();
    let set = {
        let (shell, path) = (shell.clone(), path.clone());
        move |text: String| kits(&shell, KitIntent::FieldTyped(path.clone(), text))
    };
    match line.kind {
        LineKind::List => rsx! {
            div { class: "pair",
                h2 { {say(&line.name)} }
                button {
                    class: "also",
                    id: "add-{path}",
                    onclick: move |_| kits(&shell, KitIntent::EntryAdded(path.clone())),
                    {say(&msg("kit-entry-add").message("list", line.name.clone()))}
                }
            }
        },
        LineKind::EntryOf { list, index } => rsx! {
            div { class: "pair",
                b { {say(&line.name)} }
                button {
                    class: "plain",
                    onclick: move |_| kits(&shell, KitIntent::EntryTaken(list.clone(), index)),
                    {say(&msg("kit-entry-take").message("entry", line.name.clone()))}
                }
            }
        },
        LineKind::Field(Typed::OneOf(words), _) => rsx! {
            fieldset { class: "field", id: "pick-{path}",
                legend { {say(&line.name)} }
                Choice { path: line.path, typed, words: words.iter().map(|w| (*w).to_owned()).collect::<Vec<_>>() }
            }
        },
        LineKind::Field(Typed::Switch, _) => rsx! {
            fieldset { class: "field", id: "pick-{path}",
                legend { {say(&line.name)} }
                Choice { path: line.path, typed, words: vec!["true".to_owned(), "false".to_owned()] }
            }
        },
        LineKind::Field(entry, need) => {
            let wrong = check_typed(&line.path, &typed).or(fault);
            let note = match (&entry, need) {
                (Typed::Number(unit), FieldNeed::Required) => msg(unit.key()),
                (Typed::Number(unit), FieldNeed::MayBeMissing) => {
                    msg("kit-unit-or-empty").message("unit", msg(unit.key()))
                }
                (_, FieldNeed::Required) => msg("kit-needed"),
                (_, FieldNeed::MayBeMissing) => msg("kit-or-empty"),
            };
            let kind = match entry {
                Typed::Number(_) => Kind::Signed,
                _ => Kind::Words,
            };
            rsx! {
                Entry {
                    id: "field-{line.path}",
                    label: say(&line.name),
                    kind,
                    value: typed,
                    wrong: wrong.as_ref().map(say),
                    note: say(&note),
                    on_type: set,
                }
            }
        }
    }
}

/// One of several words; the one that stands there again makes it 'not given'.
#[component]
fn Choice(path: String, typed: String, words: Vec<String>) -> Element {
    let shell = use_shell();
    if words.is_empty() {
        return rsx! {};
    }
    rsx! {
        div { class: "choice", role: "group",
            for raw in words {
                button {
                    key: "{raw}",
                    r#type: "button",
                    "aria-pressed": if raw == typed { "true" } else { "false" },
                    onclick: {
                        let (shell, path) = (shell.clone(), path.clone());
                        let next = if raw == typed { String::new() } else { raw.clone() };
                        move |_| kits(&shell, KitIntent::FieldTyped(path.clone(), next.clone()))
                    },
                    {say(&word(&raw))}
                }
            }
        }
    }
}
