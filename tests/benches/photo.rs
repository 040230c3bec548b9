//! Suite `photo`: how well and how fast mark cards are seen in photos,
//! against the truth and against OpenCV on the same files in the same run,
//! one thread each. The same code as the published tests use, on more
//! scenes and other seeds; scenes stand in `rakeline_tests::scene::cases`.

use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::time::Instant;

use base64::Engine;
use base64::engine::general_purpose::STANDARD as BASE64;
use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::detect::{Flow, look};
use rakeline_core::estimate::photo::luma::Luma;
use rakeline_core::estimate::photo::seen::PhotoSeen;
use rakeline_core::estimate::stats::median;
use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use rakeline_tests::peer;
use rakeline_tests::photo_solve::bars::{accuracy, speed};
use rakeline_tests::scene::cases::{Case, LARGE, Light, PHONE, many};
use rakeline_tests::scene::judge::{Verdict, judge, rms};
use rakeline_tests::scene::{Truth, file, render, texture};

/// The argument by which this program looks at one file and says what
/// memory that took.
const ALONE: &str = "--alone";

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

/// A photo that was looked at.
struct Photo {
    case: Case,
    path: PathBuf,
    truth: Truth,
    verdict: Verdict,
    ms: f64,
}

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().collect();
    if let Some(at) = args.iter().position(|arg| arg == ALONE) {
        return alone(args.get(at + 1));
    }
    let quick = args.iter().any(|arg| arg == "--quick");
    let mut bars = Bars::default();
    match cards(&mut bars, quick) {
        Ok(()) => {}
        Err(fault) => {
            println!("{fault}");
            return ExitCode::FAILURE;
        }
    }
    if let Err(fault) = in_browser(&mut bars, if quick { 3 } else { 7 }) {
        println!("{fault}");
        return ExitCode::FAILURE;
    }
    solving(&mut bars, if quick { 900..930 } else { 900..1_100 });
    free(&mut bars, if quick { 60 } else { 500 });
    if bars.short == 0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

fn seen(bytes: &[u8]) -> Result<PhotoSeen, String> {
    let luma = decode(bytes).map_err(|fault| format!("{fault:?}"))?;
    look(&luma, &mut |_| Flow::Go).map_err(|fault| format!("{fault:?}"))
}

fn photo(case: Case, repeats: usize) -> Result<Photo, String> {
    let shot = render(&case.scene);
    let bytes = file::jpeg(&case.scene, &shot, case.wrapping).ok_or("no JPEG")?;
    let name = case.name.replace([' ', ','], "-");
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("photo-bench");
    let path = folder.join(format!("{name}.jpg"));
    let write = || {
        std::fs::create_dir_all(&folder)?;
        std::fs::write(&path, &bytes)
    };
    write().map_err(|fault: std::io::Error| fault.to_string())?;
    let mut times = Vec::new();
    let mut last = PhotoSeen::default();
    for _ in 0..repeats {
        let started = Instant::now();
        last = seen(&bytes)?;
        times.push(started.elapsed().as_secs_f64() * 1e3);
    }
    Ok(Photo {
        verdict: judge(&last, &shot.truth),
        case,
        path,
        truth: shot.truth,
        ms: median(&mut times),
    })
}

fn cards(bars: &mut Bars, quick: bool) -> Result<(), String> {
    let repeats = if quick { 3 } else { 5 };
    let every = if quick { 4 } else { 1 };
    let mut photos = Vec::new();
    for (n, case) in many().into_iter().enumerate() {
        if n % every == 0 || case.scene.size == LARGE {
            photos.push(photo(case, repeats)?);
        }
    }
    let asked: Vec<_> = photos
        .iter()
        .map(|photo| (photo.path.as_path(), &photo.truth))
        .collect();
    let (version, peers) = peer::opencv(&asked, repeats).map_err(|fault| fault.to_string())?;
    println!(
        "{} photos; OpenCV {version}; crosses' rms on an axis, px",
        photos.len()
    );
    println!("  photo                    there found opencv     rms  opencv      ms  opencv");
    let mut worst_over = 0.0f64;
    let mut worst = [0.0f64; 2];
    let mut fewer = f64::INFINITY;
    let mut false_codes = 0;
    let (mut there, mut found) = (0, 0);
    let mut ratios = Vec::new();
    let mut times = Vec::new();
    let mut normal = Vec::new();
    for (photo, peer) in photos.iter().zip(&peers) {
        let Photo { case, verdict, .. } = photo;
        let known = |code: &u16| photo.truth.cards.iter().any(|card| card.code == *code);
        let theirs = peer.codes.iter().filter(|code| known(code)).count();
        let (own_rms, their_rms) = (verdict.rms(), rms(&peer.off));
        println!(
            "  {:24} {:5} {:5} {theirs:6} {own_rms:7.4} {their_rms:7.4} {:7.1} {:7.1}",
            case.name, verdict.there, verdict.found, photo.ms, peer.detect_ms
        );
        worst_over = worst_over.max(own_rms / their_rms);
        let light = usize::from(case.light == Light::Low);
        worst[light] = worst[light].max(own_rms);
        fewer = fewer.min(verdict.found as f64 - theirs as f64);
        false_codes += verdict.false_codes;
        there += verdict.there;
        found += verdict.found;
        normal.extend(verdict.normal.iter().copied());
        if case.scene.size == PHONE {
            ratios.push(photo.ms / peer.detect_ms);
            times.push(photo.ms);
        }
    }
    println!("  {found} of {there} cards found");
    bars.most("photo_12mp_native_ms", median(&mut times), 500.0);
    bars.most("photo_12mp_over_opencv_detect", median(&mut ratios), 2.5);
    bars.least("photo_cards_found_less_opencv", fewer, 0.0);
    bars.most(
        "photo_cards_false_codes",
        f64::from(false_codes as u32),
        0.0,
    );
    bars.most("photo_cross_worst_rms_px", worst[0], 0.06);
    bars.most("photo_cross_low_light_worst_rms_px", worst[1], 0.15);
    bars.most("photo_cross_worst_over_cornersubpix", worst_over, 1.0);
    let square = normal.iter().map(|x| x * x).sum::<f64>() / normal.len().max(1) as f64;
    bars.least("photo_cross_error_over_u_least", square.sqrt(), 0.6);
    bars.most("photo_cross_error_over_u_most", square.sqrt(), 1.3);
    for (figure, size, limit) in [
        ("photo_12mp_peak_mib", PHONE, 300.0),
        ("photo_50mp_peak_mib", LARGE, 700.0),
    ] {
        let of_size = photos.iter().filter(|photo| photo.case.scene.size == size);
        let mut peaks = Vec::new();
        for photo in of_size {
            peaks.push(peak(&photo.path)?);
        }
        bars.most(figure, peaks.into_iter().fold(0.0, f64::max), limit);
    }
    Ok(())
}

/// Peak memory of a process that looks at a file and does nothing else, MiB.
fn peak(path: &Path) -> Result<f64, String> {
    let own = std::env::current_exe().map_err(|fault| fault.to_string())?;
    let output = Command::new(own)
        .arg(ALONE)
        .arg(path)
        .output()
        .map_err(|fault| fault.to_string())?;
    let said = String::from_utf8_lossy(&output.stdout);
    said.trim()
        .parse()
        .map_err(|_| format!("{}: no memory figure: {said}", path.display()))
}

fn alone(path: Option<&String>) -> ExitCode {
    let Some(bytes) = path.and_then(|path| std::fs::read(path).ok()) else {
        return ExitCode::FAILURE;
    };
    if seen(&bytes).is_err() {
        return ExitCode::FAILURE;
    }
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM"));
    let kb: Option<f64> = line.and_then(|line| line.split_whitespace().nth(1)?.parse().ok());
    match kb {
        Some(kb) => println!("{}", kb / 1024.0),
        None => return ExitCode::FAILURE,
    }
    ExitCode::SUCCESS
}

/// Looks at a photo in the worker's module: milliseconds of each repeat, and
/// how many cards it found.
const IN_WASM: &str = r"(async (repeats) => {
    const module = await import('/worker.js');
    await module.default();
    const text = atob(window.photo);
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    const task = JSON.stringify({ see_photo: { marks: 5 } });
    const times = [];
    let cards = 0;
    for (let n = 0; n < repeats; n += 1) {
        const began = performance.now();
        const seen = module.work(task, bytes, () => {});
        times.push(performance.now() - began);
        cards = JSON.parse(new TextDecoder().decode(seen)).cards.length;
    }
    return [times, cards];
})";

/// A photo of 12 megapixels through the worker's module in real Chromium.
fn in_browser(bars: &mut Bars, repeats: usize) -> Result<(), String> {
    let phone_size = |case: &Case| case.scene.size == PHONE && case.light != Light::Low;
    let case = many().into_iter().find(phone_size).ok_or("no such scene")?;
    let shot = render(&case.scene);
    let bytes = file::jpeg(&case.scene, &shot, case.wrapping).ok_or("no JPEG")?;
    let native = seen(&bytes)?.cards.len();
    let server = Server::start();
    let phone = Phone::open(&server, PhoneSetup::default());
    phone.goto("/");
    let text = BASE64.encode(&bytes);
    phone.try_eval(&format!("window.photo = '{text}'; true"))?;
    let told = phone.try_eval(&format!("{IN_WASM}({repeats})"))?;
    let (mut times, cards): (Vec<f64>, usize) =
        serde_json::from_value(told).map_err(|fault| fault.to_string())?;
    println!(
        "in Chromium, {}: {times:.0?} ms, {cards} cards, native {native}",
        case.name
    );
    bars.most("photo_12mp_wasm_ms", median(&mut times), 1200.0);
    bars.most(
        "photo_wasm_cards_unlike_native",
        (cards as f64 - native as f64).abs(),
        0.0,
    );
    Ok(())
}

/// Millimetres from crosses, with their ±, and the time that takes.
fn solving(bars: &mut Bars, seeds: Range<u64>) {
    let timed = seeds.start..seeds.start + 15;
    for bar in accuracy(&seeds).into_iter().chain(speed(&timed)) {
        if let Some(least) = bar.least {
            bars.least(bar.figure, bar.value, least);
        }
        if let Some(most) = bar.most {
            bars.most(bar.figure, bar.value, most);
        }
    }
}

/// Photos without any card.
fn free(bars: &mut Bars, count: u64) {
    let size = (1_600, 1_200);
    let mut false_codes = 0;
    let mut slowest = 0.0f64;
    for seed in 0..count {
        let grey = texture::without_cards(10_000 + seed, size);
        let Some(luma) = Luma::new(size.0, size.1, grey) else {
            continue;
        };
        let started = Instant::now();
        let seen = look(&luma, &mut |_| Flow::Go).unwrap_or_default();
        slowest = slowest.max(started.elapsed().as_secs_f64() * 1e3);
        let named = seen.faults.iter().filter(|fault| fault.code.is_some());
        false_codes += seen.cards.len() + named.count();
    }
    println!("{count} photos without a card, 2 megapixels; the slowest took {slowest:.0} ms");
    bars.most(
        "photo_without_cards_false_codes",
        f64::from(false_codes as u32),
        0.0,
    );
}
