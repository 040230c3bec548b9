//! Where a page is read from.

use dioxus::html::{ScrollLogicalPosition, ScrollToOptions};
use dioxus::prelude::*;

/// Into view by the shortest way: upward where it was scrolled past, not at
/// all where it shows.
const IN_VIEW: ScrollToOptions = ScrollToOptions {
    behavior: ScrollBehavior::Instant,
    vertical: ScrollLogicalPosition::Nearest,
    horizontal: ScrollLogicalPosition::Nearest,
};

/// Stands where something new is read from: comes into view whenever `of`
/// changes, wherever the page was left.
#[component]
pub fn ToTop(of: String) -> Element {
    rsx! {
        for of in [of] {
            i {
                key: "{of}",
                class: "top",
                "aria-hidden": "true",
                onmounted: move |event| async move {
                    // One that cannot scroll shows the page where it stood.
                    let _ = event.scroll_to_with_options(IN_VIEW).await;
                },
            }
        }
    }
}
