//! Bench suite `kit`: speed of ring sets and of opening a library, and the
//! enumeration of the tests on more cases and another seed.

use std::hint::black_box;
use std::time::Instant;

use rakeline_core::decide::ring_set::{RakeOrigin, SpotFacts, choose, choose_all};
use rakeline_core::kit::{self, KitSheet};
use rakeline_core::units::{Degrees, Estimate};
use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use rakeline_tests::dice::Dice;
use rakeline_tests::kit_cases::case;
use serde_json::json;

fn bar(figure: &str, value: f64, limit: f64) -> bool {
    let met = value <= limit;
    let verdict = if met { "ok" } else { "short" };
    println!("bar {figure} {value:.2} <= {limit} {verdict}");
    met
}

fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}

/// Eight rings, six inserts, half of the combinations measured.
fn large_sheet() -> Option<KitSheet> {
    let rings: Vec<_> = (0..8)
        .map(|i| json!({ "name": format!("ring {i}"), "lift": 2.0 * f64::from(i) + 1.0 }))
        .collect();
    let inserts: Vec<_> = (0..6)
        .map(|i| json!({ "name": format!("insert {i}"), "lift": 1.5 * f64::from(i), "hole": 26 + i }))
        .collect();
    let totals: Vec<_> = (0..8)
        .flat_map(|r| (0..3).map(move |i| (r, i)))
        .map(|(r, i)| {
            let lift = 2.0 * f64::from(r) + 3.0 * f64::from(i) + 1.4;
            json!({ "ring": format!("ring {r}"), "insert": format!("insert {}", 2 * i), "lift": lift })
        })
        .collect();
    let sheet = json!({
        "rakeline_kit": 1, "name": "bench",
        "heads": {
            "labels": ["1", "2", "3", "4", "5", "6", "7", "8"], "comes_with": "ring 0"
        },
        "rings": rings, "inserts": inserts, "totals": totals,
        "aim": { "least": 0, "greatest": 9, "target": 4 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    });
    kit::parse(&sheet.to_string()).ok()
}

/// The worst that a job brings: eight faces read with a phone that was not
/// zeroed, so that all are close calls.
fn eight_spots() -> Vec<SpotFacts> {
    (0..8)
        .map(|i| {
            let rake = Estimate::new(Degrees(-9.0 + 1.3 * f64::from(i)), Degrees(2.5));
            SpotFacts::plain(rake, RakeOrigin::Unzeroed)
        })
        .collect()
}

fn ring_sets_us(repeats: usize) -> Option<f64> {
    let sheet = large_sheet()?;
    let spots = eight_spots();
    let times = (0..repeats)
        .map(|_| {
            let start = Instant::now();
            black_box(choose_all(black_box(&sheet), black_box(&spots)));
            start.elapsed().as_secs_f64() * 1e6
        })
        .collect();
    Some(median(times))
}

/// Both sample sheets.
const KITS: [&str; 2] = [
    include_str!("../../assets/kits/plain-four.json"),
    include_str!("../../assets/kits/metal-four.json"),
];

fn library_ms(repeats: usize) -> f64 {
    let times = (0..repeats)
        .map(|_| {
            let start = Instant::now();
            for i in 0..500 {
                black_box(kit::parse(black_box(KITS[i % 2])).is_ok());
            }
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    median(times)
}

/// Milliseconds from the tap on 'Kit sheets' to the list of five hundred
/// sheets, in Chromium: its first two hundred rows, with a button for more.
fn library_in_browser_ms(repeats: usize) -> f64 {
    let server = Server::start();
    let phone = Phone::open(&server, PhoneSetup::default());
    phone.goto("/");
    phone.wait_for("Start a job", 60);
    let fill = format!(
        "(async () => {{
            const texts = [{}, {}];
            const db = await new Promise((ok) => {{
                const r = indexedDB.open('rakeline'); r.onsuccess = () => ok(r.result);
            }});
            const all = db.transaction('records', 'readwrite');
            for (let n = 0; n < 500; n += 1) {{
                const sheet = JSON.parse(texts[n % 2]);
                sheet.name = 'Shelf kit ' + n;
                all.objectStore('records').put(JSON.stringify(sheet), 'kit/shelf' + n);
            }}
            await new Promise((ok, no) => {{ all.oncomplete = ok; all.onabort = no; }});
            db.close();
        }})()",
        json!(KITS[0]),
        json!(KITS[1])
    );
    phone.eval(&fill);
    phone.reload();
    phone.wait_for("Kit sheets", 60);
    let opened = "(async () => {
        const named = (name) => [...document.querySelectorAll('button')]
            .find((button) => button.innerText.trim() === name);
        const began = performance.now();
        named('Kit sheets').click();
        while (document.querySelectorAll('.jobs li').length < 200 || !named('300 more')) {
            if (performance.now() - began > 60000) return -1;
            await new Promise(requestAnimationFrame);
        }
        return performance.now() - began;
    })()";
    let times = (0..repeats).map(|_| {
        let took = phone.eval(opened).as_f64().unwrap_or(f64::NAN);
        phone.eval("document.querySelector('.back').click()");
        phone.wait_for("Start a job", 60);
        if took < 0.0 { f64::NAN } else { took }
    });
    median(times.collect())
}

fn wrong_sets(rounds: usize) -> f64 {
    let mut dice = Dice(500);
    let mut wrong = 0_u32;
    for _ in 0..rounds {
        for rings in 1..=5 {
            for inserts in 0..=4 {
                let case = case(&mut dice, rings, inserts);
                let fault = match case.sheet() {
                    Some(sheet) => case.fault(&choose(&sheet, &case.facts()), 20, &mut dice),
                    None => Some("the sheet was refused".to_owned()),
                };
                if let Some(fault) = fault {
                    println!("{fault}: {case:?}");
                    wrong += 1;
                }
            }
        }
    }
    f64::from(wrong)
}

fn main() {
    let quick = std::env::args().any(|a| a == "--quick");
    let (repeats, rounds) = if quick { (300, 400) } else { (5000, 4000) };
    println!("ring sets of 8 heads, 8 rings, 6 inserts; {repeats} repeats");
    let speed = ring_sets_us(repeats).is_some_and(|us| bar("ring_sets_8x8x6_us", us, 50.0));
    println!("library of 500 sheets, native");
    let library = bar("library_500_native_ms", library_ms(repeats / 100), 100.0);
    let opened = library_in_browser_ms(if quick { 5 } else { 15 });
    let library = library & bar("library_500_in_chromium_ms", opened, 100.0);
    println!("enumeration, {} cases", rounds * 25);
    let wrong = bar("ring_sets_wrong", wrong_sets(rounds), 0.0);
    if !(speed && library && wrong) {
        std::process::exit(1);
    }
}
