//! Bench suite `record`: job sheets with twelve photos of 12 MP from their
//! originals, the customer's page at its longest, memory over many sheets.

use std::process::ExitCode;
use std::time::Instant;

use chrono::DateTime;
use rakeline::platform::Task;
use rakeline::steps::book;
use rakeline::worker::work;
use rakeline_core::job::{
    Field, JobEvent, JobId, JobState, NOTES_GREATEST, Note, Particular, Photo, PhotoEvent, PhotoOf,
    PicturePlace, apply,
};
use rakeline_core::kit::parse;
use rakeline_core::report::{Document, Length, Paper, SheetLook, customer_sheet, job_sheet, kept};
use rakeline_core::steps::StepName;
use rakeline_core::text::msg;
use rakeline_scene::dice::Dice;
use rakeline_scene::file::{Wrapping, encode};
use rakeline_tests::printed::Printed;

/// Most seconds for a sheet of twelve photos.
const MOST_SECONDS: f64 = 5.0;
/// Most memory for it, MiB.
const MOST_MEMORY: f64 = 300.0;
/// Largest customer's page, bytes.
const MOST_BYTES: f64 = 1e6;
/// Most memory that stays after fifty sheets, MiB.
const MOST_GROWTH: f64 = 20.0;

fn bar(figure: &str, value: f64, limit: f64) -> bool {
    let met = value <= limit;
    let verdict = if met { "ok" } else { "short" };
    println!("bar {figure} {value:.3} <= {limit} {verdict}");
    met
}

/// A line of the system's account of this process, MiB.
fn memory(line: &str) -> f64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    status
        .lines()
        .find_map(|text| {
            let kilobytes = text.strip_prefix(line)?.trim_start_matches(':');
            kilobytes.split_whitespace().next()?.parse::<f64>().ok()
        })
        .map_or(f64::NAN, |kilobytes| kilobytes / 1024.0)
}

/// The peak so far no longer counts.
fn forget_peak() {
    // Where the system refuses, the peak stays and the bar is the harder.
    let _ = std::fs::write("/proc/self/clear_refs", "5");
}

/// A photo of 12 MP as a phone makes it: edges, slopes and noise.
fn photo(seed: u64) -> Option<Vec<u8>> {
    let (width, height) = (4_000, 3_000);
    let mut dice = Dice(seed);
    let mut grey = Vec::with_capacity(width * height);
    for y in 0..height {
        for x in 0..width {
            let noise = dice.roll() >> 60;
            let panel = if (x / 300 + y / 400) % 2 == 0 {
                60
            } else {
                170
            };
            grey.push((panel + x / 80) as u8 + noise as u8);
        }
    }
    encode((width, height), &grey, Wrapping::default(), None)
}

/// A job with photos of all heads and at steps, everything typed as long as
/// it may be.
fn job(photos: usize) -> Option<JobState> {
    let at = DateTime::parse_from_rfc3339("2026-03-09T09:00:00+01:00").ok()?;
    let kit = parse(include_str!("../../assets/kits/plain-four.json")).ok()?;
    let mut job = JobState::start(JobId("bench-record".to_owned()), kit, at);
    for (field, width) in [(Field::HalfLeft, "864"), (Field::HalfRight, "864")] {
        job = apply(&job, JobEvent::Typed(field, width.to_owned()), at).ok()?;
    }
    let long = "Wolfeschlegelsteinhausen ".repeat(20);
    for which in [
        Particular::Customer,
        Particular::Vehicle,
        Particular::Plate,
        Particular::Fitter,
    ] {
        let named = JobEvent::ParticularTyped(which, long.clone());
        job = apply(&job, named, at).ok()?;
    }
    for index in 0..photos {
        let of = match u8::try_from(index).ok()? {
            head if index < job.spots.len() => PhotoOf::Head(head),
            _ => PhotoOf::Step(StepName("damage".to_owned())),
        };
        let place = |x, y| PicturePlace { x, y };
        let note = Note::Arrow(place(0.2, 0.2), place(0.5, 0.5));
        let photo = Photo {
            blob: format!("photo-{index}"),
            original: None,
            width: 4_000,
            height: 3_000,
            of,
            at,
            elevation: None,
            notes: vec![note; NOTES_GREATEST],
        };
        job = apply(
            &job,
            JobEvent::Photo(PhotoEvent::Taken(Box::new(photo))),
            at,
        )
        .ok()?;
    }
    Some(job)
}

fn task(job: &JobState, document: Document, length: Length, files: &[Vec<u8>]) -> Task {
    let keys = document.pictures();
    let mut task = Task::Sheet {
        document: Box::new(document),
        look: SheetLook {
            paper: Paper::default(),
            length,
            workshop: vec!["Fell & Tarn Fitting".to_owned(), "Tarn Lane 4".to_owned()],
            logo: None,
            inches: false,
            foot: msg("sheet-foot")
                .text("id", job.id.0.clone())
                .text("version", "0"),
            at: job.changed,
        },
        predicted: None,
        pictures: Vec::new(),
        files: Vec::new(),
    };
    for (key, file) in keys.into_iter().zip(files.iter().cycle()) {
        task.add_picture(key, file);
    }
    task
}

fn workshop(job: &JobState) -> Document {
    let mut document = job_sheet(job, job.changed, "UTC");
    document.sections.extend(kept(job, book()));
    document
}

fn main() -> ExitCode {
    let Some(files) = (0..3).map(photo).collect::<Option<Vec<_>>>() else {
        println!("the photos could not be made");
        return ExitCode::FAILURE;
    };
    let (Some(full), Some(few)) = (job(12), job(4)) else {
        println!("the job refuses what the bench tells it");
        return ExitCode::FAILURE;
    };
    let asked = task(&full, workshop(&full), Length::AsNeeded, &files);
    forget_peak();
    let before = memory("VmRSS");
    let start = Instant::now();
    let sheet = work(&asked, &|_| ()).unwrap_or_default();
    let seconds = start.elapsed().as_secs_f64();
    let held = memory("VmHWM") - before;
    let printed = Printed::new("bench-record", &sheet);
    println!(
        "{} pictures, {} kB",
        printed.pictures(),
        sheet.len() / 1_000
    );
    let mut met = printed.pictures() == 12;
    met &= bar("sheet-12-photos-s", seconds, MOST_SECONDS);
    met &= bar("sheet-12-photos-mib", held, MOST_MEMORY);

    let asked = task(
        &full,
        customer_sheet(&full, full.changed),
        Length::OnePage,
        &files,
    );
    let page = work(&asked, &|_| ()).unwrap_or_default();
    let pages = Printed::new("bench-customer", &page).texts().len();
    met &= bar("customer-bytes", page.len() as f64, MOST_BYTES);
    met &= bar("customer-pages", pages as f64, 1.0) && pages == 1;

    let small = vec![
        encode(
            (1_600, 1_200),
            &[128; 1_600 * 1_200],
            Wrapping::default(),
            None,
        )
        .unwrap_or_default(),
    ];
    let asked = task(&few, workshop(&few), Length::AsNeeded, &small);
    let make = |count: usize| {
        for _ in 0..count {
            let _ = work(&asked, &|_| ());
        }
        memory("VmRSS")
    };
    let warm = make(5);
    met &= bar("growth-50-sheets-mib", make(50) - warm, MOST_GROWTH);
    if met {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}
