//! Rust as tokens, so that comments and strings cannot fool a rule.

use std::str::FromStr;

use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};

use crate::sources::Source;

/// The tokens of a file without attributes, doc comments and test modules.
pub fn shipped(source: &Source) -> Vec<TokenTree> {
    without_tests(all(source))
}

fn without_tests(tokens: Vec<TokenTree>) -> Vec<TokenTree> {
    let mut code = Vec::new();
    let mut in_test = false;
    let mut tokens = tokens.into_iter().peekable();
    while let Some(token) = tokens.next() {
        if is(&token, '#') {
            let inner = tokens.next_if(|next| is(next, '!'));
            if let Some(TokenTree::Group(group)) = tokens.next() {
                in_test |= group.stream().to_string().replace(' ', "") == "cfg(test)";
            }
            // `#![cfg(test)]`: the whole module is tests.
            if in_test && inner.is_some() {
                return Vec::new();
            }
        } else if in_test {
            // The item under `#[cfg(test)]` ends with its braces or semicolon.
            in_test = !(is(&token, ';') || brace(&token).is_some());
        } else if let TokenTree::Group(group) = token {
            let inner = without_tests(inside(&group)).into_iter().collect();
            let mut cleaned = Group::new(group.delimiter(), inner);
            cleaned.set_span(group.span());
            code.push(TokenTree::Group(cleaned));
        } else {
            code.push(token);
        }
    }
    code
}

/// All tokens of a file.
pub fn all(source: &Source) -> Vec<TokenTree> {
    match TokenStream::from_str(&source.text) {
        Ok(tokens) => tokens.into_iter().collect(),
        Err(error) => panic!("{} is no Rust: {error}", source.path),
    }
}

/// Visits every list of tokens, from outside to inside.
pub fn each_list(tokens: &[TokenTree], visit: &mut impl FnMut(&[TokenTree])) {
    visit(tokens);
    for token in tokens {
        if let TokenTree::Group(group) = token {
            each_list(&inside(group), visit);
        }
    }
}

pub fn inside(group: &Group) -> Vec<TokenTree> {
    group.stream().into_iter().collect()
}

pub fn is(token: &TokenTree, punctuation: char) -> bool {
    matches!(token, TokenTree::Punct(punct) if punct.as_char() == punctuation)
}

pub fn ident(token: &TokenTree) -> Option<String> {
    match token {
        TokenTree::Ident(ident) => Some(ident.to_string()),
        _ => None,
    }
}

pub fn brace(token: &TokenTree) -> Option<&Group> {
    match token {
        TokenTree::Group(group) if group.delimiter() == Delimiter::Brace => Some(group),
        _ => None,
    }
}

pub fn parens(token: &TokenTree) -> Option<&Group> {
    match token {
        TokenTree::Group(group) if group.delimiter() == Delimiter::Parenthesis => Some(group),
        _ => None,
    }
}

/// The text of a string literal as written, escapes kept.
pub fn string(token: &TokenTree) -> Option<String> {
    let TokenTree::Literal(literal) = token else {
        return None;
    };
    let text = literal.to_string();
    let text = text.trim_start_matches('r').trim_matches('#');
    let text = text.strip_prefix('"')?.strip_suffix('"')?;
    Some(text.to_owned())
}

pub fn line(token: &TokenTree) -> usize {
    token.span().start().line
}

/// A path (`crate::a::b`) with its line; use trees are spread out.
#[derive(Debug, PartialEq)]
pub struct PathAt {
    pub parts: Vec<String>,
    pub line: usize,
}

/// Every path in the tokens, also inside groups.
pub fn paths(tokens: &[TokenTree]) -> Vec<PathAt> {
    let mut found = Vec::new();
    read_paths(tokens, &[], &mut found);
    found
}

fn read_paths(tokens: &[TokenTree], before: &[String], found: &mut Vec<PathAt>) {
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        at += 1;
        let Some(first) = ident(token) else {
            if let TokenTree::Group(group) = token {
                read_paths(&inside(group), &[], found);
            }
            continue;
        };
        let mut parts = before.to_vec();
        parts.push(first);
        let mut spread = false;
        while let (Some(a), Some(b), Some(next)) =
            (tokens.get(at), tokens.get(at + 1), tokens.get(at + 2))
        {
            if !(is(a, ':') && is(b, ':')) {
                break;
            }
            if let Some(part) = ident(next) {
                parts.push(part);
                at += 3;
            } else {
                if let Some(tree) = brace(next) {
                    read_paths(&inside(tree), &parts, found);
                    spread = true;
                    at += 3;
                }
                break;
            }
        }
        if !spread {
            let line = line(token);
            found.push(PathAt { parts, line });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn use_trees_are_spread_and_tests_left_out() {
        let source = Source::made_up(
            "a.rs",
            "//! crate::doc\nuse crate::{a, b::{c, d}};\nfn f() { crate::e::g() }\n#[cfg(test)]\nmod tests { use crate::z; }\nuse crate::y;",
        );
        let paths: Vec<String> = paths(&shipped(&source))
            .iter()
            .map(|path| path.parts.join("::"))
            .collect();
        for wanted in [
            "crate::a",
            "crate::b::c",
            "crate::b::d",
            "crate::e::g",
            "crate::y",
        ] {
            assert!(
                paths.iter().any(|path| path == wanted),
                "{wanted} in {paths:?}"
            );
        }
        assert!(
            !paths
                .iter()
                .any(|path| path.contains('z') || path.contains("doc"))
        );
    }
}
