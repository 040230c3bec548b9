//! Nothing unfinished and nothing that works only elsewhere.

use proc_macro2::TokenTree;

use crate::code::{all, each_list, ident, inside, is, line, paths};
use crate::sources::{Source, none, rust};

/// Macros that must not stand in the sources, and why.
const MACROS: [(&str, &str); 4] = [
    ("todo", "unfinished"),
    ("unimplemented", "unfinished"),
    ("dbg", "left from a search for a fault"),
    (
        "asset",
        "cannot reach the workspace's assets: include_str! or a plain address",
    ),
];

/// The one place that runs script in a page: the Android package's own, which
/// no browser serves.
const PAGE_SCRIPT: &str = "mobile/src/platform/android/page_script.rs";

fn offences(source: &Source) -> Vec<String> {
    let tokens = all(source);
    let mut found = Vec::new();
    each_list(&tokens, &mut |list| {
        for pair in list.windows(2) {
            let name = ident(&pair[0]).unwrap_or_default();
            let known = MACROS.iter().find(|(known, _)| *known == name);
            if let (Some((name, why)), true) = (known, is(&pair[1], '!')) {
                found.push(source.at(line(&pair[0]), format!("{name}!: {why}")));
            }
            if is(&pair[0], '#') && first_ident(&pair[1]).as_deref() == Some("ignore") {
                found.push(source.at(line(&pair[0]), "an ignored test shows nothing"));
            }
        }
    });
    let evals = paths(&tokens).into_iter().filter(|path| {
        source.path != PAGE_SCRIPT
            && path
                .parts
                .ends_with(&["document".to_owned(), "eval".to_owned()])
    });
    found.extend(evals.map(|path| {
        source.at(
            path.line,
            "document::eval needs unsafe-eval, which the page's policy forbids",
        )
    }));
    found
}

fn first_ident(token: &TokenTree) -> Option<String> {
    match token {
        TokenTree::Group(group) => ident(inside(group).first()?),
        _ => None,
    }
}

#[test]
fn nothing_is_left_unfinished() {
    let offences: Vec<String> = rust().iter().flat_map(offences).collect();
    none(
        "Finish it, or leave it out and say so in the README.",
        &offences,
    );
}

#[test]
fn each_leftover_is_found() {
    let find = |text: &str| offences(&Source::made_up("a.rs", text)).len();
    assert_eq!(find("fn f() { todo!() }"), 1);
    assert_eq!(find("fn f() { if a { unimplemented!(\"x\") } }"), 1);
    assert_eq!(find("fn f() { dbg!(1); asset!(\"a.css\") }"), 2);
    assert_eq!(find("#[test]\n#[ignore = \"slow\"]\nfn f() {}"), 1);
    assert_eq!(find("mod m { #[ignore] fn f() {} }"), 1);
    assert_eq!(find("fn f() { dioxus::document::eval(\"1\"); }"), 1);
    assert_eq!(find("// todo!()\nfn todo() { let s = \"dbg!()\"; }"), 0);
}
