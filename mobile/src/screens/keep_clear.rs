//! What the mark-out must keep clear of, old holes, the height of the row,
//! and limits changed for this job. All of it optional.

use dioxus::prelude::*;
use rakeline_core::decide::mark_out::NoDrillReason;
use rakeline_core::job::{self, Field, JobState, RowLine};
use rakeline_core::text::{Message, msg};

use crate::driver::{Intent, MarkOutIntent};
use crate::parts::{Entry, Kind};
use crate::shell::{Shell, use_shell};
use crate::texts::{figure, say, t};

/// Everything besides the half widths, folded.
#[component]
pub fn KeepClear(job: JobState) -> Element {
    let typing = !job.typed(Field::NoDrillFrom).is_empty();
    let areas = i64::try_from(job.mark_out.no_drill.len()).unwrap_or(i64::MAX);
    rsx! {
        details { open: typing,
            summary { {say(&msg("keep-clear").count("areas", areas))} }
            div { class: "stack",
                p { class: "why", {t("keep-clear-why")} }
                Areas { job: job.clone() }
                AddArea { job: job.clone() }
                OldHoles { job: job.clone() }
            }
        }
        details {
            summary { {t("row-title")} }
            RowHeight { job: job.clone() }
        }
        details {
            summary { {t("limits-title")} }
            Limits { job }
        }
    }
}

fn type_in(shell: &Shell, field: Field) -> impl FnMut(String) + 'static + use<> {
    let shell = shell.clone();
    move |text| shell.send(Intent::Type(field, text))
}

fn wrong(text: &str, read: impl Fn(&str) -> Option<Message>) -> Option<String> {
    if text.trim().is_empty() {
        None
    } else {
        read(text).map(|why| say(&why))
    }
}

/// What stands below a place: how its side is typed, or what it is straight.
pub(super) fn offset_note(job: &JobState, field: Field) -> String {
    job::straight_words(job, field).map_or_else(|| t("offset-note"), |words| say(&words))
}

/// The areas as they stand, each with its way out.
#[component]
fn Areas(job: JobState) -> Element {
    let shell = use_shell();
    rsx! {
        ul { class: "jobs",
            for (index , area) in job.mark_out.no_drill.iter().enumerate() {
                li {
                    span { class: "open kept",
                        b { {say(&area.why.message())} }
                        span {
                            {say(&msg("area-from-to")
                                .message("from", job::offset_words(area.from))
                                .message("to", job::offset_words(area.to)))}
                        }
                    }
                    button {
                        class: "plain",
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::MarkOut(MarkOutIntent::TakeNoDrill(index)))
                        },
                        {t("take-away")}
                    }
                }
            }
        }
    }
}

/// Reasons that can be picked, in the order of how often they come up.
fn reasons() -> [NoDrillReason; 10] {
    [
        NoDrillReason::Plate,
        NoDrillReason::Lamp,
        NoDrillReason::TowHitch,
        NoDrillReason::CrashBeamBracket,
        NoDrillReason::Exhaust,
        NoDrillReason::Ridge,
        NoDrillReason::OldHole,
        NoDrillReason::Radar,
        NoDrillReason::Wiring,
        NoDrillReason::Other(String::new()),
    ]
}

#[component]
fn AddArea(job: JobState) -> Element {
    let shell = use_shell();
    let mut picked = use_signal(|| 0_usize);
    let reason = reasons()
        .into_iter()
        .nth(picked())
        .unwrap_or(NoDrillReason::Plate);
    let is_other = matches!(reason, NoDrillReason::Other(_));
    let offset_wrong = |field| wrong(job.typed(field), |_| job::typed_offset(&job, field).err());
    let ready = [Field::NoDrillFrom, Field::NoDrillTo]
        .into_iter()
        .all(|field| job::typed_offset(&job, field).is_ok());
    let add = shell.clone();
    rsx! {
        div { class: "field",
            label { r#for: "area-why", {t("area-why")} }
            select {
                id: "area-why",
                onchange: move |event| picked.set(event.value().parse().unwrap_or(0)),
                for (index , reason) in reasons().into_iter().enumerate() {
                    option { value: "{index}", selected: index == picked(), {say(&reason_name(&reason))} }
                }
            }
        }
        if is_other {
            Entry {
                id: "area-what",
                label: t("area-what"),
                kind: Kind::Words,
                value: job.typed(Field::NoDrillWhat).to_owned(),
                on_type: type_in(&shell, Field::NoDrillWhat),
            }
        }
        div { class: "side-by-side",
            Entry {
                id: "area-from",
                label: t("area-from"),
                kind: Kind::Signed,
                value: job.typed(Field::NoDrillFrom).to_owned(),
                wrong: offset_wrong(Field::NoDrillFrom),
                note: offset_note(&job, Field::NoDrillFrom),
                on_type: type_in(&shell, Field::NoDrillFrom),
            }
            Entry {
                id: "area-to",
                label: t("area-to"),
                kind: Kind::Signed,
                value: job.typed(Field::NoDrillTo).to_owned(),
                wrong: offset_wrong(Field::NoDrillTo),
                note: offset_note(&job, Field::NoDrillTo),
                on_type: type_in(&shell, Field::NoDrillTo),
            }
        }
        button {
            class: "also",
            disabled: !ready,
            onclick: move |_| add.send(Intent::MarkOut(MarkOutIntent::AddNoDrill(reason.clone()))),
            {t("area-add")}
        }
    }
}

fn reason_name(reason: &NoDrillReason) -> Message {
    match reason {
        NoDrillReason::Other(_) => msg("no-drill-something-else"),
        named => named.message(),
    }
}

#[component]
fn OldHoles(job: JobState) -> Element {
    let shell = use_shell();
    let add = shell.clone();
    let typed = job.typed(Field::OldHole).to_owned();
    let fault = wrong(&typed, |_| job::typed_offset(&job, Field::OldHole).err());
    let ready = !typed.trim().is_empty() && fault.is_none();
    rsx! {
        h2 { {t("old-holes")} }
        ul { class: "jobs",
            for (index , at) in job.mark_out.old_holes.iter().enumerate() {
                li {
                    span { class: "open kept", b { {say(&job::offset_words(*at))} } }
                    button {
                        class: "plain",
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::MarkOut(MarkOutIntent::TakeOldHole(index)))
                        },
                        {t("take-away")}
                    }
                }
            }
        }
        div { class: "side-by-side",
            Entry {
                id: "old-hole",
                label: t("old-hole-at"),
                kind: Kind::Signed,
                value: typed,
                wrong: fault,
                note: offset_note(&job, Field::OldHole),
                on_type: type_in(&shell, Field::OldHole),
            }
            button {
                class: "also beside",
                disabled: !ready,
                onclick: move |_| add.send(Intent::MarkOut(MarkOutIntent::AddOldHole)),
                {t("old-hole-add")}
            }
        }
    }
}

#[component]
fn RowHeight(job: JobState) -> Element {
    let shell = use_shell();
    let mut picked = use_signal(|| None::<RowLine>);
    let take = shell.clone();
    let line_wrong = wrong(job.typed(Field::RowFromLine), |text| {
        job::read_from_line(text).err()
    });
    let height_wrong = wrong(job.typed(Field::RowHeight), |text| {
        job::read_row_height(text).err()
    });
    let ready =
        job::read_from_line(job.typed(Field::RowFromLine)).is_ok() && height_wrong.is_none();
    let forget = shell.clone();
    let line = picked().or(job.mark_out.row.and_then(|row| row.line));
    rsx! {
        div { class: "stack",
            p { class: "why", {t("row-why")} }
            fieldset { class: "field",
                legend { {t("row-line-title")} }
                div { class: "choice four",
                    for way in RowLine::ALL {
                        button {
                            key: "{way:?}",
                            "aria-pressed": if line == Some(way) { "true" } else { "false" },
                            onclick: move |_| picked.set(Some(way)),
                            {say(&way.message())}
                        }
                    }
                }
            }
            if line == Some(RowLine::Other) {
                Entry {
                    id: "row-line-what",
                    label: t("row-line-what"),
                    kind: Kind::Words,
                    value: job.typed(Field::RowLineWhat).to_owned(),
                    on_type: type_in(&shell, Field::RowLineWhat),
                }
            }
            div { class: "side-by-side",
                Entry {
                    id: "row-from-line",
                    label: t("row-from-line"),
                    kind: Kind::Signed,
                    value: job.typed(Field::RowFromLine).to_owned(),
                    wrong: line_wrong,
                    note: t("row-from-line-note"),
                    on_type: type_in(&shell, Field::RowFromLine),
                }
                Entry {
                    id: "row-height",
                    label: t("row-height"),
                    value: job.typed(Field::RowHeight).to_owned(),
                    wrong: height_wrong,
                    note: t("row-height-note"),
                    on_type: type_in(&shell, Field::RowHeight),
                }
            }
            if let Some(fault) = job::height_fault(&job) {
                div { class: "trouble-box", role: "alert", {say(&fault)} }
            }
            button {
                class: "also",
                disabled: !ready,
                onclick: move |_| take.send(Intent::MarkOut(MarkOutIntent::TakeRow(line))),
                {t("row-take")}
            }
            if let Some(words) = job::row_words(&job) {
                p { class: "says", {say(&words)} }
                button {
                    class: "plain",
                    onclick: move |_| forget.send(Intent::MarkOut(MarkOutIntent::DropRow)),
                    {t("row-drop")}
                }
            }
        }
    }
}

#[component]
fn Limits(job: JobState) -> Element {
    let shell = use_shell();
    let reset = shell.clone();
    rsx! {
        div { class: "stack",
            p { class: "why", {t("limits-why")} }
            for limit in job::limits_shown(&job) {
                div { key: "{limit:?}", class: "side-by-side",
                    Entry {
                        id: "limit-{limit:?}",
                        label: say(&limit.message()),
                        value: job.typed(Field::Limit(limit)).to_owned(),
                        wrong: wrong(job.typed(Field::Limit(limit)), |text| job::read_length(text).err()),
                        note: job::limit_value(&job, limit).map_or_else(
                            || t("limit-none"),
                            |now| say(&msg("limit-now").text("now", figure(now.0, 0))),
                        ),
                        on_type: type_in(&shell, Field::Limit(limit)),
                    }
                    button {
                        class: "also beside",
                        disabled: job::read_length(job.typed(Field::Limit(limit))).is_err(),
                        onclick: {
                            let shell = shell.clone();
                            move |_| shell.send(Intent::MarkOut(MarkOutIntent::ChangeLimit(limit)))
                        },
                        {t("limit-change")}
                    }
                }
            }
            if !job.mark_out.limits.is_empty() {
                button {
                    class: "also",
                    onclick: move |_| reset.send(Intent::MarkOut(MarkOutIntent::LimitsFromSheet)),
                    {t("limits-from-sheet")}
                }
            }
        }
    }
}
