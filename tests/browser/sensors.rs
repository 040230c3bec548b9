//! Sensors that are missing, refused or kept back: each says what to do, and
//! typing leads to the end.

use rakeline_tests::browser::{PhoneSetup, SensorState, Server};

use crate::fitter::{
    FACES, PATIENCE, first_screen, job_at_first_mark, look, on_face, read_faces, setup,
    type_face_down, verdicts, with_sensors,
};

#[test]
fn without_a_sensor_a_gauge_leads_to_the_end() {
    let server = Server::start();
    let phone = first_screen(&server, with_sensors(SensorState::Missing));
    job_at_first_mark(&phone);
    phone.wait_for("This phone gives no motion reading", PATIENCE);
    phone.wait_for("digital angle gauge", PATIENCE);
    look(&phone, "faces-no-sensor");
    for (mark, angle) in [(1, "4.6"), (2, "4.4"), (3, "4.4")] {
        type_face_down(&phone, mark, angle);
    }
    type_face_down(&phone, 4, "25");
    phone.wait_for("To the job sheet", PATIENCE);
    let verdicts = verdicts(&phone);
    assert!(verdicts[0].ends_with("sure"), "{verdicts:?}");
    assert!(verdicts[3].contains("cannot be served"), "{verdicts:?}");
    look(&phone, "rings-sure-and-none");
    // What the browser says itself of a sensor that is not there.
    phone.forgive("sensor");
}

#[test]
fn a_refused_permission_says_where_to_allow_it() {
    let server = Server::start();
    let phone = first_screen(&server, with_sensors(SensorState::Refused));
    job_at_first_mark(&phone);
    phone.wait_for("not allowed for this page", PATIENCE);
    phone.wait_for("browser's settings", PATIENCE);
    look(&phone, "faces-refused");
    // Allowed after all, as the message says.
    phone.set_sensors(on_face(FACES[0]));
    phone.reload();
    phone.wait_for("Read the face", PATIENCE);
    phone.tap_named("Read the face");
    read_faces(&phone, 1, &FACES[..1]);
    phone.wait_for("Mark 2: back of the phone", PATIENCE);
}

#[test]
fn a_page_that_is_not_secure_says_where_to_open_it() {
    let server = Server::start();
    let setup = PhoneSetup {
        insecure: true,
        ..setup()
    };
    let phone = first_screen(&server, setup);
    job_at_first_mark(&phone);
    phone.wait_for("secure pages only", PATIENCE);
    look(&phone, "faces-insecure");
    type_face_down(&phone, 1, "5.9");
    phone.wait_for("Mark 2: back of the phone", PATIENCE);
}
