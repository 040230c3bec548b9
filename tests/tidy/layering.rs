//! One direction: a module imports only from those above it.

use crate::code::{PathAt, paths, shipped};
use crate::sources::{Source, file, none, sources};

/// Core's modules from the bottom up.
const ORDER: [&str; 20] = [
    "units", "text", "figure", "json", "order", "table", "moment", "sample", "estimate", "kit",
    "steps", "decide", "learn", "job", "drawing", "diagnose", "record", "again", "report", "ffi",
];

fn place(module: &str) -> Option<usize> {
    ORDER.iter().position(|name| *name == module)
}

/// The modules of a file in core/src: `estimate/rake.rs` is estimate, rake.
fn modules(path: &str) -> Vec<&str> {
    let path = path.trim_start_matches("core/src/").trim_end_matches(".rs");
    path.split('/').filter(|part| *part != "mod").collect()
}

/// The module of core that a path names, if any.
fn names_module(path: &PathAt, depth: usize) -> Option<&str> {
    let supers = path
        .parts
        .iter()
        .take_while(|part| *part == "super")
        .count();
    let from_root = match path.parts.first()?.as_str() {
        "crate" | "rakeline_core" => 1,
        // From a file so deep, so many `super` reach the root.
        "super" if supers == depth => supers,
        _ => return None,
    };
    path.parts.get(from_root).map(String::as_str)
}

fn core_offences(source: &Source) -> Vec<String> {
    let own = modules(&source.path);
    if own == ["lib"] {
        return Vec::new();
    }
    let Some(height) = own.first().and_then(|module| place(module)) else {
        return vec![source.at(1, format!("the module has no place in the order {ORDER:?}"))];
    };
    let upward = |path: PathAt| {
        let module = names_module(&path, own.len())?;
        let what = path.parts.join("::");
        match place(module) {
            Some(place) if place <= height => None,
            Some(_) => Some(source.at(path.line, format!("{} imports upward: {what}", own[0]))),
            None => Some(source.at(path.line, format!("{what} does not go by its module"))),
        }
    };
    paths(&shipped(source))
        .into_iter()
        .filter_map(upward)
        .collect()
}

/// What core must not know: the shell and what shells are made of.
const SHELL: [&str; 6] = [
    "rakeline",
    "dioxus",
    "web_sys",
    "js_sys",
    "wasm_bindgen",
    "fluent_syntax",
];

fn shell_offences(source: &Source) -> Vec<String> {
    paths(&shipped(source))
        .into_iter()
        .filter(|path| path.parts.len() > 1 && SHELL.contains(&path.parts[0].as_str()))
        .map(|path| {
            source.at(
                path.line,
                format!("core knows the shell: {}", path.parts.join("::")),
            )
        })
        .collect()
}

fn dependency_offences(manifest: &Source) -> Vec<String> {
    let lines = manifest.text.lines().enumerate();
    lines
        .filter(|(_, text)| {
            let name = text.split(['.', '=', ' ']).next().unwrap_or_default();
            SHELL.contains(&name.replace('-', "_").as_str())
        })
        .map(|(at, text)| manifest.at(at + 1, format!("core depends on the shell: {text}")))
        .collect()
}

fn platform_offences(source: &Source) -> Vec<String> {
    paths(&shipped(source))
        .into_iter()
        .filter(|path| path.parts.len() > 1)
        .filter(|path| path.parts.iter().any(|part| part == "platform"))
        .map(|path| {
            source.at(
                path.line,
                format!(
                    "screens and parts do not touch the platform: {}",
                    path.parts.join("::")
                ),
            )
        })
        .collect()
}

#[test]
fn core_imports_only_downward() {
    let sources = sources("core/src", &[".rs"]);
    let offences: Vec<String> = sources.iter().flat_map(core_offences).collect();
    none("Move the code down, or pass the value in.", &offences);
}

#[test]
fn core_does_not_know_the_shell() {
    let mut offences: Vec<String> = sources("core/src", &[".rs"])
        .iter()
        .flat_map(shell_offences)
        .collect();
    offences.extend(dependency_offences(&file("core/Cargo.toml")));
    none(
        "Core is pure: what it needs from the shell is an argument.",
        &offences,
    );
}

#[test]
fn screens_and_parts_do_not_touch_the_platform() {
    let offences: Vec<String> = ["mobile/src/screens", "mobile/src/parts"]
        .iter()
        .flat_map(|folder| sources(folder, &[".rs"]))
        .flat_map(|source| platform_offences(&source))
        .collect();
    none(
        "A screen sends an intent; the driver calls the platform.",
        &offences,
    );
}

#[test]
fn an_upward_import_is_found() {
    let find = |path: &str, text: &str| core_offences(&Source::made_up(path, text)).len();
    assert_eq!(
        find("core/src/estimate/rake.rs", "use crate::units::Degrees;"),
        0
    );
    assert_eq!(
        find("core/src/estimate/rake.rs", "use super::ground::Slope;"),
        0
    );
    assert_eq!(
        find("core/src/estimate/rake.rs", "use crate::{units, job};"),
        1
    );
    assert_eq!(
        find("core/src/estimate/rake.rs", "use super::super::job::Job;"),
        1
    );
    assert_eq!(
        find("core/src/sample.rs", "fn f() { super::kit::read() }"),
        1
    );
    assert_eq!(
        find("core/src/estimate/mod.rs", "use rakeline_core::kit;"),
        1
    );
    assert_eq!(find("core/src/sample.rs", "use crate::Degrees;"), 1);
    assert_eq!(find("core/src/tools.rs", ""), 1);
}

#[test]
fn the_shell_in_core_and_the_platform_in_a_screen_are_found() {
    let shell = Source::made_up(
        "core/src/job.rs",
        "use rakeline::app; use dioxus::prelude::*;",
    );
    assert_eq!(shell_offences(&shell).len(), 2);
    let manifest = Source::made_up(
        "core/Cargo.toml",
        "rakeline.workspace = true\nserde = 1\nweb-sys = \"0.3\"\nrakeline-core = 1",
    );
    assert_eq!(dependency_offences(&manifest).len(), 2);
    let screen = Source::made_up(
        "mobile/src/screens/a.rs",
        "use crate::platform::Storage; use crate::{app, platform};",
    );
    assert_eq!(platform_offences(&screen).len(), 2);
}
