//! Before the drill: tape read back, each mark seen from behind, the
//! customer's agreement.

use dioxus::prelude::*;
use rakeline_core::decide::mark_out::{MarkVerdict, TapeVerdict};
use rakeline_core::job::{self, AgreedHow, Field, JobState, Taken};
use rakeline_core::text::msg;

use super::marks::{NoMarks, Stale};
use super::tape_limits::TapeLimits;
use crate::driver::{CheckIntent, Intent};
use crate::parts::{Entry, Frame, Kind};
use crate::route::Step;
use crate::shell::use_shell;
use crate::texts::{figure, say, t};

/// The screen of the check before drilling.
#[component]
pub fn Check() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let Some(view) = job::check_view(job) else {
        return rsx! { NoMarks {} };
    };
    let holds = job::marks_fault(job).is_none();
    let ready = holds && view.tape.verdict == TapeVerdict::Ready;
    let done = job::tape_checked(job).is_some();
    let with_height = view.tape.level.is_some();
    let (take, onward) = (shell.clone(), shell.clone());
    let against: Vec<String> = match &view.tape.verdict {
        TapeVerdict::Ready => Vec::new(),
        TapeVerdict::NotReady(against) => against.iter().map(say).collect(),
    };
    let reached: Vec<String> = view.tape.reached().iter().map(say).collect();
    let typed_any = view
        .typed
        .iter()
        .any(|typed| matches!(typed.at, Ok(Some(_))));
    rsx! {
        Frame {
            here: Step::Check,
            foot: rsx! {
                if done {
                    button {
                        class: "do at-car",
                        onclick: move |_| onward.send(Intent::GoStep(Step::Sheet)),
                        {t("to-sheet")}
                    }
                } else {
                    button {
                        class: "do at-car",
                        disabled: !ready,
                        onclick: move |_| take.send(Intent::Check(CheckIntent::TapeReady)),
                        {t("check-take")}
                    }
                }
            },
            div {
                h1 {
                    if done {
                        {t(if with_height { "check-done" } else { "check-done-across" })}
                    } else if ready {
                        {t(if with_height { "check-ready" } else { "check-ready-across" })}
                    } else {
                        {t("check-title")}
                    }
                }
                p { class: "why",
                    {say(&msg("check-why")
                        .number("mark", view.tape.limits.mark.0, 1)
                        .number("gap", view.tape.limits.gap.0, 1)
                        .number("symmetry", view.tape.limits.symmetry.0, 1)
                        .number("level", view.tape.limits.level.0, 1))}
                }
            }
            Stale { job: job.clone() }
            if job.mark_out.taken == Taken::AlongFace {
                p { {t("taken-check")} }
            }
            TapeRows { job: job.clone() }
            if !reached.is_empty() {
                ul { class: "candidates",
                    for line in reached {
                        li { {line} }
                    }
                }
            }
            if typed_any && !against.is_empty() {
                div { class: "trouble-box", role: "status",
                    for line in against {
                        p { {line} }
                    }
                }
            }
            TapeLimits { job: job.clone() }
            ByPhotos { measured: job.card_photos.outcome.is_some() }
            FromBehind { job: job.clone() }
            Agreement { job: job.clone() }
        }
    }
}

/// The way to the photos, which measure without a tape, and what they found.
#[component]
fn ByPhotos(measured: bool) -> Element {
    let shell = use_shell();
    let take = shell.clone();
    rsx! {
        section { class: "stack no-print",
            h2 { {t("cards-measure-title")} }
            p { class: "why", {t("cards-from-check")} }
            button {
                class: "also",
                onclick: move |_| shell.send(Intent::GoStep(Step::Cards)),
                {t("cards-to")}
            }
            if measured {
                p { class: "why", {t("check-photos-why")} }
                button {
                    class: "also",
                    onclick: move |_| take.send(Intent::Check(CheckIntent::TakePhotos)),
                    {t("check-photos")}
                }
            }
        }
    }
}

/// One row a mark: where it should be, what the tape says, what that means.
#[component]
fn TapeRows(job: JobState) -> Element {
    let shell = use_shell();
    let Some(view) = job::check_view(&job) else {
        return rsx! {};
    };
    let with_row = job.mark_out.row.is_some();
    rsx! {
        ol { class: "rings",
            for (index , spot) in job.spots.iter().enumerate() {
                li { key: "{spot.label}", class: "ring tape-row",
                    span { class: "spot", {spot.label.clone()} }
                    span { class: "verdict", {say(&job::place_on_tape(&job, index))} }
                    div { class: "side-by-side",
                        Entry {
                            id: "tape-mark-{index}",
                            label: say(&msg("tape-reads").text("label", spot.label.clone())),
                            value: job.typed(Field::TapeMark(small(index))).to_owned(),
                            wrong: view.typed.get(index).and_then(|typed| typed.at.as_ref().err()).map(say),
                            note: view.tape.marks.get(index).map(|mark| said(mark.verdict, mark.error.map(|error| error.0))),
                            on_type: {
                                let shell = shell.clone();
                                move |text| shell.send(Intent::Type(Field::TapeMark(small(index)), text))
                            },
                        }
                        if with_row {
                            Entry {
                                id: "tape-line-{index}",
                                label: say(&msg("tape-from-line").text("label", spot.label.clone())),
                                kind: Kind::Signed,
                                value: job.typed(Field::TapeLine(small(index))).to_owned(),
                                wrong: view.typed.get(index).and_then(|typed| typed.from_line.as_ref().err()).map(say),
                                note: t("row-from-line-note"),
                                on_type: {
                                    let shell = shell.clone();
                                    move |text| shell.send(Intent::Type(Field::TapeLine(small(index)), text))
                                },
                            }
                        }
                    }
                }
            }
        }
    }
}

fn small(index: usize) -> u8 {
    u8::try_from(index).unwrap_or(u8::MAX)
}

fn said(verdict: MarkVerdict, error: Option<f64>) -> String {
    let off = figure(error.unwrap_or(0.0).abs(), 0);
    match verdict {
        MarkVerdict::NotRead => t("in-mm"),
        MarkVerdict::Good => say(&msg("tape-good").text("off", off)),
        MarkVerdict::Off | MarkVerdict::FitsOther(_) => say(&msg("tape-off").text("off", off)),
    }
}

#[component]
fn FromBehind(job: JobState) -> Element {
    let shell = use_shell();
    rsx! {
        section { class: "stack",
            h2 { {t("behind-title")} }
            p { class: "why", {t("behind-why")} }
            div { class: "spots", role: "group", "aria-label": t("behind-title"),
                for (index , spot) in job.spots.iter().enumerate() {
                    {
                        let seen = job.check.seen_behind.iter().any(|seen| seen.spot == index);
                        let shell = shell.clone();
                        rsx! {
                            button {
                                key: "{spot.label}",
                                class: if seen { "done" },
                                "aria-pressed": if seen { "true" } else { "false" },
                                "aria-label": say(&msg("behind-clear").text("label", spot.label.clone())),
                                onclick: move |_| {
                                    let intent = if seen {
                                        CheckIntent::NotSeen(index)
                                    } else {
                                        CheckIntent::Seen(index)
                                    };
                                    shell.send(Intent::Check(intent));
                                },
                                span { {spot.label.clone()} }
                                small { {t(if seen { "behind-clear-short" } else { "behind-open-short" })} }
                            }
                        }
                    }
                }
            }
        }
    }
}

#[component]
fn Agreement(job: JobState) -> Element {
    let shell = use_shell();
    let (name, undo) = (shell.clone(), shell.clone());
    let agreed = job.check.agreed.clone();
    let typed = job.typed(Field::AgreedName).to_owned();
    let ready = !typed.trim().is_empty() && job::marks_fault(&job).is_none();
    rsx! {
        section { class: "stack",
            h2 { {t("agreed-title")} }
            if let Some(agreed) = agreed {
                div { class: "note-box", role: "status",
                    {say(&msg("agreed-by")
                        .text("name", agreed.name.clone())
                        .message("how", agreed.how.message())
                        .text("when", super::jobs::day_and_time(&agreed.at)))}
                }
                button {
                    class: "plain",
                    onclick: move |_| undo.send(Intent::Check(CheckIntent::NotAgreed)),
                    {t("agreed-not")}
                }
            } else {
                p { class: "why", {t("agreed-why")} }
                Entry {
                    id: "agreed-name",
                    label: t("agreed-name"),
                    kind: Kind::Words,
                    value: typed,
                    on_type: move |text| name.send(Intent::Type(Field::AgreedName, text)),
                }
                div { class: "pair",
                    for how in AgreedHow::ALL {
                        button {
                            key: "{how:?}",
                            class: "also",
                            disabled: !ready,
                            onclick: {
                                let shell = shell.clone();
                                move |_| shell.send(Intent::Check(CheckIntent::Agree(how)))
                            },
                            {say(&how.message())}
                        }
                    }
                }
            }
        }
    }
}
