//! Words that the trade reads in two ways are not on the screens.

use crate::sources::{Source, none, sources};

/// The word and what to say in its place.
const FORBIDDEN: [(&str, &str); 1] = [("pitch", "spacing, tone, or nose up and down")];

fn offences(source: &Source) -> Vec<String> {
    let mut found = Vec::new();
    for (at, text) in source.text.lines().enumerate() {
        if source.path.ends_with(".ftl") && text.starts_with('#') {
            continue;
        }
        let lower = text.to_lowercase();
        let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).collect();
        for (word, instead) in FORBIDDEN {
            if words
                .iter()
                .any(|found| found.strip_suffix('s').unwrap_or(found) == word || *found == word)
            {
                found.push(source.at(at + 1, format!("'{word}': say {instead}")));
            }
        }
    }
    found
}

#[test]
fn no_screen_uses_a_forbidden_word() {
    let texts = sources(
        "assets",
        &[".ftl", ".json", ".html", ".webmanifest", ".svg"],
    );
    assert!(texts.iter().any(|source| source.path.ends_with("en.ftl")));
    let offences: Vec<String> = texts.iter().flat_map(offences).collect();
    none("The fitter knows this word for something else.", &offences);
}

#[test]
fn a_forbidden_word_is_found() {
    let word = FORBIDDEN[0].0;
    let find = |text: &str| offences(&Source::made_up("a.ftl", text)).len();
    assert_eq!(find(&format!("spot-off = The {word} is 12 mm off.")), 1);
    assert_eq!(find(&format!("spot-off = {}es", word.to_uppercase())), 0);
    assert_eq!(
        find(&format!(
            "spot-off =\n    Its {}s differ.",
            word.to_uppercase()
        )),
        1
    );
    assert_eq!(find(&format!("# {word} is not said\na = b")), 0);
}
