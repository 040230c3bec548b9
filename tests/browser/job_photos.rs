//! Photos at a step and of the finished heads, in a real browser: chosen,
//! made smaller, drawn on, printed.

use std::fs;
use std::path::{Path, PathBuf};

use rakeline_scene::file::{Place, Wrapping, beside, encode};
use rakeline_tests::browser::{Phone, Server};
use rakeline_tests::printed::Printed;
use serde_json::json;

use crate::fitter::{PATIENCE, first_screen, look, saved, setup};

/// A photo of 3 MP held upright, with the place in it.
pub fn photo(name: &str) -> PathBuf {
    let (width, height) = (2_000, 1_500);
    let wrapping = Wrapping {
        place: Place::Written,
        orientation: 6,
        ..Wrapping::default()
    };
    let grey: Vec<u8> = (0..width * height)
        .map(|at| {
            let (x, y) = (at % width, at / width);
            let head = (x as f64 - 1_000.0).hypot(y as f64 - 700.0) < 260.0;
            if head { 45 } else { (110 + y / 20) as u8 }
        })
        .collect();
    let beside = beside(26.0, (width, height), wrapping).expect("what a camera writes");
    let file = encode((width, height), &grey, wrapping, Some(&beside)).expect("a file");
    let path = std::env::temp_dir().join(format!("rakeline-{}-{name}.jpg", std::process::id()));
    fs::write(&path, file).expect("the photo is written");
    path
}

fn draw_at(phone: &Phone, x: f64, y: f64) {
    let place = phone.eval(&format!(
        "(() => {{ const on = document.querySelector('.noted .over');
           on.scrollIntoView({{ block: 'center' }});
           const box = on.getBoundingClientRect();
           return [box.left + box.width * {x}, box.top + box.height * {y}]; }})()"
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
fn finished_heads_are_photographed_drawn_on_and_printed_upright_without_their_place() {
    let server = Server::start();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/downloads/heads");
    // What an earlier run left is no download of this one.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let folder = folder.canonicalize().unwrap();
    let file = photo("head");
    let phone = first_screen(&server, setup());
    phone.cdp(
        "Browser.setDownloadBehavior",
        json!({ "behavior": "allow", "downloadPath": folder }),
    );
    phone.hold_pictures();
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    phone.eval("[...document.querySelectorAll('.path button')].at(-1).click()");
    phone.wait_for("Photos of the finished heads: 0 of 4", PATIENCE);
    phone.tap_named("Photos of the finished heads");
    look(&phone, "heads-none");
    for head in 1..=4 {
        phone.tap_named(&format!("Photograph head {head}"));
        phone.give_picture(&file);
        phone.wait_for(&format!("finished heads: {head} of 4"), PATIENCE);
    }
    saved(&phone);
    phone.tap_named("Photos of the finished heads");
    phone.tap_nth("Draw on it", 0);
    phone.wait_for("Tap where the arrow begins", PATIENCE);
    draw_at(&phone, 0.15, 0.2);
    phone.wait_for("Now tap what it points at", PATIENCE);
    draw_at(&phone, 0.45, 0.45);
    phone.until("the arrow is there", || {
        phone.eval("document.querySelectorAll('.thumb .notes polyline').length") == 1
    });
    look(&phone, "heads-drawn");
    phone.reload();
    phone.wait_for("finished heads: 4 of 4", PATIENCE);
    phone.tap_named("Photos of the finished heads");
    phone.until("the photos are on the sheet", || {
        phone.eval("document.querySelectorAll('.paper-sheet .shots img').length") == 4
    });
    look(&phone, "heads-sheet");
    phone.tap_named("PDF for the workshop");
    phone.wait_for("Saved among your downloads", PATIENCE);
    let found = || {
        let entries = fs::read_dir(&folder).unwrap().flatten();
        let paths = entries.map(|entry| entry.path());
        paths
            .filter(|path| path.extension().is_some_and(|end| end == "pdf"))
            .collect::<Vec<_>>()
    };
    phone.until("the download", || found().len() == 1);
    let printed = Printed::new("browser-heads", &fs::read(&found()[0]).unwrap());
    assert_eq!(printed.picture_sizes(), [(1_200, 1_600); 4]);
    assert!(!printed.holds(b"GPS"));
    assert_eq!(phone.errors(), Vec::<String>::new());
}
