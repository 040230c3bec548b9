//! Wrong figures: each says what is wrong, and nothing typed is lost.

use rakeline_tests::browser::{SensorState, Server};

use crate::fitter::{
    HALF, MARKS, PATIENCE, first_screen, job_at_first_mark, look, marks, saved, setup, start_job,
    type_half_widths, with_sensors,
};

/// What is typed for a half width, and what is said to it.
const WRONG_HALVES: [(&str, &str); 5] = [
    ("0", "0 mm cannot be"),
    ("-880", "−880 mm cannot be"),
    ("wide", "\"wide\" is no length"),
    ("10 m", "10000 mm is"),
    ("34", "If that was inches, type 864 mm"),
];

#[test]
fn a_wrong_half_width_is_named_and_kept() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    for (typed, said) in WRONG_HALVES {
        type_half_widths(&phone, typed, HALF);
        phone.wait_for(said, PATIENCE);
        let shut = "document.querySelector('.foot .do').disabled";
        assert_eq!(phone.eval(shut), true, "marks from '{typed}'");
    }
    look(&phone, "measures-wrong");
    saved(&phone);
    phone.reload();
    phone.wait_for("If that was inches", PATIENCE);
    assert_eq!(phone.typed("Left"), "34");
    assert_eq!(phone.typed("Right"), HALF);
    phone.type_into("Left", "86.4 cm");
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone), MARKS);
}

#[test]
fn half_widths_that_differ_ask_about_the_centre_line() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    type_half_widths(&phone, "864", "800");
    phone.wait_for("Is the centre line right?", PATIENCE);
    look(&phone, "measures-doubt");
}

#[test]
fn a_wrong_face_angle_is_named_and_kept() {
    let server = Server::start();
    let phone = first_screen(&server, with_sensors(SensorState::Missing));
    job_at_first_mark(&phone);
    phone.wait_for("This phone gives no motion reading", PATIENCE);
    for (typed, said) in [("steep", "is no angle"), ("80", "is no bumper face")] {
        phone.type_into("Face angle", typed);
        phone.wait_for(said, PATIENCE);
        let shut = "document.querySelector('form .do').disabled";
        assert_eq!(phone.eval(shut), true, "took '{typed}'");
    }
    look(&phone, "faces-typed-wrong");
    saved(&phone);
    phone.reload();
    phone.wait_for("is no bumper face", PATIENCE);
    assert_eq!(phone.typed("Face angle"), "80");
    phone.type_into("Face angle", "8.0");
    phone.tap_named("Faces up");
    phone.tap_named("Take it for mark 1");
    phone.wait_for("Mark 2: back of the phone", PATIENCE);
    phone.forgive("sensor");
}

#[test]
fn back_never_loses_what_was_typed() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    type_half_widths(&phone, HALF, "86");
    // Back at once, while the last key is perhaps still being saved.
    phone.back();
    phone.wait_for("0 of 4 faces read", PATIENCE);
    phone.tap_named("Job of");
    phone.wait_for("Centre line to outer edge", PATIENCE);
    assert_eq!(phone.typed("Right"), "86");
    phone.type_into("Right", HALF);
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    phone.back();
    phone.wait_for("Centre line to outer edge", PATIENCE);
    assert_eq!(phone.typed("Right"), HALF);
    phone.eval("history.forward()");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone), MARKS);
}
