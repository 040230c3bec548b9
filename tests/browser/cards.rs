//! Measuring from photos of mark cards, in a real browser: chosen, looked
//! at by the worker, solved, held against the plan, kept with the figures.

use std::path::Path;
use std::time::Duration;

use rakeline_tests::browser::{Attitude, Server, Shot};
use serde_json::json;

use crate::fitter::{PATIENCE, camera_that_films, first_screen, look, saved, setup, texts};

#[test]
fn the_live_view_names_the_cards_and_keeps_a_picture_that_is_measured_on() {
    let server = Server::start();
    let with_camera = camera_that_films("middle.jpg");
    let phone = first_screen(&server, with_camera);
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    let here = phone.eval("location.pathname");
    let here = here.as_str().expect("a path").replace("/marks", "/cards");
    phone.goto(&here);
    phone.wait_for("Stick a card on each mark", PATIENCE);
    phone.tap_named("Live view that names the cards it sees");
    phone.wait_for("Now from the left", PATIENCE);
    phone.wait_for("Card 1: good", 4 * PATIENCE);
    phone.hold(Attitude::back_on_face(0.0));
    phone.rest(Duration::from_millis(1_500));
    // The letters over the picture have a light edge of their own.
    phone.shot("cards-guide", Shot::WholePage);
    phone.tap_named("Keep this picture");
    phone.wait_for("Photo 1", 4 * PATIENCE);
    phone.wait_for("Now from the middle", PATIENCE);
    phone.until("the figures are there", || {
        texts(&phone, ".candidates li")
            .iter()
            .any(|line| line.contains("through the air"))
    });
    phone.tap_named("Close live view");
    saved(&phone);
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn three_photos_give_distances_that_are_kept_with_the_check() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.hold_pictures();
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    phone.eval(
        "[...document.querySelectorAll('.path button')].find(b => b.textContent.includes('Check')).click()",
    );
    phone.wait_for("Measure from photos", PATIENCE);
    phone.eval(
        "[...document.querySelectorAll('main button')].find(b => b.textContent === 'Measure from photos').click()",
    );
    phone.wait_for("Stick a card on each mark", PATIENCE);
    look(&phone, "cards-empty");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/photo");
    for (index, name) in ["left.jpg", "middle.jpg", "right.jpg"].iter().enumerate() {
        phone.tap_named("Choose a photo");
        phone.give_picture(&folder.join(name));
        phone.wait_for(&format!("Photo {}", index + 1), 4 * PATIENCE);
    }
    phone.until("the figures are there", || {
        texts(&phone, ".candidates li")
            .iter()
            .any(|line| line.contains("through the air"))
    });
    saved(&phone);
    look(&phone, "cards-measured");
    phone.eval("[...document.querySelectorAll('.thumb button')].find(b => b.textContent.startsWith('Larger')).click()");
    look(&phone, "cards-large");
    phone.eval("[...document.querySelectorAll('.thumb button')].find(b => b.textContent === 'Keep it with the figures').click()");
    phone.wait_for("Kept for the check and the job sheet", PATIENCE);
    phone.reload();
    phone.wait_for("through the air", PATIENCE);
    assert_eq!(
        phone.eval("document.querySelectorAll('figure.thumb').length"),
        json!(3)
    );
    assert_eq!(phone.errors(), Vec::<String>::new());
}
