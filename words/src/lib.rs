//! All words come from `assets/texts/en.ftl`; this renders messages with it.
//!
//! The file is Fluent and is read by Fluent's parser. What the file uses of
//! Fluent (arguments, and a choice by a count) is put together here: the
//! whole library brings the plural rules and names of every language, which
//! weigh more than the texts. A test compares with the library.

use fluent_syntax::ast::{
    Entry, Expression, InlineExpression, Pattern, PatternElement, Variant, VariantKey,
};
use fluent_syntax::parser::parse_runtime;
use rakeline_core::text::{Arg, Message, msg};

mod inches;

use inches::with_inches;
pub use inches::{beside, inches};

/// The one text file, compiled in.
pub const EN_FTL: &str = include_str!("../../assets/texts/en.ftl");

type Words = Pattern<&'static str>;

thread_local! {
    /// In order of key.
    static ENTRIES: Vec<(&'static str, Words)> = entries(EN_FTL);
}

/// The messages of a Fluent source. Entries that don't parse are left out;
/// a test holds that there are none.
fn entries(source: &'static str) -> Vec<(&'static str, Words)> {
    let (Ok(resource) | Err((resource, _))) = parse_runtime(source);
    let messages = resource.body.into_iter().filter_map(|entry| match entry {
        Entry::Message(message) => Some((message.id.name, message.value?)),
        _ => None,
    });
    let mut entries: Vec<_> = messages.collect();
    entries.sort_unstable_by_key(|(key, _)| *key);
    entries
}

/// The words of a message. A key without words shows itself, so that it is
/// seen and reported rather than hidden.
#[must_use]
pub fn say(message: &Message) -> String {
    with_inches(said(message))
}

/// The words as the file has them.
fn said(message: &Message) -> String {
    let mut words = String::new();
    ENTRIES.with(
        |entries| match entries.binary_search_by(|(key, _)| (*key).cmp(&message.key)) {
            Ok(at) => put(&entries[at].1, message, &mut words),
            Err(_) => words.push_str(&message.key),
        },
    );
    words
}

/// The words of a key without arguments.
#[must_use]
pub fn t(key: &'static str) -> String {
    say(&msg(key))
}

fn put(pattern: &Words, message: &Message, words: &mut String) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => words.push_str(value),
            PatternElement::Placeable { expression } => match expression {
                Expression::Inline(inline) => put_inline(inline, message, words),
                Expression::Select { selector, variants } => {
                    if let Some(variant) = chosen(variants, argument(selector, message)) {
                        put(&variant.value, message, words);
                    }
                }
            },
        }
    }
}

fn put_inline(inline: &InlineExpression<&str>, message: &Message, words: &mut String) {
    match (inline, argument(inline, message)) {
        (_, Some(arg)) => words.push_str(&words_of(arg)),
        (InlineExpression::StringLiteral { value }, _) => words.push_str(value),
        // A missing argument shows its name, as Fluent does.
        (InlineExpression::VariableReference { id }, None) => {
            words.push_str("{$");
            words.push_str(id.name);
            words.push('}');
        }
        _ => {}
    }
}

fn argument<'a>(inline: &InlineExpression<&str>, message: &'a Message) -> Option<&'a Arg> {
    let InlineExpression::VariableReference { id } = inline else {
        return None;
    };
    // Of two with one name the last holds.
    let mut args = message.args.iter().rev();
    args.find(|(name, _)| *name == id.name).map(|(_, arg)| arg)
}

/// The variant of a count: its own figure, else `one` for 1, else the
/// default. English has no other plural.
fn chosen<'a>(
    variants: &'a [Variant<&'static str>],
    arg: Option<&Arg>,
) -> Option<&'a Variant<&'static str>> {
    let fits = |variant: &&Variant<&str>| match (&variant.key, arg) {
        (VariantKey::NumberLiteral { value }, Some(Arg::Count(count))) => {
            value.parse() == Ok(*count)
        }
        (VariantKey::Identifier { name }, Some(Arg::Count(1 | -1))) => *name == "one",
        _ => false,
    };
    let default = || variants.iter().find(|variant| variant.default);
    variants.iter().find(fits).or_else(default)
}

fn words_of(arg: &Arg) -> String {
    match arg {
        Arg::Number { value, decimals } => figure(*value, *decimals),
        Arg::Count(count) => count.to_string(),
        Arg::Text(text) => plain(text),
        Arg::Message(inner) => said(inner),
        Arg::List(inner) => {
            let words: Vec<String> = inner.iter().map(said).collect();
            words.join(", ")
        }
    }
}

/// A figure with fixed decimals and a true minus sign; never "-0".
#[must_use]
pub fn figure(value: f64, decimals: u8) -> String {
    let text = format!("{value:.*}", usize::from(decimals));
    let is_zero = text.chars().all(|c| matches!(c, '-' | '0' | '.'));
    if is_zero {
        text.trim_start_matches('-').to_owned()
    } else {
        text.replace('-', "\u{2212}")
    }
}

/// Typed text without what could turn the words around it: control
/// characters and direction overrides.
#[must_use]
pub fn plain(text: &str) -> String {
    text.chars()
        .filter(|c| {
            !c.is_control() && !matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use std::borrow::Cow;

    use super::*;

    use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};

    #[test]
    fn every_entry_of_the_text_file_parses() {
        assert!(parse_runtime(EN_FTL).is_ok());
    }

    /// What the Fluent library says, given the same arguments.
    fn by_fluent(bundle: &FluentBundle<FluentResource>, message: &Message) -> String {
        let value = |arg: &Arg| match arg {
            Arg::Count(count) => FluentValue::from(*count),
            other => FluentValue::String(Cow::Owned(words_of(other))),
        };
        let args = message.args.iter();
        let args: FluentArgs = args
            .map(|(name, arg)| (name.as_ref(), value(arg)))
            .collect();
        let pattern = bundle.get_message(&message.key).unwrap().value().unwrap();
        let mut faults = Vec::new();
        let words = bundle.format_pattern(pattern, Some(&args), &mut faults);
        words.into_owned()
    }

    #[test]
    fn every_entry_reads_as_the_fluent_library_reads_it() {
        let mut bundle = FluentBundle::new(vec![unic_langid::langid!("en")]);
        bundle.set_use_isolating(false);
        bundle.add_resource_overriding(FluentResource::try_new(EN_FTL.to_owned()).unwrap());
        let names: std::collections::BTreeSet<&str> = EN_FTL
            .split('$')
            .skip(1)
            .filter_map(|rest| {
                rest.split(|c: char| !c.is_alphanumeric() && c != '-')
                    .next()
            })
            .collect();
        for key in ENTRIES.with(|entries| entries.iter().map(|(key, _)| *key).collect::<Vec<_>>()) {
            assert_eq!(
                t(key),
                by_fluent(&bundle, &msg(key)),
                "{key} without arguments"
            );
            for count in [-1, 0, 1, 2, 11, 21, 1_000_000] {
                let give = |message: Message, name: &&'static str| message.count(name, count);
                let message = names.iter().fold(msg(key), give);
                assert_eq!(
                    say(&message),
                    by_fluent(&bundle, &message),
                    "{key} of {count}"
                );
            }
            let give = |message: Message, name: &&'static str| message.text(name, *name);
            let message = names.iter().fold(msg(key), give);
            assert_eq!(
                say(&message),
                by_fluent(&bundle, &message),
                "{key} of texts"
            );
        }
    }

    #[test]
    fn a_figure_never_reads_minus_zero_and_has_a_true_minus() {
        assert_eq!(figure(-0.04, 1), "0.0");
        assert_eq!(figure(-4.25, 1), "\u{2212}4.2");
        assert_eq!(figure(880.0, 0), "880");
    }

    #[test]
    fn a_key_without_words_shows_itself() {
        assert_eq!(t("no-such-key"), "no-such-key");
    }

    #[test]
    fn direction_overrides_in_names_are_left_out() {
        assert_eq!(plain("Van\u{202E}naV"), "VannaV");
    }
}
