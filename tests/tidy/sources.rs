//! The workspace's files, as the rules read them.

use std::fmt::Display;
use std::fs;
use std::path::{Path, PathBuf};

/// One file of text with its path from the workspace root.
#[derive(Clone, Debug)]
pub struct Source {
    pub path: String,
    pub text: String,
}

impl Source {
    /// A made-up file for the self-test of a rule.
    pub fn made_up(path: &str, text: &str) -> Self {
        Self {
            path: path.to_owned(),
            text: text.to_owned(),
        }
    }

    /// An offence at a line of this file.
    pub fn at(&self, line: usize, what: impl Display) -> String {
        format!("{}:{line}: {what}", self.path)
    }
}

pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Folders that are built, not written.
const BUILT: [&str; 4] = ["target", "dist", "node_modules", "__pycache__"];

/// What is hidden and still ours; `.git` and an editor's folders are not.
const HIDDEN: [&str; 4] = [".ci", ".cargo", ".github", ".gitignore"];

fn is_ours(name: &str) -> bool {
    !BUILT.contains(&name) && (!name.starts_with('.') || HIDDEN.contains(&name))
}

/// Every text file under a folder of the workspace ("" is all of it) whose
/// name ends in one of these; an empty list means any text file.
pub fn sources(under: &str, endings: &[&str]) -> Vec<Source> {
    let mut found = Vec::new();
    walk(&root().join(under), &mut |path| {
        let name = path.to_string_lossy();
        if !endings.is_empty() && !endings.iter().any(|ending| name.ends_with(ending)) {
            return;
        }
        // What is no UTF-8 is a picture or the like.
        if let Ok(text) = fs::read_to_string(path) {
            let path = path.strip_prefix(root()).unwrap_or(path);
            let path = path.to_string_lossy().replace('\\', "/");
            found.push(Source { path, text });
        }
    });
    found.sort_by(|a, b| a.path.cmp(&b.path));
    found
}

/// All Rust files of the workspace.
pub fn rust() -> Vec<Source> {
    ["core", "ffi", "mobile", "tests", "words", "xtask"]
        .iter()
        .flat_map(|folder| sources(folder, &[".rs"]))
        .collect()
}

/// One file that must exist.
pub fn file(path: &str) -> Source {
    let text = fs::read_to_string(root().join(path))
        .unwrap_or_else(|error| panic!("{path} cannot be read: {error}"));
    Source {
        path: path.to_owned(),
        text,
    }
}

fn walk(folder: &Path, visit: &mut impl FnMut(&Path)) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries.flatten() {
        let path = entry.path();
        if !is_ours(&entry.file_name().to_string_lossy()) {
            continue;
        }
        if path.is_dir() {
            walk(&path, visit);
        } else {
            visit(&path);
        }
    }
}

/// Fails with every offence, one a line.
#[track_caller]
pub fn none(rule: &str, offences: &[String]) {
    assert!(
        offences.is_empty(),
        "{rule}\n{} offence(s):\n{}",
        offences.len(),
        offences.join("\n")
    );
}

#[test]
fn the_walk_finds_this_file_and_nothing_built() {
    let all = rust();
    assert!(
        all.iter()
            .any(|source| source.path == "tests/tidy/sources.rs")
    );
    assert!(all.iter().any(|source| source.path == "core/src/lib.rs"));
    assert!(!all.iter().any(|source| source.path.contains("/target/")));
}
