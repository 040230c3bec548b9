//! What the heads will see: the map follows the slider, a place tells who
//! sees it, the weather is one switch.

use std::time::Duration;

use rakeline_tests::browser::{Phone, Server};
use serde_json::json;

use crate::fitter::{PATIENCE, first_screen, job_with_rings, look, path, saved, setup, texts};

/// The squares on the picture from above.
fn squares(phone: &Phone) -> String {
    let path = phone.eval(
        "[...document.querySelectorAll('.asking')[0].querySelectorAll('path.squares')]\
         .map((path) => path.getAttribute('d')).join()",
    );
    path.as_str().unwrap_or_default().to_owned()
}

/// Touches the picture at this share of its width and height.
fn touch(phone: &Phone, picture: usize, across: f64, down: f64) {
    press(phone, picture, [across, down], Duration::ZERO);
}

/// Lays a finger on the picture and leaves it there for a while.
fn hold(phone: &Phone, picture: usize, across: f64, down: f64) {
    press(phone, picture, [across, down], Duration::from_millis(900));
}

fn press(phone: &Phone, picture: usize, [across, down]: [f64; 2], how_long: Duration) {
    let place = phone.eval(&format!(
        "(() => {{ const at = document.querySelectorAll('.asking')[{picture}];
           at.scrollIntoView({{ block: 'center' }});
           const box = at.getBoundingClientRect();
           return [box.left + box.width * {across}, box.top + box.height * {down}]; }})()"
    ));
    let point = json!([{ "x": place[0], "y": place[1] }]);
    phone.cdp(
        "Input.dispatchTouchEvent",
        json!({ "type": "touchStart", "touchPoints": point }),
    );
    phone.rest(how_long);
    phone.cdp(
        "Input.dispatchTouchEvent",
        json!({ "type": "touchEnd", "touchPoints": [] }),
    );
}

#[test]
fn the_map_follows_the_aim_slider_and_tells_of_a_place() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_with_rings(&phone);
    phone.tap_named("What it will see");
    phone.wait_for("of the squares", PATIENCE);
    look(&phone, "sight");
    let before = squares(&phone);
    assert!(before.len() > 200);

    phone.eval("document.querySelector('#tilt').focus()");
    for _ in 0..5 {
        phone.press("ArrowLeft");
    }
    phone.wait_for("5° lower", PATIENCE);
    phone.wait_for("stronger than pointing level", PATIENCE);
    phone.until("the map follows", || squares(&phone) != before);
    look(&phone, "sight-lower");

    touch(&phone, 0, 0.55, 0.4);
    phone.wait_for("dB", PATIENCE);
    phone.until("each head answers", || {
        texts(&phone, ".note-box li").len() == 4
    });
    let told = texts(&phone, ".note-box li").join("\n");
    assert!(told.contains("sees it"), "{told}");
    touch(&phone, 1, 0.5, 0.5);
    phone.until("the place from the side is told", || {
        texts(&phone, ".note-box li").join("\n") != told
    });

    // A finger that stays: the same, and it needs no second one.
    hold(&phone, 0, 0.55, 0.6);
    phone.until("the held place is told by head and decibels", || {
        let told = texts(&phone, ".note-box li");
        let head = |line: &&String| line.starts_with("Head ") && line.contains(" dB ");
        told.len() == 4 && told.iter().filter(head).count() >= 2
    });
    look(&phone, "sight-held");

    let warm = squares(&phone);
    phone.tap_named("Winter");
    phone.wait_for("Winter: ", PATIENCE);
    phone.until("the air counts", || squares(&phone) != warm);
    phone.tap_named("2");
    phone.wait_for("Aim of head 2", PATIENCE);
    phone.wait_for("Mark 2:", PATIENCE);
    let there = squares(&phone);
    let place = texts(&phone, ".says");
    phone.tap_named("10 mm left");
    phone.until("the mark moves", || texts(&phone, ".says") != place);
    phone.until("the map follows the mark", || squares(&phone) != there);
    look(&phone, "sight-moved");
    phone.tap_nth("Undo", 0);
    phone.until("it is back", || texts(&phone, ".says") == place);
    phone.until("so is the map", || squares(&phone) == there);
    phone.tap_named("Tow ball");
    phone.type_into("Its middle behind the bumper", "260");
    phone.type_into("Its middle above the ground", "480");
    phone.wait_for("zone shift", PATIENCE);
    look(&phone, "sight-tow-ball");
    saved(&phone);
    phone.tap_named("Back to the ring sets");
    phone.tap_named("To the job sheet");
    phone.wait_for("Not on the customer's page", PATIENCE);
    phone.wait_for("of the squares", PATIENCE);
    look(&phone, "sheet-workshop");
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn the_map_and_the_search_for_a_fault_stand_in_every_look() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    for name in ["Paper", "Dark", "Sunlight"] {
        phone.goto("/settings");
        phone.wait_for("Head of the job sheet", PATIENCE);
        phone.tap_named(name);
        phone.goto("/?sample");
        phone.wait_for("Tape is on", PATIENCE);
        let marks = path(&phone);
        let name = name.to_lowercase();
        phone.goto(&marks.replace("/marks", "/sight"));
        phone.wait_for("of the squares", PATIENCE);
        // The patterns, not colours, tell what is seen: ink on paper.
        let ink = "getComputedStyle(document.querySelector('.hatch')).stroke";
        let paper = "getComputedStyle(document.querySelector('.drawing')).backgroundColor";
        assert_ne!(phone.eval(ink), phone.eval(paper), "{name}");
        look(&phone, &format!("{name}-sight"));
        phone.goto(&marks.replace("/marks", "/fault"));
        phone.wait_for("What does it do?", PATIENCE);
        phone.eval(
            "[...document.querySelectorAll('button[aria-pressed=false]')]\
             .find((one) => one.innerText.trim() === 'Sounds for the ground')?.click()",
        );
        phone.wait_for("Causes, the likeliest first", PATIENCE);
        look(&phone, &format!("{name}-fault"));
    }
    // After a page opened by its address no finger was on the screen yet.
    phone.forgive("navigator.vibrate");
    assert_eq!(phone.errors(), Vec::<String>::new());
}
