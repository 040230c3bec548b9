//! Typed texts inside messages, made shorter.

use crate::text::{Arg, Message};

/// Ends a text that was cut.
const MORE: char = '…';

/// A message whose typed texts have at most so many characters; what was cut
/// ends in '…'. Its own words, figures and counts are as they were.
pub(super) fn shortened(message: &Message, most: usize) -> Message {
    let args = message.args.iter().map(|(name, arg)| {
        let arg = match arg {
            Arg::Text(text) => Arg::Text(cut(text, most)),
            Arg::Message(inner) => Arg::Message(Box::new(shortened(inner, most))),
            Arg::List(all) => Arg::List(all.iter().map(|one| shortened(one, most)).collect()),
            Arg::Number { .. } | Arg::Count(_) => arg.clone(),
        };
        (name.clone(), arg)
    });
    Message {
        key: message.key.clone(),
        args: args.collect(),
    }
}

/// A text of at most so many characters, cut between words where one ends in
/// its second half.
fn cut(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let kept: String = text.chars().take(most.saturating_sub(1)).collect();
    let word = kept.rfind(char::is_whitespace);
    let kept = match word.filter(|at| *at > kept.len() / 2) {
        Some(at) => &kept[..at],
        None => kept.as_str(),
    };
    format!("{}{MORE}", kept.trim_end())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::msg;

    #[test]
    fn typed_texts_are_cut_between_words_and_figures_stay() {
        let said = msg("agreed-by")
            .text("name", "Fell and Ghyll Deliveries")
            .count("count", 123_456_789_012)
            .message("how", msg("literal").text("text", "abcdefghijklmnop"));
        let short = shortened(&said, 15);
        let expected = msg("agreed-by")
            .text("name", "Fell and…")
            .count("count", 123_456_789_012)
            .message("how", msg("literal").text("text", "abcdefghijklmn…"));
        assert_eq!(short, expected);
        assert_eq!(shortened(&said, 40), said);
    }
}
