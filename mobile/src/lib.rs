//! The shell of Rakeline: screens, words, devices. What is decided and
//! measured stands in `rakeline-core`.
//!
//! # Where to start
//! [`app::App`] shows the screen of a [`route::Route`]; a screen reads
//! [`driver::AppState`] and sends [`driver::Intent`]s; [`driver::handle`]
//! turns them into the next state and actions; [`shell`] performs those on a
//! [`platform::Platform`].

pub mod app;
pub mod backup;
pub mod driver;
#[cfg(feature = "worker")]
pub mod ear;
mod parts;
pub mod platform;
pub mod route;
mod sample_job;
mod screens;
pub mod shell;
pub mod steps;
pub mod texts;
#[cfg(feature = "worker")]
pub mod worker;

/// Starts the app in the browser's window.
#[cfg(target_arch = "wasm32")]
pub fn start_web() {
    let word = |key| -> &'static str { Box::leak(texts::t(key).into_boxed_str()) };
    if platform::web::platform().is_none() {
        return;
    }
    platform::web::show_trouble_on_panic(platform::web::TroubleWords {
        stopped: word("trouble-stopped"),
        reload: word("trouble-reload"),
    });
    dioxus::launch(WebApp);
}

/// The app on the browser's devices.
#[cfg(target_arch = "wasm32")]
#[allow(non_snake_case)]
fn WebApp() -> dioxus::prelude::Element {
    use dioxus::prelude::*;

    let platform = use_hook(platform::web::platform);
    match platform {
        Some(platform) => {
            use_context_provider(|| platform);
            rsx! { app::App {} }
        }
        None => rsx! {},
    }
}
