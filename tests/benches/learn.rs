//! Suite `learn`: how well beeps are heard, what is taken for one, when they
//! begin and end, and what listening costs. Sound is made by
//! `rakeline_tests::cabin`, the same code as the tests use.

use std::process::ExitCode;
use std::thread;
use std::time::Duration;

use rakeline_core::estimate::beep::LEAST_MARGIN_DB;
use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use rakeline_tests::cabin::score::{CYCLES, False, Hits, edges, false_events, hits, run};
use rakeline_tests::cabin::tones::add_chime;
use rakeline_tests::cabin::voice::voice;
use rakeline_tests::cabin::{Kind, Noise, RATE, espeak};
use rakeline_tests::tilt_sim::quantile;
use rakeline_tests::tilt_sim::rng::Rng;

/// Lengths of tones, milliseconds.
const LENGTHS: [f64; 5] = [60.0, 100.0, 200.0, 400.0, 1000.0];
/// Noises whose density is the same at every moment: there an E/N0 is one.
const EVEN: [Kind; 3] = [Kind::White, Kind::Brown, Kind::Fan];
/// The kit's tone where one is needed, hertz.
const KIT: f64 = 2_750.0;

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
        println!("bar {figure} {value:.3} {sign} {limit} {word}");
        self.short += u32::from(!holds);
    }
}

/// Counts for one effort.
struct Effort {
    tones: usize,
    runs: usize,
    minutes: f64,
    timed: usize,
    wasm_minutes: f64,
}

fn main() -> ExitCode {
    let effort = if std::env::args().any(|arg| arg == "--quick") {
        Effort {
            tones: 200,
            runs: 60,
            minutes: 6.0,
            timed: 200,
            wasm_minutes: 6.0,
        }
    } else {
        Effort {
            tones: 1_000,
            runs: 600,
            minutes: 30.0,
            timed: 1_000,
            wasm_minutes: 60.0,
        }
    };
    let mut bars = Bars::default();
    tell_hits(&mut bars, effort.tones);
    tell_runs(&mut bars, effort.runs);
    tell_edges(&mut bars, effort.timed);
    let spoken = tell_false(&mut bars, effort.minutes);
    let cost = tell_cost(&mut bars, effort.wasm_minutes);
    for fault in [spoken, cost].into_iter().filter_map(Result::err) {
        println!("not run: {fault}");
        bars.short += 1;
    }
    if bars.short > 0 {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    }
}

/// Does some work on two threads; results come in the order of the inputs.
fn in_pairs<T: Send + Sync + Copy, R: Send>(inputs: &[T], work: impl Fn(T) -> R + Sync) -> Vec<R> {
    let work = &work;
    let half = inputs.len().div_ceil(2);
    thread::scope(|scope| {
        let parts: Vec<_> = inputs
            .chunks(half.max(1))
            .map(|part| scope.spawn(move || part.iter().map(|one| work(*one)).collect::<Vec<R>>()))
            .collect();
        parts
            .into_iter()
            .flat_map(|part| {
                part.join()
                    .unwrap_or_else(|fault| std::panic::resume_unwind(fault))
            })
            .collect()
    })
}

fn tell_hits(bars: &mut Bars, tones: usize) {
    println!("tones of 2 to 4 kHz heard at E/N0 = 18 dB, any tone");
    println!(
        "  beside: Albersheim's equation asks 14 dB; unknown phase 14.8 dB for one frame to 17.1 dB for sixteen added up"
    );
    let cases: Vec<(f64, Kind)> = LENGTHS
        .into_iter()
        .flat_map(|length| Kind::STILL.map(|kind| (length, kind)))
        .collect();
    let heard = in_pairs(&cases, |(length, kind)| {
        let least = if kind == Kind::Rain {
            tones / 4
        } else {
            tones.div_ceil(EVEN.len())
        };
        hits(kind, length, 18.0, least, 500 + length as u64)
    });
    for length in LENGTHS {
        let mut all = Hits::default();
        for ((_, kind), hits) in cases.iter().zip(&heard).filter(|((l, _), _)| *l == length) {
            println!(
                "  {length:4} ms in {:6} {:6.2} % of {}",
                kind.name(),
                hits.percent(),
                hits.sounded
            );
            if EVEN.contains(kind) {
                all.sounded += hits.sounded;
                all.heard += hits.heard;
            }
        }
        bars.least(
            &format!("beep_{length}ms_18db_heard_percent"),
            all.percent(),
            99.0,
        );
    }
    println!(
        "  (rain has drops: what is stated is its mean density, not that at a beep; it makes no bar)"
    );
}

fn tell_runs(bars: &mut Bars, runs: usize) {
    println!(
        "runs of {CYCLES} beeps and silence at {LEAST_MARGIN_DB} dB, tone learnt from the first"
    );
    let seeds: Vec<usize> = (0..runs).collect();
    let counted = in_pairs(&seeds, |at| {
        let length = LENGTHS[(at / EVEN.len()) % LENGTHS.len()];
        run(
            EVEN[at % EVEN.len()],
            length,
            LEAST_MARGIN_DB,
            9_000 + at as u64,
        )
    });
    let right = counted.iter().filter(|counted| **counted == CYCLES).count();
    let share = 100.0 * right as f64 / runs as f64;
    bars.least("beep_runs_right_percent", share, 97.0);
}

fn tell_edges(bars: &mut Bars, tones: usize) {
    println!("begin and end at 25 dB, beeps up to 200 ms, 95th percentile");
    let found = in_pairs(&[60.0, 100.0, 200.0], |length| {
        edges(length, 25.0, tones / 3, 70)
    });
    let all = |pick: fn(&(Vec<f64>, Vec<f64>)) -> &Vec<f64>| -> Vec<f64> {
        found
            .iter()
            .flat_map(|both| pick(both).iter().copied())
            .collect()
    };
    let (begins, ends) = (all(|both| &both.0), all(|both| &both.1));
    println!("  (a silence begins where a beep ends, and ends where the next begins)");
    bars.most("beep_begin_p95_ms", quantile(&begins, 0.95), 20.0);
    bars.most("beep_end_p95_ms", quantile(&ends, 0.95), 50.0);
}

/// Sounds without a beep.
#[derive(Clone, Copy)]
enum Without {
    Noise(Kind),
    Chimes,
    Voice,
    Speech,
}

fn listen(to: Without, minutes: f64, speech: &[f32]) -> False {
    match to {
        Without::Noise(kind) => {
            let mut noise = Noise::new(kind, 77);
            false_events(minutes, |count| noise.take(count))
        }
        Without::Chimes => {
            let (mut noise, mut rng) = (Noise::new(Kind::Brown, 5), Rng::new(4));
            let mut made: Vec<f32> = Vec::new();
            false_events(minutes, |count| {
                if made.len() < count {
                    let mut part = noise.take(120 * RATE as usize);
                    let mut at = 500.0;
                    while at < 116_000.0 {
                        add_chime(&mut part, at, KIT, &mut rng);
                        at += rng.uniform(800.0, 3_000.0);
                    }
                    made.extend(part);
                }
                made.drain(..count).collect()
            })
        }
        Without::Voice => {
            let (mut seed, mut made) = (0, Vec::new());
            false_events(minutes, |count| {
                if made.len() < count {
                    seed += 1;
                    made.extend(voice(60 * RATE as usize, seed));
                }
                made.drain(..count).collect()
            })
        }
        Without::Speech => {
            let (mut at, mut rng) = (0, Rng::new(9));
            false_events(minutes, |count| {
                let next = (0..count).map(|_| {
                    at += 1;
                    0.5 * speech[at % speech.len()] + rng.normal(0.0005) as f32
                });
                next.collect()
            })
        }
    }
}

fn tell_false(bars: &mut Bars, minutes: f64) -> Result<(), String> {
    println!("taken for a beep, events a minute over {minutes} minutes each");
    let speech = espeak::speech();
    let mut cases = vec![
        ("white", Without::Noise(Kind::White)),
        ("brown", Without::Noise(Kind::Brown)),
        ("fan", Without::Noise(Kind::Fan)),
        ("rain", Without::Noise(Kind::Rain)),
        ("clicks", Without::Noise(Kind::Clicks)),
        ("chimes", Without::Chimes),
        ("voice", Without::Voice),
    ];
    if speech.is_ok() {
        cases.push(("speech", Without::Speech));
    }
    let spoken = speech.as_deref().unwrap_or_default();
    let found = in_pairs(&cases, |(_, to)| listen(to, minutes, spoken));
    for ((name, to), found) in cases.iter().zip(&found) {
        let (mean, most) = found.over_kits();
        println!(
            "  {name:7} any tone {:.3}; through a kit's gate {:.4} on average, {most:.3} at the worst of 50 tones",
            found.any(),
            mean
        );
        match to {
            Without::Noise(_) => {
                bars.most(&format!("beep_false_in_{name}_per_min"), found.any(), 0.2)
            }
            Without::Chimes => bars.most("beep_false_in_chimes_per_min", found.at(KIT), 1.0),
            Without::Voice | Without::Speech => {
                bars.most(&format!("beep_false_in_{name}_per_min"), most, 1.0);
            }
        }
    }
    speech.map(|_| ())
}

/// Feeds the worker's module in a browser with noise, a voice's comb and beeps.
const COST: &str = r"(async (minutes) => {
    const module = await import('/worker.js');
    const memory = (await module.default()).memory;
    const rate = 48000, batch = 3840;
    const sound = new Float32Array(rate * 10);
    let seed = 1;
    const share = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (let n = 0; n < sound.length; n += 1) {
        const beep = n % rate < 0.1 * rate ? 0.05 * Math.sin(2 * Math.PI * 2750 * n / rate) : 0;
        sound[n] = beep + 0.01 * (share() + share() + share() - 1.5);
    }
    const ear = new module.Ear(rate);
    let at = 0;
    const feed = (seconds) => {
        for (const end = at + seconds * rate; at < end; at += batch) {
            const from = at % (sound.length - batch);
            ear.hear(sound.subarray(from, from + batch), 1, at, at * 1000 / rate);
        }
    };
    feed(60);
    const before = memory.buffer.byteLength;
    const started = performance.now();
    feed(60 * minutes);
    const spent = performance.now() - started;
    return [spent / (600 * minutes), memory.buffer.byteLength - before];
})";

fn tell_cost(bars: &mut Bars, minutes: f64) -> Result<(), String> {
    println!("cost in the worker's module, real Chromium, {minutes} minutes of sound at 48 kHz");
    let server = Server::start();
    let phone = Phone::open(
        &server,
        PhoneSetup {
            patience: Duration::from_secs(10),
            ..PhoneSetup::default()
        },
    );
    phone.goto("/");
    let mut each = Vec::new();
    let mut growth: f64 = 0.0;
    // Parts, so that one that had to wait for the machine can be told.
    let parts = 5;
    for _ in 0..parts {
        let told = phone.try_eval(&format!("{COST}({})", minutes / f64::from(parts)))?;
        let number = |at: usize| told[at].as_f64().ok_or("the module told nothing");
        each.push(number(0)?);
        growth = growth.max(number(1)?);
    }
    println!("  per cent of one core in each part: {each:.2?}");
    bars.most("beep_cost_wasm_percent", quantile(&each, 0.5), 2.0);
    bars.most("beep_hour_growth_bytes", growth, 0.0);
    Ok(())
}
