//! The mark-out by hand: areas to keep clear of, plans to pick, dragging,
//! locks, undo, and the check before the drill.

use std::time::Duration;

use rakeline_tests::browser::{Phone, Server};
use serde_json::json;

use crate::fitter::{PATIENCE, first_screen, look, setup, start_job, type_half_widths};

fn marked_out(server: &Server, left: &str, right: &str) -> Phone {
    let phone = first_screen(server, setup());
    start_job(&phone);
    type_half_widths(&phone, left, right);
    phone.tap_named("Show the marks");
    phone
}

/// The big figures of the marks, left to right.
fn marks(phone: &Phone) -> Vec<String> {
    let script = "[...document.querySelectorAll('.marks tr')].map(r => r.innerText.replace(/\\s+/g, ' ').trim())";
    serde_json::from_value(phone.eval(script)).expect("rows of marks")
}

/// Drags from one point of the page to another, as a finger does.
fn drag(phone: &Phone, from: (f64, f64), to: (f64, f64)) {
    let point = |kind: &str, x: f64, y: f64| {
        let points = if kind == "touchEnd" {
            json!([])
        } else {
            json!([{ "x": x, "y": y }])
        };
        phone.cdp(
            "Input.dispatchTouchEvent",
            json!({ "type": kind, "touchPoints": points }),
        );
    };
    point("touchStart", from.0, from.1);
    for step in 1..=10 {
        let share = f64::from(step) / 10.0;
        point(
            "touchMove",
            from.0 + (to.0 - from.0) * share,
            from.1 + (to.1 - from.1) * share,
        );
    }
    point("touchEnd", to.0, to.1);
}

/// Drags as a mouse does, with its left button held.
fn drag_by_mouse(phone: &Phone, from: (f64, f64), to: (f64, f64)) {
    let mouse = |kind: &str, x: f64, y: f64, buttons: u32| {
        phone.cdp(
            "Input.dispatchMouseEvent",
            json!({ "type": kind, "x": x, "y": y, "button": "left",
                    "buttons": buttons, "clickCount": 1, "pointerType": "mouse" }),
        );
    };
    mouse("mousePressed", from.0, from.1, 1);
    // The press is told to the page before the mouse moves on.
    phone.rest(Duration::from_millis(300));
    for step in 1..=10 {
        let share = f64::from(step) / 10.0;
        mouse(
            "mouseMoved",
            from.0 + (to.0 - from.0) * share,
            from.1 + (to.1 - from.1) * share,
            1,
        );
    }
    mouse("mouseReleased", to.0, to.1, 0);
}

/// Centre of the tape cross of a spot, in page pixels.
fn cross(phone: &Phone, spot: usize) -> (f64, f64) {
    let script = format!(
        "(() => {{ const r = document.querySelectorAll('.drag-sheet .tape')[{}].getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]; }})()",
        2 * spot
    );
    let at: [f64; 2] = serde_json::from_value(phone.eval(&script)).expect("a cross");
    (at[0], at[1])
}

#[test]
fn an_area_to_keep_clear_of_moves_the_marks() {
    let server = Server::start();
    let phone = marked_out(&server, "864", "864");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone)[2], "3 228 right");
    phone.tap_named("Measures");
    phone.tap_named("Plate, lamps, tow hitch, old holes");
    phone.type_into("From", "-90");
    phone.type_into("To", "L 400");
    phone.tap_named("Keep clear of it");
    phone.wait_for("Type the left end first", PATIENCE);
    look(&phone, "keep-clear-reversed");
    phone.type_into("To", "L 150");
    phone.type_into("From", "-400");
    phone.tap_named("Keep clear of it");
    phone.wait_for("One area to keep clear of", PATIENCE);
    phone.tap_named("Show the marks again");
    phone.wait_for("Solve all marks again", PATIENCE);
    look(&phone, "marks-in-area");
    phone.tap_named("Solve all marks again");
    phone.wait_gone("Solve all marks again", PATIENCE);
    assert_ne!(marks(&phone)[1], "2 228 left");
}

#[test]
fn a_mark_is_dragged_locked_and_the_rest_solved_again() {
    let server = Server::start();
    let phone = marked_out(&server, "864", "864");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Move a mark");
    phone.wait_for("Done moving", PATIENCE);
    look(&phone, "marks-moving");
    let from = cross(&phone, 2);
    drag(&phone, from, (from.0 + 7.0, from.1));
    phone.wait_for("Moved by hand", PATIENCE);
    phone.wait_for("Mark 3:", PATIENCE);
    let text = phone.text();
    let line = text
        .lines()
        .find(|line| line.starts_with("Mark 3:"))
        .expect("the chosen mark");
    let at: f64 = line
        .split_whitespace()
        .nth(2)
        .and_then(|mm| mm.parse().ok())
        .expect("a figure");
    assert!(at > 240.0 && at < 300.0, "{line}");
    phone.tap_named("Lock this mark");
    phone.wait_for("Unlock this mark", PATIENCE);
    phone.tap_named("Solve the marks that are not locked");
    phone.wait_gone("Moved by hand", PATIENCE);
    phone.tap_named("Done moving");
    phone.wait_for("Tape is on", PATIENCE);
    let solved = marks(&phone);
    assert_eq!(solved[2], format!("3 {at:.0} right"));
    phone.tap_named("Undo");
    phone.tap_named("Undo");
    phone.tap_named("Undo");
    phone.wait_for("228", PATIENCE);
    assert_eq!(marks(&phone)[2], "3 228 right");
}

#[test]
fn a_bumper_without_marks_names_what_could_give_and_one_tap_lets_it() {
    let server = Server::start();
    let phone = marked_out(&server, "864", "864");
    phone.wait_for("Tape is on", 10);
    phone.tap_named("Measures");
    phone.tap_named("Plate, lamps, tow hitch, old holes");
    phone.type_into("From", "-290");
    phone.type_into("To", "290");
    phone.tap_named("Keep clear of it");
    // 290 and the hole's radius of 10.5 and the clearance of 6, whole.
    phone.wait_for("Inner heads within 307 mm for this job", 10);
    look(&phone, "measures-impossible");
    phone.tap_named("Inner heads within 307 mm for this job");
    phone.wait_gone("Inner heads within 307 mm for this job", 10);
    phone.tap_named("Show the marks again");
    phone.wait_for("Solve all marks again", 10);
    phone.tap_named("Solve all marks again");
    phone.wait_gone("Solve all marks again", 10);
    assert_eq!(marks(&phone)[2], "3 307 right");
}

#[test]
fn a_wide_bumper_asks_for_a_pick_and_one_tap_takes_it() {
    let server = Server::start();
    let phone = marked_out(&server, "1150", "1150");
    phone.wait_for("Pick a mark-out", PATIENCE);
    look(&phone, "marks-pick");
    phone.tap_named("Take 'As wide as it goes'");
    phone.wait_for("Tape is on", PATIENCE);
    assert_eq!(marks(&phone)[3], "4 970 right");
}

#[test]
fn the_tape_read_back_says_ready_or_by_how_much_it_is_off() {
    let server = Server::start();
    let phone = marked_out(&server, "864", "864");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Check");
    phone.wait_for("Tape read back", PATIENCE);
    phone.type_into("Tape at 1", "684");
    phone.type_into("Tape at 2", "228");
    phone.type_into("Tape at 3", "233");
    phone.type_into("Tape at 4", "684");
    phone.wait_for("5 mm off", PATIENCE);
    look(&phone, "check-off");
    phone.type_into("Tape at 3", "229");
    // No row was typed: no word of the height as if it were checked.
    phone.wait_for("Ready left to right: the height is not checked", PATIENCE);
    phone.tap_named("Marks are checked");
    phone.wait_for("Checked left to right. The height is not", PATIENCE);
    phone.tap_named("Mark 1 is seen from behind and clear");
    phone.type_into("Who agrees", "R. Fell");
    phone.tap_named("By phone");
    phone.wait_for("R. Fell agreed", PATIENCE);
    look(&phone, "check-done");
    phone.reload();
    phone.wait_for("R. Fell agreed", PATIENCE);
}

#[test]
fn a_mark_is_dragged_with_a_mouse() {
    let server = Server::start();
    let phone = marked_out(&server, "864", "864");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Move a mark");
    phone.wait_for("Done moving", PATIENCE);
    let from = cross(&phone, 2);
    drag_by_mouse(&phone, from, (from.0 + 7.0, from.1));
    phone.wait_for("Moved by hand", PATIENCE);
    phone.tap_named("Done moving");
    phone.wait_for("Tape is on", PATIENCE);
    let moved = marks(&phone);
    assert_ne!(moved[2], "3 228 right");
    assert_eq!(moved[1], "2 228 left", "the others stay");
    phone.tap_named("Undo");
    phone.until("the mark is back", || marks(&phone)[2] == "3 228 right");
}

#[test]
fn how_it_was_measured_stands_on_the_marks_and_in_the_drawing() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    phone.tap_named("Where the centre line is");
    phone.type_into("Full width", "864");
    phone.wait_for("864 mm looks like half a width", PATIENCE);
    phone.type_into("Full width", "1728");
    phone.tap_named("Halve it");
    phone.wait_for("Centre line: half of the full width", PATIENCE);
    assert_eq!(phone.typed("Left"), "864");
    assert_eq!(phone.typed("Right"), "864");
    phone.tap_named("Height of the row");
    phone.tap_named("the swage line");
    phone.type_into("From the line", "-70");
    phone.tap_named("Keep this height");
    phone.wait_for("70 mm below the swage line", PATIENCE);
    look(&phone, "measures-centre-and-row");
    phone.tap_named("Show the marks");
    phone.wait_for("Tape is on", PATIENCE);
    phone.wait_for("70 mm below the swage line", PATIENCE);
    let drawn =
        phone.eval("[...document.querySelectorAll('svg.drawing text')].map((e) => e.textContent)");
    let drawn: Vec<String> = serde_json::from_value(drawn).expect("the drawing's texts");
    for figure in ["684", "228", "456", "180", "864", "70"] {
        assert!(
            drawn.iter().any(|text| text == figure),
            "{figure}: {drawn:?}"
        );
    }
    look(&phone, "marks-dimensioned");
}

#[test]
fn a_limit_of_the_check_is_changed_for_the_job_and_back() {
    let server = Server::start();
    let phone = marked_out(&server, "864", "864");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Check");
    phone.wait_for("A mark may be 2.0 mm off", PATIENCE);
    phone.tap_named("Limits of this check");
    phone.type_into("A mark may be off", "90");
    phone.wait_for("outside 0.5 to 15.0 mm", PATIENCE);
    phone.type_into("A mark may be off", "1");
    phone.tap_nth("Change", 0);
    phone.wait_for("the app says 2.0 mm", PATIENCE);
    look(&phone, "check-limits");
    phone.tap_named("Back to the app's limits");
    phone.wait_gone("the app says 2.0 mm", PATIENCE);
}
