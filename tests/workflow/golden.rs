//! Texts kept as files, compared letter by letter.

use std::path::PathBuf;

/// Holds `text` against the kept file. With `RAKELINE_WRITE_GOLDEN` set it
/// writes the file anew instead; the commit then says why.
pub fn compare(file: &str, text: &str) {
    let path = path(file);
    if std::env::var_os("RAKELINE_WRITE_GOLDEN").is_some() {
        std::fs::write(&path, text).expect("the fixture can be written");
    }
    let kept = read(file);
    for (number, (is, was)) in text.lines().zip(kept.lines()).enumerate() {
        assert_eq!(is, was, "{file}, line {}", number + 1);
    }
    assert_eq!(
        text.lines().count(),
        kept.lines().count(),
        "lines of {file}"
    );
}

/// Whether a fixture that is not there may be written.
pub fn is_missing(file: &str) -> bool {
    std::env::var_os("RAKELINE_WRITE_GOLDEN").is_some() && !path(file).exists()
}

/// The text of a fixture.
pub fn read(file: &str) -> String {
    std::fs::read_to_string(path(file)).expect("the fixture is there")
}

fn path(file: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("fixtures")
        .join(file)
}
