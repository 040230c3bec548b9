//! The quick path: from the first screen to the last ring set.

use std::time::Duration;

use rakeline_tests::browser::{Phone, PhoneSetup, Server, Shot};

/// Face angles of the four spots in these journeys, degrees.
pub const FACES: [f64; 4] = [-5.9, -4.4, -4.1, -6.0];
/// Most taps of the quick path, typing apart.
const MOST_TAPS: u32 = 8;

/// A phone with the app's first screen.
pub fn first_screen(server: &Server) -> Phone {
    let phone = Phone::open(server, PhoneSetup::default());
    phone.goto("/");
    phone.wait_for("Start a job", 20);
    phone
}

/// Types the two half widths of a bumper.
pub fn type_half_widths(phone: &Phone, left: &str, right: &str) {
    phone.type_into("Left", left);
    phone.type_into("Right", right);
}

/// Holds the phone against each face in turn; it advances by itself.
pub fn read_all_faces(phone: &Phone, faces: &[f64]) {
    for (index, rake) in faces.iter().enumerate() {
        phone.wait_for(&format!("Mark {}", index + 1), 10);
        phone.carry_between_marks();
        phone.hold_at_face(*rake);
    }
    phone.wait_for("Ring", 15);
}

#[test]
fn from_the_first_screen_to_the_last_ring_set_in_few_taps() {
    let server = Server::start();
    let phone = first_screen(&server);
    phone.shot("jobs-empty", Shot::WholePage);
    phone.tap_named("Start a job");
    phone.wait_for("Centre line to outer edge", 5);
    phone.shot("measures-empty", Shot::WholePage);
    type_half_widths(&phone, "864", "864");
    phone.shot("measures", Shot::WholePage);
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", 5);
    phone.shot("marks", Shot::WholePage);
    phone.tap_named("Tape is on, read the faces");
    phone.wait_for("Mark 1", 5);
    phone.hold_at_face(FACES[0]);
    phone.rest(Duration::from_millis(500));
    phone.shot("faces-reading", Shot::WholePage);
    phone.wait_for("Mark 2", 10);
    phone.shot("faces-taken", Shot::WholePage);
    for rake in &FACES[1..] {
        phone.carry_between_marks();
        phone.hold_at_face(*rake);
        phone.rest(Duration::from_millis(2500));
    }
    phone.wait_for("To the job sheet", 15);
    phone.shot("rings", Shot::WholePage);
    assert!(
        phone.taps() <= MOST_TAPS,
        "the quick path took {} taps",
        phone.taps()
    );
    phone.tap_named("To the job sheet");
    phone.wait_for("Job sheet: parking sensors", 5);
    phone.shot("sheet", Shot::WholePage);
}
