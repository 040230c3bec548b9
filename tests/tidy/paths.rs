//! A fresh clone anywhere must work: no path of one machine.

use std::env;

use crate::sources::{Source, none, root, sources};

/// Beginnings of paths of one machine. Built here, so that this file holds none.
fn needles() -> Vec<String> {
    let mut needles: Vec<String> = ["work", "root", "farm", "home", "Users", "tmp", "private"]
        .iter()
        .map(|folder| format!("/{folder}/"))
        .collect();
    let here = root().canonicalize().unwrap_or_default();
    needles.push(here.to_string_lossy().into_owned());
    needles.extend(env::var("HOME").ok().filter(|home| home.len() > 1));
    needles
}

fn offences(source: &Source, needles: &[String]) -> Vec<String> {
    let mut found = Vec::new();
    for (at, text) in source.text.lines().enumerate() {
        let stands = |needle: &&String| {
            text.match_indices(needle.as_str()).any(|(at, _)| {
                let before = text[..at].chars().next_back();
                // Inside another path it is a folder of that name, not of a machine.
                before.is_none_or(|c| !(c.is_alphanumeric() || "._-}/".contains(c)))
            })
        };
        if let Some(needle) = needles.iter().find(stands) {
            found.push(source.at(at + 1, format!("a path of one machine, {needle}")));
        }
    }
    found
}

#[test]
fn no_file_names_a_path_of_one_machine() {
    let needles = needles();
    let offences: Vec<String> = sources("", &[])
        .iter()
        .flat_map(|source| offences(source, &needles))
        .collect();
    none(
        "Take the path from the environment or from the workspace root.",
        &offences,
    );
}

#[test]
fn a_machine_path_is_found() {
    let find = |text: &str| offences(&Source::made_up("a.md", text), &needles()).len();
    for folder in ["work", "root", "home"] {
        assert_eq!(find(&format!("see (/{folder}/somebody/file)")), 1);
        assert_eq!(find(&format!("\"/{folder}/x\"")), 1);
        assert_eq!(find(&format!("https://example.org/{folder}/x")), 0);
    }
}
