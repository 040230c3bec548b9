//! A whole job by the standard path, from the first tap to both PDFs, as a
//! fitter goes through it; with how many taps and how long it took.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use rakeline_tests::browser::{Phone, Server};
use rakeline_tests::printed::Printed;

use crate::again::tell;
use crate::fitter::{
    FACES, HALF, MARKS, PATIENCE, first_screen, job_with_rings, look, read_faces, saved, setup,
    start_job, type_half_widths,
};
use crate::job_photos::photo;
use crate::learn::out_of_reverse;

/// Most taps of the quick path to the customer's PDF, typing apart.
const MOST_QUICK: u32 = 8;
/// Most taps of the standard path, typing apart (our own figure: what it
/// takes, and a few).
const MOST_STANDARD: u32 = 130;

fn give(phone: &Phone, nth: usize, file: &Path) {
    let taken = || phone.eval("document.querySelectorAll('img').length");
    let before = taken();
    phone.tap_nth("Choose a photo", nth);
    phone.give_picture(file);
    phone.until("the picture on the screen", || taken() != before);
    saved(phone);
}

fn all_steps(phone: &Phone) {
    phone.tap_named("All steps");
    phone.wait_for("Only what applies to this vehicle", PATIENCE);
}

fn pdf(phone: &Phone, folder: &Path, button: &str, ending: &str) -> Printed {
    phone.tap_named(button);
    let file: PathBuf = phone.downloaded(folder, ending);
    phone.wait_for("Saved among your downloads", PATIENCE);
    Printed::new(ending, &std::fs::read(file).expect("the PDF"))
}

fn survey(phone: &Phone, photo: &Path) {
    all_steps(phone);
    // A tow bar stands there; the other questions are answered with no.
    for question in 0..8 {
        let answer = if question == 1 { "Yes" } else { "No" };
        phone.tap_nth(answer, question);
    }
    phone.wait_gone("Vehicle on ramps or stands", PATIENCE);
    give(phone, 0, photo);
    phone.tap_nth("Done", 0);
    phone.tap_named("Done as usual");
    phone.tap_named("On to: Parts, time, price");
    phone.wait_for("Working time", PATIENCE);
    let labels = phone.eval(
        "[...document.querySelectorAll('input[id^=price-]')]\
         .map((field) => document.querySelector(`label[for=\"${field.id}\"]`).innerText)",
    );
    for label in labels.as_array().expect("labels") {
        phone.type_into(label.as_str().unwrap_or_default(), "12.50");
    }
    phone.type_into("Working time", "150");
    phone.type_into("Price of an hour", "62");
    all_steps(phone);
    phone.type_into("Write down", "left of the boot, behind the trim");
    give(phone, 0, photo);
    give(phone, 1, photo);
    phone.tap_named("Done as usual");
}

fn measures(phone: &Phone) {
    start_job(phone);
    type_half_widths(phone, HALF, HALF);
    phone.tap_named("Where the centre line is");
    phone.tap_named("striker or lock");
    phone.tap_named("Height of the row");
    phone.tap_named("the swage line");
    phone.type_into("From the line", "-55");
    phone.type_into("Above ground", "520");
    phone.tap_named("Keep this height");
    phone.tap_named("Customer, vehicle, plate");
    phone.type_into("Customer", "Mrs Ekwall");
    phone.type_into("Vehicle", "Fenn Carrier, estate, 2021");
    phone.type_into("Plate", "KX 21 TRN");
    phone.type_into("Fitter", "Odd Lien");
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Tape is on, read the faces");
    read_faces(phone, 1, &FACES);
    phone.wait_for("To the job sheet", PATIENCE);
    phone.tap_named("Behind");
    phone.tap_nth("Seen and clear", 0);
    phone.type_into("Free depth", "62");
    phone.type_into("Panel thickness", "3");
}

fn check_and_holes(phone: &Phone) {
    phone.tap_named("On to: Tape read back");
    for (mark, mm) in MARKS.iter().enumerate() {
        phone.type_into(&format!("Tape at {}", mark + 1), mm);
        phone.type_into(&format!("From line at {}", mark + 1), "-55");
    }
    for mark in 1..=4 {
        phone.tap_named(&format!("{mark} not seen"));
    }
    phone.tap_named("Marks are checked");
    phone.wait_for("Checked. Marks are where they belong", PATIENCE);
    phone.type_into("Who agrees", "Mrs Ekwall");
    phone.tap_named("Here");
    phone.wait_for("Mrs Ekwall agreed", PATIENCE);
    phone.tap_named("Holes");
    phone.type_into("Centre drill past the saw's teeth", "14");
    phone.wait_for("4 ready to drill", PATIENCE);
    look(phone, "whole-job-holes");
    phone.tap_named("All of this is so");
    for hole in 1..=4 {
        phone.tap_named(&format!("Hole {hole} is drilled"));
    }
    for head in 1..=4 {
        phone.tap_nth(
            &format!("Head {head} sits: arrow up, clicked home, tugged"),
            0,
        );
    }
    phone.tap_named("To leads and supply");
}

fn leads_and_supply(phone: &Phone) {
    for (label, mm) in [
        ("Grommet to control box", "700"),
        ("Head 1 to the grommet", "1100"),
        ("Head 2 to the grommet", "900"),
        ("Head 3 to the grommet", "1250"),
        ("Head 4 to the grommet", "1350"),
        ("Lead of the speaker, all the way", "1200"),
        ("Supply lead, all the way", "800"),
        ("Where the grommet is", "left, behind the wing"),
    ] {
        phone.type_into(label, mm);
    }
    phone.tap_named("The whole route is so");
    phone.tap_named("All of this is so at the supply");
    phone.tap_named("Bulb, plain feed");
    for (label, figure) in [
        ("Supply point: where the feed is taken", "left rear lamp"),
        ("Reverse on, volts", "12.4"),
        ("Reverse off, volts", "0"),
        ("Earth drop, volts", "0.03"),
        ("Fuse at the take-off, A", "2"),
    ] {
        phone.type_into(label, figure);
    }
    phone.tap_named("The fuse is fitted at the take-off");
    phone.wait_for("Leads reach, supply is right", PATIENCE);
}

fn learn(phone: &Phone) {
    phone.tap_named("To the obstacle learn");
    for press in ["Not enough", "removable tow bar", "Taps only"] {
        phone.tap_named(press);
    }
    phone.tap_named("All of this is so");
    phone.tap_named("Start the run");
    phone.wait_for("Into reverse when you are ready", PATIENCE);
    for cycle in 1..=5 {
        phone.tap_named("In reverse");
        phone.wait_for(&format!("Cycle {cycle} of 6"), PATIENCE);
        phone.rest(Duration::from_millis(1_300));
        out_of_reverse(phone);
    }
    phone.tap_named("In reverse");
    phone.wait_for("then tap 'It beeped'", PATIENCE);
    phone.tap_named("It beeped: the quiet time runs");
    phone.wait_for("Put the result away", PATIENCE);
}

fn walk(phone: &Phone) {
    phone.tap_named("Walk test");
    phone.type_into("How wide", "90");
    phone.type_into("How far it sticks out", "220");
    phone.tap_named("That is where it is");
    phone.tap_named("All of this is so");
    phone.wait_for("Walk the nine points", PATIENCE);
    for head in 1..=4 {
        phone.tap_named(&format!("Head {head} answers"));
    }
    phone.tap_named("Walk the nine points");
    phone.wait_for("Point 1 of 12", PATIENCE);
    for point in 1..=12 {
        phone.wait_for(&format!("Point {point} of 12"), PATIENCE);
        phone.tap_nth(
            if point < 7 {
                "Quick beeps"
            } else {
                "Slow beeps"
            },
            0,
        );
    }
    phone.wait_for("Seen at 9 of 9 points", PATIENCE);
    phone.until("the result from its top", || {
        let top = phone.eval("document.querySelector('h1').getBoundingClientRect().top");
        top.as_f64() >= Some(0.0)
    });
}

fn the_rest(phone: &Phone, photo: &Path) {
    all_steps(phone);
    // Loom and heads.
    phone.tap_named("Done as usual");
    // Display, speaker.
    give(phone, 0, photo);
    phone.type_into("Write down", "middle");
    phone.tap_named("Done as usual");
    // Prove it: the zone shift was answered before the learn.
    phone.tap_named("Start the wait");
    phone.tap_named("End the wait");
    phone.tap_named("Done as usual");
    phone.tap_nth("Done", 0);
    // Hand over.
    give(phone, 0, photo);
    phone.tap_named("Done as usual");
    phone.tap_named("Sheet");
    phone.tap_named("Photos of the finished heads");
    for head in 1..=4 {
        give(phone, 0, photo);
        phone.wait_for(&format!("{head} of 4"), PATIENCE);
    }
}

#[test]
fn a_whole_job_goes_by_the_standard_path_to_both_pdfs() {
    let server = Server::start();
    let picture = photo("whole-job");
    let phone = first_screen(&server, setup());
    phone.hold_pictures();
    let folder = phone.downloads("whole-job");
    let (clock, before) = (Instant::now(), phone.taps());
    measures(&phone);
    survey(&phone, &picture);
    check_and_holes(&phone);
    leads_and_supply(&phone);
    learn(&phone);
    walk(&phone);
    the_rest(&phone, &picture);
    let customer = pdf(
        &phone,
        &folder,
        "PDF for the customer",
        "for-the-customer.pdf",
    );
    let workshop = pdf(
        &phone,
        &folder,
        "PDF for the workshop",
        "for-the-workshop.pdf",
    );
    let (taps, took) = (phone.taps() - before, clock.elapsed());
    tell(&format!(
        "standard path from the first tap to both PDFs: {taps} taps, {:.0} s by script",
        took.as_secs_f64()
    ));
    assert!(taps <= MOST_STANDARD, "{taps} taps");
    let page = customer.texts();
    assert_eq!(page.len(), 1);
    for said in [
        "Mrs Ekwall",
        "does not make reversing safe",
        "removable tow bar",
    ] {
        assert!(page[0].contains(said), "{said}: {}", page[0]);
    }
    let whole = workshop.texts().join("\n");
    for said in [
        "660 mm left",
        "striker or lock",
        "A fuse of 2.0 A is fitted",
        "Seen at 9 of 9 points",
        "By hand, not confirmed",
        "The zone shift was not enough",
    ] {
        let said = said.replace("660", MARKS[0]);
        assert!(whole.contains(&said), "{said}: {whole}");
    }
    assert!(!whole.contains("Not recorded"), "all was done: {whole}");
    all_steps(&phone);
    phone.wait_for("Every step is done or said", PATIENCE);
    look(&phone, "whole-job-done");
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn the_quick_path_goes_to_the_customers_pdf_in_few_taps() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    let folder = phone.downloads("quick-job");
    let (clock, before) = (Instant::now(), phone.taps());
    job_with_rings(&phone);
    phone.tap_named("To the job sheet");
    let page = pdf(
        &phone,
        &folder,
        "PDF for the customer",
        "for-the-customer.pdf",
    );
    let (taps, took) = (phone.taps() - before, clock.elapsed());
    tell(&format!(
        "quick path from the first tap to the customer's PDF: {taps} taps, {:.0} s by script",
        took.as_secs_f64()
    ));
    assert!(taps <= MOST_QUICK, "{taps} taps");
    assert_eq!(page.texts().len(), 1);
    assert_eq!(phone.errors(), Vec::<String>::new());
}
