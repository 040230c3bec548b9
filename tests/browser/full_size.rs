//! Sheets at full size: made beside the screen, saved as PDF.

use std::fs;
use std::path::{Path, PathBuf};

use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use rakeline_tests::printed::Printed;
use serde_json::json;

use crate::fitter::{PATIENCE, look, setup};

/// The sample job's marks, on a phone whose downloads lie in a folder.
fn marks(server: &Server, setup: PhoneSetup, name: &str) -> (Phone, PathBuf) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../target/downloads")
        .join(name);
    // What an earlier run left is no download of this one.
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let folder = folder.canonicalize().unwrap();
    let phone = Phone::open(server, setup);
    phone.cdp(
        "Browser.setDownloadBehavior",
        json!({ "behavior": "allow", "downloadPath": folder }),
    );
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    (phone, folder)
}

fn pdfs(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().flatten();
    let paths = entries.map(|entry| entry.path());
    paths
        .filter(|path| path.extension().is_some_and(|end| end == "pdf"))
        .collect()
}

fn saved(phone: &Phone, folder: &Path) -> Printed {
    phone.wait_for("Saved among your downloads", PATIENCE);
    phone.until("the download", || pdfs(folder).len() == 1);
    let path = pdfs(folder).remove(0);
    let name = folder.file_name().unwrap().to_string_lossy().into_owned();
    assert!(
        path.ends_with("template-sample-tarn-carrier.pdf"),
        "{path:?}"
    );
    Printed::new(&name, &fs::read(path).unwrap())
}

#[test]
fn the_template_is_saved_as_pdf_for_the_paper_that_was_chosen() {
    let server = Server::start();
    let (phone, folder) = marks(&server, setup(), "full-size");
    phone.tap_named("Letter");
    look(&phone, "marks-full-size");
    phone.tap_named("Print at full size");
    let pages = saved(&phone, &folder).texts();
    // Two marks of 1,400 mm and what is drawn beyond, on sheets of 235 mm.
    assert!((6..=7).contains(&pages.len()), "{} sheets", pages.len());
    for (index, page) in pages.iter().enumerate() {
        let number = format!("Sheet {} of {}", index + 1, pages.len());
        assert!(page.contains(&number), "{page}");
    }
    look(&phone, "marks-full-size-saved");
    phone.reload();
    phone.wait_for("Print at full size", PATIENCE);
    let kept = phone.eval("document.querySelector('[aria-pressed=true]').textContent");
    assert_eq!(kept, "Letter");
    assert_eq!(phone.errors(), Vec::<String>::new());
}

#[test]
fn a_worker_that_does_not_start_is_said_and_the_next_one_works() {
    let server = Server::start();
    let first_is_missing = "const Whole = Worker; let made = 0;\
        globalThis.Worker = class extends Whole {\
            constructor(url, options) { super(made++ ? url : '/icon.svg', options); }\
        };";
    let broken = PhoneSetup {
        before_page: Some(first_is_missing.to_owned()),
        ..setup()
    };
    let (phone, folder) = marks(&server, broken, "full-size-again");
    phone.tap_named("Print at full size");
    phone.wait_for("Try again: it starts anew", PATIENCE);
    assert!(pdfs(&folder).is_empty());
    phone.forgive("icon.svg");
    phone.tap_named("Print at full size");
    assert!(saved(&phone, &folder).texts().len() >= 6);
}
