//! One photo of mark cards: what was seen in it, what was measured drawn on
//! it, and taps on heads, a line, or a flat thing.

use dioxus::prelude::*;
use rakeline_core::estimate::photo::result::{FlatKind, Tap, U_TAP};
use rakeline_core::job::{
    CardPhotosEvent, JobState, card_words, notes_on, read_length,
};
use rakeline_core::text::msg;
use rakeline_core::units::Millimetres;

use super::photo_notes::drawn;
use crate::driver::{CardsIntent, Intent, PhotoIntent};
use crate::parts::Entry;
use crate::shell::use_shell;
use crate::texts::{say, t};

/// What the next tap in the magnifier sets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Aim {
    Nothing,
    Head(usize),
    Line,
    Flat(Thing),
}

/// A flat thing of the fallback.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Thing {
    A4,
    Letter,
    BankCard,
    Plate,
    Taped,
}

impl Thing {
    const ALL: [Self; 5] = [
        Self::A4,
        Self::Letter,
        Self::BankCard,
        Self::Plate,
        Self::Taped,
    ];

    fn name(self) -> &'static str {
        match self {
            Self::A4 => "flat-a4",
            Self::Letter => "flat-letter",
            Self::BankCard => "flat-card",
            Self::Plate => "flat-plate",
            Self::Taped => "flat-taped",
        }
    }

    /// Taps on the thing itself, before both ends of the distance.
    fn own_taps(self) -> usize {
        if self == Self::Taped { 2 } else { 4 }
    }

    fn kind(self, first: Option<f64>, second: Option<f64>) -> Option<FlatKind> {
        Some(match self {
            Self::A4 => FlatKind::A4,
            Self::Letter => FlatKind::Letter,
            Self::BankCard => FlatKind::BankCard,
            Self::Plate => FlatKind::Plate(Millimetres(first?), Millimetres(second?)),
            Self::Taped => FlatKind::Taped(Millimetres(first?)),
        })
    }

    /// What the next tap means.
    fn next(self, taps: usize) -> &'static str {
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

/// Width of a picture in the drawing's own units.
const WIDE: f64 = 1_000.0;
/// How many times the magnifier is larger than the picture.
const LARGER: f64 = 8.0;

/// One photo.
#[component]
pub fn CardPhotoView(job: JobState, index: usize) -> Element {
    let shell = use_shell();
    let mut large = use_signal(|| false);
    let mut aim = use_signal(|| Aim::Nothing);
    let mut near = use_signal(|| None::<[f64; 2]>);
    let mut flat_taps = use_signal(Vec::<[f64; 2]>::new);
    let sizes = use_signal(|| [String::new(), String::new()]);
    let Some(photo) = job.card_photos.photos.get(index) else {
        return rsx! {};
    };
    let size = [
        f64::from(photo.seen.width.max(1)),
        f64::from(photo.seen.height.max(1)),
    ];
    let high = size[1] / size[0] * WIDE;
    let notes = notes_on(&job, index);
    let measured = job.card_photos.outcome.is_some();
    let state = shell.state.read();
    let found = state.drafts.photos.found(&photo.blob).cloned();
    let flat_found = state.drafts.cards.flat;
    let (look, drop, keep, set) = (shell.clone(), shell.clone(), shell.clone(), shell.clone());
    let (looked, dropped) = (photo.blob.clone(), photo.blob.clone());
    let name = msg("cards-photo").count("photo", i64::try_from(index + 1).unwrap_or(i64::MAX));
    let mut begin = move |to: Aim| {
        aim.set(to);
        near.set(None);
        flat_taps.set(Vec::new());
        large.set(true);
    };
    // A tap under the magnifier, in pixels of the photo.
    let tapped = move |at: [f64; 2]| {
        near.set(None);
        let tap = Tap {
            photo: index,
            x: at[0],
            y: at[1],
            u: U_TAP,
        };
        let said = |event| set.send(Intent::Cards(CardsIntent::Said(event)));
        match aim() {
            Aim::Nothing => {}
            Aim::Head(head) => said(CardPhotosEvent::HeadTapped(head, tap)),
            Aim::Line => said(CardPhotosEvent::LineTapped(tap)),
            Aim::Flat(thing) => {
                flat_taps.write().push(at);
                if flat_taps().len() == thing.own_taps() + 2 {
                    let typed = sizes().map(|text| read_length(&text).ok().map(|mm| mm.0));
                    if let Some(kind) = thing.kind(typed[0], typed[1]) {
                        let said = CardsIntent::Flat(index, kind, flat_taps());
                        set.send(Intent::Cards(said));
                    }
                    aim.set(Aim::Nothing);
                }
            }
        }
    };
    let next = match aim() {
        Aim::Nothing => None,
        Aim::Head(head) => job
            .spots
            .get(head)
            .map(|spot| say(&msg("cards-tap-head").text("label", spot.label.clone()))),
        Aim::Line => Some(t("cards-tap-line")),
        Aim::Flat(thing) => Some(t(thing.next(flat_taps().len()))),
    };
    rsx! {
        figure {
            class: if large() { "thumb large" } else { "thumb" },
            onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(looked.clone()))),
            match found {
                Some(Ok(url)) => rsx! {
                    div { class: "noted",
                        img { src: "{url}", alt: "", draggable: false }
                        svg { class: "notes", view_box: "0 0 {WIDE} {high}", "aria-hidden": "true",
                            for note in notes.iter() {
                                {drawn(note, high)}
                            }
                            for tap in own_taps(&job, index, &flat_taps()) {
                                circle {
                                    class: "begun",
                                    cx: "{(tap[0] + 0.5) / size[0] * WIDE}",
                                    cy: "{(tap[1] + 0.5) / size[1] * high}",
                                    r: "9",
                                }
                            }
                        }
                        if aim() != Aim::Nothing {
                            Over {
                                on_tap: move |share: [f64; 2]| {
                                    near.set(Some([share[0] * size[0] - 0.5, share[1] * size[1] - 0.5]));
                                },
                            }
                        }
                    }
                    if let Some(next) = next {
                        p { role: "status", {next} }
                    }
                    if let Some(at) = near() {
                        Magnifier { url: url.clone(), size, at, on_tap: tapped }
                    }
                },
                Some(Err(why)) => rsx! { p { class: "trouble-box", {say(&why)} } },
                None => rsx! { p { role: "status", {t("level-reading-photo")} } },
            }
            figcaption { {say(&name)} }
            ul { class: "candidates",
                for line in card_words(&job, photo) {
                    li { {say(&line)} }
                }
            }
            div { class: "things",
                button {
                    class: "plain",
                    "aria-expanded": if large() { "true" } else { "false" },
                    onclick: move |_| {
                        large.toggle();
                        aim.set(Aim::Nothing);
                        near.set(None);
                    },
                    {t(if large() { "photo-smaller" } else { "cards-larger" })}
                }
                if measured {
                    button {
                        class: "plain",
                        onclick: move |_| keep.send(Intent::Cards(CardsIntent::Keep(index))),
                        {t("cards-keep")}
                    }
                }
                button {
                    class: "plain",
                    onclick: move |_| {
                        let out = CardPhotosEvent::Dropped(dropped.clone());
                        drop.send(Intent::Cards(CardsIntent::Said(out)));
                    },
                    {t("level-drop")}
                }
            }
            if large() && measured {
                TapOnes { job: job.clone(), on_aim: move |to: Option<usize>| begin(to.map_or(Aim::Line, Aim::Head)) }
            }
            if large() {
                details { class: "fold",
                    summary { h2 { {t("flat-title")} } }
                    p { class: "why", {t("flat-why")} }
                    Sizes { index, sizes }
                    div { class: "things",
                        for thing in Thing::ALL {
                            button {
                                key: "{thing.name()}",
                                class: "also",
                                disabled: thing.kind(typed(&sizes()[0]), typed(&sizes()[1])).is_none(),
                                onclick: move |_| begin(Aim::Flat(thing)),
                                {t(thing.name())}
                            }
                        }
                    }
                    if let Some(found) = flat_found {
                        p { role: "status",
                            {say(&msg("flat-found").number("by", found.value.0, 1).number("plus", found.expanded().0, 1))}
                        }
                    }
                }
            }
        }
    }
}

fn typed(text: &str) -> Option<f64> {
    read_length(text).ok().map(|mm| mm.0)
}

/// Taps in a photo, pixels.
fn own_taps(job: &JobState, index: usize, flat: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let taps = &job.card_photos.taps;
    let heads = taps.heads.iter().map(|tap| tap.1);
    let all = heads.chain(taps.line.iter().copied());
    let here = all.filter(|tap| tap.photo == index);
    let here = here.map(|tap| [tap.x, tap.y]);
    here.chain(flat.iter().copied()).collect()
}

/// Sizes of a flat thing, typed.
#[component]
fn Sizes(index: usize, sizes: Signal<[String; 2]>) -> Element {
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

/// Heads and the line to tap.
#[component]
fn TapOnes(job: JobState, on_aim: EventHandler<Option<usize>>) -> Element {
    let shell = use_shell();
    let untap = shell.clone();
    let has_line = !job.card_photos.taps.line.is_empty();
    rsx! {
        details { class: "fold",
            summary { h2 { {t("cards-taps")} } }
            p { class: "why", {t("cards-taps-why")} }
            div { class: "things",
                for (head , spot) in job.spots.iter().enumerate() {
                    button {
                        key: "{spot.label}",
                        class: "also",
                        onclick: move |_| on_aim.call(Some(head)),
                        {say(&msg("cards-head-of").text("label", spot.label.clone()))}
                    }
                }
                button { class: "also", onclick: move |_| on_aim.call(None), {t("cards-line-of")} }
                if has_line {
                    button {
                        class: "plain",
                        onclick: move |_| {
                            let out = CardPhotosEvent::LineUntapped;
                            untap.send(Intent::Cards(CardsIntent::Said(out)));
                        },
                        {t("cards-line-out")}
                    }
                }
            }
        }
    }
}

/// Hears taps as shares of what it lies over.
#[component]
fn Over(on_tap: EventHandler<[f64; 2]>) -> Element {
    let mut seen = use_signal(|| (0.0, 0.0));
    rsx! {
        div {
            class: "over",
            onmounted: move |event| async move {
                if let Ok(rect) = event.get_client_rect().await {
                    seen.set((rect.size.width, rect.size.height));
                }
            },
            onresize: move |event| {
                if let Ok(now) = event.get_border_box_size() {
                    seen.set((now.width, now.height));
                }
            },
            onpointerup: move |event| {
                let (at, (wide, high)) = (event.element_coordinates(), seen());
                if wide > 1.0 && high > 1.0 {
                    on_tap.call([(at.x / wide).clamp(0.0, 1.0), (at.y / high).clamp(0.0, 1.0)]);
                }
            },
        }
    }
}

/// The picture around a place, enlarged; a tap sets the place exactly.
#[component]
fn Magnifier(url: String, size: [f64; 2], at: [f64; 2], on_tap: EventHandler<[f64; 2]>) -> Element {
    let wide = size[0] / LARGER;
    let high = wide * 0.75;
    let (left, top) = (at[0] - wide / 2.0, at[1] - high / 2.0);
    let fine = wide / 300.0;
    rsx! {
        div { class: "noted magnifier",
            svg { view_box: "{left} {top} {wide} {high}", role: "img", "aria-label": t("cards-magnifier"),
                image { href: "{url}", x: "-0.5", y: "-0.5", width: "{size[0]}", height: "{size[1]}" }
                path {
                    class: "hair",
                    d: "M{left} {at[1]}h{wide}M{at[0]} {top}v{high}",
                    stroke_width: "{fine}",
                }
            }
            Over { on_tap: move |share: [f64; 2]| on_tap.call([left + share[0] * wide, top + share[1] * high]) }
        }
        p { class: "why", {t("cards-magnifier-why")} }
    }
}
