//! A drawing of the core as SVG, one item to one element.

use std::fmt::Write;

use dioxus::prelude::*;
use rakeline_core::drawing::{Anchor, At, Drawing, Item, Lettering, Pen, Run, Words};

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
        Item::Squares { pen, runs } => rsx! {
            path { class: class_of(*pen), fill: hatch(*pen), d: rows(runs) }
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

/// Rows of squares as one path.
fn rows(runs: &[Run]) -> String {
    let mut path = String::with_capacity(24 * runs.len());
    for [x, y, width, height] in runs {
        for (sign, figure) in [
            ("M", x),
            (" ", y),
            ("h", width),
            ("v", height),
            ("h-", width),
        ] {
            path.push_str(sign);
            push_figure(&mut path, *figure);
        }
        path.push('z');
    }
    path
}

/// A figure of a path. Most are whole, and a slider draws hundreds of them
/// sixty times a second: whole numbers are spelt several times as fast.
fn push_figure(path: &mut String, figure: f64) {
    let whole = figure as i32;
    // A string takes all that is written.
    let _ = if f64::from(whole) == figure {
        write!(path, "{whole}")
    } else {
        write!(path, "{figure}")
    };
}

/// The pattern of squares; [`Hatches`] holds them once a screen.
fn hatch(pen: Pen) -> &'static str {
    match pen {
        Pen::Dense => "url(#hatch-dense)",
        Pen::Sparse => "url(#hatch-sparse)",
        _ => "url(#hatch-dotted)",
    }
}

/// A piece of a pattern, for a legend; `None` is blank.
#[component]
pub fn Swatch(pen: Option<Pen>) -> Element {
    rsx! {
        svg { class: "swatch", view_box: "0 0 300 200", "aria-hidden": "true",
            if let Some(pen) = pen {
                rect { class: "squares", fill: hatch(pen), width: "300", height: "200" }
            }
        }
    }
}

/// What is drawn over the squares of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// The rectangle that is summed up.
    Counted,
    /// The largest gap.
    Gap,
    /// The weakest place between heads.
    Weakest,
    /// The place asked about.
    Asked,
    /// A head and where it points.
    Head,
}

/// A mark as it is drawn, for a legend.
#[component]
pub fn MarkSwatch(mark: Mark) -> Element {
    let rectangle = |pen: Pen| {
        rsx! {
            polyline { class: class_of(pen), points: "60,40 240,40 240,160 60,160 60,40" }
        }
    };
    let drawn = match mark {
        Mark::Counted => rectangle(Pen::Outline),
        Mark::Gap => rectangle(Pen::Wrong),
        Mark::Weakest => rsx! {
            polygon { class: class_of(Pen::Paper), points: "150,40 210,100 150,160 90,100" }
        },
        Mark::Asked => rsx! {
            circle { class: class_of(Pen::Paper), cx: "150", cy: "100", r: "46" }
            polyline { class: class_of(Pen::Ink), points: "70,100 230,100" }
            polyline { class: class_of(Pen::Ink), points: "150,20 150,180" }
        },
        Mark::Head => rsx! {
            polyline { class: class_of(Pen::Ink), points: "100,50 200,50" }
            polyline { class: class_of(Pen::Ink), points: "150,50 150,170" }
        },
    };
    rsx! {
        svg { class: "swatch drawing", view_box: "0 0 300 200", "aria-hidden": "true", {drawn} }
    }
}

/// The patterns that squares are filled with, in millimetres of a plan.
#[component]
pub fn Hatches() -> Element {
    rsx! {
        svg { class: "offscreen", "aria-hidden": "true",
            defs {
                pattern { id: "hatch-dense", width: "50", height: "50", pattern_units: "userSpaceOnUse",
                    path { class: "hatch close", d: "M0 50L50 0M-10 10L10 -10M40 60L60 40" }
                }
                pattern { id: "hatch-sparse", width: "100", height: "100", pattern_units: "userSpaceOnUse",
                    path { class: "hatch", d: "M0 0L100 100M-10 90L10 110M90 -10L110 10" }
                }
                pattern { id: "hatch-dotted", width: "50", height: "50", pattern_units: "userSpaceOnUse",
                    circle { class: "dot", cx: "25", cy: "25", r: "9" }
                }
            }
        }
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
        Pen::Dense | Pen::Sparse | Pen::Dotted => "squares",
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_spelt_as_they_are() {
        let spelt = rows(&[[-50.0, 200.0, 100.0, 12.5]]);
        assert_eq!(spelt, "M-50 200h100v12.5h-100z");
        assert_eq!(rows(&[]), "");
    }
}
