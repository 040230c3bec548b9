//! A flat thing of known size, for short distances without cards.

use dioxus::prelude::*;
use rakeline_core::estimate::photo::result::FlatKind;
use rakeline_core::job::read_length;
use rakeline_core::units::Millimetres;

use crate::parts::Entry;
use crate::texts::t;

/// A flat thing of the fallback.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thing {
    /// A sheet of A4.
    A4,
    /// A US Letter sheet.
    Letter,
    /// A bank card.
    BankCard,
    /// A number plate.
    Plate,
    /// A taped length.
    Taped,
}

impl Thing {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::A4,
        Self::Letter,
        Self::BankCard,
        Self::Plate,
        Self::Taped,
    ];

    /// The key of its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::A4 => "flat-a4",
            Self::Letter => "flat-letter",
            Self::BankCard => "flat-card",
            Self::Plate => "flat-plate",
            Self::Taped => "flat-taped",
        }
    }

    /// Taps on the thing itself, before both ends of the distance.
    #[must_use]
    pub fn own_taps(self) -> usize {
        if self == Self::Taped { 2 } else { 4 }
    }

    /// What is measured by; `None` while its size is not typed.
    #[must_use]
    pub fn kind(self, first: Option<f64>, second: Option<f64>) -> Option<FlatKind> {
        Some(match self {
            Self::A4 => FlatKind::A4,
            Self::Letter => FlatKind::Letter,
            Self::BankCard => FlatKind::BankCard,
            Self::Plate => FlatKind::Plate(Millimetres(first?), Millimetres(second?)),
            Self::Taped => FlatKind::Taped(Millimetres(first?)),
        })
    }

    /// What the next tap means.
    #[must_use]
    pub fn next(self, taps: usize) -> &'static str {
        const CORNERS: [&str; 4] = [
            "flat-corner-1",
            "flat-corner-2",
            "flat-corner-3",
            "flat-corner-4",
        ];
        match taps.checked_sub(self.own_taps()) {
            Some(0) => "flat-from",
            Some(_) => "flat-to",
            None if self == Self::Taped && taps == 0 => "flat-tape-from",
            None if self == Self::Taped => "flat-tape-to",
            None => CORNERS[taps.min(3)],
        }
    }
}

/// A typed length, millimetres.
#[must_use]
pub fn typed_length(text: &str) -> Option<f64> {
    read_length(text).ok().map(|mm| mm.0)
}

/// Sizes of a flat thing, typed.
#[component]
pub fn Sizes(index: usize, sizes: Signal<[String; 2]>) -> Element {
    let mut sizes = sizes;
    let mut put = move |which: usize, text: String| sizes.write()[which] = text;
    rsx! {
        div { class: "side-by-side",
            Entry {
                id: "flat-width-{index}",
                label: t("flat-width"),
                value: sizes()[0].clone(),
                note: t("in-mm"),
                on_type: move |text| put(0, text),
            }
            Entry {
                id: "flat-height-{index}",
                label: t("flat-height"),
                value: sizes()[1].clone(),
                note: t("in-mm"),
                on_type: move |text| put(1, text),
            }
        }
    }
}
