//! One photo of mark cards: what was seen in it, what was measured drawn on
//! it, and taps on heads, a line, or a flat thing.

use dioxus::prelude::*;
use rakeline_core::estimate::photo::result::{Tap, U_TAP};
use rakeline_core::job::{CardPhotosEvent, JobState, card_words, notes_on};
use rakeline_core::text::msg;

use super::flat_thing::{Sizes, Thing, typed_length};
use super::magnifier::{Magnifier, Over};
use super::photo_notes::drawn;
use crate::driver::{CardsIntent, Intent, PhotoIntent};
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

/// Width of a picture in the drawing's own units.
const WIDE: f64 = 1_000.0;
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
                    let typed = sizes().map(|text| typed_length(&text));
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
            class: if large() { "thumb card-photo large" } else { "thumb card-photo" },
            onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(looked.clone()))),
            match found {
                Some(Ok(url)) => rsx! {
                    div { class: "noted",
                        img { src: "{url}", alt: say(&name), draggable: false }
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
                for line in card_words(&job, &photo.seen) {
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
                                disabled: thing.kind(typed_length(&sizes()[0]), typed_length(&sizes()[1])).is_none(),
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

/// Taps in a photo, pixels.
fn own_taps(job: &JobState, index: usize, flat: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let taps = &job.card_photos.taps;
    let heads = taps.heads.iter().map(|tap| tap.1);
    let all = heads.chain(taps.line.iter().copied());
    let here = all.filter(|tap| tap.photo == index);
    let here = here.map(|tap| [tap.x, tap.y]);
    here.chain(flat.iter().copied()).collect()
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
