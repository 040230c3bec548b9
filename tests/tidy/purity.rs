//! Core has no clock.

use crate::code::{all, paths};
use crate::sources::{Source, file, none, sources};

const CLOCKS: [(&str, &str); 4] = [
    ("SystemTime", "now"),
    ("Instant", "now"),
    ("Utc", "now"),
    ("Local", "now"),
];

fn calls(source: &Source) -> Vec<String> {
    let clock = |parts: &[String]| {
        let pairs = parts.windows(2);
        pairs
            .into_iter()
            .any(|pair| CLOCKS.contains(&(pair[0].as_str(), pair[1].as_str())))
    };
    paths(&all(source))
        .into_iter()
        .filter(|path| clock(&path.parts))
        .map(|path| {
            source.at(
                path.line,
                format!("core reads a clock: {}", path.parts.join("::")),
            )
        })
        .collect()
}

/// Offences of the line that brings chrono in, workspace or core.
fn chrono(manifest: &Source) -> Vec<String> {
    let mut found = Vec::new();
    for (at, text) in manifest.text.lines().enumerate() {
        if text.split(['.', '=', ' ']).next() != Some("chrono") {
            continue;
        }
        let inherits = text.starts_with("chrono.workspace") || text.contains("workspace = true");
        if !inherits && !text.contains("default-features = false") {
            found.push(manifest.at(at + 1, "chrono's default features hold its clock"));
        }
        if ["\"clock\"", "\"now\"", "\"default\""]
            .iter()
            .any(|feature| text.contains(feature))
        {
            found.push(manifest.at(at + 1, "chrono enters with its clock"));
        }
    }
    found
}

#[test]
fn core_has_no_clock() {
    let mut offences: Vec<String> = sources("core", &[".rs"]).iter().flat_map(calls).collect();
    for manifest in ["Cargo.toml", "core/Cargo.toml"] {
        let manifest = file(manifest);
        assert!(
            manifest.text.contains("chrono"),
            "the rule lost sight of chrono"
        );
        offences.extend(chrono(&manifest));
    }
    none("The shell passes the time in.", &offences);
}

#[test]
fn a_clock_is_found() {
    let find = |text: &str| calls(&Source::made_up("core/src/job.rs", text)).len();
    assert_eq!(
        find("fn f() { let a = std::time::Instant::now(); Utc::now(); }"),
        2
    );
    assert_eq!(find("fn f() { map(Local::now) }"), 1);
    assert_eq!(find("fn f(at: Instant) { now(at) }"), 0);
    let find = |text: &str| chrono(&Source::made_up("Cargo.toml", text)).len();
    assert_eq!(find("chrono = \"0.4\""), 1);
    assert_eq!(
        find("chrono = { version = \"0.4\", default-features = false, features = [\"clock\"] }"),
        1
    );
    assert_eq!(
        find("chrono = { workspace = true, features = [\"clock\"] }"),
        1
    );
    assert_eq!(find("chrono.workspace = true"), 0);
}
