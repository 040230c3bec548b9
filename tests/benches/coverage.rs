//! Bench suite `coverage`: the picture of what the heads see against numpy,
//! its cost, and the browser's main thread while the aim slider moves.

use std::hint::black_box;
use std::process::ExitCode;
use std::time::Instant;

use rakeline_core::decide::coverage::{Target, View, map};
use rakeline_core::text::Message;
use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use rakeline_tests::coverage_plans::{Plan, agreement, numpy_seconds, plans};
use serde_json::json;

/// Most milliseconds for 4 heads on 5 m x 4 m in squares of 20 mm.
const MOST_MS: f64 = 12.0;
/// Most of numpy's time on the same picture.
const MOST_OF_NUMPY: f64 = 0.9;
/// Greatest difference to numpy, dB.
const MOST_OFF: f64 = 0.01;
/// Most main-thread work a frame while the slider moves, ms.
const MOST_A_FRAME: f64 = 16.0;

fn bar(figure: &str, value: f64, limit: f64) -> bool {
    let met = value <= limit;
    let verdict = if met { "ok" } else { "short" };
    println!("bar {figure} {value:.4} <= {limit} {verdict}");
    met
}

fn at_share(mut values: Vec<f64>, share: f64) -> f64 {
    values.sort_by(f64::total_cmp);
    let last = values.len().saturating_sub(1);
    let place = (last as f64 * share).round() as usize;
    values.get(place).copied().unwrap_or(f64::NAN)
}

/// Four heads before 50,000 squares, looking for a pole.
fn picture() -> Result<Option<Plan>, Message> {
    let found = plans(40, 977, 20.0)?;
    let fits = |plan: &Plan| plan.heads.len() == 4 && plan.view == View::Above(Target::Pole);
    Ok(found.into_iter().find(fits))
}

fn native_ms(plan: &Plan, repeats: usize) -> f64 {
    let times = (0..repeats).map(|_| {
        let start = Instant::now();
        black_box(map(black_box(&plan.heads), plan.view, plan.area, &plan.air));
        start.elapsed().as_secs_f64() * 1e3
    });
    at_share(times.collect(), 0.5)
}

/// Milliseconds of main-thread work of each frame in which the slider moved
/// or a picture came, by the browser's own account.
fn frames(steps: u32) -> Vec<f64> {
    let server = Server::start();
    let phone = Phone::open(&server, PhoneSetup::default());
    phone.goto("/?sample");
    phone.wait_for("Tape is on", 60);
    let here = phone.eval("location.pathname");
    let here = here
        .as_str()
        .unwrap_or_default()
        .replace("/marks", "/sight");
    phone.goto(&here);
    phone.wait_for("of the squares", 60);
    phone.cdp("Performance.enable", json!({}));
    let worked = || {
        let told = phone.cdp("Performance.getMetrics", json!({}));
        let metrics = told["metrics"].as_array().cloned().unwrap_or_default();
        let task = metrics
            .iter()
            .find(|metric| metric["name"] == "TaskDuration");
        task.and_then(|metric| metric["value"].as_f64())
            .unwrap_or(f64::NAN)
    };
    // The slider moves in every frame; counted are frames and work together.
    let run = format!(
        "(async () => {{
            const slider = document.querySelector('#tilt');
            const squares = () => [...document.querySelectorAll('.asking path.squares')]
                .map((path) => path.getAttribute('d').length).join();
            const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set;
            let frames = 0, pictures = 0, shown = squares();
            for (let step = 0; step < {steps}; step++) {{
                await new Promise(requestAnimationFrame);
                frames++;
                set.call(slider, String(step % 21 - 10));
                slider.dispatchEvent(new Event('input', {{ bubbles: true }}));
                const now = squares();
                if (now !== shown) {{ pictures++; shown = now; }}
            }}
            return [frames, pictures];
        }})()"
    );
    let mut found = Vec::new();
    for _ in 0..10 {
        let before = worked();
        let told = phone.eval(&run);
        let spent = (worked() - before) * 1e3;
        let count = |at: usize| told[at].as_f64().unwrap_or(f64::NAN);
        println!(
            "slider: {} frames, {} pictures, {spent:.0} ms of main thread",
            count(0),
            count(1)
        );
        if count(1) > 0.0 {
            found.push(spent / count(0));
        }
    }
    found
}

fn run(quick: bool) -> Result<bool, Message> {
    let repeats = if quick { 21 } else { 101 };
    let Some(plan) = picture()? else {
        println!("no plan of four heads and a pole");
        return Ok(false);
    };
    let (columns, rows) = plan.area.size();
    let ours = native_ms(&plan, repeats);
    println!(
        "{} heads, {} squares: {ours:.2} ms",
        plan.heads.len(),
        columns * rows
    );
    let mut met = bar("map_50000_squares_4_heads_ms", ours, MOST_MS);
    let theirs = numpy_seconds(&plan, repeats.min(31));
    let theirs = at_share(theirs.into_iter().map(|s| s * 1e3).collect(), 0.5);
    println!("numpy: {theirs:.2} ms");
    met &= bar("map_time_over_numpy", ours / theirs, MOST_OF_NUMPY);
    let plans = plans(50, 1204, if quick { 100.0 } else { 50.0 })?;
    let agreed = agreement(&plans);
    println!("{agreed:?}");
    met &= bar("map_against_numpy_db", agreed.greatest, MOST_OFF);
    met &= bar("map_squares_unlike_numpy", agreed.unlike as f64, 0.0);
    let frames = frames(if quick { 42 } else { 126 });
    println!("main thread, ms a frame: {frames:.1?}");
    met &= bar(
        "slider_main_thread_ms_a_frame",
        at_share(frames, 0.9),
        MOST_A_FRAME,
    );
    Ok(met)
}

fn main() -> ExitCode {
    match run(std::env::args().any(|arg| arg == "--quick")) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(fault) => {
            println!("{fault:?}");
            ExitCode::FAILURE
        }
    }
}
