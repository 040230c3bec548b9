//! Small files: one noun each.

use crate::code::{all, brace, ident, is, line};
use crate::sources::{Source, none, rust};

/// Lines of a file, its test module not counted.
const LIMIT: usize = 400;

/// Lines of a file without its `#[cfg(test)] mod tests { … }`.
fn lines(source: &Source) -> usize {
    let tokens = all(source);
    let tests: usize = tokens
        .windows(5)
        .filter(|window| {
            is(&window[0], '#')
                && window[1].to_string().replace(' ', "") == "[cfg(test)]"
                && ident(&window[2]).as_deref() == Some("mod")
                && ident(&window[3]).as_deref() == Some("tests")
        })
        .filter_map(|window| {
            Some(brace(&window[4])?.span_close().end().line + 1 - line(&window[0]))
        })
        .sum();
    source.text.lines().count() - tests
}

fn offence(source: &Source) -> Option<String> {
    let lines = lines(source);
    (lines > LIMIT).then(|| {
        source.at(
            LIMIT,
            format!("{lines} lines without tests, {LIMIT} are the limit"),
        )
    })
}

#[test]
fn no_file_is_longer_than_the_limit() {
    let offences: Vec<String> = rust().iter().filter_map(offence).collect();
    none("Split by nouns, not by counting lines.", &offences);
}

#[test]
fn a_long_file_is_found_and_its_tests_are_not_counted() {
    let code = "fn f() {}\n".repeat(LIMIT);
    let tests = format!("#[cfg(test)]\nmod tests {{\n{code}}}\n");
    assert_eq!(offence(&Source::made_up("a.rs", &code)), None);
    assert_eq!(
        offence(&Source::made_up("a.rs", &format!("{code}{tests}"))),
        None
    );
    assert!(
        offence(&Source::made_up(
            "a.rs",
            &format!("{code}fn g() {{}}\n{tests}")
        ))
        .is_some()
    );
}
