//! The web app.

#[cfg(target_arch = "wasm32")]
fn main() {
    rakeline::start_web();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This binary is the web app: build and serve it with `cargo xtask run`.");
}
