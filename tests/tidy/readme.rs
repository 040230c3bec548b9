//! The README's commands are those that are run.

use crate::sources::{Source, file, none};

/// Command lines in the fenced blocks.
fn commands(readme: &Source) -> Vec<&str> {
    let mut fenced = false;
    let mut found = Vec::new();
    for text in readme.text.lines().map(str::trim) {
        if text.starts_with("```") {
            fenced = !fenced;
        } else if fenced && !text.is_empty() && !text.starts_with('#') {
            found.push(text.trim_start_matches("$ "));
        }
    }
    found
}

/// What a script does besides settling where and how it runs.
fn calls(script: &Source) -> Vec<&str> {
    let lines = script.text.lines().map(str::trim);
    lines
        .filter(|text| !text.is_empty() && !text.starts_with('#'))
        .filter(|text| !text.starts_with("set ") && !text.starts_with("cd "))
        .collect()
}

fn offences(readme: &Source, script: &Source) -> Vec<String> {
    let commands = commands(readme);
    let mut found = Vec::new();
    match calls(script)[..] {
        [call] if commands.contains(&call) => {}
        [call] => found.push(readme.at(
            1,
            format!("no fenced block holds the tests' command `{call}`, but: {commands:?}"),
        )),
        ref calls => found.push(script.at(
            1,
            format!("calls {calls:?} and not the one command of the README"),
        )),
    }
    if !commands
        .iter()
        .any(|command| command.starts_with("cargo xtask run"))
    {
        found.push(readme.at(1, "no fenced block holds the command `cargo xtask run`"));
    }
    found
}

#[test]
fn the_readme_gives_the_commands_that_are_run() {
    none(
        "README.md and .ci/run must say the same.",
        &offences(&file("README.md"), &file(".ci/run")),
    );
}

#[test]
fn other_commands_are_found() {
    let readme = Source::made_up(
        "README.md",
        "Say\n```sh\ncargo xtask run\n```\n```\n# all tests\n$ cargo xtask test\n```\ncargo test\n",
    );
    let find = |script: &str| offences(&readme, &Source::made_up(".ci/run", script)).len();
    assert_eq!(find("#!/bin/sh\nset -e\ncd x\ncargo xtask test\n"), 0);
    assert_eq!(find("cargo test\n"), 1);
    assert_eq!(find("cargo xtask test --fast\n"), 1);
    assert_eq!(find("cargo fmt\ncargo xtask test\n"), 1);
    assert_eq!(find(""), 1);
    let empty = Source::made_up("README.md", "cargo xtask run, cargo xtask test");
    assert_eq!(
        offences(&empty, &Source::made_up(".ci/run", "cargo xtask test")).len(),
        2
    );
}
