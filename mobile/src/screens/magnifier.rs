//! Taps on a picture, and the magnifier that sets them exactly.

use dioxus::prelude::*;

use crate::texts::t;

/// How many times the magnifier is larger than the picture.
const LARGER: f64 = 8.0;

/// Hears taps as shares of what it lies over.
#[component]
pub fn Over(on_tap: EventHandler<[f64; 2]>) -> Element {
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
pub fn Magnifier(
    url: String,
    size: [f64; 2],
    at: [f64; 2],
    on_tap: EventHandler<[f64; 2]>,
) -> Element {
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
