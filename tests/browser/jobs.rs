//! The list of jobs: two taps, names, deletion and the way back, the sample.

use rakeline_tests::browser::{Phone, Server};

use crate::fitter::{
    MARKS, PATIENCE, first_screen, job_with_marks, look, marks, saved, setup, texts,
};

fn jobs(phone: &Phone) -> Vec<String> {
    texts(phone, ".jobs .open b")
}

fn name_job(phone: &Phone, name: &str) {
    phone.tap_named("Measures");
    phone.wait_for("Centre line to outer edge", PATIENCE);
    phone.tap_named("Customer, vehicle, plate");
    phone.type_into("What you call this job", name);
    phone.type_into("Vehicle", "Grey van");
    phone.wait_for(name, PATIENCE);
    saved(phone);
}

#[test]
fn a_job_is_named_deleted_and_brought_back() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_with_marks(&phone);
    name_job(&phone, "Van with the dent");
    look(&phone, "measures-named");
    phone.tap_named("All jobs");
    phone.wait_for("Grey van", PATIENCE);
    look(&phone, "jobs");

    phone.tap_named("Delete Van with the dent");
    phone.wait_for("Job deleted.", PATIENCE);
    look(&phone, "jobs-deleted");
    phone.tap_named("Undo");
    phone.wait_for("0 of 4 faces read", PATIENCE);

    phone.tap_named("Delete Van with the dent");
    phone.wait_for("Job deleted.", PATIENCE);
    phone.reload();
    phone.wait_for("One deleted job", PATIENCE);
    phone.tap_named("One deleted job");
    look(&phone, "jobs-bring-back");
    phone.tap_named("Bring back");
    phone.wait_gone("One deleted job", PATIENCE);
    assert_eq!(jobs(&phone), ["Van with the dent"]);
    phone.tap_named("Van with the dent");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone), MARKS);
}

#[test]
fn two_taps_at_once_start_one_job() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tap_twice("Start a job");
    phone.wait_for("Centre line to outer edge", PATIENCE);
    saved(&phone);
    phone.tap_named("All jobs");
    phone.wait_for("0 of 4 faces read", PATIENCE);
    assert_eq!(jobs(&phone).len(), 1);
}

#[test]
fn the_sample_opens_from_the_list_and_from_the_address() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tap_named("Look at the sample job");
    phone.wait_for("Tape is on", PATIENCE);
    phone.wait_for("Tarn Carrier", PATIENCE);
    assert_eq!(marks(&phone), MARKS);
    saved(&phone);
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    saved(&phone);
    // The address no longer asks for it: a reload makes no further one.
    phone.reload();
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("All jobs");
    phone.wait_for("Start a job", PATIENCE);
    assert_eq!(jobs(&phone).len(), 2);
}
