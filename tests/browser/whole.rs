//! All steps of a job, the looks of the screen, and the job sheet as a file.

use std::fs;
use std::path::{Path, PathBuf};

use rakeline_tests::browser::{Phone, Server};
use rakeline_tests::printed::Printed;
use serde_json::json;

use crate::fitter::{PATIENCE, first_screen, look, saved, setup, start_job};

fn all_steps(phone: &Phone) {
    phone.eval("[...document.querySelectorAll('.path button')][0].click()");
    phone.wait_for("Only what applies to this vehicle", PATIENCE);
}

#[test]
fn the_survey_hides_what_does_not_apply_and_a_stage_is_closed_as_usual() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    all_steps(&phone);
    look(&phone, "all-steps");
    // The vehicle stands on its wheels: the gate of raised vehicles goes.
    phone.wait_for("Vehicle on ramps or stands", PATIENCE);
    let no = "[...document.querySelectorAll('.question')].find(q => q.textContent.includes('raised')).querySelectorAll('button')[1].click()";
    phone.eval(no);
    phone.wait_gone("Vehicle on ramps or stands", PATIENCE);
    // The first answer leaves the other questions where they are.
    phone.wait_for("Heads painted?", PATIENCE);
    phone.tap_named("Done as usual");
    saved(&phone);
    let done = phone.eval("document.querySelectorAll('.step-list .done').length");
    assert!(done.as_u64().unwrap() >= 3, "{done} steps are done");
    look(&phone, "all-steps-as-usual");
    phone.reload();
    phone.wait_for("Only what applies to this vehicle", PATIENCE);
    assert_eq!(
        phone.eval("document.querySelectorAll('.step-list .done').length"),
        done
    );
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn a_screen_begins_at_its_top_wherever_the_one_before_was_left() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    all_steps(&phone);
    phone.eval("document.querySelectorAll('details').forEach(fold => fold.open = true)");
    let scrolled = || phone.eval("window.scrollY").as_f64();
    phone.eval("window.scrollTo(0, 600)");
    assert!(scrolled() > Some(500.0), "{:?}", scrolled());
    phone.eval("[...document.querySelectorAll('.path button')][1].click()");
    phone.wait_for("Look behind before anything is drilled", PATIENCE);
    phone.until("the top of the page", || scrolled() == Some(0.0));
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn a_wait_counts_down_on_the_screen_and_its_step_is_not_done_before_its_end() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    all_steps(&phone);
    phone.eval("document.querySelectorAll('details.stage').forEach(s => s.open = true)");
    let step = "[...document.querySelectorAll('.step-list > li')].find(s => s.textContent.includes('Control box self-test'))";
    let press = |words: &str| {
        phone.eval(&format!(
            "[...{step}.querySelectorAll('button')].find(b => b.textContent === '{words}').click()"
        ));
    };
    press("Start the wait");
    phone.wait_for("to go", PATIENCE);
    let left = || phone.eval(&format!("{step}.querySelector('[role=timer]').textContent"));
    let first = left();
    phone.until("the countdown to move", || left() != first);
    press("Done");
    phone.wait_for("Wait, or end the wait by hand.", PATIENCE);
    look(&phone, "all-steps-wait");
    press("End the wait");
    phone.wait_gone("to go", PATIENCE);
    saved(&phone);
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn the_letterhead_stands_at_the_head_of_what_is_printed() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tap_named("Workshop and look");
    phone.wait_for("Head of the job sheet", PATIENCE);
    phone.type_into("Workshop", "Fell & Tarn Fitting");
    phone.type_into("Licence or registration", "Reg. 4711");
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    phone.eval("[...document.querySelectorAll('.path button')].at(-1).click()");
    phone.wait_for("Issue and print", PATIENCE);
    let head = phone.eval("document.querySelector('.paper-sheet > .letterhead').textContent");
    assert_eq!(head, "Fell & Tarn FittingReg. 4711");
    look(&phone, "sheet-letterhead");
    // After a page opened by its address no finger was on the screen yet.
    phone.forgive("navigator.vibrate");
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn the_look_is_chosen_for_the_dark_and_for_the_sun_and_stays() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tap_named("Workshop and look");
    phone.wait_for("Head of the job sheet", PATIENCE);
    look(&phone, "workshop");
    phone.type_into("Workshop", "Fell & Tarn Fitting");
    for (name, paper) in [
        ("Dark", "rgb(22, 21, 19)"),
        ("Sunlight", "rgb(255, 255, 255)"),
    ] {
        phone.tap_named(name);
        phone.until("the look", || {
            phone.eval("getComputedStyle(document.body).backgroundColor") == paper
        });
        look(&phone, &format!("workshop-{}", name.to_lowercase()));
    }
    phone.reload();
    phone.wait_for("Head of the job sheet", PATIENCE);
    assert_eq!(phone.typed("Workshop"), "Fell & Tarn Fitting");
    let paper = phone.eval("getComputedStyle(document.body).backgroundColor");
    assert_eq!(paper, "rgb(255, 255, 255)");
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn the_sample_jobs_screens_stand_in_the_dark_and_in_the_sun() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    for name in ["Dark", "Sunlight"] {
        phone.goto("/settings");
        phone.wait_for("Head of the job sheet", PATIENCE);
        phone.tap_named(name);
        phone.goto("/?sample");
        phone.wait_for("Tape is on", PATIENCE);
        let name = name.to_lowercase();
        look(&phone, &format!("{name}-marks"));
        let steps = phone.eval("document.querySelectorAll('.path button').length");
        for step in 0..steps.as_u64().unwrap() {
            phone.eval(&format!(
                "document.querySelectorAll('.path button')[{step}].click()"
            ));
            phone.until("the step", || {
                let here = "[...document.querySelectorAll('.path button')].findIndex(b => b.getAttribute('aria-current'))";
                phone.eval(here) == json!(step)
            });
            look(&phone, &format!("{name}-{step}"));
        }
    }
    // After a page opened by its address no finger was on the screen yet.
    phone.forgive("navigator.vibrate");
    assert_eq!(phone.errors(), Vec::<String>::new());
}

/// Every word as a language with longer words and taller letters would have
/// it: vowels with marks, a third more letters.
const PSEUDO: &str = "(() => {
    const marked = { a: '\u{e2}', e: '\u{ea}', i: '\u{ef}', o: '\u{f6}', u: '\u{fc}', A: '\u{c5}', E: '\u{c9}', O: '\u{d6}', U: '\u{dc}' };
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const nodes = [];
    while (walker.nextNode()) nodes.push(walker.currentNode);
    let changed = 0;
    for (const node of nodes) {
        if (node.parentElement.closest('svg, script, style') || !/[a-z]{3}/i.test(node.data)) continue;
        node.data = node.data.replace(/[A-Za-z]{3,}/g, (word) =>
            [...word].map((letter) => marked[letter] ?? letter).join('') + 'xyz'.slice(0, Math.ceil(word.length / 3)));
        changed += 1;
    }
    return changed;
})()";

#[test]
fn a_language_with_longer_words_fits_on_every_screen_of_the_path() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    saved(&phone);
    let here = crate::fitter::path(&phone);
    let steps = phone.eval("document.querySelectorAll('.path button').length");
    for step in 0..steps.as_u64().unwrap() {
        // Fresh each time: the words were changed behind the app's back.
        phone.goto(&here);
        phone.wait_for("Tape is on", PATIENCE);
        phone.eval(&format!(
            "document.querySelectorAll('.path button')[{step}].click()"
        ));
        phone.until("the step", || {
            let at = "[...document.querySelectorAll('.path button')].findIndex(b => b.getAttribute('aria-current'))";
            phone.eval(at) == json!(step)
        });
        let changed = phone.eval(PSEUDO).as_u64().unwrap();
        assert!(changed > 10, "{changed} texts at step {step}");
        look(&phone, &format!("longer-words-{step}"));
    }
    // After a page opened by its address no finger was on the screen yet.
    phone.forgive("navigator.vibrate");
}

fn pdfs(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().flatten();
    let paths = entries.map(|entry| entry.path());
    paths
        .filter(|path| path.extension().is_some_and(|end| end == "pdf"))
        .collect()
}

#[test]
fn the_customers_page_is_saved_as_a_pdf_of_one_page() {
    let server = Server::start();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/downloads/customer");
    // What an earlier run left is no download of this one.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let folder = folder.canonicalize().unwrap();
    let phone = first_screen(&server, setup());
    phone.cdp(
        "Browser.setDownloadBehavior",
        json!({ "behavior": "allow", "downloadPath": folder }),
    );
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    phone.eval("[...document.querySelectorAll('.path button')].at(-1).click()");
    phone.wait_for("PDF for the customer", PATIENCE);
    look(&phone, "sheet-files");
    phone.tap_named("PDF for the customer");
    phone.wait_for("Saved among your downloads", PATIENCE);
    phone.until("the download", || pdfs(&folder).len() == 1);
    let page = Printed::new("browser-customer", &fs::read(&pdfs(&folder)[0]).unwrap());
    let texts = page.texts();
    assert_eq!(texts.len(), 1);
    assert!(texts[0].contains("does not make reversing safe"));
    assert_eq!(phone.errors(), Vec::<String>::new());
}
