//! What the prediction is asked for: the day's air, a fixed object, and
//! what it stands on.

use std::rc::Rc;

use dioxus::prelude::*;
use rakeline_core::decide::coverage::ObjectKind;
use rakeline_core::drawing::{Day, Sight};
use rakeline_core::job::{AirField, CoverageEvent, Field, JobEvent, ObjectField};

use super::sight::Pick;
use crate::driver::{Intent, SightIntent};
use crate::parts::{AskedFields, Kind, TypedEntry};
use crate::shell::use_shell;
use crate::texts::{say, t};

/// What is wrong with a typed figure.
fn fault(sight: &Sight, field: Field) -> Option<String> {
    let found = sight.faults.iter().find(|(of, _)| *of == field);
    found.map(|(_, why)| say(why))
}

/// As typed, winter, summer; and the typing.
#[component]
pub(super) fn Weather(sight: Rc<Sight>) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let day = state.drafts.sight.asked.day;
    rsx! {
        h2 { {t("sight-air-title")} }
        div { class: "choice", role: "group", "aria-label": t("sight-air-title"),
            for (which , key) in [
                (Day::Typed, "sight-today"),
                (Day::Winter, "sight-winter"),
                (Day::Summer, "sight-summer"),
            ] {
                Pick { on: day == which, words: t(key), intent: SightIntent::Day(which) }
            }
        }
        details {
            summary { {t("sight-air-type")} }
            for (field , id , label , kind) in [
                (AirField::Celsius, "air-celsius", "air-celsius", Kind::Signed),
                (AirField::Humidity, "air-humidity", "air-humidity", Kind::Figure),
                (AirField::Pressure, "air-pressure", "air-pressure", Kind::Figure),
            ] {
                TypedEntry {
                    key: "{id}",
                    job: job.clone(),
                    field: Field::Air(field),
                    id,
                    label: t(label),
                    kind,
                    wrong: fault(&sight, Field::Air(field)),
                }
            }
        }
    }
}

/// A tow ball or a spare wheel inside the zone.
#[component]
pub(super) fn ObjectBehind(sight: Rc<Sight>) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let kind = job.coverage.object;
    let fields: &[(ObjectField, &'static str, Kind)] = match kind {
        None => &[],
        Some(kind) => {
            let all = &[
                (ObjectField::Behind, "object-behind", Kind::Figure),
                (ObjectField::Height, "object-height", Kind::Figure),
                (ObjectField::Across, "object-across", Kind::Signed),
                (ObjectField::Radius, "object-radius", Kind::Figure),
            ];
            match kind {
                ObjectKind::TowBall => &all[..3],
                ObjectKind::SpareWheel => all,
            }
        }
    };
    rsx! {
        h2 { {t("object-title")} }
        div { class: "choice", role: "group", "aria-label": t("object-title"),
            for (which , key) in [
                (None, "object-none"),
                (Some(ObjectKind::TowBall), "object-tow-ball"),
                (Some(ObjectKind::SpareWheel), "object-spare-wheel"),
            ] {
                button {
                    "aria-pressed": if kind == which { "true" } else { "false" },
                    onclick: {
                        let shell = shell.clone();
                        move |_| {
                            let said = CoverageEvent::ObjectSaid(which);
                            shell.send(Intent::Fit(Box::new(JobEvent::Coverage(said))));
                        }
                    },
                    {t(key)}
                }
            }
        }
        for (field , id , kind) in fields.iter().copied() {
            TypedEntry {
                key: "{id}",
                job: job.clone(),
                field: Field::Object(field),
                id,
                label: t(id),
                kind,
                wrong: fault(&sight, Field::Object(field)),
                note: t("in-mm"),
            }
        }
        if !sight.object.is_empty() {
            ol { class: "steps small", role: "status",
                for line in sight.object.iter() {
                    li { span { {say(line)} } }
                }
            }
        }
    }
}

/// What is assumed, what is calibrated, and what the sheet is asked for.
#[component]
pub(super) fn Based(sight: Rc<Sight>) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    rsx! {
        h2 { {t("sight-based")} }
        ul { class: "candidates",
            for line in sight.based.iter() {
                li { {say(line)} }
            }
        }
        AskedFields { job: job.clone(), asked: sight.asked.clone() }
    }
}
