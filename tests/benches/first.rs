//! Bench suite `first`: how soon the first screen of the sample job can be
//! used, and how heavy the app is.
//!
//! Usable means that its main button is on the screen and not disabled,
//! counted from the start of the navigation, on a phone that computes four
//! times slower than this machine. Cold is a fresh profile, warm the same
//! page loaded again.

use std::process::ExitCode;

use rakeline_tests::browser::{Phone, PhoneSetup, Server};

/// How many times slower than this machine the phone computes.
const SLOWER: f64 = 4.0;
/// Most milliseconds to the first screen of a fresh profile.
const MOST_COLD: f64 = 2500.0;
/// Most milliseconds when it was open before.
const MOST_WARM: f64 = 1500.0;
/// Most bytes of module and JavaScript, brotli.
const MOST_BYTES: f64 = 350_000.0;

/// Notes the moment at which the main button can be tapped.
const WATCH: &str = "new MutationObserver(() => {
    if (!window.rakelineUsable && document.querySelector('.foot .do:not([disabled])'))
        window.rakelineUsable = performance.now();
}).observe(document, { childList: true, subtree: true });";

fn bar(figure: &str, value: f64, limit: f64) -> bool {
    let met = value <= limit;
    let verdict = if met { "ok" } else { "short" };
    println!("bar {figure} {value:.0} <= {limit:.0} {verdict}");
    met
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Milliseconds until the first screen of this page could be used.
fn usable(phone: &Phone) -> f64 {
    phone.until("the main button can be tapped", || {
        phone.eval("window.rakelineUsable || 0").as_f64() > Some(0.0)
    });
    phone
        .eval("window.rakelineUsable")
        .as_f64()
        .unwrap_or(f64::NAN)
}

/// One fresh profile: cold, then warm.
fn once(server: &Server) -> (f64, f64) {
    let setup = PhoneSetup {
        slower: SLOWER,
        before_page: Some(WATCH.to_owned()),
        ..PhoneSetup::default()
    };
    let phone = Phone::open(server, setup);
    phone.goto("/?sample");
    let cold = usable(&phone);
    phone.reload();
    (cold, usable(&phone))
}

fn main() -> ExitCode {
    let quick = std::env::args().any(|arg| arg == "--quick");
    let repeats = if quick { 3 } else { 9 };
    let server = Server::start();
    let (cold, warm): (Vec<f64>, Vec<f64>) = (0..repeats).map(|_| once(&server)).unzip();
    println!("cold, ms: {cold:.0?}");
    println!("warm, ms: {warm:.0?}");
    let mut met = bar("first_screen_cold_ms", median(cold), MOST_COLD);
    met &= bar("first_screen_warm_ms", median(warm), MOST_WARM);
    let weight = std::env::var("RAKELINE_DIST_BROTLI_BYTES").ok();
    match weight.and_then(|bytes| bytes.parse().ok()) {
        Some(bytes) => met &= bar("shell_brotli_bytes", bytes, MOST_BYTES),
        None => {
            println!("not weighed: RAKELINE_DIST_BROTLI_BYTES is not set");
            met = false;
        }
    }
    // The server ends with its owner, which `exit` would not drop.
    if met {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}
