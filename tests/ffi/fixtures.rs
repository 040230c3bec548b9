//! What the vectors are computed from.

use std::path::{Path, PathBuf};
use std::{env, fs};

use rakeline_core::job::{FaultEvent, JobEvent, Symptom, Where, apply};
use rakeline_core::record;

pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

pub fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap()
}

pub fn bytes(path: &str) -> Vec<u8> {
    fs::read(root().join(path)).unwrap()
}

pub const KIT: &str = "assets/kits/plain-four.json";
pub const RECORD: &str = "tests/fixtures/ffi/record.json";
pub const EXPECTED: &str = "tests/fixtures/ffi/expected.txt";
pub const PHOTOS: [&str; 3] = ["left", "middle", "right"];

pub fn photo(name: &str) -> Vec<u8> {
    bytes(&format!("tests/fixtures/photo/{name}.jpg"))
}

/// Whether kept results are written anew.
pub fn writes() -> bool {
    env::var_os("RAKELINE_WRITE_GOLDEN").is_some()
}

/// The kept record is the oldest one with a symptom said.
#[test]
fn the_record_is_the_first_version_with_a_symptom() {
    let job = record::read(&text("tests/fixtures/record/v1.json")).unwrap();
    let said = FaultEvent::SymptomSaid(Symptom::SeesGround, Where::default());
    let job = apply(&job, JobEvent::Fault(said), job.changed).unwrap();
    let written = record::write(&job).unwrap();
    if writes() {
        fs::write(root().join(RECORD), &written).unwrap();
    }
    assert_eq!(text(RECORD), written);
}
