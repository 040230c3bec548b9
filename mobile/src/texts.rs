//! All words come from `assets/texts/en.ftl`; this renders messages with it.

use std::borrow::Cow;

use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use rakeline_core::text::{Arg, Message, msg};

/// The one text file, compiled in.
pub const EN_FTL: &str = include_str!("../../assets/texts/en.ftl");

thread_local! {
    static BUNDLE: FluentBundle<FluentResource> = bundle(EN_FTL);
}

/// A bundle over one Fluent source. Entries that don't parse are left out;
/// a test holds that there are none.
fn bundle(source: &str) -> FluentBundle<FluentResource> {
    let resource = match FluentResource::try_new(source.to_owned()) {
        Ok(resource) | Err((resource, _)) => resource,
    };
    let mut bundle = FluentBundle::new(vec![unic_langid::langid!("en")]);
    bundle.set_use_isolating(false);
    bundle.add_resource_overriding(resource);
    bundle
}

/// The words of a message. A key without words shows itself, so that it is
/// seen and reported rather than hidden.
#[must_use]
pub fn say(message: &Message) -> String {
    let args: FluentArgs = message
        .args
        .iter()
        .map(|(name, arg)| (name.as_ref(), value_of(arg)))
        .collect();
    BUNDLE.with(|bundle| {
        let pattern = bundle.get_message(&message.key).and_then(|m| m.value());
        match pattern {
            Some(pattern) => {
                let mut faults = Vec::new();
                bundle
                    .format_pattern(pattern, Some(&args), &mut faults)
                    .into_owned()
            }
            None => message.key.clone().into_owned(),
        }
    })
}

/// The words of a key without arguments.
#[must_use]
pub fn t(key: &'static str) -> String {
    say(&msg(key))
}

fn value_of(arg: &Arg) -> FluentValue<'static> {
    match arg {
        Arg::Number { value, decimals } => {
            FluentValue::String(Cow::Owned(figure(*value, *decimals)))
        }
        Arg::Count(count) => FluentValue::from(*count),
        Arg::Text(text) => FluentValue::String(Cow::Owned(plain(text))),
        Arg::Message(inner) => FluentValue::String(Cow::Owned(say(inner))),
        Arg::List(inner) => {
            let words: Vec<String> = inner.iter().map(say).collect();
            FluentValue::String(Cow::Owned(words.join(", ")))
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
    use super::*;

    #[test]
    fn every_entry_of_the_text_file_parses() {
        assert!(FluentResource::try_new(EN_FTL.to_owned()).is_ok());
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
