//! What was shown as saved is there again: after a reload, a kill, a start
//! without the server.

use rakeline_tests::browser::Server;

use crate::fitter::{
    FACES, MARKS, PATIENCE, at_mark, first_screen, job_at_first_mark, job_with_marks,
    job_with_rings, marks, path, read_faces, saved, setup, verdicts,
};

#[test]
fn a_reload_loses_nothing() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_with_rings(&phone);
    saved(&phone);
    let before = verdicts(&phone);
    phone.reload();
    phone.wait_for("To the job sheet", PATIENCE);
    assert_eq!(verdicts(&phone), before);
    phone.tap_named("Marks");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone), MARKS);
}

#[test]
fn a_killed_browser_loses_nothing_that_was_saved() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_at_first_mark(&phone);
    read_faces(&phone, 1, &FACES[..2]);
    at_mark(&phone, 3);
    saved(&phone);
    phone.kill();
    phone.goto("/");
    phone.wait_for("2 of 4 faces read", PATIENCE);
    phone.tap_named("Job of");
    phone.wait_for("Read the face", PATIENCE);
    phone.tap_named("Read the face");
    read_faces(&phone, 3, &FACES[2..]);
    phone.wait_for("To the job sheet", PATIENCE);
    assert_eq!(verdicts(&phone).len(), FACES.len());
}

#[test]
fn a_second_start_needs_no_server() {
    let mut server = Server::start();
    let phone = first_screen(&server, setup());
    job_with_marks(&phone);
    saved(&phone);
    let job = path(&phone);
    phone.until("the app is kept on the phone", || {
        phone.eval("navigator.serviceWorker.ready.then((r) => r.active.state)") == "activated"
    });
    server.stop();
    phone.relaunch();
    // Straight to the job, as from a bookmark, then the list.
    phone.goto(&job);
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone), MARKS);
    phone.goto("/");
    phone.wait_for("0 of 4 faces read", PATIENCE);
    // What the browser says itself of the search for a new version.
    phone.forgive("sw.js");
}
