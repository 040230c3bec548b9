//! Kept for years: backup, wipe and the way back byte for byte; real
//! deletion in IndexedDB and in the private file system; two tabs; kills.

use std::path::PathBuf;
use std::{env, fs};

use rakeline_tests::browser::{Phone, Server, lost_over_kills};
use serde_json::{Value, json};

use crate::fitter::{PATIENCE, first_screen, look, saved, setup, texts};

const PASSPHRASE: &str = "nine small tarns, one beck";

/// All records, and all pictures with a sum of their bytes, as the browser
/// has them.
const STORE: &str = "(async () => {
  const db = await new Promise((ok) => { const r = indexedDB.open('rakeline'); r.onsuccess = () => ok(r.result); });
  const store = db.transaction('records').objectStore('records');
  const get = (request) => new Promise((ok) => { request.onsuccess = () => ok(request.result); });
  const [keys, values] = await Promise.all([get(store.getAllKeys()), get(store.getAll())]);
  db.close();
  const all = Object.fromEntries(keys.map((key, at) => [key, values[at]]));
  const root = await navigator.storage.getDirectory();
  const folder = await root.getDirectoryHandle('blobs', { create: true });
  // A picture that is being written or deleted meanwhile can't be read.
  for (let more = 40; ; more -= 1) {
    try {
      for await (const [name, handle] of folder.entries()) {
        const bytes = await (await handle.getFile()).arrayBuffer();
        const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
        all['picture ' + name] = bytes.byteLength + ' ' + [...sum].join(' ');
      }
      return all;
    } catch (why) {
      if (more === 0) throw why;
      for (const key of Object.keys(all)) if (key.startsWith('picture ')) delete all[key];
      await new Promise((ok) => { setTimeout(ok, 50); });
    }
  }
})()";

/// Everything of the origin goes, as when site data is cleared.
const WIPE: &str = "(async () => {
  await new Promise((ok) => { const r = indexedDB.deleteDatabase('rakeline'); r.onsuccess = ok; r.onblocked = ok; });
  const root = await navigator.storage.getDirectory();
  for await (const name of root.keys()) await root.removeEntry(name, { recursive: true });
})()";

/// The records of jobs and their pictures.
fn jobs(phone: &Phone) -> Vec<(String, Value)> {
    let Value::Object(all) = phone.eval(STORE) else {
        panic!("no store");
    };
    let of_jobs = |key: &String| {
        ["job/", "brief/job/", "picture "]
            .iter()
            .any(|begin| key.starts_with(begin))
    };
    all.into_iter().filter(|(key, _)| of_jobs(key)).collect()
}

/// A picture as a file.
fn picture() -> PathBuf {
    let path = env::temp_dir().join(format!("rakeline-photo-{}.png", std::process::id()));
    let image = image::RgbImage::from_fn(320, 240, |x, y| {
        image::Rgb([(x % 251) as u8, (y % 241) as u8, (x * y % 239) as u8])
    });
    image.save(&path).expect("a picture");
    path
}

/// The sample job with a photo of the bumper, then the list.
fn sample_with_photo(phone: &Phone) {
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    phone.tap_named("Behind");
    phone.wait_for("Choose a photo", PATIENCE);
    phone.hold_pictures();
    phone.tap_nth("Choose a photo", 0);
    phone.give_picture(&picture());
    phone.until("the photo is kept", || {
        jobs(phone)
            .iter()
            .any(|(key, _)| key.starts_with("picture "))
    });
    saved(phone);
    phone.tap_named("All jobs");
    phone.wait_for("Storage and backup", PATIENCE);
}

fn to_storage(phone: &Phone) {
    phone.tap_named("Storage and backup");
    phone.wait_for("Make a backup", PATIENCE);
}

#[test]
fn a_backup_brings_back_jobs_and_photos_byte_for_byte_after_a_wipe() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    let folder = phone.downloads("backup");
    sample_with_photo(&phone);
    let before = jobs(&phone);
    assert_eq!(before.len(), 3, "record, entry, picture");
    to_storage(&phone);
    look(&phone, "storage");
    phone.type_into("Passphrase", PASSPHRASE);
    phone.tap_named("Make a backup");
    phone.wait_for("is among the downloads", 60);
    look(&phone, "storage-backed-up");
    let file = phone.downloaded(&folder, ".zip.age");
    assert!(
        fs::read(&file)
            .expect("the backup")
            .starts_with(b"age-encryption.org/v1\n")
    );

    phone.goto("/icon.svg");
    phone.eval(WIPE);
    phone.goto("/");
    phone.wait_for("No jobs yet", PATIENCE);
    assert_eq!(jobs(&phone), []);
    to_storage(&phone);
    phone.hold_pictures();
    phone.tap_named("Choose the file");
    phone.give_file(&file);
    phone.type_into("Passphrase of this backup", "nine small tarns, two becks");
    phone.tap_named("See what it brings");
    phone.wait_for("does not open the backup", 60);
    phone.type_into("Passphrase of this backup", PASSPHRASE);
    phone.tap_named("See what it brings");
    phone.wait_for("One job that is not here", 60);
    look(&phone, "storage-preview");
    assert_eq!(jobs(&phone), [], "a preview changes nothing");
    phone.tap_named("Take it in");
    phone.wait_for("Taken in: one new job", 60);
    assert_eq!(jobs(&phone), before);
    phone.tap_named("All jobs");
    phone.wait_for("Tarn Carrier", PATIENCE);
    look(&phone, "jobs-restored");
    // The wipe stood on a page that is no page of the app.
    phone.forgive("favicon.ico");
}

#[test]
fn tables_for_other_programs_are_saved() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    let folder = phone.downloads("tables");
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    saved(&phone);
    phone.tap_named("All jobs");
    to_storage(&phone);
    phone.tap_named("Save tables");
    phone.wait_for("is among the downloads", 60);
    let bytes = fs::read(phone.downloaded(&folder, ".zip")).expect("the tables");
    let has = |name: &[u8]| bytes.windows(name.len()).any(|window| window == name);
    assert!(has(b"jobs.csv") && has(b"jobs.schema.json"));
}

#[test]
fn a_job_deleted_for_good_is_gone_from_the_records_and_from_the_files() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    sample_with_photo(&phone);
    assert_eq!(jobs(&phone).len(), 3);
    let title = texts(&phone, ".jobs .open b").remove(0);
    phone.tap_named(&format!("Delete {title}"));
    phone.wait_for("Job deleted.", PATIENCE);
    phone.tap_named("One deleted job");
    phone.tap_named(&format!("Delete {title} for good"));
    phone.wait_for("Nothing brings it back", PATIENCE);
    look(&phone, "jobs-for-good");
    phone.tap_named("Delete for good");
    phone.wait_for("deleted for good.", PATIENCE);
    let all = phone.eval(STORE);
    let left: Vec<&String> = all
        .as_object()
        .expect("a store")
        .keys()
        .filter(|key| *key != "settings")
        .collect();
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn two_tabs_do_not_work_at_once_and_the_second_can_take_over() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.goto("/?sample");
    phone.wait_for("Tape is on", PATIENCE);
    saved(&phone);
    let opened = phone.cdp(
        "Runtime.evaluate",
        json!({ "expression": "window.other = window.open('/'); !!window.other",
                "userGesture": true, "returnByValue": true }),
    );
    assert_eq!(opened["result"]["value"], true);
    let there = |text: &str| {
        let script = format!("(window.other.document.body?.innerText ?? '').includes({text:?})");
        phone.try_eval(&script) == Ok(json!(true))
    };
    phone.until("the second says so", || there("Open in another tab"));
    let here =
        |text: &str| phone.eval(&format!("document.body.innerText.includes({text:?})")) == true;
    assert!(here("Tape is on"));
    phone.eval("window.other.document.querySelector('button.do').click()");
    phone.until("the second works", || there("Tarn Carrier"));
    phone.until("the first says so", || here("Open in another tab"));
    phone.cdp("Page.bringToFront", json!({}));
    look(&phone, "elsewhere");
    phone.eval("window.other.close()");
    phone.tap_named("Work here");
    phone.wait_for("Tape is on", PATIENCE);
}

#[test]
fn five_kills_at_random_moments_lose_nothing_that_was_shown_as_saved() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    assert_eq!(lost_over_kills(&phone, 5, 11), 0);
}
