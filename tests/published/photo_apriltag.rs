//! Photos that no one here made: the test photos of the AprilTag library
//! with their reference corners, in the source of the crate `apriltag-sys`
//! (CC BY-SA, see its `apriltag-src/test/data/README.md`). Read from cargo's
//! registry at test time, never kept here.

use std::path::{Path, PathBuf};
use std::process::Command;

use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::detect::code_between;

use crate::photo_cards::seen;

const PHOTOS: [&str; 3] = [
    "33369213973_9d9bb4cc96_c",
    "34085369442_304b6bafd9_c",
    "34139872896_defdb2f8d9_c",
];

/// The crate's source, fetched by cargo through a manifest of its own.
fn source() -> Result<PathBuf, String> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("apriltag");
    let write = |name: &str, text: &str| {
        let path = folder.join(name);
        let made = path.parent().map_or(Ok(()), std::fs::create_dir_all);
        made.and_then(|()| std::fs::write(&path, text))
            .map_err(|fault| format!("{}: {fault}", path.display()))
    };
    write("src/lib.rs", "")?;
    write(
        "Cargo.toml",
        "[package]\nname = \"apriltag-photos\"\nversion = \"0.0.0\"\nedition = \"2024\"\n\
         [workspace]\n[dependencies]\napriltag-sys = \"=0.4.0\"\n",
    )?;
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let output = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--manifest-path"])
        .arg(folder.join("Cargo.toml"))
        .output()
        .map_err(|fault| fault.to_string())?;
    if !output.status.success() {
        let said = String::from_utf8_lossy(&output.stderr);
        return Err(said.lines().last().unwrap_or_default().to_owned());
    }
    let metadata: serde_json::Value =
        serde_json::from_slice(&output.stdout).map_err(|fault| fault.to_string())?;
    metadata["packages"]
        .as_array()
        .into_iter()
        .flatten()
        .find(|package| package["name"] == "apriltag-sys")
        .and_then(|package| Path::new(package["manifest_path"].as_str()?).parent())
        .map(|folder| folder.join("apriltag-src/test/data"))
        .ok_or_else(|| "cargo does not know apriltag-sys".to_owned())
}

/// A line of the reference: code and corners, anticlockwise as seen; the
/// first pixel spans 0 to 1 there.
fn reference(line: &str) -> Option<(u16, [[f64; 2]; 4])> {
    let (code, corners) = line.split_once(',')?;
    let numbers: Vec<f64> = corners
        .split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
        .filter(|part| !part.is_empty())
        .map(|part| part.parse().unwrap_or(f64::NAN))
        .collect();
    let corner = |n: usize| Some([numbers.get(2 * n)? - 0.5, numbers.get(2 * n + 1)? - 0.5]);
    let corners = [corner(3)?, corner(2)?, corner(1)?, corner(0)?];
    Some((code.trim().parse().ok()?, corners))
}

#[test]
fn codes_in_foreign_photos_are_read_and_no_card_is_seen_in_them() {
    let folder = match source() {
        Ok(folder) => folder,
        Err(why) => {
            println!("skipped: cargo could not fetch the photos ({why})");
            return;
        }
    };
    let (mut read, mut wrong, mut all) = (0, 0, 0);
    for photo in PHOTOS {
        let bytes = std::fs::read(folder.join(format!("{photo}.jpg"))).expect("the photo");
        let text = std::fs::read_to_string(folder.join(format!("{photo}.txt"))).expect("corners");
        let luma = decode(&bytes).expect("a JPEG");
        let seen = seen(&luma);
        assert_eq!(seen.cards, [], "{photo}");
        for (code, corners) in text.lines().filter_map(reference) {
            all += 1;
            match code_between(&luma, &corners) {
                Some(found) if found == code => read += 1,
                Some(_) => wrong += 1,
                None => {}
            }
        }
    }
    println!("{read} of {all} codes read, {wrong} wrong");
    assert!(all > 40, "{all} corners in the reference");
    assert_eq!(wrong, 0);
    assert!(10 * read >= 9 * all, "{read} of {all} codes read");
}
