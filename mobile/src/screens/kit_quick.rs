//! The quick sheet: a few fields a screenful, typed on the phone.

use dioxus::prelude::*;
use rakeline_core::kit::QuickField;
use rakeline_core::text::msg;

use super::kits::{KitHead, kits};
use crate::driver::{KitIntent, QUICK_PAGES};
use crate::parts::{Entry, Focus, Kind, NoticeBar};
use crate::route::Route;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the quick sheet.
#[component]
pub fn QuickKit() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let page = state.kits.page.min(QUICK_PAGES.len() - 1);
    let fields = QUICK_PAGES[page];
    let last = page + 1 == QUICK_PAGES.len();
    let quick = state.kits.quick.clone();
    let contradictions = quick.contradictions();
    let trouble = |field: QuickField| {
        let mut typed = contradictions.iter().filter(|(faulty, _)| *faulty == field);
        let kept = state.kits.quick_faults.iter();
        let mut kept = kept.filter(|(faulty, _)| *faulty == field);
        quick
            .check(field)
            .or_else(|| typed.next().map(|(_, why)| why.clone()))
            .or_else(|| kept.next().map(|(_, why)| why.clone()))
            .as_ref()
            .map(say)
    };
    let onward = {
        let shell = shell.clone();
        move || {
            if last {
                kits(&shell, KitIntent::QuickKeep(shell.new_kit()));
            } else {
                kits(&shell, KitIntent::QuickPage(page + 1));
            }
        }
    };
    let (submit, press, back) = (onward.clone(), onward, shell.clone());
    rsx! {
        div { class: "frame",
            KitHead { title: t("quick-title"), back: Route::Kits, back_words: t("kits-title") }
            main { class: "body",
                div {
                    h1 { {t(title(page))} }
                    p { class: "why",
                        {say(&msg("quick-page").count("page", small(page + 1)).count("pages", small(QUICK_PAGES.len())))}
                    }
                }
                form {
                    class: "stack",
                    onsubmit: move |event| {
                        event.prevent_default();
                        submit();
                    },
                    for (index , field) in fields.iter().copied().enumerate() {
                        Entry {
                            key: "{field:?}",
                            id: field.key(),
                            label: t(field.key()),
                            kind: kind(field),
                            focus: if index == 0 && quick.get(field).is_empty() { Focus::First } else { Focus::Waits },
                            value: quick.get(field).to_owned(),
                            wrong: trouble(field),
                            note: t(note(field)),
                            on_type: {
                                let shell = shell.clone();
                                move |text| kits(&shell, KitIntent::QuickTyped(field, text))
                            },
                        }
                    }
                    button { r#type: "submit", hidden: true }
                }
            }
            footer { class: "foot",
                if page > 0 {
                    button {
                        class: "also",
                        onclick: move |_| kits(&back, KitIntent::QuickPage(page - 1)),
                        {t(back_to(page))}
                    }
                }
                button {
                    class: "do",
                    onclick: move |_| press(),
                    {t(next_words(page))}
                }
            }
            NoticeBar {}
        }
    }
}

fn small(count: usize) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

fn kind(field: QuickField) -> Kind {
    match field {
        QuickField::Name | QuickField::Labels | QuickField::Rings => Kind::Words,
        QuickField::LeastAim | QuickField::GreatestAim | QuickField::TargetAim => Kind::Signed,
        _ => Kind::Figure,
    }
}

fn note(field: QuickField) -> &'static str {
    match field {
        QuickField::Name => "quick-note-name",
        QuickField::Labels => "quick-note-labels",
        QuickField::Rings => "quick-note-rings",
        QuickField::Depth
        | QuickField::InsertLift
        | QuickField::InsertHole
        | QuickField::Cycles
        | QuickField::SilentSeconds
        | QuickField::LeadLength => "quick-note-may-be-empty",
        QuickField::LeastAim | QuickField::GreatestAim | QuickField::TargetAim => "quick-note-aim",
        QuickField::Hole | QuickField::Inner | QuickField::CornerGap => "in-mm",
    }
}

fn title(page: usize) -> &'static str {
    match page {
        0 => "quick-group-heads",
        1 => "quick-group-rings",
        2 => "quick-group-aim",
        3 => "quick-group-marks",
        _ => "quick-group-rest",
    }
}

fn next_words(page: usize) -> &'static str {
    match page {
        0 => "quick-to-rings",
        1 => "quick-to-aim",
        2 => "quick-to-marks",
        3 => "quick-to-rest",
        _ => "quick-keep",
    }
}

fn back_to(page: usize) -> &'static str {
    match page {
        1 => "quick-back-heads",
        2 => "quick-back-rings",
        3 => "quick-back-aim",
        _ => "quick-back-marks",
    }
}
