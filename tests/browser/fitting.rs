//! The fitting: a photo of the look behind, an open drill plan, the head with
//! its arrow up, a ring by hand, parts, the quote on paper, what to buy again.

use std::fs;
use std::path::{Path, PathBuf};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use rakeline_tests::browser::{Phone, Server};
use serde_json::json;

use crate::fitter::{
    PATIENCE, first_screen, job_at_first_mark, look, saved, setup, texts, type_face_down,
};
use crate::kit_full::{give_file, give_opened};

/// A picture as a camera writes it, with a place in it.
fn camera_file(phone: &Phone, name: &str) -> PathBuf {
    let shot = phone.cdp("Page.captureScreenshot", json!({ "format": "jpeg" }));
    let mut bytes = STANDARD
        .decode(shot["data"].as_str().expect("a picture"))
        .expect("base64");
    let exif = b"Exif\0\0MM\0\x2A\0\0\0\x08\0\0\0\0\0\0GPS 54.4609 -3.0886";
    let length = u16::try_from(exif.len() + 2).expect("short");
    let mut block = vec![0xFF, 0xE1];
    block.extend(length.to_be_bytes());
    block.extend(exif);
    bytes.splice(2..2, block);
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../target/downloads")
        .join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(&path, bytes).unwrap();
    path.canonicalize().unwrap()
}

/// Whether any kept picture still holds this text.
fn kept_pictures_hold(phone: &Phone, text: &str) -> (u64, bool) {
    let script = format!(
        "(async () => {{
           const root = await navigator.storage.getDirectory();
           const folder = await root.getDirectoryHandle('blobs');
           let count = 0, found = false;
           for await (const file of folder.values()) {{
             count++;
             const bytes = new Uint8Array(await (await file.getFile()).arrayBuffer());
             found ||= new TextDecoder('latin1').decode(bytes).includes({});
           }}
           return [count, found];
         }})()",
        json!(text)
    );
    serde_json::from_value(phone.eval(&script)).expect("pictures")
}

/// A job whose faces are typed, all sure enough to drill.
fn faces_typed(phone: &Phone) {
    job_at_first_mark(phone);
    for (index, angle) in ["5.5", "4.0", "4.0", "5.5"].into_iter().enumerate() {
        type_face_down(phone, index + 1, angle);
    }
    phone.wait_for("To the job sheet", PATIENCE);
}

fn thumbs(phone: &Phone) -> u64 {
    let shown =
        "[...document.querySelectorAll('.thumb img')].filter((i) => i.naturalWidth > 0).length";
    phone.eval(shown).as_u64().expect("a count")
}

#[test]
fn a_photo_of_the_look_behind_is_kept_without_its_place_and_comes_back_with_undo() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    let file = camera_file(&phone, "look-behind.jpg");
    assert!(fs::read(&file).unwrap().windows(3).any(|w| w == b"GPS"));
    job_at_first_mark(&phone);
    phone.tap_named("Behind");
    phone.wait_for("What the panel is made of", PATIENCE);
    give_file(&phone, "Choose a photo", &file);
    phone.wait_for("Look behind, whole bumper", PATIENCE);
    phone.until("the photo is shown", || thumbs(&phone) == 1);
    phone.tap_named("2: as the bumper");
    phone.tap_nth("Take a photo", 1);
    let camera = "document.querySelector('body > input[type=file]').getAttribute('capture')";
    assert_eq!(phone.eval(camera), "environment");
    give_opened(&phone, &file);
    phone.wait_for("Look behind, head 2", PATIENCE);
    phone.until("both photos are shown", || thumbs(&phone) == 2);
    look(&phone, "behind-photos");
    assert_eq!(kept_pictures_hold(&phone, "GPS"), (2, false));
    saved(&phone);
    phone.reload();
    phone.wait_for("Look behind, whole bumper", PATIENCE);
    phone.until("the photo is shown again", || thumbs(&phone) >= 1);
    phone.tap_nth("Take this photo out", 0);
    phone.wait_gone("Look behind, whole bumper", PATIENCE);
    phone.tap_nth("Undo", 0);
    phone.wait_for("Look behind, whole bumper", PATIENCE);
    phone.tap_named("Sheet");
    phone.wait_for("Photo: Look behind, head 2", PATIENCE);
    let words = file.with_file_name("words.jpg");
    fs::write(&words, "no picture at all").unwrap();
    phone.tap_named("Behind");
    give_file(&phone, "Choose a photo", &words);
    phone.wait_for("This file is no picture", PATIENCE);
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn seen_and_clear_opens_the_drill_plan_and_the_head_goes_in_arrow_up() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    faces_typed(&phone);
    phone.tap_named("Behind");
    phone.wait_for("What the panel is made of", PATIENCE);
    phone.tap_nth("Seen and clear", 0);
    phone.type_into("Free depth", "62");
    phone.wait_for("Seen and clear behind every head", PATIENCE);
    look(&phone, "behind-clear");
    phone.tap_named("To the holes");
    phone.type_into("Centre drill past the saw's teeth", "16");
    phone.wait_for("Drill 21 mm", PATIENCE);
    phone.tap_nth("Step by step", 0);
    look(&phone, "holes-open");
    phone.tap_named("All of this is so");
    phone.tap_named("Mark 1 is confirmed from behind");
    phone.tap_named("Hole 1 is drilled");
    phone.wait_for("Hole of 21 mm made", PATIENCE);
    look(&phone, "holes-side-up");
    phone.tap_named("Head 1 sits: arrow up, clicked home, tugged");
    phone.wait_for("Mark 2 is confirmed from behind", PATIENCE);
    saved(&phone);
    phone.tap_named("Parts");
    phone.wait_for("Print the quote", PATIENCE);
    let label = texts(&phone, ".ring .field label");
    phone.type_into(&label[0], "140");
    phone.type_into("Working time", "150");
    phone.type_into("Price of an hour", "60");
    phone.type_into("Another part", "grommet 20 mm");
    phone.tap_named("Add the part");
    phone.wait_for("1 × grommet 20 mm", PATIENCE);
    phone.wait_for("Total 290.00", PATIENCE);
    look(&phone, "parts-quote");
    phone.media("print");
    let paper = phone.text();
    for said in [
        "Quote: parking sensors",
        "140.00",
        "150 minutes at 60.00 an hour: 150.00",
        "290.00",
        "No price yet: 1 x grommet 20 mm",
    ] {
        assert!(paper.contains(said), "{said} in {paper}");
    }
    assert!(!paper.contains("Another part"), "{paper}");
    let pdf = phone.print_pdf("quote");
    assert!(pdf.starts_with(b"%PDF-"));
    phone.media("");
    saved(&phone);
    phone.goto("/parts");
    phone.wait_for("Taken by one job", PATIENCE);
    look(&phone, "restock");
    phone.tap_named("All bought again");
    phone.wait_for("Nothing was taken", PATIENCE);
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn a_ring_by_hand_wants_a_reason_and_is_on_the_job_sheet() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    faces_typed(&phone);
    phone.tap_named("Rings");
    phone.tap_nth("Take another set by hand", 0);
    phone.wait_for("kept on the job sheet", PATIENCE);
    let sets = texts(&phone, ".ring details[open] .things .also");
    let other = phone.eval("[...document.querySelectorAll('.ring details[open] .things .also')].findIndex((b) => b.getAttribute('aria-pressed') !== 'true')");
    let other = &sets[usize::try_from(other.as_u64().expect("another set")).expect("few")];
    phone.tap_nth(other, 0);
    phone.wait_for("Say why you take another set", PATIENCE);
    phone.type_into("Why", "the ring of the rule is damaged");
    look(&phone, "ring-by-hand");
    phone.tap_nth(other, 0);
    phone.wait_for("taken by hand: the ring of the rule is damaged", PATIENCE);
    look(&phone, "ring-taken-by-hand");
    phone.tap_named("To the job sheet");
    phone.wait_for("taken by hand: the ring of the rule is damaged", PATIENCE);
    look(&phone, "sheet-phone");
    assert_eq!(phone.errors(), Vec::<String>::new());
}
