//! A field with its label, and what is wrong with what stands in it.

use dioxus::prelude::*;

/// What kind of text a field takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A figure, with the figures' keyboard.
    Figure,
    /// A figure that may carry a minus or a letter for the side; phones'
    /// figure keyboards often lack both.
    Signed,
    /// Words.
    Words,
    /// A passphrase: taken sign by sign as it is typed.
    Secret,
}

/// Whether a field wants the keyboard as soon as it is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Focus {
    /// It waits for a tap.
    #[default]
    Waits,
    /// It is the first thing to type.
    First,
}

/// A labelled field that keeps what is typed, right or wrong.
#[component]
pub fn Entry(
    id: String,
    label: String,
    value: String,
    #[props(default = Kind::Figure)] kind: Kind,
    #[props(default)] focus: Focus,
    #[props(default)] wrong: Option<String>,
    #[props(default)] note: Option<String>,
    on_type: EventHandler<String>,
) -> Element {
    let about = format!("{id}-about");
    let (class, mode) = match kind {
        Kind::Figure => ("field", "decimal"),
        Kind::Signed => ("field", "text"),
        Kind::Words | Kind::Secret => ("field words", "text"),
    };
    let is_secret = kind == Kind::Secret;
    let is_wrong = wrong.is_some();
    rsx! {
        div { class,
            label { r#for: "{id}", {label} }
            input {
                id: "{id}",
                value,
                inputmode: mode,
                autocomplete: "off",
                autocapitalize: if is_secret { "none" },
                spellcheck: if is_secret { "false" },
                maxlength: "500",
                enterkeyhint: "next",
                "aria-invalid": if is_wrong { "true" },
                "aria-describedby": "{about}",
                onmounted: move |event| async move {
                    if focus == Focus::First {
                        // A browser that keeps the keyboard away waits for the tap.
                        let _ = event.set_focus(true).await;
                    }
                },
                oninput: move |event| on_type.call(event.value()),
            }
            div { id: "{about}", role: "status",
                if let Some(wrong) = wrong {
                    div { class: "trouble-box", {wrong} }
                } else if let Some(note) = note {
                    div { class: "note", {note} }
                }
            }
        }
    }
}
