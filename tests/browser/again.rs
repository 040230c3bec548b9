//! Same again in a browser: the second vehicle of a model, one that does not
//! agree, a fleet, and the file for a colleague.

use std::io::Write as _;
use std::time::{Duration, Instant};

use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use serde_json::json;

use crate::fitter::{
    FACES, HALF, PATIENCE, at_mark, first_screen, look, marks, read_faces, saved, setup, start_job,
    texts, type_half_widths, verdicts,
};

/// Most taps of a second job, typing apart.
const MOST_TAPS: u32 = 6;

/// Vehicles of the fleet.
const FLEET: usize = 10;

/// Says a figure in the run's output, also where the journey passes: the
/// runner keeps back what is printed by macro.
pub fn tell(figure: &str) {
    let told = writeln!(std::io::stderr(), "told: {figure}");
    assert!(told.is_ok(), "{figure}");
}

/// Goes back to the list of jobs.
fn to_jobs(phone: &Phone) {
    saved(phone);
    phone.tap_named("All jobs");
    phone.wait_for("Start a job", PATIENCE);
}

/// The sample job, read to its ring sets.
fn sample_done(phone: &Phone) {
    phone.tap_named("Look at the sample job");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Tape is on, read the faces");
    at_mark(phone, 1);
    phone.hold_at_face(FACES[0]);
    read_faces(phone, 2, &FACES[1..]);
    phone.wait_for("To the job sheet", PATIENCE);
    to_jobs(phone);
}

/// From the list of jobs to the half widths of the next sample vehicle.
fn same_again(phone: &Phone) {
    phone.tap_named("Same again");
    phone.wait_for("Which model?", PATIENCE);
    phone.wait_for("One job", PATIENCE);
    phone.tap_named("Tarn Carrier van, 2023 (invented)");
    phone.wait_for("One job counts.", PATIENCE);
}

/// Two half widths that agree, the marks as before, two faces.
fn confirm(phone: &Phone, faces: [f64; 2]) {
    type_half_widths(phone, HALF, HALF);
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Tape is on, read the faces");
    at_mark(phone, 1);
    phone.carry_between_marks();
    phone.hold_at_face(faces[0]);
    at_mark(phone, 3);
    phone.carry_between_marks();
    phone.hold_at_face(faces[1]);
}

#[test]
fn the_second_job_of_a_model_takes_at_most_six_taps() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    sample_done(&phone);
    look(&phone, "jobs-with-again");
    let before = phone.taps();
    phone.tap_named("Same again");
    phone.wait_for("One job", PATIENCE);
    look(&phone, "again-models");
    phone.tap_named("Tarn Carrier van, 2023 (invented)");
    phone.wait_for("One job counts.", PATIENCE);
    assert!(phone.has("Kit: "), "the offer names its kit");
    look(&phone, "again-offer");
    phone.tap_named("Take it all, start the job");
    phone.wait_for("From earlier jobs", PATIENCE);
    look(&phone, "again-measures");
    confirm(&phone, [FACES[0] + 0.3, FACES[2] - 0.2]);
    phone.wait_for("To the job sheet", PATIENCE);
    let taps = phone.taps() - before;
    assert!(taps <= MOST_TAPS, "{taps} taps");
    tell(&format!("second job of the model: {taps} taps"));
    assert_eq!(verdicts(&phone).len(), FACES.len());
    assert!(phone.has("This vehicle agrees with the earlier ones."));
    assert!(!phone.has("Not read"), "all four have a set");
    look(&phone, "again-rings");
}

#[test]
fn a_vehicle_that_does_not_agree_is_refused_with_by_how_much() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    sample_done(&phone);
    same_again(&phone);
    phone.tap_named("Take it all, start the job");
    phone.wait_for("From earlier jobs", PATIENCE);
    type_half_widths(&phone, "884", "883");
    phone.wait_for("Off by 20 mm", PATIENCE);
    phone.wait_for("this is another bumper", PATIENCE);
    look(&phone, "again-other-bumper");
    type_half_widths(&phone, HALF, HALF);
    phone.wait_for("The half widths agree", PATIENCE);
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone).len(), FACES.len());
    phone.tap_named("Tape is on, read the faces");
    at_mark(&phone, 1);
    phone.carry_between_marks();
    phone.hold_at_face(FACES[0] - 6.0);
    // Every other face is asked for now.
    at_mark(&phone, 2);
    phone.wait_for("So this face is another", PATIENCE);
    look(&phone, "again-other-face");
}

/// Keeps what leaves the app as a file.
fn keeping_files() -> PhoneSetup {
    let script = "window.left = '';
        const made = URL.createObjectURL.bind(URL);
        URL.createObjectURL = (blob) => {
            if (blob.type === 'application/json') blob.text().then((text) => { window.left = text; });
            return made(blob);
        };";
    PhoneSetup {
        before_page: Some(script.to_owned()),
        ..setup()
    }
}

#[test]
fn the_file_for_a_colleague_holds_nothing_of_the_customer() {
    let server = Server::start();
    let phone = first_screen(&server, keeping_files());
    sample_done(&phone);
    same_again(&phone);
    phone.tap_named("Pass this on to a colleague");
    look(&phone, "again-pass-on");
    phone.tap_named("Make the file");
    phone.until("the file left the app", || {
        phone.eval("window.left.length") != json!(0)
    });
    let file = phone.eval("window.left");
    let file = file.as_str().unwrap_or_default().to_lowercase();
    assert!(file.contains("rakeline_again") && file.contains("half_left"));
    for secret in [
        "fell & ghyll",
        "ghyll",
        "deliveries",
        "sample 1",
        "sample1",
        "sample:",
        "+01:00",
    ] {
        assert!(!file.contains(secret), "'{secret}' is in the file");
    }
}

#[test]
fn the_tenth_vehicle_of_a_fleet_takes_few_taps() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    // The first of the model, as any job is done.
    let (clock, before) = (Instant::now(), phone.taps());
    start_job(&phone);
    type_half_widths(&phone, HALF, HALF);
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Tape is on, read the faces");
    at_mark(&phone, 1);
    phone.hold_at_face(FACES[0]);
    read_faces(&phone, 2, &FACES[1..]);
    phone.wait_for("To the job sheet", PATIENCE);
    let first = (phone.taps() - before, clock.elapsed());
    phone.tap_named("Measures");
    phone.wait_for("Centre line to outer edge", PATIENCE);
    phone.tap_named("Customer, vehicle, plate");
    phone.type_into("Vehicle", "Tarn Carrier van 2023");
    to_jobs(&phone);
    // Nine more.
    phone.tap_named("Same again");
    phone.wait_for("One job", PATIENCE);
    phone.tap_named("Tarn Carrier van 2023");
    phone.wait_for("One job counts.", PATIENCE);
    phone.tap_named("Several vehicles");
    phone.type_into("How many vehicles", &(FLEET - 1).to_string());
    look(&phone, "again-fleet-of");
    phone.tap_named("Start the first of them");
    let mut last = (0, Duration::ZERO);
    for vehicle in 2..=FLEET {
        let (clock, before) = (Instant::now(), phone.taps());
        if vehicle > 2 {
            phone.tap_named("Same again");
            phone.wait_for("Fleets in work", PATIENCE);
            phone.tap_nth("Tarn Carrier van 2023", 0);
            phone.wait_for("Parts for all", PATIENCE);
            if vehicle == FLEET {
                look(&phone, "fleet");
            }
            phone.tap_named("Next vehicle");
        }
        phone.wait_for("From earlier jobs", PATIENCE);
        let off = (vehicle % 4) as f64 * 0.2 - 0.3;
        confirm(&phone, [FACES[0] + off, FACES[2] + off]);
        phone.wait_for("To the job sheet", PATIENCE);
        last = (phone.taps() - before, clock.elapsed());
        to_jobs(&phone);
    }
    tell(&format!(
        "first vehicle: {} taps, {:.1} s; tenth: {} taps, {:.1} s",
        first.0,
        first.1.as_secs_f64(),
        last.0,
        last.1.as_secs_f64()
    ));
    assert!(last.0 <= MOST_TAPS, "{} taps", last.0);
    phone.tap_named("Same again");
    phone.wait_for("9 of 9 vehicles begun", PATIENCE);
    phone.tap_nth("Tarn Carrier van 2023", 0);
    phone.wait_for("Parts for all", PATIENCE);
    assert_eq!(texts(&phone, ".jobs li").len(), FLEET - 1);
    assert!(!phone.has("Next vehicle"), "all are begun");
    look(&phone, "fleet-begun");
}
