//! The hand-written Android classes against the public typings of Android's
//! API.

use std::collections::BTreeMap;
use std::fs;

use anyhow::{Context, Result, bail};

use super::Place;
use super::symbols::LEAST_LEVEL;
use super::tools::{files, typings};
use crate::tools::Tree;

/// What the typings do not hold.
const BY_HAND: [&str; 2] = ["android.print.", "dev.dioxus.main."];

/// One member of a class.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Member {
    name: String,
    /// How many arguments; none for a field.
    arguments: Option<usize>,
    /// A constant's value.
    value: Option<String>,
    /// The level it came with, where that is told.
    since: u32,
}

type Classes = BTreeMap<String, Vec<Member>>;

/// Commas at the top of a list of arguments, plus one.
fn count(arguments: &str) -> usize {
    let mut depth = 0_i32;
    let mut commas = 0;
    for c in arguments.chars() {
        match c {
            '<' | '(' | '{' | '[' => depth += 1,
            '>' | ')' | '}' | ']' => depth -= 1,
            ',' if depth == 0 => commas += 1,
            _ => {}
        }
    }
    if arguments.trim().is_empty() {
        0
    } else {
        commas + 1
    }
}

/// What stands between the first bracket and its partner.
fn bracketed(text: &str) -> Option<&str> {
    let from = text.find('(')?;
    let mut depth = 0;
    for (at, c) in text[from..].char_indices() {
        match c {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Some(&text[from + 1..from + at]);
        }
    }
    None
}

/// `class Name`, `interface Name` or `module name` in a line.
fn opened(line: &str) -> Option<&str> {
    let words: Vec<&str> = line.split([' ', '{', '<']).collect();
    let kind = words
        .iter()
        .position(|word| matches!(*word, "class" | "interface" | "module"))?;
    words.get(kind + 1).copied()
}

/// Reads the typings: classes by their full name with their members.
fn typed(text: &str) -> Classes {
    let mut classes = Classes::new();
    let mut path: Vec<String> = Vec::new();
    let mut since = 0;
    for line in text.lines().map(str::trim) {
        if line.starts_with('*') || line.starts_with("/*") {
            if let Some((_, rest)) = line.split_once("@since ") {
                let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
                since = digits.parse().unwrap_or(0);
            }
            continue;
        }
        if line.starts_with("});") || line == "}" {
            path.pop();
        } else if line.ends_with('{') {
            path.push(opened(line).unwrap_or_default().to_owned());
            // A constructor out of an implementation opens a block of its own.
        } else if let Some(rest) = line.strip_prefix("public ") {
            let rest = rest.trim_start_matches("static ");
            let name: String = rest
                .chars()
                .take_while(|c| c.is_alphanumeric() || *c == '_')
                .collect();
            let after = &rest[name.len()..];
            let member = Member {
                arguments: after
                    .starts_with('(')
                    .then(|| bracketed(after).map_or(0, count)),
                value: (!after.starts_with('(')).then(|| {
                    after
                        .trim_start_matches(": ")
                        .trim_end_matches(';')
                        .to_owned()
                }),
                name,
                since,
            };
            let full = path.join(".");
            classes.entry(full).or_default().push(member);
        } else if bracketed(line).is_some() && line.contains("): ") {
            // A method of an interface, named in its implementation.
            let name: String = line.chars().take_while(|c| *c != '(').collect();
            let full: Vec<&String> = path.iter().filter(|part| !part.is_empty()).collect();
            let full: Vec<&str> = full.iter().map(|part| part.as_str()).collect();
            classes.entry(full.join(".")).or_default().push(Member {
                arguments: bracketed(line).map(count),
                name,
                value: None,
                since,
            });
        }
        since = 0;
    }
    classes
}

/// Reads one stub: classes by their full name with their members.
fn stubbed(text: &str) -> Classes {
    let mut classes = Classes::new();
    let mut path: Vec<String> = Vec::new();
    for line in text.lines().map(str::trim) {
        if let Some(package) = line.strip_prefix("package ") {
            path.push(package.trim_end_matches(';').to_owned());
        } else if line.ends_with('{') && opened(line).is_some() {
            path.push(opened(line).unwrap_or_default().to_owned());
            classes.entry(path.join(".")).or_default();
        } else if line == "}" {
            path.pop();
        } else if path.len() > 1 && line.ends_with([';', '}']) && !line.starts_with('@') {
            let member = stub_member(line, path.last().map_or("", String::as_str));
            classes.entry(path.join(".")).or_default().extend(member);
        }
    }
    classes
}

fn stub_member(line: &str, class: &str) -> Option<Member> {
    if let Some(arguments) = bracketed(line) {
        let before = line.split('(').next()?;
        let name = before.split_whitespace().next_back()?;
        let name = if name == class { "constructor" } else { name };
        return Some(Member {
            name: name.to_owned(),
            arguments: Some(count(arguments)),
            value: None,
            since: 0,
        });
    }
    let (declared, value) = match line.split_once(" = ") {
        Some((declared, value)) => (declared, Some(value.trim_end_matches(';').to_owned())),
        None => (line.trim_end_matches(';'), None),
    };
    Some(Member {
        name: declared.split_whitespace().next_back()?.to_owned(),
        arguments: None,
        value,
        since: 0,
    })
}

/// A number in either way of writing, else the text.
fn same_value(stub: &str, typed: &str) -> bool {
    let number = |text: &str| match text.strip_prefix("0x") {
        Some(digits) => i64::from_str_radix(digits, 16).ok(),
        None => text.parse().ok(),
    };
    match (number(stub), number(typed)) {
        (Some(one), Some(other)) => one == other,
        // Where the typings give the kind alone, the value cannot be compared.
        _ => stub == typed || matches!(typed, "string" | "number"),
    }
}

/// What is wrong with a member, if anything.
fn offence(class: &str, member: &Member, typed: &Classes) -> Option<String> {
    let Some(known) = typed.get(class) else {
        return Some(format!("{class} is in no typings"));
    };
    let alike: Vec<&Member> = known
        .iter()
        .filter(|other| other.name == member.name && other.arguments == member.arguments)
        .collect();
    let here = format!("{class}.{}", member.name);
    if alike.is_empty() {
        return Some(format!("{here} with these arguments is not in the typings"));
    }
    if alike.iter().all(|other| other.since > LEAST_LEVEL) {
        return Some(format!("{here} came with level {}", alike[0].since));
    }
    match (&member.value, &alike[0].value) {
        (Some(stub), Some(typed))
            if !stub.is_empty()
                && stub != "\"\""
                && stub != "new float[0]"
                && !same_value(stub, typed) =>
        {
            Some(format!("{here} is {typed} and not {stub}"))
        }
        _ => None,
    }
}

/// Compares every stub.
pub fn run(_tree: &Tree, place: &Place) -> Result<String> {
    let folder = typings(place)?;
    let mut known = Classes::new();
    for name in ["android-platform-21-37-merged.d.ts", "androidx-28.d.ts"] {
        let path = folder.join(name);
        let text =
            fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
        known.extend(typed(&text));
    }
    let (mut members, mut by_hand, mut wrong) = (0, 0, Vec::new());
    for path in files(&place.host.join("stubs"), &|name| name.ends_with(".java"))? {
        for (class, stubs) in stubbed(&fs::read_to_string(&path)?) {
            if BY_HAND.iter().any(|package| class.starts_with(package)) {
                by_hand += stubs.len();
                continue;
            }
            members += stubs.len();
            wrong.extend(
                stubs
                    .iter()
                    .filter_map(|stub| offence(&class, stub, &known)),
            );
        }
    }
    if !wrong.is_empty() {
        bail!("{}", wrong.join("\n  "));
    }
    if members == 0 {
        bail!("no stub was found");
    }
    Ok(format!(
        "{members} members; {by_hand} more ({}) are in no typings and taken by hand",
        BY_HAND.join(", ")
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TYPED: &str = "declare module android {\n\texport module os {\n\t\texport class Bundle extends A {\n\
        \t\t\tpublic static class: java.lang.Class<android.os.Bundle>;\n\
        \t\t\t/** @since 29 */\n\t\t\tpublic static NEW: 7;\n\
        \t\t\tpublic constructor();\n\
        \t\t\tpublic getString(param0: string, param1: B<c, d>): string;\n\t\t}\n\t}\n}\n";

    fn offences(stub: &str) -> Vec<String> {
        let typed = typed(TYPED);
        let mut found = Vec::new();
        for (class, members) in stubbed(stub) {
            found.extend(members.iter().filter_map(|m| offence(&class, m, &typed)));
        }
        found
    }

    #[test]
    fn what_is_not_in_the_typings_is_found() {
        let stub = |inside: &str| {
            format!("package android.os;\n\npublic final class Bundle {{\n{inside}\n}}\n")
        };
        let body = "{ throw new UnsupportedOperationException(); }";
        let right = stub(&format!(
            "public Bundle() {body}\npublic String getString(String a, B b) {body}"
        ));
        assert_eq!(offences(&right), Vec::<String>::new());
        for (inside, said) in [
            (
                format!("public String getString(String a) {body}"),
                "not in the typings",
            ),
            (format!("public int getNone() {body}"), "not in the typings"),
            ("public static final int NEW = 7;".to_owned(), "level 29"),
        ] {
            let found = offences(&stub(&inside));
            assert!(found.len() == 1 && found[0].contains(said), "{found:?}");
        }
        assert!(offences("package a;\nclass B {\nint x;\n}\n")[0].contains("no typings"));
    }

    #[test]
    fn constants_are_compared_in_either_way_of_writing() {
        assert!(same_value("0x00000080", "128"));
        assert!(!same_value("3", "4"));
        assert!(same_value("\"print\"", "\"print\""));
        assert!(!same_value("\"print\"", "\"paint\""));
    }
}
