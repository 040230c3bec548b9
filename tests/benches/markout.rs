//! Mark-out: time of the three plans, native and in a browser, and agreement with a brute force and
//! with scipy's `milp` on more cases than the tests take.
//!
//! `--quick` takes the same figures on fewer cases.

use std::process::ExitCode;
use std::time::Instant;

use rakeline_core::decide::mark_out::{MarkOutTask, NoPlan, PlanKind, solve};
use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use rakeline_tests::markout::{Dice, bench_task, brute_force, large_task, small_task, values};
use rakeline_tests::oracle;

/// How much is run.
struct Size {
    brute_force: usize,
    milp: usize,
    /// Timed tasks at each half width.
    timed: usize,
    /// Of those, so many are also timed with `milp`.
    ratio: usize,
}

const FULL: Size = Size {
    brute_force: 2000,
    milp: 300,
    timed: 100,
    ratio: 5,
};

const QUICK: Size = Size {
    brute_force: 500,
    milp: 40,
    timed: 20,
    ratio: 1,
};

/// Repeats of one timed solve, of which the median counts.
const REPEATS: usize = 5;

fn main() -> ExitCode {
    let quick = std::env::args().any(|a| a == "--quick");
    let size = if quick { QUICK } else { FULL };
    let all = [
        brute_force_cases(size.brute_force),
        milp_cases(size.milp),
        timed_cases(&size),
        in_browser(&size),
    ];
    if all.iter().all(|ok| *ok) {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

/// Prints one figure; true when it is within its limit.
fn bar(figure: &str, value: f64, limit: f64) -> bool {
    let ok = value <= limit;
    let verdict = if ok { "ok" } else { "short" };
    println!("bar {figure} {value:.4} <= {limit} {verdict}");
    ok
}

type Best = Option<[[f64; 3]; 3]>;

/// The ranked values of the three plans; `None` when there is no plan.
fn ours(task: &MarkOutTask) -> Best {
    match solve(task) {
        Ok(plans) => Some(PlanKind::ALL.map(|kind| values(plans.get(kind)))),
        Err(NoPlan::Impossible { .. }) => None,
        Err(NoPlan::Invalid(faults)) => {
            println!("invalid: {faults:?}");
            None
        }
    }
}

/// Checked tasks of a generator.
fn tasks(seed: u64, count: usize, make: impl Fn(&mut Dice) -> MarkOutTask) -> Vec<MarkOutTask> {
    let mut dice = Dice(seed);
    let endless = std::iter::repeat_with(|| make(&mut dice));
    endless.filter(|t| t.check().is_ok()).take(count).collect()
}

fn disagreements(tasks: &[MarkOutTask], want: &[Best]) -> f64 {
    let mut wrong = 0;
    for (task, want) in tasks.iter().zip(want) {
        let got = ours(task);
        if got != *want {
            println!("differs: {task:?}\n  ours {got:?}\n  want {want:?}");
            wrong += 1;
        }
    }
    f64::from(wrong) + (tasks.len() - want.len()) as f64
}

fn brute_force_cases(count: usize) -> bool {
    let tasks = tasks(601, count, small_task);
    let want: Vec<Best> = tasks.iter().map(brute_force).collect();
    let solved = want.iter().flatten().count();
    println!("brute force: {count} small bumpers, {solved} with a plan");
    bar(
        "markout_brute_force_disagreements",
        disagreements(&tasks, &want),
        0.0,
    )
}

/// `milp`'s answers and seconds.
fn milp(tasks: &[MarkOutTask]) -> Vec<(Best, f64)> {
    let answers = oracle::run("markout_milp.py", &serde_json::json!(tasks));
    let answer = |a: &serde_json::Value| {
        let best: Best = serde_json::from_value(a["values"].clone()).ok()?;
        Some((best, a["seconds"].as_f64()?))
    };
    answers
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(answer)
        .collect()
}

fn milp_cases(count: usize) -> bool {
    let tasks = tasks(602, count, |dice| large_task(dice, (4, 8), 12));
    let want: Vec<Best> = milp(&tasks).into_iter().map(|a| a.0).collect();
    let solved = want.iter().flatten().count();
    println!("scipy milp: {count} bumpers of full size, {solved} with a plan");
    bar(
        "markout_milp_disagreements",
        disagreements(&tasks, &want),
        0.0,
    )
}

/// Median milliseconds of the three plans.
fn time(task: &MarkOutTask) -> f64 {
    let once = |_| {
        let start = Instant::now();
        let plans = std::hint::black_box(solve(std::hint::black_box(task)));
        let ms = start.elapsed().as_secs_f64() * 1e3;
        drop(plans);
        ms
    };
    median((0..REPEATS).map(once).collect())
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Solves tasks in the module that the bench added to the app's files: for
/// each, whether there was a plan and the milliseconds of each repeat.
const IN_WASM: &str = "(async (tasks, repeats) => {
    const module = await import('/solver.js');
    await module.default();
    return tasks.map((text) => {
        const solver = new module.Solver(text);
        const found = solver.solve();
        const times = Array.from({ length: repeats }, () => {
            const began = performance.now();
            solver.solve();
            return performance.now() - began;
        });
        return [found, times];
    });
})";

/// The tasks of [`timed_cases`] in real Chromium, compiled as the app is.
fn in_browser(size: &Size) -> bool {
    let server = Server::start();
    let phone = Phone::open(&server, PhoneSetup::default());
    phone.goto("/");
    let mut ok = true;
    for half in [880, 1150] {
        let tasks = tasks(603, size.timed, |dice| bench_task(dice, half, 20));
        let texts: Vec<String> = tasks
            .iter()
            .map(|task| serde_json::json!(task).to_string())
            .collect();
        let told = phone.eval(&format!(
            "{IN_WASM}({}, {REPEATS})",
            serde_json::json!(texts)
        ));
        let told: Vec<(bool, Vec<f64>)> = serde_json::from_value(told).unwrap_or_default();
        let like = |(task, told): (&MarkOutTask, &(bool, Vec<f64>))| solve(task).is_ok() == told.0;
        let unlike = tasks.len() - tasks.iter().zip(&told).filter(|pair| like(*pair)).count();
        let with_plans = told.into_iter().filter(|(found, _)| *found);
        let times: Vec<f64> = with_plans.map(|(_, times)| median(times)).collect();
        println!(
            "in Chromium, half width {half}: {} with plans, median {:.2} ms",
            times.len(),
            median(times.clone())
        );
        ok &= !times.is_empty();
        ok &= bar(
            &format!("markout_three_plans_{half}_wasm_ms"),
            times.into_iter().fold(0.0, f64::max),
            60.0,
        );
        ok &= bar(
            &format!("markout_wasm_unlike_native_{half}"),
            unlike as f64,
            0.0,
        );
    }
    ok
}

fn timed_cases(size: &Size) -> bool {
    let mut ok = true;
    let mut ratios = Vec::new();
    for half in [880, 1150] {
        let tasks = tasks(603, size.timed, |dice| bench_task(dice, half, 20));
        let (mut plans, mut none) = (Vec::new(), Vec::new());
        let mut peer = Vec::new();
        for task in &tasks {
            let ms = time(task);
            if solve(task).is_ok() {
                plans.push(ms);
                if peer.len() < size.ratio {
                    peer.push((task.clone(), ms));
                }
            } else {
                none.push(ms);
            }
        }
        let most = |v: &[f64]| v.iter().copied().fold(0.0, f64::max);
        println!(
            "half width {half}: {} with plans, median {:.2} ms, {} impossible, explained in at most {:.2} ms",
            plans.len(),
            median(plans.clone()),
            none.len(),
            most(&none),
        );
        ok &= !plans.is_empty();
        ok &= bar(
            &format!("markout_three_plans_{half}_ms"),
            most(&plans),
            20.0,
        );
        let (peer, ours): (Vec<MarkOutTask>, Vec<f64>) = peer.into_iter().unzip();
        let answers = milp(&peer);
        ok &= answers.len() == peer.len();
        ratios.extend(ours.iter().zip(&answers).map(|(ms, a)| ms / 1e3 / a.1));
        let want: Vec<Best> = answers.into_iter().map(|a| a.0).collect();
        ok &= bar(
            &format!("markout_timed_disagreements_{half}"),
            disagreements(&peer, &want),
            0.0,
        );
    }
    bar("markout_ratio_to_milp", median(ratios), 0.1) && ok
}
