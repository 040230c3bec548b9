//! Drawings: from a job to lines, texts and crosses in millimetres.
//!
//! One drawing language for screen, print and PDF. x grows to the right and
//! y downward, as on paper; the shell turns items into SVG one to one.

mod bumper;
mod dimension;
mod face;
mod feet;
mod job;
mod learn;
mod level;
mod plan;
mod side_up;
mod sight;
mod walk;

pub use bumper::{BumperView, MarkView, RowView, bumper_from_behind};
pub use face::face_from_side;
pub use feet::{feet_on_the_back, round_face};
pub use job::{half_width_drawing, marks_drawing, marks_drawing_with, plan_drawing};
pub use learn::learn_timeline;
pub use level::level_over_picture;
pub use plan::shape_from_above;
pub use side_up::which_side_up;
pub use sight::{Day, Probe, Sight, SightAsked, Squares, Standing, sight};
pub use walk::{walk_gate, walk_plan};

use serde::{Deserialize, Serialize};

use crate::text::Message;

/// What a line or area is, so that screen and paper can draw it alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Pen {
    /// The edge of a thing.
    Outline,
    /// A dimension line or small detail.
    Thin,
    /// A reference that is not a thing: level, a line across.
    Faint,
    /// The centre line.
    Centre,
    /// What was measured or decided.
    Ink,
    /// What is not as it should be.
    Wrong,
    /// Masking tape.
    Tape,
    /// Filled.
    Solid,
    /// A body in front of what is behind it.
    Paper,
    /// An area where nothing may be drilled.
    Shut,
    /// Squares hatched closely.
    Dense,
    /// Squares hatched widely.
    Sparse,
    /// Squares with dots.
    Dotted,
}

/// How a text is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Lettering {
    /// As a dimension figure.
    Plain,
    /// Labels that must be found at once.
    Strong,
    /// A measured figure.
    Blue,
}

/// Which point of a text stands on its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}

/// A point on the drawing, mm: x to the right, y downward.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct At(pub f64, pub f64);

/// What is written at a place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Words {
    /// Words from the text file.
    Message(Message),
    /// A figure or label as it is.
    Literal(String),
}

/// A rectangle of squares in a row: left, top, width, height, mm.
pub type Run = [f64; 4];

/// One thing on a drawing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Item {
    /// An open line through points.
    Line {
        /// What it is.
        pen: Pen,
        /// The points in order.
        points: Vec<At>,
    },
    /// A closed area through points.
    Area {
        /// What it is.
        pen: Pen,
        /// The corners in order.
        points: Vec<At>,
    },
    /// Many squares of one pattern.
    Squares {
        /// The pattern.
        pen: Pen,
        /// Their rows.
        runs: Vec<Run>,
    },
    /// A circle.
    Circle {
        /// What it is.
        pen: Pen,
        /// Its centre.
        centre: At,
        /// Its radius, mm.
        radius: f64,
    },
    /// A text.
    Text {
        /// How it is set.
        lettering: Lettering,
        /// The place of its anchor on the baseline.
        at: At,
        /// Which point stands there.
        anchor: Anchor,
        /// Height of the letters' body, mm on the drawing.
        size: f64,
        /// What it says.
        words: Words,
    },
}

/// A drawing with its frame.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drawing {
    /// Upper left corner of the frame.
    pub from: At,
    /// Width and height of the frame, mm.
    pub size: At,
    /// What it shows, for those who can't see it.
    pub title: Message,
    /// What is drawn, back to front.
    pub items: Vec<Item>,
}

pub(crate) fn line(pen: Pen, points: &[(f64, f64)]) -> Item {
    Item::Line {
        pen,
        points: points.iter().map(|&(x, y)| At(x, y)).collect(),
    }
}

pub(crate) fn area(pen: Pen, points: &[(f64, f64)]) -> Item {
    Item::Area {
        pen,
        points: points.iter().map(|&(x, y)| At(x, y)).collect(),
    }
}
