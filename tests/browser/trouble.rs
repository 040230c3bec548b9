//! When things break: a stopped app, a store that refuses or is full, a
//! record that cannot be read.

use rakeline_tests::browser::{PhoneSetup, Server};

use crate::fitter::{
    HALF, PATIENCE, first_screen, job_with_marks, look, saved, setup, start_job, type_half_widths,
};

/// Makes the browser's store refuse when `window.full` is set, as when the
/// phone has no room left.
const FULL: &str = "
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...given) {
    if (window.full) throw new DOMException('no room', 'QuotaExceededError');
    return put.apply(this, given);
  };";

/// A private window that keeps nothing.
const REFUSED: &str = "
  IDBFactory.prototype.open = () => { throw new DOMException('not here', 'SecurityError'); };";

#[test]
fn a_stopped_app_says_so_and_the_job_is_safe() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    start_job(&phone);
    type_half_widths(&phone, HALF, HALF);
    saved(&phone);
    // A browser without the classes of fields: the app's own check stops it.
    phone.eval(
        "for (const kind of ['HTMLElement', 'HTMLInputElement', 'HTMLTextAreaElement', \
                'HTMLSelectElement']) window[kind] = class {}; 1",
    );
    phone.write("5");
    phone.wait_for("Rakeline stopped", PATIENCE);
    phone.wait_for("The job is safe", PATIENCE);
    look(&phone, "stopped");
    phone.expect_error("unwrap");
    // And what follows from it, whatever it says.
    phone.forgive("");
    phone.tap_named("Open it again");
    phone.wait_gone("Rakeline stopped", PATIENCE);
    phone.wait_for("Centre line to outer edge", PATIENCE);
    assert_eq!(phone.typed("Left"), HALF);
    assert_eq!(phone.typed("Right"), HALF);
}

#[test]
fn a_full_phone_says_so_and_saves_later() {
    let server = Server::start();
    let phone = first_screen(
        &server,
        PhoneSetup {
            before_page: Some(FULL.to_owned()),
            ..setup()
        },
    );
    start_job(&phone);
    saved(&phone);
    phone.eval("window.full = true");
    type_half_widths(&phone, HALF, "");
    phone.wait_for("no room left", PATIENCE);
    phone.wait_for("not saved", PATIENCE);
    look(&phone, "not-saved");
    phone.tap_named("All jobs");
    phone.wait_for("It stays open", PATIENCE);
    assert_eq!(phone.typed("Left"), HALF);
    phone.eval("window.full = false");
    phone.tap_named("Save again");
    phone.wait_gone("not saved", PATIENCE);
    saved(&phone);
    phone.reload();
    phone.wait_for("Centre line to outer edge", PATIENCE);
    assert_eq!(phone.typed("Left"), HALF);
}

#[test]
fn a_browser_that_keeps_nothing_says_so_first() {
    let server = Server::start();
    let phone = first_screen(
        &server,
        PhoneSetup {
            before_page: Some(REFUSED.to_owned()),
            ..setup()
        },
    );
    phone.wait_for("does not let Rakeline keep anything", PATIENCE);
    look(&phone, "jobs-no-storage");
}

#[test]
fn a_record_that_cannot_be_read_is_named_and_kept() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_with_marks(&phone);
    saved(&phone);
    let broken = "new Promise((done, fail) => {
      const asked = indexedDB.databases().then(([{ name }]) => {
        const open = indexedDB.open(name);
        open.onerror = fail;
        open.onsuccess = () => {
          const db = open.result, store = db.objectStoreNames[0];
          const step = db.transaction(store, 'readwrite');
          const keys = step.objectStore(store).getAllKeys();
          keys.onsuccess = () => {
            const key = keys.result.find((k) => String(k).startsWith('job/'));
            step.objectStore(store).put('{\"half\": ', key);
          };
          step.oncomplete = () => { db.close(); done(true); };
        };
      });
    })";
    phone.goto("/");
    phone.wait_for("0 of 4 faces read", PATIENCE);
    assert_eq!(phone.eval(broken), true);
    for _ in 0..2 {
        phone.reload();
        phone.wait_for("cannot be read. It is kept as it is", PATIENCE);
    }
    look(&phone, "jobs-unreadable");
}
