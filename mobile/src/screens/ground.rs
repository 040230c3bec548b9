//! How the ground lies: one tap, a bay, the board, the sill, the gauge; and
//! what the vehicle carries.

use dioxus::prelude::*;
use rakeline_core::estimate::ground::GroundHow;
use rakeline_core::estimate::rake::Against;
use rakeline_core::job::{self, Field, Load};
use rakeline_core::moment;
use rakeline_core::text::msg;

use super::phone_form::Pick;
use crate::driver::{BoardWay, Intent, Measure, Target};
use crate::parts::{Entry, Figures, Frame, HeldBox, Kind};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The screen of the ground.
#[component]
pub fn GroundScreen() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let way = match state.reading.as_ref().map(|held| held.target) {
        Some(Target::Board(way)) => Some(way),
        _ => None,
    };
    let places = state.drafts.board.pairs.len();
    let ground = job.ground.clone();
    let measured = matches!(ground.how, GroundHow::Board);
    let (board, stop, faces, more) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let ask = match way {
        Some(BoardWay::Turned) => "board-turned",
        _ => "board-forward",
    };
    rsx! {
        Frame {
            here: Step::Ground,
            foot: rsx! {
                if way.is_some() {
                    button {
                        class: "also at-car",
                        onclick: move |_| stop.send(Intent::Measure(Measure::Stop)),
                        {t("stop-reading")}
                    }
                } else {
                    if measured && places > 0 {
                        button {
                            class: "also",
                            onclick: move |_| more.send(Intent::Measure(Measure::BoardMore)),
                            {t("board-more")}
                        }
                    } else {
                        button {
                            class: "also at-car",
                            onclick: move |_| board.send(Intent::Measure(Measure::BoardStart)),
                            {t("board-start")}
                        }
                    }
                    button {
                        class: "do at-car",
                        onclick: move |_| faces.send(Intent::GoStep(Step::Faces)),
                        {t("back-to-faces")}
                    }
                }
            },
            if way.is_some() {
                div {
                    p { class: "why", {t("board-where")} }
                    h1 { class: "asked", {t(ask)} }
                }
                HeldBox { figures: Figures::None }
            } else {
                div {
                    h1 { class: "capital", {say(&job::ground_words(&ground))} }
                    p { {say(&job::ground_figures(&ground))} }
                    p { class: "why", {t("ground-why")} }
                }
                Ways {}
                Carries {}
            }
        }
    }
}

/// The other ways: level, bays, sill, gauge.
#[component]
fn Ways() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let bays = state.settings.bays.clone();
    let is_board = matches!(job.ground.how, GroundHow::Board);
    let gauge = job.measuring.gauge;
    let (save, bay_name, sill, sill_taken) =
        (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    rsx! {
        div { class: "choice",
            Pick {
                chosen: job.ground.how == GroundHow::LooksLevel,
                said: Measure::LooksLevel,
                words: t("looks-level"),
            }
        }
        if is_board {
            Entry {
                id: "bay-name",
                label: t("bay-name"),
                kind: Kind::Words,
                value: job.typed(Field::BayName).to_owned(),
                on_type: move |text| bay_name.send(Intent::Type(Field::BayName, text)),
            }
            button {
                class: "also",
                onclick: move |_| save.send(Intent::Measure(Measure::BaySaved)),
                {t("bay-save")}
            }
        }
        if !bays.is_empty() {
            h2 { {t("bays-title")} }
            ul { class: "jobs",
                for bay in bays {
                    BayRow {
                        key: "{bay.name}",
                        name: bay.name.clone(),
                        when: moment::date(&bay.at),
                        lies: say(&job::ground_figures(&bay.ground)),
                        old: shell.now().at.signed_duration_since(bay.at).num_days() > 365,
                    }
                }
            }
        }
        details {
            summary { {t("ground-gauge")} }
            p { class: "why", {t("ground-gauge-why")} }
            div { class: "choice", role: "group", "aria-label": t("ground-gauge"),
                Pick {
                    chosen: gauge == Against::Level,
                    said: Measure::GaugeSet(Against::Level),
                    words: t("gauge-level"),
                }
                Pick {
                    chosen: gauge == Against::Board,
                    said: Measure::GaugeSet(Against::Board),
                    words: t("gauge-board"),
                }
            }
        }
        details {
            summary { {t("sill-title")} }
            p { class: "why", {t("sill-why")} }
            div { class: "stack",
                Entry {
                    id: "sill",
                    label: t("sill-angle"),
                    value: job.typed(Field::SillAngle).to_owned(),
                    note: t("sill-note"),
                    on_type: move |text| sill.send(Intent::Type(Field::SillAngle, text)),
                }
                button {
                    class: "also",
                    onclick: move |_| sill_taken.send(Intent::Measure(Measure::SillTaken)),
                    {t("sill-take")}
                }
            }
        }
    }
}

#[component]
fn BayRow(name: String, when: String, lies: String, old: bool) -> Element {
    let shell = use_shell();
    let (take, drop) = (shell.clone(), shell);
    let (taken, dropped) = (name.clone(), name.clone());
    rsx! {
        li {
            button {
                class: "open",
                onclick: move |_| take.send(Intent::Measure(Measure::BayUsed(taken.clone()))),
                b { {name.clone()} }
                span { {when} " · " {lies} }
                if old {
                    span { {t("bay-old")} }
                }
            }
            button {
                class: "plain",
                "aria-label": say(&msg("bay-forget").text("name", name)),
                onclick: move |_| drop.send(Intent::Measure(Measure::BayDropped(dropped.clone()))),
                {t("delete")}
            }
        }
    }
}

/// The allowance for load, asked in words.
#[component]
fn Carries() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let load = job.measuring.load;
    let (own, take) = (shell.clone(), shell.clone());
    let is_own = matches!(load, Load::Own(_));
    rsx! {
        h2 { {t("load-title")} }
        p { class: "why", {say(&msg("load-why").deg("allowance", job.load_allowance.0))} }
        div { class: "choice", role: "group", "aria-label": t("load-title"),
            Pick { chosen: load == Load::Car, said: Measure::LoadSaid(Load::Car), words: t("load-car") }
            Pick {
                chosen: load == Load::Carrier,
                said: Measure::LoadSaid(Load::Carrier),
                words: t("load-carrier"),
            }
        }
        details { open: is_own,
            summary { {t("load-own")} }
            div { class: "stack",
                Entry {
                    id: "load-own",
                    label: t("load-own-figure"),
                    value: job.typed(Field::LoadOwn).to_owned(),
                    note: t("in-degrees"),
                    on_type: move |text| own.send(Intent::Type(Field::LoadOwn, text)),
                }
                button {
                    class: "also",
                    onclick: move |_| take.send(Intent::Measure(Measure::LoadOwn)),
                    {t("load-own-take")}
                }
            }
        }
    }
}
