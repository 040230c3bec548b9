//! What the heads will see: the map follows the slider, a place tells who
//! sees it, the weather is one switch.

use rakeline_tests::browser::{Phone, Server};
use serde_json::json;

use crate::fitter::{PATIENCE, first_screen, job_with_rings, look, saved, setup, texts};

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

    let warm = squares(&phone);
    phone.tap_named("Winter");
    phone.wait_for("Winter: ", PATIENCE);
    phone.until("the air counts", || squares(&phone) != warm);
    phone.tap_named("2");
    phone.wait_for("Aim of head 2", PATIENCE);
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
