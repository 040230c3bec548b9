//! Paper and pages: what is drawn at full size, in millimetres.

use serde::{Deserialize, Serialize};

use crate::drawing::{At, Item, Lettering, Pen, Words, line};
use crate::text::Message;

/// A paper size, lying on its long side.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// ISO 216 A4.
    #[default]
    A4,
    /// ANSI/ASME Y14.1 A, sold as Letter.
    Letter,
}

impl Paper {
    /// Width and height lying, mm: A4 297 x 210 (ISO 216), Letter 11 x 8.5
    /// inches.
    #[must_use]
    pub fn lying(self) -> At {
        match self {
            Self::A4 => At(297.0, 210.0),
            Self::Letter => At(279.4, 215.9),
        }
    }
}

/// One page.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Page {
    /// Width and height, mm.
    pub size: At,
    /// What is drawn, back to front; mm from the upper left corner.
    pub items: Vec<Item>,
}

/// Pages to be printed at 100 %.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pages {
    /// What they are.
    pub title: Message,
    /// The pages in order.
    pub pages: Vec<Page>,
}

/// A line of words on a page.
pub(super) fn words(at: At, anchor: crate::drawing::Anchor, size: f64, message: Message) -> Item {
    Item::Text {
        lettering: Lettering::Plain,
        at,
        anchor,
        size,
        words: Words::Message(message),
    }
}

/// Half the length of the stroke that ends a bar, mm.
const END: f64 = 2.5;

/// A bar of an exact length between two end strokes.
pub(super) fn bar(from: At, to: At) -> [Item; 3] {
    let length = (to.0 - from.0).hypot(to.1 - from.1);
    let (across_x, across_y) = (
        -(to.1 - from.1) / length * END,
        (to.0 - from.0) / length * END,
    );
    let end = |at: At| {
        line(
            Pen::Ink,
            &[
                (at.0 - across_x, at.1 - across_y),
                (at.0 + across_x, at.1 + across_y),
            ],
        )
    };
    [
        line(Pen::Ink, &[(from.0, from.1), (to.0, to.1)]),
        end(from),
        end(to),
    ]
}
