//! The app: a page in the browser, or the Android package.

#[cfg(target_arch = "wasm32")]
fn main() {
    rakeline::start_web();
}

#[cfg(all(target_os = "android", feature = "android"))]
fn main() {
    rakeline::start_android();
}

#[cfg(not(any(
    target_arch = "wasm32",
    all(target_os = "android", feature = "android")
)))]
fn main() {
    eprintln!("This binary is the app for browsers and Android: `cargo xtask run` serves it.");
}
