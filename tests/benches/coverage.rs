//! Bench suite `coverage`: the picture of what the heads see against numpy,
//! its cost, the browser's main thread while the aim slider moves, and the
//! test records of the diagnosis, as the suite `diagnose` has them.

use std::env;
use std::fs;
use std::hint::black_box;
use std::path::Path;
use std::process::ExitCode;
use std::time::Instant;

use rakeline_core::decide::coverage::{Target, View, map};
use rakeline_core::text::Message;
use rakeline_tests::browser::{Phone, PhoneSetup, Server, frames_ms};
use rakeline_tests::coverage_plans::{Plan, agreement, numpy_seconds, plans};
use rakeline_tests::fault_cases::bars;

/// Most milliseconds for 4 heads on 5 m x 4 m in squares of 20 mm.
const MOST_MS: f64 = 12.0;
/// Most of numpy's time on the same picture.
const MOST_OF_NUMPY: f64 = 0.9;
/// Greatest difference to numpy, dB.
const MOST_OFF: f64 = 0.01;
/// Pictures that have to come in a slide, so that the map follows.
const LEAST_PICTURES: f64 = 5.0;
/// The trace of the last slide, beside the app's files.
const TRACE: &str = "../trace-aim-slider.json";
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

/// Milliseconds of main-thread work of each frame while the slider moves, by
/// the browser's trace, which is kept as [`TRACE`].
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
    // The slider moves in every frame.
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
    for _ in 0..5 {
        let (told, events) = phone.traced(|| phone.eval(&run));
        let pictures = told[1].as_f64().unwrap_or_default();
        let worked = frames_ms(&events);
        println!(
            "slider: {} frames, {pictures} pictures, {:.0} ms of main thread",
            worked.len(),
            worked.iter().sum::<f64>()
        );
        if pictures < LEAST_PICTURES {
            println!("the map does not follow");
            return vec![f64::INFINITY];
        }
        found.extend(worked);
        let kept = env::var_os("RAKELINE_DIST").map(|dist| Path::new(&dist).join(TRACE));
        if let Some(path) = kept {
            let text = serde_json::json!({ "traceEvents": events }).to_string();
            println!("trace: {:?}", fs::write(&path, text).map(|()| path));
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
    let at = |share| at_share(frames.clone(), share);
    println!(
        "main thread, ms a frame: median {:.1}, 95 % {:.1}, most {:.1}",
        at(0.5),
        at(0.95),
        at(1.0)
    );
    met &= bar("slider_main_thread_ms_a_frame", at(0.95), MOST_A_FRAME);
    // What the record and the prediction tell of a fault.
    met &= bars(if quick { 300 } else { 3000 });
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
