//! Suite `tilt`: how good the still window, zeroing and the whole chain
//! are, and what a sample costs. The same code as the published tests use,
//! on larger counts and other seeds; noise model, priors and definitions
//! stand in `rakeline_tests::tilt_sim`.

use std::hint::black_box;
use std::process::ExitCode;
use std::time::Instant;

use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::stats::median;
use rakeline_core::estimate::still::{StillSettings, StillState, StillWindow};
use rakeline_core::estimate::zero::SourceKind;
use rakeline_core::estimate::zero::poses::Pose;
use rakeline_core::sample::{Source, TiltSample, UpVector};
use rakeline_core::units::{Degrees, Millis};
use rakeline_tests::tilt_sim::chain::{Case, Outcome, run};
use rakeline_tests::tilt_sim::rng::Rng;
use rakeline_tests::tilt_sim::{Setup, ZeroJob, peer, quantile, rms};

/// Standard deviation of a sample in degrees.
const NOISE: f64 = 0.2;
/// Share of knocked samples.
const KNOCKED: f64 = 0.05;

#[derive(Default)]
struct Bars {
    short: u32,
}

impl Bars {
    fn most(&mut self, figure: &str, value: f64, limit: f64) {
        self.bar(figure, value, "<=", limit, value <= limit);
    }

    fn least(&mut self, figure: &str, value: f64, limit: f64) {
        self.bar(figure, value, ">=", limit, value >= limit);
    }

    fn bar(&mut self, figure: &str, value: f64, sign: &str, limit: f64, holds: bool) {
        let word = if holds { "ok" } else { "short" };
        println!("bar {figure} {value:.4} {sign} {limit} {word}");
        self.short += u32::from(!holds);
    }
}

fn main() -> ExitCode {
    let quick = std::env::args().any(|arg| arg == "--quick");
    let jobs = if quick { 1_500 } else { 5_000 };
    let mut bars = Bars::default();
    still_window(&mut bars, if quick { 3_000 } else { 20_000 });
    let mut failed = false;
    for kind in [SourceKind::Raw, SourceKind::Normalised] {
        if let Err(fault) = zeroing(&mut bars, kind, jobs) {
            println!("{fault}");
            failed = true;
        }
    }
    if let Err(fault) = chain(&mut bars, jobs) {
        println!("{fault}");
        failed = true;
    }
    cost(&mut bars);
    if failed || bars.short > 0 {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    }
}

fn sample(at: f64, off: [f64; 2]) -> TiltSample {
    let [x, z] = off.map(|d| d.to_radians());
    TiltSample {
        at: Millis(at),
        up: UpVector([x, (1.0 - x * x - z * z).sqrt(), z]),
        raw: None,
        azimuth: None,
        source: Source::Acceleration { step: 0.0 },
    }
}

/// A window that never ends by itself.
fn endless() -> StillWindow {
    StillWindow::new(StillSettings {
        asked: Degrees(1e-9),
        least: Millis(1e12),
        most: Millis(1e12),
    })
}

/// Squared errors (both directions) of window, plain mean and median;
/// `None` when the window took it for moving at its end (a burst of knocks
/// in its first samples).
fn one_window(rng: &mut Rng, count: usize, knocked: f64) -> Option<[f64; 3]> {
    let side = rng.uniform(0.0, core::f64::consts::TAU).sin_cos();
    let mut window = endless();
    let mut all = [Vec::with_capacity(count), Vec::with_capacity(count)];
    let mut state = StillState::Waiting;
    for i in 0..count {
        let mut off = [rng.normal(NOISE), rng.normal(NOISE)];
        if rng.share() < knocked {
            let by = rng.uniform(8.0, 16.0) * NOISE;
            off = [off[0] + by * side.0, off[1] + by * side.1];
        }
        all[0].push(off[0]);
        all[1].push(off[1]);
        state = window.push(&sample(i as f64 * 10.0, off));
    }
    let StillState::Settling { up, .. } = state else {
        return None;
    };
    let seen = [up.0[0].asin().to_degrees(), up.0[2].asin().to_degrees()];
    let mean = [0, 1].map(|i: usize| all[i].iter().sum::<f64>() / count as f64);
    let middle = [0, 1].map(|i: usize| median(&mut all[i]));
    Some([seen, mean, middle].map(|[a, b]| a * a + b * b))
}

/// Mean squared error over the Cramer-Rao bound sigma²/n of white noise.
fn over_bound(windows: u64, count: usize, knocked: f64, seed: u64) -> [f64; 3] {
    let mut sums = [0.0; 3];
    let mut rng = Rng::new(seed);
    let mut ended = 0.0;
    for _ in 0..windows {
        let Some(squares) = one_window(&mut rng, count, knocked) else {
            continue;
        };
        ended += 1.0;
        for (sum, square) in sums.iter_mut().zip(squares) {
            *sum += square;
        }
    }
    let bound = 2.0 * NOISE * NOISE / count as f64;
    if ended < 0.999 * windows as f64 {
        return [f64::INFINITY; 3];
    }
    sums.map(|s| s / ended / bound)
}

fn still_window(bars: &mut Bars, windows: u64) {
    println!("still window: mean squared error over the Cramer-Rao bound");
    println!("  samples  knocked   window     mean   median");
    for (count, windows) in [
        (40, windows),
        (100, windows),
        (200, windows),
        (800, windows / 4),
    ] {
        for knocked in [0.0, KNOCKED] {
            let [window, mean, middle] = over_bound(windows, count, knocked, 900 + count as u64);
            println!(
                "  {count:7}  {:6.0} %  {window:7.3}  {mean:7.3}  {middle:7.3}",
                knocked * 100.0
            );
            if count == 200 && knocked == 0.0 {
                bars.most("still_white_mse_over_bound", window, 1.15);
            } else if count == 200 {
                bars.most("still_knocked_mse_over_bound", window, 1.2);
            }
        }
    }
}

fn zeroing(bars: &mut Bars, kind: SourceKind, jobs: u64) -> Result<(), String> {
    let (name, limit) = match kind {
        SourceKind::Raw => ("raw", 0.35),
        SourceKind::Normalised => ("normalised", 0.60),
    };
    println!("zeroing, {name} source, {jobs} phones, face angle -20, degrees");
    let without_fourth: &'static [Pose] = &[
        Pose::BackUpright,
        Pose::BackUpsideDown,
        Pose::ScreenIn,
        Pose::Table,
        Pose::TableTurned,
    ];
    let sets: [(&str, &'static [Pose]); 3] = [
        ("all six", &Pose::ALL),
        ("four wall only", &Pose::ALL[..Pose::WALL]),
        ("without the fourth wall pose", without_fourth),
    ];
    let scales = [0.005, 0.01];
    for ((name_of, poses), scale) in sets.iter().flat_map(|s| scales.map(|scale| (*s, scale))) {
        let setup = Setup {
            poses,
            scale,
            ..Setup::usual(kind)
        };
        let drawn: Vec<_> = (0..jobs)
            .map(|seed| ZeroJob::draw(&mut Rng::new(1_000_000 + seed), &setup))
            .collect();
        let result = peer::zeroings(&setup, &drawn)?;
        let over = rms(&result.app) / rms(&result.bound);
        let p95 = |list: &[f64]| quantile(list, 0.95);
        println!(
            "  {name_of}, scale sd {scale}: p95 {:.3}, numpy {:.3}, uncorrected {:.3}; \
             rms {:.4}, bound {:.4} ({:.4} were lengths exact), over bound {over:.3}",
            p95(&result.app),
            p95(&result.numpy),
            p95(&result.unzeroed),
            rms(&result.app),
            rms(&result.bound),
            rms(&result.exact),
        );
        if poses.len() == 6 && scale == 0.005 {
            bars.most(&format!("zero_{name}_rms_over_bound"), over, 1.15);
            bars.most(&format!("zero_{name}_p95_deg"), p95(&result.app), limit);
            let apart = result.app.iter().zip(&result.numpy);
            let apart = apart.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            bars.most(&format!("zero_{name}_app_to_numpy_deg"), apart, 0.03);
        }
    }
    Ok(())
}

fn chain(bars: &mut Bars, jobs: u64) -> Result<(), String> {
    println!("whole chain, {jobs} vehicles, three readings a spot, R 0.8 m, degrees");
    let usual = Case {
        setup: Setup::usual(SourceKind::Raw),
        feet: Feet::On,
        slope: 2.0,
        turn: 3.0,
    };
    let with = |change: fn(&mut Case)| {
        let mut case = usual;
        change(&mut case);
        case
    };
    let cases = [
        ("raw, repeatability 0.2", usual),
        ("repeatability 0.1", with(|c| c.setup.repeat = 0.1)),
        ("repeatability 0.3", with(|c| c.setup.repeat = 0.3)),
        ("without feet", with(|c| c.feet = Feet::None)),
        (
            "slopes to 6, turn u 10",
            with(|c| (c.slope, c.turn) = (6.0, 10.0)),
        ),
        (
            "normalised",
            with(|c| c.setup.kind = SourceKind::Normalised),
        ),
        (
            "normalised, rounded to 0.1 degree, on change",
            with(|c| (c.setup.kind, c.setup.step) = (SourceKind::Normalised, 0.1)),
        ),
        (
            "raw, rounded to 0.1 m/s², on change",
            with(|c| c.setup.step = 0.1),
        ),
    ];
    for (i, (name, case)) in cases.iter().enumerate() {
        let outcomes: Vec<Outcome> = (0..jobs)
            .filter_map(|seed| run(&mut Rng::new(2_000_000 + seed), case))
            .collect();
        let n = outcomes.len() as f64;
        let covered = outcomes.iter().filter(|o| o.covers()).count() as f64 / n * 100.0;
        let list = |f: fn(&Outcome) -> f64| outcomes.iter().map(f).collect::<Vec<_>>();
        let half = quantile(&list(|o| o.estimate.rake.expanded().0), 0.5);
        let error = rms(&list(|o| o.estimate.rake.value.0 - o.truth));
        let refused = jobs as usize - outcomes.len();
        println!(
            "  {name}: covers {covered:.1} %, median half width {half:.3}, rms error {error:.3}, \
             refused {refused}"
        );
        if i == 0 {
            bars.least("chain_covers_least_percent", covered, 93.0);
            bars.most("chain_covers_most_percent", covered, 97.0);
            bars.most("chain_half_width_median_deg", half, 0.7);
            let numpy = peer::chains(&outcomes)?;
            let apart = outcomes.iter().zip(numpy);
            let apart = apart.map(|(o, numpy)| (o.estimate.rake.value.0 - numpy).abs());
            let most = apart.fold(0.0, f64::max);
            bars.most("chain_app_to_numpy_deg", most, 0.03);
        }
    }
    Ok(())
}

fn resident_kb() -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmRSS"));
    line.and_then(|line| line.split_whitespace().nth(1)?.parse().ok())
        .unwrap_or(f64::NAN)
}

fn cost(bars: &mut Bars) {
    let mut rng = Rng::new(77);
    let samples: Vec<_> = (0..50_000)
        .map(|i| sample(f64::from(i) * 10.0, [rng.normal(NOISE), rng.normal(NOISE)]))
        .collect();
    let each = |window: &mut StillWindow, restart: usize| {
        let start = Instant::now();
        for (i, sample) in samples.iter().enumerate() {
            if i % restart == 0 {
                window.again();
            }
            black_box(window.push(black_box(sample)));
        }
        start.elapsed().as_secs_f64() * 1e6 / samples.len() as f64
    };
    println!("cost of a sample, microseconds, medians of seven runs");
    let mut worst = 0.0f64;
    for restart in [60, 128, 50_000] {
        let mut window = endless();
        let mut runs: Vec<_> = (0..7).map(|_| each(&mut window, restart)).collect();
        let middle = median(&mut runs);
        println!("  windows of {restart} samples: {middle:.3}");
        worst = worst.max(middle);
    }
    bars.most("still_sample_us", worst, 2.0);
    // An hour at 100 samples a second in one window.
    let mut window = endless();
    let mut feed = |hour: std::ops::Range<u32>| {
        for i in hour {
            let off = [rng.normal(NOISE), rng.normal(NOISE)];
            black_box(window.push(&sample(f64::from(i) * 10.0, off)));
        }
    };
    feed(0..10_000);
    let before = resident_kb();
    feed(10_000..360_000);
    bars.most("still_hour_growth_kb", resident_kb() - before, 64.0);
}
