//! Backups of every version that was ever written, kept for ever: each is
//! taken in by an empty phone.

use std::fs;
use std::path::PathBuf;

use rakeline::backup::{Brings, Verdict};
use rakeline::driver::{BackupIntent, Whole};
use rakeline::platform::memory::MemoryPlatform;

use crate::backup::{PASSPHRASE, backup, full_phone, look, made, plan};
use crate::bench::Bench;

fn path(file: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("fixtures/backup");
    folder.join(file)
}

/// Writes a fixture that is not there yet, where that is asked for.
fn write_once(file: &str, whole: Whole) {
    let asked = std::env::var_os("RAKELINE_WRITE_GOLDEN").is_some();
    if asked && !path(file).exists() {
        let bytes = made(&mut full_phone(), whole);
        fs::create_dir_all(path("")).expect("a folder for fixtures");
        fs::write(path(file), bytes).expect("the fixture can be written");
    }
}

/// An empty phone that took in a kept backup.
fn taken_in(file: &str, passphrase: &str) -> Bench {
    let bytes = fs::read(path(file)).expect("the fixture is there");
    let mut bench = Bench::on(MemoryPlatform::new());
    look(&mut bench, bytes, passphrase);
    assert_eq!(plan(&bench).count(Verdict::New), 4, "{file}");
    backup(&mut bench, BackupIntent::TakeIn(Brings::Nothing));
    assert_eq!(bench.notice(), Some("restored"), "{file}");
    bench
}

#[test]
fn backups_of_version_1_open_and_locked_are_taken_in_for_ever() {
    write_once("version-1.zip", Whole::Open);
    write_once("version-1.zip.age", Whole::Locked);
    for (file, passphrase) in [("version-1.zip", ""), ("version-1.zip.age", PASSPHRASE)] {
        let bench = taken_in(file, passphrase);
        assert_eq!(bench.app.jobs.len(), 3, "{file}");
        assert_eq!(bench.app.trash.len(), 1, "{file}");
        assert_eq!(bench.phone.storage.blobs().len(), 1, "{file}");
        let again = bench.killed();
        assert_eq!(again.app.jobs, bench.app.jobs, "{file}");
    }
}
