//! The pictures of the README, of the sample job: small, as on the screen.

use rakeline_tests::browser::{Phone, PhoneSetup, Server, Shot};

use crate::fitter::{FACES, PATIENCE, at_mark, read_faces, saved, setup};

#[test]
fn the_sample_job_sits_for_the_readme() {
    let server = Server::start();
    let phone = Phone::open(
        &server,
        PhoneSetup {
            scale: 1.0,
            ..setup()
        },
    );
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    saved(&phone);
    phone.shot("readme-marks", Shot::Screen);
    phone.tap_named("Tape is on, read the faces");
    at_mark(&phone, 1);
    read_faces(&phone, 1, &FACES[..2]);
    at_mark(&phone, 3);
    phone.carry_between_marks();
    phone.hold_trembling(FACES[2], 0.4);
    phone.wait_for("Reading, hold still", PATIENCE);
    phone.shot("readme-faces", Shot::Screen);
    read_faces(&phone, 4, &FACES[3..]);
    phone.wait_for("To the job sheet", PATIENCE);
    phone.shot("readme-rings", Shot::Screen);
    phone.tap_named("To the job sheet");
    phone.wait_for("Job sheet: parking sensors", PATIENCE);
    phone.eval("scrollTo(0, document.querySelector('.paper-sheet').offsetTop - 8)");
    phone.shot("readme-sheet", Shot::Screen);
}
