//! A field with its label, and what is wrong with what stands in it.

use dioxus::prelude::*;

/// What kind of text a field takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A figure, with the figures' keyboard.
    Figure,
    /// Words.
    Words,
}

/// A labelled field that keeps what is typed, right or wrong.
#[component]
pub fn Entry(
    id: String,
    label: String,
    value: String,
    #[props(default = Kind::Figure)] kind: Kind,
    #[props(default)] wrong: Option<String>,
    #[props(default)] note: Option<String>,
    on_type: EventHandler<String>,
) -> Element {
    let about = format!("{id}-about");
    let (class, mode) = match kind {
        Kind::Figure => ("field", "decimal"),
        Kind::Words => ("field words", "text"),
    };
    let is_wrong = wrong.is_some();
    rsx! {
        div { class,
            label { r#for: "{id}", {label} }
            input {
                id: "{id}",
                value,
                inputmode: mode,
                autocomplete: "off",
                maxlength: "500",
                enterkeyhint: "next",
                "aria-invalid": if is_wrong { "true" },
                "aria-describedby": "{about}",
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
