//! What the fitter reads stands in `assets/texts`, not in screens and parts.

use proc_macro2::TokenTree;

use crate::code::{brace, each_list, ident, inside, is, line, shipped, string};
use crate::sources::{Source, none, sources};

/// Attributes whose value is read by the fitter or to them.
const READ: [&str; 9] = [
    "aria_label",
    "aria-label",
    "aria_description",
    "aria-description",
    "aria_valuetext",
    "aria-valuetext",
    "title",
    "placeholder",
    "alt",
];

/// Whether letters stand in it beside `{…}`.
fn has_letters(text: &str) -> bool {
    let mut depth = 0;
    text.replace("{{", "").replace("}}", "").chars().any(|c| {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => return depth == 0 && c.is_alphabetic(),
        }
        false
    })
}

/// Whether it reads as a sentence: `Start a job`, but not `M 0 0 L 1 1`.
fn is_sentence(text: &str) -> bool {
    let mut words = text.split_whitespace();
    let capital = |word: &str| {
        let mut chars = word.chars();
        chars.next().is_some_and(char::is_uppercase) && chars.next().is_some_and(char::is_lowercase)
    };
    words.next().is_some_and(capital) && words.any(|word| word.chars().all(char::is_alphabetic))
}

type Found = Vec<(usize, String)>;

/// Looks for `rsx!` and reads what is inside.
fn find_rsx(tokens: &[TokenTree], found: &mut Found) {
    for (at, token) in tokens.iter().enumerate() {
        let TokenTree::Group(group) = token else {
            continue;
        };
        let rsx =
            at >= 2 && is(&tokens[at - 1], '!') && ident(&tokens[at - 2]).as_deref() == Some("rsx");
        if rsx {
            read_body(&inside(group), found);
        } else {
            find_rsx(&inside(group), found);
        }
    }
}

/// Reads the body of an element: attributes, children, `if`, `for`, `{…}`.
fn read_body(tokens: &[TokenTree], found: &mut Found) {
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let before = at.checked_sub(1).map(|before| &tokens[before]);
        let starts = before.is_none_or(|before| {
            is(before, ',')
                || is(before, ';')
                || brace(before).is_some()
                || string(before).is_some()
        });
        let name = string(token).or_else(|| ident(token));
        let colon = |at: usize| tokens.get(at).is_some_and(|token| is(token, ':'));
        if let (true, Some(name), true, false) = (starts, name, colon(at + 1), colon(at + 2)) {
            let end = tokens[at..]
                .iter()
                .position(|token| is(token, ','))
                .map_or(tokens.len(), |length| at + length);
            let value = &tokens[at + 2..end];
            if READ.contains(&name.as_str()) {
                read_value(value, found);
            }
            find_rsx(value, found);
            at = end;
            continue;
        }
        let arm = before.is_some_and(|before| is(before, '>'));
        if let (Some(text), true) = (string(token), starts || arm) {
            keep(token, text, found);
        }
        if let TokenTree::Group(group) = token {
            match brace(token) {
                Some(body) => read_body(&inside(body), found),
                None => find_rsx(&inside(group), found),
            }
        }
        at += 1;
    }
}

/// Reads a value that the fitter reads; what a call is given is not read.
fn read_value(tokens: &[TokenTree], found: &mut Found) {
    for token in tokens {
        if let Some(text) = string(token) {
            keep(token, text, found);
        } else if let Some(body) = brace(token) {
            read_value(&inside(body), found);
        }
    }
}

fn keep(token: &TokenTree, text: String, found: &mut Found) {
    if has_letters(&text) {
        found.push((line(token), text));
    }
}

fn offences(source: &Source) -> Vec<String> {
    let tokens = shipped(source);
    let mut found = Vec::new();
    find_rsx(&tokens, &mut found);
    each_list(&tokens, &mut |list| {
        let sentences = list
            .iter()
            .filter_map(|token| Some((line(token), string(token)?)));
        found.extend(sentences.filter(|(_, text)| is_sentence(text)));
    });
    found.sort();
    found.dedup();
    found
        .into_iter()
        .map(|(line, text)| source.at(line, format!("\"{text}\"")))
        .collect()
}

#[test]
fn screens_and_parts_hold_no_words() {
    let offences: Vec<String> = ["mobile/src/screens", "mobile/src/parts", "mobile/src/app"]
        .iter()
        .flat_map(|folder| sources(folder, &[".rs"]))
        .flat_map(|source| offences(&source))
        .collect();
    none(
        "The words go to assets/texts/en.ftl, the screen names their key.",
        &offences,
    );
}

#[test]
fn words_in_a_screen_are_found_and_names_are_not() {
    let find = |body: &str| {
        offences(&Source::made_up(
            "mobile/src/screens/a.rs",
            &format!("fn a() {{ rsx! {{ {body} }} }}"),
        ))
        .len()
    };
    for word in [
        "\"Start a job\"",
        "\"start\"",
        "div { class: \"x\", \"{n} mm\" }",
        "if a { \"yes\" } else { \"no way\" } , p { \"ok\" }",
        "{ if a { \"yes\" } else { \"no way\" } } p { \"ok\" }",
    ] {
        assert!(find(word) > 0, "{word}");
    }
    assert_eq!(
        find("{ if a { \"yes\" } else { \"no way\" } } p { \"ok\" }"),
        3
    );
    assert_eq!(
        find(
            "button { aria_label: \"Close\", \"aria-label\": if a { \"x\" } else { t(\"y\") }, \"×\" }"
        ),
        2
    );
    assert_eq!(
        find("List { heading: \"Your jobs here\", items: rsx! { \"one\" } }"),
        2
    );
    assert_eq!(
        find("ul { for a in b { li { key: \"{a}\", \"one\" } } }"),
        1
    );
    assert_eq!(find("{ match a { A => \"one\", B => t(\"b\") } }"), 1);
    for name in [
        "div { class: \"card wide\", id: \"top\", r#type: \"button\", href: \"/jobs\", {t(\"start\")} }",
        "svg { view_box: \"0 0 10 10\", path { d: \"M 0 0 L {x} 1\" } text { x: \"1\", \"{label} ±\" } }",
        "button { class: if a == \"x\" { \"on\" } else { \"off\" }, onclick: move |_| { send(\"a\"); }, \"{words}\" }",
        "if a == \"x\" { p { {t(\"one\")} } }",
        "Head { text: t(\"head\"), key: \"head\" }",
    ] {
        assert_eq!(find(name), 0, "{name}");
    }
    let outside = Source::made_up(
        "a.rs",
        "/// Start a job\nfn a() -> String { \"Start a job\".into() }\n#[cfg(test)]\nmod tests { fn a() { rsx! { \"one\" } } }",
    );
    assert_eq!(offences(&outside).len(), 1);
}
