//! The harness itself: a phone must see what is wrong.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::Duration;

use rakeline_tests::browser::{Attitude, Phone, PhoneSetup, SensorState, Server, Shot};

fn server() -> Server {
    Server::of_files(&[
        ("/", include_str!("../fixtures/harness/index.html")),
        ("/worker.js", include_str!("../fixtures/harness/worker.js")),
    ])
}

fn open(server: &Server) -> Phone {
    let patience = Duration::from_millis(400);
    let setup = PhoneSetup {
        patience,
        ..PhoneSetup::default()
    };
    let phone = Phone::open(server, setup);
    phone.goto("/");
    phone
}

/// What a step fails with.
fn failure(step: impl FnOnce()) -> String {
    let caught = catch_unwind(AssertUnwindSafe(step)).expect_err("the step fails");
    caught.downcast_ref::<String>().cloned().unwrap_or_default()
}

fn figures(phone: &Phone, name: &str) -> Vec<f64> {
    serde_json::from_value(phone.eval(&format!("window.{name}"))).expect("figures")
}

/// Waits until the page's sensor shows these figures: each of its sources
/// reports in its own time.
fn comes_near(phone: &Phone, name: &str, expected: &[f64], tolerance: f64) {
    let near = || {
        let shown = figures(phone, name);
        let off = |(figure, expected): (&f64, &f64)| (figure - expected).abs();
        shown.len() == expected.len()
            && shown
                .iter()
                .zip(expected)
                .all(|pair| off(pair) <= tolerance)
    };
    let until = std::time::Instant::now() + Duration::from_secs(5);
    while !near() && std::time::Instant::now() < until {
        phone.rest(Duration::from_millis(50));
    }
    assert_near(&figures(phone, name), expected, tolerance);
}

fn assert_near(figures: &[f64], expected: &[f64], tolerance: f64) {
    assert_eq!(figures.len(), expected.len());
    for (figure, expected) in figures.iter().zip(expected) {
        assert!((figure - expected).abs() <= tolerance, "{figures:?}");
    }
}

#[test]
fn every_sensor_says_how_the_phone_is_held() {
    let server = server();
    let phone = open(&server);
    phone.hold_at_face(-4.2);
    phone.wait_for("orientation 0,94.2,0", 10);
    // 9.80665 (cos 4.2, -sin 4.2), rounded by the browser to 0.1.
    phone.wait_for("motion 0,9.8,-0.7", 10);
    let half: f64 = 94.2_f64.to_radians() / 2.0;
    comes_near(&phone, "turned", &[half.sin(), 0.0, 0.0, half.cos()], 0.002);

    phone.set_orientation(130.0, 60.0, -20.0);
    phone.wait_for("orientation 130,60,-20", 10);
    let up = [
        -60_f64.to_radians().cos() * (-20_f64).to_radians().sin(),
        60_f64.to_radians().sin(),
        60_f64.to_radians().cos() * 20_f64.to_radians().cos(),
    ];
    comes_near(&phone, "gravity", &up.map(|u| u * 9.80665), 0.051);
    let quaternion = Attitude {
        alpha: 130.0,
        beta: 60.0,
        gamma: -20.0,
    }
    .quaternion();
    comes_near(&phone, "turned", &quaternion, 0.002);

    phone.reload();
    phone.wait_for("orientation 130,60,-20", 10);
}

#[test]
fn a_still_phone_is_silent_and_a_moved_one_is_not() {
    let server = server();
    let phone = open(&server);
    let events = || {
        phone
            .eval("window.seen.orientation")
            .as_u64()
            .unwrap_or_default()
    };
    phone.hold_at_face(3.0);
    phone.wait_for("orientation 0,87,0", 10);
    let before = events();
    phone.rest(Duration::from_millis(500));
    assert_eq!(events(), before);
    phone.hold_trembling(3.0, 0.5);
    assert!(events() > before + 5, "{} after {before}", events());
    let before = events();
    phone.carry_between_marks();
    assert!(events() > before + 5, "{} after {before}", events());
}

#[test]
fn missing_and_refused_sensors_differ() {
    let server = server();
    let phone = open(&server);
    phone.sensor_missing();
    phone.goto("/");
    phone.wait_for("NotReadableError", 10);
    phone.wait_for("orientation ,,", 10);
    phone.sensor_refused();
    phone.goto("/");
    phone.wait_for("NotAllowedError", 10);
    phone.set_sensors(SensorState::Held(Attitude::back_on_face(2.0)));
    phone.goto("/");
    phone.wait_for("orientation 0,88,0", 10);
}

#[test]
fn a_finger_needs_a_free_target_of_48_px() {
    let server = server();
    let phone = open(&server);
    phone.tap_named("Count");
    phone.tap_named("Far");
    phone.tap_nth("Twin", 1);
    phone.wait_for("taps 3,", 10);
    assert_eq!(phone.taps(), 3);
    assert!(failure(|| phone.tap_named("Small")).contains("a finger needs 48"));
    assert!(failure(|| phone.tap_named("Under")).contains("cannot be touched"));
    assert!(failure(|| phone.tap_named("Off")).contains("disabled"));
    assert!(failure(|| phone.tap_named("Twin")).contains("say which"));
    assert!(failure(|| phone.tap_named("Nowhere")).contains("nothing called"));
    assert!(failure(|| phone.wait_for("no such text", 0)).contains("does not come"));
    assert_eq!(phone.taps(), 3);
}

#[test]
fn typing_replaces_and_enter_is_a_key() {
    let server = server();
    let phone = open(&server);
    phone.type_into("Half width", "950");
    phone.type_into("Half width", "880");
    phone.wait_for("typed 880", 10);
    phone.press("Enter");
    phone.wait_for("typed 880 entered", 10);
    phone.type_into("Half width", "");
    assert_eq!(phone.typed("Half width"), "");
    assert_eq!(phone.taps(), 0);
}

#[test]
fn a_broken_page_fails_its_test() {
    let server = server();
    let phone = open(&server);
    phone.tap_named("Break");
    phone.expect_error("broken on purpose");
    phone.eval("console.error('said on purpose')");
    phone.expect_error("said on purpose");
    phone.tap_named("Break");
    let text = failure(|| drop(phone));
    assert!(text.contains("broken on purpose"), "{text}");
}

#[test]
fn a_kept_page_starts_without_its_server_after_a_kill() {
    let mut server = server();
    let phone = open(&server);
    phone.wait_for("secure true, kept", 10);
    server.stop();
    phone.kill();
    phone.goto("/");
    phone.wait_for("secure true", 10);
    // What was stored just before a kill may be lost, but not before a close.
    let started = |phone: &Phone| phone.eval("Number(localStorage.started)").as_u64();
    let before = started(&phone).expect("a count");
    phone.relaunch();
    phone.goto("/");
    assert_eq!(started(&phone), Some(before + 1));
    server.start_again();
    phone.reload();
}

#[test]
fn print_hides_what_is_only_for_the_screen() {
    let server = server();
    let phone = open(&server);
    assert!(phone.has("only on the screen"));
    phone.media("print");
    assert!(!phone.has("only on the screen"));
    let pdf = phone.print_pdf("harness");
    assert!(pdf.starts_with(b"%PDF-"));
    phone.media("");
    assert!(phone.has("only on the screen"));
    assert!(phone.shot("harness", Shot::WholePage) > phone.shot("harness", Shot::Screen));
}

#[test]
fn another_host_is_no_secure_context() {
    let server = server();
    let phone = Phone::open(
        &server,
        PhoneSetup {
            insecure: true,
            ..PhoneSetup::default()
        },
    );
    phone.goto("/");
    phone.wait_for("secure false", 10);
}
