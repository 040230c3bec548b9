//! The phone zeroed, the ground measured and four spots read on a tilted
//! vehicle, all through the browser's sensors: the result holds the truth.

use std::time::Duration;

use rakeline_tests::browser::{Attitude, Phone, Server, Shot};
use serde_json::json;

use crate::fitter::{camera_that_films, first_screen, setup, start_job, type_half_widths};

/// What this phone's seat adds to every angle, degrees: its back sits that
/// much off its own axis.
const SEAT: f64 = 2.0;
/// The vehicle stands nose up by this much, degrees.
const NOSE_UP: f64 = 3.0;
/// True face angles against the ground.
const FACES: [f64; 4] = [-5.0, -3.0, -3.0, -5.0];
/// How the wall leans.
const WALL: f64 = 0.6;

/// The back on a face of this elevation against gravity, top edge up.
fn upright(face: f64) -> Attitude {
    Attitude::back_on_face(face + SEAT)
}

/// The back on a face, top edge down.
fn upside_down(face: f64) -> Attitude {
    Attitude {
        alpha: 180.0,
        beta: -(90.0 - (face - SEAT)),
        gamma: 0.0,
    }
}

/// The screen on a face of this elevation, the seat of the screen true:
/// with the top edge up (1) or down (-1) the screen looks into the wall.
fn screen_in(face: f64, top: f64) -> Attitude {
    Attitude {
        alpha: if top > 0.0 { 180.0 } else { 0.0 },
        beta: top * (90.0 + face),
        gamma: 0.0,
    }
}

fn handle_and_hold(phone: &Phone, to: Attitude) {
    phone.carry_between_marks();
    phone.hold(to);
    phone.rest(Duration::from_millis(300));
}

#[test]
fn zeroing_ground_and_four_spots_on_a_tilted_vehicle_hold_the_truth() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    type_half_widths(&phone, "864", "864");
    phone.tap_named("Show the marks");
    phone.tap_named("Tape is on");
    phone.wait_for("Mark 1", 10);
    phone.shot("faces-rests", Shot::WholePage);
    phone.tap_named("phone not zeroed");
    phone.wait_for("Start on the wall", 10);
    phone.shot("zero-before", Shot::WholePage);
    phone.tap_named("Start on the wall");
    phone.wait_for("Reading 1 of 4", 10);
    let poses = [
        upright(WALL),
        upside_down(WALL),
        screen_in(WALL, 1.0),
        screen_in(WALL, -1.0),
    ];
    for (index, pose) in poses.into_iter().enumerate() {
        phone.wait_for(&format!("Reading {} of 4", index + 1), 15);
        handle_and_hold(&phone, pose);
        if index == 1 {
            phone.shot("zero-pose", Shot::WholePage);
        }
    }
    phone.wait_for("Two more on a table", 15);
    phone.shot("zero-after", Shot::WholePage);
    // Laid down, so that it does not read the wall as mark 1.
    phone.hold(Attitude::FACE_UP);
    phone.tap_named("To the faces");
    phone.wait_for("phone zeroed", 10);
    phone.tap_named("ground looks level");
    phone.wait_for("Measure with a board", 10);
    phone.shot("ground", Shot::WholePage);
    phone.tap_named("Measure with a board");
    for (asked, beta) in [
        ("top edge to the front", NOSE_UP - SEAT),
        ("turned end for end", -NOSE_UP - SEAT),
    ] {
        phone.wait_for(asked, 15);
        handle_and_hold(
            &phone,
            Attitude {
                alpha: 0.0,
                beta,
                gamma: 0.0,
            },
        );
    }
    phone.wait_for("nose 3.0° up", 15);
    phone.shot("ground-board", Shot::WholePage);
    phone.tap_named("To the faces");
    for (index, face) in FACES.into_iter().enumerate() {
        phone.wait_for(&format!("Mark {}", index + 1), 15);
        // Nose up: the rear faces down more against gravity.
        handle_and_hold(&phone, upright(face - NOSE_UP));
        phone.rest(Duration::from_millis(1500));
    }
    phone.wait_for("To the job sheet", 20);
    phone.shot("rings-zeroed", Shot::WholePage);
    let shown = shown_faces(&phone);
    assert_eq!(shown.len(), 4, "{shown:?}");
    for ((angle, plus), truth) in shown.into_iter().zip(FACES) {
        assert!(
            (angle - truth).abs() <= plus,
            "{angle} ± {plus}, truth {truth}"
        );
        assert!(plus < 4.0, "a zeroed phone on a board is no ± {plus}");
    }
}

/// 'faces down 5.0° ± 1.2°' of each spot, as signed figures.
fn shown_faces(phone: &Phone) -> Vec<(f64, f64)> {
    let script = "[...document.querySelectorAll('.ring .aim')].map(line => line.innerText.replaceAll('\\u00a0', ' '))";
    let lines: Vec<String> = serde_json::from_value(phone.eval(script)).expect("lines");
    let read = |line: &String| {
        let (sign, rest) = match line.split_once("faces down ") {
            Some((_, rest)) => (-1.0, rest),
            None => (1.0, line.split_once("faces up ")?.1),
        };
        let (angle, rest) = rest.split_once('°')?;
        let plus = rest.split_once("± ")?.1.split('°').next()?;
        Some((sign * angle.parse::<f64>().ok()?, plus.parse().ok()?))
    };
    lines.iter().filter_map(read).collect()
}

#[test]
fn corner_angles_and_the_camera_level_are_usable() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    type_half_widths(&phone, "864", "864");
    phone.tap_named("Show the marks");
    phone.tap_named("Tape is on");
    phone.tap_named("corner angles, roundness");
    phone.wait_for("Sweep left to right", 10);
    phone.shot("corners", Shot::WholePage);
    phone.tap_named("Sweep left to right");
    let turns = [0.0, -26.0, -5.0, 5.0, 26.0, 0.0];
    for turn in turns {
        handle_and_hold(&phone, Attitude::back_on_face(-3.0).turned(turn));
        phone.rest(Duration::from_millis(1600));
    }
    phone.wait_for("Back on the centre", 15);
    phone.shot("corners-swept", Shot::WholePage);
    phone.tap_named("To the faces");
    phone.tap_named("camera level");
    phone.wait_for("Camera level", 10);
    phone.rest(Duration::from_millis(800));
    phone.shot("level", Shot::WholePage);
}

/// Drags over the kept photo from one share of its width and height to
/// another; gives how steep that is on the screen, degrees.
fn drag_over_photo(phone: &Phone, from: [f64; 2], to: [f64; 2]) -> f64 {
    let frame = phone.eval(
        "(() => { const at = document.querySelector('.picture.kept .over');
           at.scrollIntoView({ block: 'center' });
           const box = at.getBoundingClientRect();
           return [box.left, box.top, box.width, box.height]; })()",
    );
    let side = |k: usize| frame[k].as_f64().expect("a frame");
    let on = |at: [f64; 2]| [side(0) + side(2) * at[0], side(1) + side(3) * at[1]];
    let (from, to) = (on(from), on(to));
    let send = |kind: &str, points: &[[f64; 2]]| {
        let points: Vec<_> = points
            .iter()
            .map(|[x, y]| json!({ "x": x, "y": y }))
            .collect();
        let event = json!({ "type": kind, "touchPoints": points });
        phone.cdp("Input.dispatchTouchEvent", event);
    };
    send("touchStart", &[from]);
    for step in 1..=6 {
        let share = f64::from(step) / 6.0;
        let at = [0, 1].map(|k| from[k] + (to[k] - from[k]) * share);
        send("touchMove", &[at]);
    }
    send("touchEnd", &[]);
    (from[1] - to[1]).atan2(to[0] - from[0]).to_degrees()
}

#[test]
fn the_camera_level_tells_how_far_a_line_on_a_photo_is_off_level() {
    let server = Server::start();
    let with_camera = camera_that_films("middle.jpg");
    let phone = first_screen(&server, with_camera);
    start_job(&phone);
    type_half_widths(&phone, "864", "864");
    phone.tap_named("Show the marks");
    phone.tap_named("Tape is on");
    // Upright before the vehicle, as its back would stand on an upright face.
    phone.hold(Attitude::back_on_face(0.0));
    phone.tap_named("camera level");
    phone.wait_for("Take a photo", 20);
    phone.rest(Duration::from_millis(1500));
    phone.shot("level-live", Shot::WholePage);
    phone.tap_named("Take a photo");
    phone.wait_for("Draw a line along", 15);
    phone.until("the photo is on the screen", || {
        phone.eval("(document.querySelector('.picture.kept img')?.clientHeight ?? 0) > 150")
            == json!(true)
    });
    phone.rest(Duration::from_millis(300));
    let steep = drag_over_photo(&phone, [0.15, 0.5], [0.85, 0.44]);
    phone.wait_for("high on the right", 10);
    let told = phone.eval("document.querySelector('h1').textContent");
    let told = told.as_str().expect("words");
    let figures = told.split(|c: char| !c.is_ascii_digit() && c != '.');
    let mut figures = figures.filter_map(|figure| figure.parse::<f64>().ok());
    let (angle, plus) = (figures.next(), figures.next());
    let (angle, plus) = (angle.expect("an angle"), plus.expect("its ±"));
    assert!(
        (angle - steep).abs() < 0.3,
        "{told}; on the screen {steep:.2}"
    );
    assert!(plus > 0.1 && plus < 8.0, "{told}");
    phone.shot("level-line", Shot::WholePage);
}
