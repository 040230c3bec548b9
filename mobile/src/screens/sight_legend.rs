//! What the patterns and lines of the pictures mean.

use dioxus::prelude::*;
use rakeline_core::drawing::Pen;

use crate::parts::{Mark, MarkSwatch, Swatch};
use crate::texts::t;

/// Patterns of the squares, then what is drawn over them.
#[component]
pub(super) fn Legend() -> Element {
    rsx! {
        ul { class: "legend",
            for (pen , key) in [
                (Some(Pen::Dense), "sight-legend-well"),
                (Some(Pen::Sparse), "sight-legend-just"),
                (None, "sight-legend-not"),
                (Some(Pen::Dotted), "sight-legend-near"),
            ] {
                li {
                    Swatch { pen }
                    {t(key)}
                }
            }
            for (mark , key) in [
                (Mark::Counted, "sight-legend-counted"),
                (Mark::Gap, "sight-legend-gap"),
                (Mark::Weakest, "sight-legend-weakest"),
                (Mark::Asked, "sight-legend-asked"),
                (Mark::Head, "sight-legend-head"),
            ] {
                li {
                    MarkSwatch { mark }
                    {t(key)}
                }
            }
        }
    }
}
