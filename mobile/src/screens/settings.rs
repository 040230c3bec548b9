//! The workshop: how the screen looks, what stands on printed sheets.

use dioxus::prelude::*;
use rakeline_core::job::{Limit, read_length};
use rakeline_core::text::msg;

use crate::driver::{
    Intent, KitIntent, Letter, PhotoIntent, PhotoPolicy, Theme, Units, WorkshopIntent,
};
use crate::parts::{Entry, Kind, NoticeBar};
use crate::route::Route;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the workshop's settings.
#[component]
pub fn SettingsScreen() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let chosen = state.settings.theme;
    let photos = state.settings.photos;
    let units = state.settings.units;
    let letterhead = state.settings.letterhead.clone();
    let (back, look, typed) = (shell.clone(), shell.clone(), shell.clone());
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
                    b { {t("settings-title")} }
                    span { class: "state", {t("settings-kept")} }
                }
            }
            main { class: "body",
                h2 { {t("look-title")} }
                div { class: "choice", role: "group", "aria-label": t("look-title"),
                    for theme in Theme::ALL {
                        button {
                            key: "{theme:?}",
                            r#type: "button",
                            "aria-pressed": if chosen == theme { "true" } else { "false" },
                            onclick: {
                                let shell = look.clone();
                                move |_| shell.send(Intent::Workshop(WorkshopIntent::Look(theme)))
                            },
                            {t(theme.name())}
                        }
                    }
                }
                p { class: "why", {t("look-why")} }
                h2 { {t("units-title")} }
                div { class: "choice", role: "group", "aria-label": t("units-title"),
                    for one in Units::ALL {
                        button {
                            key: "{one:?}",
                            r#type: "button",
                            "aria-pressed": if units == one { "true" } else { "false" },
                            onclick: {
                                let shell = look.clone();
                                move |_| shell.send(Intent::Workshop(WorkshopIntent::Units(one)))
                            },
                            {t(one.name())}
                        }
                    }
                }
                p { class: "why", {t("units-why")} }
                h2 { {t("photos-title")} }
                div { class: "choice tall", role: "group", "aria-label": t("photos-title"),
                    for policy in PhotoPolicy::ALL {
                        button {
                            key: "{policy:?}",
                            r#type: "button",
                            "aria-pressed": if photos == policy { "true" } else { "false" },
                            onclick: {
                                let shell = look.clone();
                                move |_| shell.send(Intent::Workshop(WorkshopIntent::Photos(policy)))
                            },
                            {t(policy.name())}
                        }
                    }
                }
                p { class: "why", {t("photos-why")} }
                h2 { {t("letter-title")} }
                p { class: "why", {t("letter-why")} }
                for which in Letter::ALL {
                    Entry {
                        key: "{which:?}",
                        id: "letter-{which:?}",
                        label: t(which.label()),
                        kind: Kind::Words,
                        value: letterhead.line(which).to_owned(),
                        on_type: {
                            let shell = typed.clone();
                            move |text| shell.send(Intent::Workshop(WorkshopIntent::Typed(which, text)))
                        },
                    }
                }
                LogoChoice {}
                ForNewJobs {}
            }
            div { class: "base", NoticeBar {} }
        }
    }
}

/// What every new job starts with: its kit and limits of the mark-out.
#[component]
fn ForNewJobs() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let kit = state.settings.last_kit.as_ref().map(|kit| kit.name.clone());
    let typed = |limit: Limit| -> String {
        let mut limits = state.settings.limits.iter();
        let found = limits.find(|(other, _)| *other == limit);
        found.map(|(_, text)| text.clone()).unwrap_or_default()
    };
    let kits = shell.clone();
    rsx! {
        h2 { {t("new-jobs-title")} }
        p { class: "why", {t("new-jobs-kit-why")} }
        if let Some(kit) = kit {
            p { {say(&msg("new-jobs-kit").text("kit", kit))} }
        }
        button {
            class: "also",
            onclick: move |_| kits.send(Intent::Kits(KitIntent::Go(Route::Kits))),
            {t("new-jobs-kits")}
        }
        p { class: "why", {t("new-jobs-limits-why")} }
        for limit in Limit::ALL {
            Entry {
                key: "{limit:?}",
                id: "limit-{limit:?}",
                label: say(&limit.message()),
                value: typed(limit),
                wrong: {
                    let text = typed(limit);
                    let wrong = (!text.trim().is_empty()).then(|| read_length(&text).err()).flatten();
                    wrong.as_ref().map(say)
                },
                note: t("in-mm"),
                on_type: {
                    let shell = shell.clone();
                    move |text| shell.send(Intent::Workshop(WorkshopIntent::Limit(limit, text)))
                },
            }
        }
    }
}

/// The logo on job sheets: chosen, seen, taken off.
#[component]
fn LogoChoice() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let logo = state.settings.logo.clone();
    let found = logo
        .as_ref()
        .and_then(|logo| state.drafts.photos.found(&logo.blob).cloned());
    let (ask, drop, look) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        if let Some(logo) = logo {
            figure {
                key: "{logo.blob}",
                class: "thumb",
                onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(logo.blob.clone()))),
                match found {
                    Some(Ok(url)) => rsx! { img { class: "whole", src: "{url}", alt: t("sheet-logo") } },
                    Some(Err(why)) => rsx! { p { class: "trouble-box", {say(&why)} } },
                    None => rsx! { p { role: "status", {t("level-reading-photo")} } },
                }
                figcaption { {t("sheet-logo")} }
                button {
                    class: "plain",
                    onclick: move |_| drop.send(Intent::Workshop(WorkshopIntent::DropLogo)),
                    {t("logo-drop")}
                }
            }
        }
        button {
            class: "also",
            onclick: move |_| ask.send(Intent::Workshop(WorkshopIntent::AskLogo)),
            {t("logo-choose")}
        }
    }
}
