//! The run: the number of the cycle across the whole screen, its halves to
//! tap, keys as well.

use dioxus::prelude::*;
use rakeline_core::estimate::beep::ToneGate;
use rakeline_core::learn::{Phase, Source, Ways};
use rakeline_core::text::msg;

use super::learn_ear::Hearing;
use crate::driver::{Intent, LearnIntent};
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// What a key does.
fn of_key(key: &Key) -> Option<LearnIntent> {
    match key {
        Key::Character(letter) => match letter.to_lowercase().as_str() {
            "r" => Some(LearnIntent::In(Source::Key)),
            "o" | "n" => Some(LearnIntent::Out(Source::Key)),
            " " => Some(LearnIntent::Change(Source::Key)),
            "b" => Some(LearnIntent::Seen),
            _ => None,
        },
        Key::Enter => Some(LearnIntent::Change(Source::Key)),
        Key::ArrowDown => Some(LearnIntent::In(Source::Key)),
        Key::ArrowUp => Some(LearnIntent::Out(Source::Key)),
        Key::Backspace => Some(LearnIntent::Undo),
        Key::Escape => Some(LearnIntent::Stop),
        _ => None,
    }
}

/// The screen of a run that is on.
#[component]
pub fn LearnRun() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let draft = state.drafts.learn.clone();
    let Some(run) = &draft.run else {
        return rsx! {};
    };
    let all = run.procedure.cycles;
    let shown = run.number().max(1);
    let last = run.number() == all;
    let engaged = matches!(run.phase, Phase::Engaged);
    let by_hand = !run.hears();
    let says = match run.phase {
        Phase::Ready => t("learn-run-ready"),
        Phase::Engaged if last && by_hand => t("learn-run-last-beep"),
        Phase::Engaged if run.cycles.last().is_some_and(|cycle| cycle.beeps > 0) => {
            t("learn-run-heard")
        }
        Phase::Engaged => t("learn-run-engaged"),
        Phase::Released if run.number() + 1 == all => t("learn-run-last-next"),
        Phase::Released => t("learn-run-released"),
        Phase::Quiet(quiet) if draft.at >= quiet.deadline => t("learn-run-checking"),
        Phase::Quiet(_) => t("learn-run-quiet"),
        _ => t("learn-run-closing"),
    };
    let quiet = run.left(draft.at);
    let waits_for_sign = matches!(run.phase, Phase::Closing { .. });
    let halves = run.ways != Ways::Microphone;
    let alone_last = !halves && !run.procedure.last_beeps && run.number() + 1 == all;
    // The beep is what is due then; going out would end the run.
    let by_ear = engaged && last && by_hand;
    let seen_button = quiet.is_some() || waits_for_sign || by_ear;
    let seen_class = if by_ear { "half due" } else { "half small due" };
    let seen_words = if engaged {
        "learn-run-it-beeped-last"
    } else {
        "learn-run-it-beeped"
    };
    let seen_words = if waits_for_sign {
        "learn-run-sign-came"
    } else {
        seen_words
    };
    let due_in = matches!(run.phase, Phase::Ready | Phase::Released);
    let in_class = if due_in { "half due" } else { "half" };
    let waits = due_in || quiet.is_some() || waits_for_sign || by_ear;
    let out_class = if waits { "half small" } else { "half due" };
    // Out of the last one is no matter of a tap beside the buttons.
    let middle = halves && quiet.is_none() && !waits_for_sign && !(engaged && last);
    let gate = run.tone.map_or(ToneGate::Any, ToneGate::Near);
    let beside = use_shell();
    let undo_on = run.can_undo(draft.at);
    let doubts: Vec<String> = run
        .doubts
        .iter()
        .map(|doubt| say(&doubt.message()))
        .collect();
    let keys = use_shell();
    rsx! {
        div {
            class: if quiet.is_some() { "run silent" } else { "run" },
            tabindex: "0",
            onmounted: move |event| async move {
                // Without the focus taps still count.
                let _ = event.set_focus(true).await;
            },
            // A button that goes would take the focus of the keys with it.
            onmousedown: move |event| event.prevent_default(),
            onkeydown: move |event| {
                if event.is_auto_repeating() {
                    return;
                }
                if let Some(said) = of_key(&event.key()) {
                    event.prevent_default();
                    keys.send(Intent::Learn(said));
                }
            },
            header { class: "run-head",
                Press { class: "plain", said: LearnIntent::Stop, words: "learn-run-stop" }
                if undo_on {
                    Press { class: "also", said: LearnIntent::Undo, words: "learn-undo" }
                } else {
                    Press { class: "plain", said: LearnIntent::Again, words: "learn-again" }
                }
            }
            if halves && quiet.is_none() && !waits_for_sign {
                Half {
                    class: in_class,
                    said: LearnIntent::In(Source::Tap),
                    words: "learn-run-in",
                }
            }
            div {
                class: "run-middle",
                onpointerdown: move |_| {
                    if middle {
                        beside.send(Intent::Learn(LearnIntent::Change(Source::Tap)));
                    }
                },
                if let Some(left) = quiet {
                    div { class: "run-number countdown", "aria-hidden": "true", {tenths(left.0)} }
                    p { class: "says", role: "status", {says} }
                } else {
                    p { class: "run-of",
                        {say(&msg("learn-run-of").count("cycle", i64::from(shown)).count("cycles", i64::from(all)))}
                    }
                    div { class: "run-number", "aria-hidden": "true", "{shown}" }
                    p { class: "says", role: "status", {says} }
                }
                if run.hears() {
                    Hearing { draft: draft.clone() }
                    p { class: "why", {say(&gate.message())} }
                } else {
                    p { class: "why", {t("learn-run-by-hand")} }
                }
                for doubt in doubts {
                    p { class: "trouble-box", {doubt} }
                }
            }
            if alone_last {
                Half {
                    class: "half due",
                    said: LearnIntent::In(Source::Tap),
                    words: "learn-run-in-last",
                }
            }
            if seen_button {
                Half { class: seen_class, said: LearnIntent::Seen, words: seen_words }
            }
            if halves {
                Half {
                    class: out_class,
                    said: LearnIntent::Out(Source::Tap),
                    words: "learn-run-out",
                }
            }
        }
    }
}

/// A part of the target: it counts when the finger comes down.
#[component]
fn Half(class: &'static str, said: LearnIntent, words: &'static str) -> Element {
    let shell = use_shell();
    rsx! {
        button {
            class,
            onpointerdown: move |_| shell.send(Intent::Learn(said.clone())),
            {t(words)}
        }
    }
}

/// A button beside the target.
#[component]
fn Press(class: &'static str, said: LearnIntent, words: &'static str) -> Element {
    let shell = use_shell();
    rsx! {
        button {
            class,
            onclick: move |_| shell.send(Intent::Learn(said.clone())),
            {t(words)}
        }
    }
}

/// Seconds with a tenth, for a countdown.
fn tenths(millis: f64) -> String {
    figure((millis / 100.0).ceil() / 10.0, 1)
}
