//! A drawing of the core as SVG, one item to one element.

use dioxus::prelude::*;
use rakeline_core::drawing::{Anchor, At, Drawing, Item, Lettering, Pen, Words};

use crate::texts::say;

/// Shows a drawing as wide as its place.
#[component]
pub fn DrawingView(drawing: Drawing) -> Element {
    let frame = format!(
        "{} {} {} {}",
        drawing.from.0, drawing.from.1, drawing.size.0, drawing.size.1
    );
    rsx! {
        svg {
            class: "drawing",
            role: "img",
            view_box: frame,
            "aria-label": say(&drawing.title),
            for item in drawing.items {
                {shape(&item)}
            }
        }
    }
}

fn shape(item: &Item) -> Element {
    match item {
        Item::Line { pen, points } => rsx! {
            polyline { class: class_of(*pen), points: corners(points) }
        },
        Item::Area { pen, points } => rsx! {
            polygon { class: class_of(*pen), points: corners(points) }
        },
        Item::Circle {
            pen,
            centre,
            radius,
        } => rsx! {
            circle { class: class_of(*pen), cx: "{centre.0}", cy: "{centre.1}", r: "{radius}" }
        },
        Item::Text {
            lettering,
            at,
            anchor,
            size,
            words,
        } => rsx! {
            text {
                class: lettering_class(*lettering),
                x: "{at.0}",
                y: "{at.1}",
                font_size: "{size}",
                text_anchor: anchor_word(*anchor),
                {spell(words)}
            }
        },
    }
}

fn spell(words: &Words) -> String {
    match words {
        Words::Message(message) => say(message),
        Words::Literal(text) => text.clone(),
    }
}

fn corners(points: &[At]) -> String {
    points
        .iter()
        .map(|point| format!("{:.2},{:.2}", point.0, point.1))
        .collect::<Vec<_>>()
        .join(" ")
}

fn class_of(pen: Pen) -> &'static str {
    match pen {
        Pen::Outline => "outline",
        Pen::Thin => "thin",
        Pen::Faint => "faint",
        Pen::Centre => "centre",
        Pen::Ink => "ink",
        Pen::Wrong => "wrong",
        Pen::Tape => "tape",
        Pen::Solid => "solid",
        Pen::Paper => "paper",
        Pen::Shut => "shut",
    }
}

fn lettering_class(lettering: Lettering) -> &'static str {
    match lettering {
        Lettering::Plain => "",
        Lettering::Strong => "strong",
        Lettering::Blue => "blue",
    }
}

fn anchor_word(anchor: Anchor) -> &'static str {
    match anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    }
}
