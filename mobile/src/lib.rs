//! The shell of Rakeline: screens, words, devices. What is decided and
//! measured stands in `rakeline-core`.
//!
//! # Where to start
//! [`app::App`] shows the screen of a [`route::Route`]; a screen reads
//! [`driver::AppState`] and sends [`driver::Intent`]s; [`driver::handle`]
//! turns them into the next state and actions; [`shell`] performs those on a
//! [`platform::Platform`].

#[cfg(feature = "android")]
uniffi::setup_scaffolding!("rakeline_phone");

// The whole face of the core goes into the package, for its host.
#[cfg(feature = "android")]
use rakeline_ffi as _;

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
#[cfg(feature = "worker")]
pub mod worker;

pub use rakeline_words as texts;

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

/// Starts the app in the system's web view.
#[cfg(all(target_os = "android", feature = "android"))]
pub fn start_android() {
    let head = format!(
        "<meta name=\"color-scheme\" content=\"light\"><style>{}</style>",
        include_str!("../../assets/css/app.css")
    );
    let config = dioxus::mobile::Config::new().with_custom_head(head);
    dioxus::LaunchBuilder::mobile()
        .with_cfg(config)
        .launch(AndroidApp);
}

/// The app on the phone's devices.
#[cfg(all(target_os = "android", feature = "android"))]
#[allow(non_snake_case)]
fn AndroidApp() -> dioxus::prelude::Element {
    use dioxus::prelude::*;

    let phone = use_hook(platform::android::platform);
    match phone {
        Some((platform, desk)) => {
            use_context_provider(|| platform);
            use_hook(|| dioxus::core::spawn_forever(desk.serve()));
            rsx! { app::App {} }
        }
        // The host installs the phone before it starts the app.
        None => rsx! {},
    }
}
