//! Measuring from photos of mark cards, in a real browser: chosen, looked
//! at by the worker, solved, held against the plan, kept with the figures.

use std::path::Path;

use rakeline_tests::browser::Server;
use serde_json::json;

use crate::fitter::{PATIENCE, first_screen, look, saved, setup, texts};

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
