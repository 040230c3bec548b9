//! Keys and arguments: what the code says and what `en.ftl` words.

use std::collections::BTreeSet;

use proc_macro2::TokenTree;

use crate::code::{each_list, ident, inside, is, line, parens, shipped, string};
use crate::ftl::{Texts, read};
use crate::sources::{Source, file, none, sources};

const FTL: &str = "assets/texts/en.ftl";

/// Calls whose first argument is a key.
const CALLS: [&str; 2] = ["msg", "t"];

/// Methods of a message that add the argument named first.
const ADDS: [&str; 8] = [
    "with", "number", "mm", "deg", "count", "text", "message", "list",
];

/// Lower-case words with hyphens in core that are no keys: names of steps.
const NO_KEYS: [&str; 9] = [
    "box-place",
    "box-place-cabin",
    "display-place",
    "heads-in",
    "kit-complete",
    "paint-cured",
    "primer-dry",
    "speaker-place",
    "zone-shift",
];

/// Beginnings of keys that are put together as the program runs; that each of
/// those is worded is tested where they are put together.
const BUILT: [&str; 2] = ["kit-field", "s-"];

/// A key as the code names it.
struct Said {
    key: String,
    at: usize,
    /// The arguments, if all of them can be seen there.
    arguments: Option<BTreeSet<String>>,
}

/// The keys given to [`CALLS`].
fn said(source: &Source) -> Vec<Said> {
    let mut found = Vec::new();
    each_list(&shipped(source), &mut |list| {
        for (at, pair) in list.windows(2).enumerate() {
            let call = ident(&pair[0]).filter(|name| CALLS.contains(&name.as_str()));
            let given = parens(&pair[1]).map(inside).unwrap_or_default();
            let (Some(call), Some(key)) = (call, given.first().and_then(string)) else {
                continue;
            };
            let bound = list[..at]
                .iter()
                .rev()
                .find(|token| !(is(token, ':') || ident(token).is_some()));
            let complete = call == "msg" && !bound.is_some_and(|token| is(token, '='));
            let chain = chain(&list[at + 2..]);
            let arguments = chain.filter(|_| complete);
            found.push(Said {
                key,
                at: line(&pair[0]),
                arguments,
            });
        }
    });
    found
}

/// The arguments added by `.mm("gap", …).count("spot", …)`; none if a name
/// or a method is not known here.
fn chain(tokens: &[TokenTree]) -> Option<BTreeSet<String>> {
    let mut names = BTreeSet::new();
    for link in tokens.chunks(3) {
        let [dot, method, given] = link else { break };
        if !is(dot, '.') {
            break;
        }
        let method = ident(method)?;
        if !ADDS.contains(&method.as_str()) {
            return None;
        }
        names.insert(inside(parens(given)?).first().and_then(string)?);
    }
    Some(names)
}

fn is_hyphenated(text: &str) -> bool {
    let part = |part: &str| {
        !part.is_empty()
            && part
                .chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
    };
    text.contains('-')
        && text.split('-').all(part)
        && text.starts_with(|c: char| c.is_ascii_lowercase())
}

fn strings(source: &Source) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    each_list(&shipped(source), &mut |list| {
        found.extend(
            list.iter()
                .filter_map(|token| Some((line(token), string(token)?))),
        );
    });
    found
}

/// Keys that the code names and the texts do not word.
fn unworded(source: &Source, texts: &Texts) -> Vec<String> {
    let mut keys: Vec<(usize, String)> = said(source)
        .into_iter()
        .map(|said| (said.at, said.key))
        .collect();
    if source.path.starts_with("core/") {
        // Core has no other use for lower-case words with hyphens.
        let hyphenated = strings(source)
            .into_iter()
            .filter(|(_, text)| is_hyphenated(text));
        keys.extend(hyphenated.filter(|(_, text)| {
            !NO_KEYS.contains(&text.as_str()) && !BUILT.contains(&text.as_str())
        }));
    }
    keys.retain(|(_, key)| {
        !texts
            .arguments
            .contains_key(key.split('.').next().unwrap_or(key))
    });
    keys.sort();
    keys.dedup();
    keys.into_iter()
        .map(|(line, key)| source.at(line, format!("{FTL} has no {key}")))
        .collect()
}

/// Names added to a message that was begun elsewhere in the file, for
/// instance to what a `match` gave; they may go to any message there.
fn added_later(source: &Source) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    each_list(&shipped(source), &mut |list| {
        // Whether the chain began with a key that is written out.
        let mut written = false;
        for link in list.windows(3) {
            let name = |token| {
                parens(token)
                    .map(inside)
                    .and_then(|given| string(given.first()?))
            };
            if ident(&link[0]).as_deref() == Some("msg") {
                written = name(&link[1]).is_some();
            } else if [',', ';', '='].iter().any(|end| is(&link[0], *end)) {
                written = false;
            }
            let adds = ident(&link[1]).is_some_and(|method| ADDS.contains(&method.as_str()));
            if is(&link[0], '.') && adds && !written {
                found.extend(name(&link[2]));
            }
        }
    });
    found
}

/// Arguments that the texts name and the code does not give.
fn ungiven(source: &Source, texts: &Texts) -> Vec<String> {
    let later = added_later(source);
    let mut found = Vec::new();
    for said in said(source) {
        if let (Some(given), Some(wanted)) = (&said.arguments, texts.arguments.get(&said.key)) {
            let missing = wanted
                .difference(given)
                .filter(|name| !later.contains(*name));
            let missing: Vec<&String> = missing.collect();
            if !missing.is_empty() {
                found.push(source.at(said.at, format!("{} is not given {missing:?}", said.key)));
            }
        }
    }
    found
}

/// Keys that are worded and that nothing names.
fn unused(texts: &Texts, code: &[Source], data: &[Source]) -> Vec<String> {
    let mut named: BTreeSet<String> = texts.referred.clone();
    named.extend(code.iter().flat_map(strings).map(|(_, text)| text));
    let in_data = |key: &str| {
        data.iter().any(|source| {
            ['"', '\'']
                .iter()
                .any(|q| source.text.contains(&format!("{q}{key}{q}")))
        })
    };
    let built = |key: &str| BUILT.iter().any(|start| key.starts_with(start));
    let unused = texts
        .arguments
        .keys()
        .filter(|key| !named.contains(*key) && !in_data(key) && !built(key));
    unused
        .map(|key| format!("{FTL}: nothing says {key}"))
        .collect()
}

fn code() -> Vec<Source> {
    ["core/src", "ffi/src", "mobile/src"]
        .iter()
        .flat_map(|folder| sources(folder, &[".rs"]))
        .collect()
}

#[test]
fn every_text_can_be_read() {
    none("Fluent cannot read this.", &read(&file(FTL)).faults);
}

#[test]
fn every_key_is_worded() {
    let texts = read(&file(FTL));
    let offences: Vec<String> = code()
        .iter()
        .flat_map(|source| unworded(source, &texts))
        .collect();
    none("Word it in your section of the texts.", &offences);
}

#[test]
fn every_argument_is_given() {
    let texts = read(&file(FTL));
    let offences: Vec<String> = code()
        .iter()
        .flat_map(|source| ungiven(source, &texts))
        .collect();
    none(
        "The text would show the name in place of the figure.",
        &offences,
    );
}

#[test]
fn every_text_is_used() {
    let data = sources("assets", &[".json", ".html", ".js"]);
    none(
        "Take it out, or say it.",
        &unused(&read(&file(FTL)), &code(), &data),
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts() -> Texts {
        read(&Source::made_up(
            FTL,
            "gap-off = Off by { $gap } mm.\nspots = { $n ->\n    [one] a spot\n   *[other] { NUMBER($n) } spots, { $where }\n}\nold-news = { gap-off }\n",
        ))
    }

    #[test]
    fn faults_and_doubles_are_found() {
        assert_eq!(texts().faults.len(), 0);
        assert!(
            !read(&Source::made_up(FTL, "broken = { $a\n"))
                .faults
                .is_empty()
        );
        assert_eq!(
            read(&Source::made_up(FTL, "a = b\na = c\n")).faults.len(),
            1
        );
    }

    #[test]
    fn unworded_keys_are_found() {
        let find = |path: &str, text: &str| unworded(&Source::made_up(path, text), &texts()).len();
        assert_eq!(
            find(
                "core/src/a.rs",
                "fn f() { msg(\"gap-off\"); msg(\"gone\") }"
            ),
            1
        );
        assert_eq!(
            find("core/src/a.rs", "fn f() -> &'static str { \"gap-of\" }"),
            1
        );
        assert_eq!(
            find(
                "core/src/a.rs",
                "#[serde(rename = \"a-b\")] struct A { #[serde(rename = \"a-b\")] b: u8 }"
            ),
            0
        );
        assert_eq!(
            find(
                "mobile/src/a.rs",
                "fn f() { rsx! { p { class: \"a-b\", {t(\"c-d\")} } } }"
            ),
            1
        );
    }

    #[test]
    fn ungiven_arguments_are_found() {
        let find = |text: &str| ungiven(&Source::made_up("core/src/a.rs", text), &texts()).len();
        assert_eq!(find("fn f() { msg(\"gap-off\").mm(\"gap\", 1.0) }"), 0);
        assert_eq!(find("fn f() { msg(\"gap-off\") }"), 1);
        assert_eq!(
            find("fn f() { Some(text::msg(\"gap-off\").mm(\"gab\", 1.0)) }"),
            1
        );
        assert_eq!(find("fn f() { msg(\"spots\").count(\"n\", 1) }"), 1);
        assert_eq!(
            find("fn f() { msg(\"spots\").count(\"n\", 1).text(\"where\", w) }"),
            0
        );
        assert_eq!(
            find("fn f() { let m = msg(\"gap-off\"); m.mm(\"gap\", 1.0) }"),
            0
        );
    }

    #[test]
    fn what_a_match_is_given_later_counts() {
        let find = |text: &str| ungiven(&Source::made_up("core/src/a.rs", text), &texts()).len();
        let later = "fn f() { let m = match a { A => msg(\"gap-off\"), B => msg(\"spots\").count(\"n\", 1) };";
        assert_eq!(
            find(&format!("{later} m.mm(\"gap\", 1.0).text(\"where\", w) }}")),
            0
        );
        assert_eq!(find(&format!("{later} m.mm(\"gap\", 1.0) }}")), 1);
        assert_eq!(find(&format!("{later} m }}")), 2);
        assert_eq!(
            find("fn f() { g(msg(\"spots\").count(\"n\", 1), msg(\"a\").text(\"where\", w)) }"),
            1
        );
    }

    #[test]
    fn unused_texts_are_found() {
        let code = [Source::made_up(
            "core/src/a.rs",
            "fn f() { msg(\"spots\") }\n#[cfg(test)]\nmod tests { fn f() { msg(\"old-news\") } }",
        )];
        assert_eq!(unused(&texts(), &code, &[]).len(), 1);
        let data = [Source::made_up("assets/steps/a.json", "[\"old-news\"]")];
        assert_eq!(unused(&texts(), &code, &data).len(), 0);
    }
}
