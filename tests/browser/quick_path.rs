//! The quick path: from the first screen to the last ring set.

use std::time::Duration;

use rakeline_tests::browser::{Server, Shot};

use crate::fitter::{
    FACES, HALF, MARKS, PATIENCE, at_mark, first_screen, look, marks, read_faces, setup, start_job,
    type_half_widths, verdicts,
};

/// Most taps of the quick path, typing apart.
const MOST_TAPS: u32 = 8;

#[test]
fn from_the_first_screen_to_the_last_ring_set_in_few_taps() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    look(&phone, "jobs-empty");
    start_job(&phone);
    look(&phone, "measures-empty");
    type_half_widths(&phone, HALF, HALF);
    look(&phone, "measures");
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone), MARKS);
    look(&phone, "marks");
    phone.shot("first-marks", Shot::Screen);
    phone.tap_named("Tape is on, read the faces");
    at_mark(&phone, 1);
    phone.hold_at_face(FACES[0]);
    phone.wait_for("5.9° faces down", PATIENCE);
    phone.shot("faces-reading", Shot::WholePage);
    at_mark(&phone, 2);
    phone.wait_for("Taken. Go to mark 2.", PATIENCE);
    look(&phone, "faces-taken");
    phone.carry_between_marks();
    phone.wait_for("Hold still", PATIENCE);
    phone.shot("faces-moving", Shot::WholePage);
    read_faces(&phone, 2, &FACES[1..]);
    phone.wait_for("To the job sheet", PATIENCE);
    assert_eq!(verdicts(&phone).len(), FACES.len());
    assert!(phone.taps() <= MOST_TAPS, "{} taps", phone.taps());
    look(&phone, "rings-close");
    phone.tap_nth("Why, and the other sets", 0);
    phone.wait_for("Every set", PATIENCE);
    look(&phone, "rings-why");
    phone.tap_named("To the job sheet");
    phone.wait_for("Job sheet: parking sensors", PATIENCE);
    look(&phone, "sheet");
}

#[test]
fn the_keyboard_alone_goes_the_quick_path() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tab_to("Start a job");
    phone.press("Enter");
    phone.wait_for("Centre line to outer edge", PATIENCE);
    phone.until("the first field waits for the figure", || {
        phone.eval("document.activeElement.id") == "half-left"
    });
    phone.write(HALF);
    phone.tab_to("Right");
    phone.write(HALF);
    phone.press("Enter");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tab_to("Tape is on, read the faces");
    phone.press("Enter");
    at_mark(&phone, 1);
    phone.hold_at_face(FACES[0]);
    at_mark(&phone, 2);
    phone.rest(Duration::from_millis(300));
    // The rest with a gauge, also without a finger.
    for (mark, words) in [(2, "4.4"), (3, "4.1"), (4, "6")] {
        at_mark(&phone, mark);
        if phone.eval("document.querySelector('details').open") != true {
            phone.tab_to("Type the angle instead");
            phone.press("Enter");
        }
        phone.tab_to("Face angle");
        phone.write(words);
        phone.press("Enter");
    }
    phone.wait_for("To the job sheet", PATIENCE);
    phone.tab_to("To the job sheet");
    phone.press("Enter");
    phone.wait_for("Job sheet: parking sensors", PATIENCE);
    assert_eq!(phone.taps(), 0);
}
