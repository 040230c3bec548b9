//! More entries than the zip of old can count.

use rakeline::backup::unzip::Unzip;
use rakeline::backup::zip::Zip;
use serde_json::Value;

use crate::backup::{made_elsewhere, open_elsewhere};

const MANY: usize = 70_000;

#[test]
fn seventy_thousand_entries_go_out_and_come_in_as_zipfile_writes_and_reads_them() {
    let mut zip = Zip::new(Vec::new());
    for n in 0..MANY {
        zip.add(&format!("notes/{n}"), b"").expect("written");
    }
    let ours = zip.finish().expect("written");
    let opened = open_elsewhere(&ours, None);
    assert_eq!(opened["bad"], Value::Null);
    assert_eq!(opened["names"].as_array().map(Vec::len), Some(MANY));

    let entries: Vec<(String, Vec<u8>)> = (0..MANY)
        .map(|n| (format!("notes/{n}"), Vec::new()))
        .collect();
    for bytes in [ours, made_elsewhere(&entries, None, "stored")] {
        let mut unzip = Unzip::default();
        let mut count = 0;
        for piece in bytes.chunks(1 << 16) {
            count += unzip.feed(piece).map(|items| items.len()).expect("read");
        }
        assert!(unzip.end().is_ok());
        assert_eq!(count, MANY);
    }
}
