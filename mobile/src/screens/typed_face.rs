//! A face angle typed off a digital gauge, for any spot at any time.

use dioxus::prelude::*;
use rakeline_core::job::{self, Facing, Field};
use rakeline_core::text::msg;

use crate::driver::Intent;
use crate::parts::Entry;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// The fields of a typed face angle.
#[component]
pub fn TypedFace(label: String, open: bool) -> Element {
    let shell = use_shell();
    let mut facing = use_signal(|| Facing::Down);
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let angle = job.typed(Field::FaceAngle).to_owned();
    let plus_minus = job.typed(Field::GaugePlusMinus).to_owned();
    let wrong = if angle.trim().is_empty() {
        None
    } else {
        job::read_typed_face(&angle, facing(), &plus_minus)
            .err()
            .map(|why| say(&why))
    };
    let is_open = open || !angle.is_empty();
    let usable = !angle.trim().is_empty() && wrong.is_none();
    let (type_angle, type_gauge, submit) = (shell.clone(), shell.clone(), shell.clone());
    rsx! {
        details { open: is_open,
            summary { {t("type-a-gauge")} }
            form {
                class: "stack",
                onsubmit: move |event| {
                    event.prevent_default();
                    submit.send(Intent::TakeTyped(facing()));
                },
                p { class: "why", {t("type-a-gauge-why")} }
                div { class: "choice", role: "group", "aria-label": t("which-way"),
                    button {
                        r#type: "button",
                        "aria-pressed": if facing() == Facing::Down { "true" } else { "false" },
                        onclick: move |_| facing.set(Facing::Down),
                        {t("faces-down")}
                    }
                    button {
                        r#type: "button",
                        "aria-pressed": if facing() == Facing::Up { "true" } else { "false" },
                        onclick: move |_| facing.set(Facing::Up),
                        {t("faces-up")}
                    }
                }
                div { class: "side-by-side",
                    Entry {
                        id: "face-angle",
                        label: t("face-angle"),
                        value: angle,
                        wrong,
                        note: t("in-degrees"),
                        on_type: move |text| type_angle.send(Intent::Type(Field::FaceAngle, text)),
                    }
                    Entry {
                        id: "gauge-plus-minus",
                        label: t("gauge-plus-minus"),
                        value: plus_minus,
                        note: t("gauge-plus-minus-note"),
                        on_type: move |text| type_gauge.send(Intent::Type(Field::GaugePlusMinus, text)),
                    }
                }
                button {
                    class: "do",
                    r#type: "submit",
                    disabled: !usable,
                    {say(&msg("take-typed").text("label", label))}
                }
            }
        }
    }
}
