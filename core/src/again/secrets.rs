//! Values that say whose vehicle it is, and whether a text tells one of them.

/// Values that must not leave, as they are compared: letters and figures.
pub(super) struct Secrets {
    /// Longer values, found inside other words too.
    whole: Vec<String>,
    /// Shorter ones, found as one word or as words in a row.
    joined: Vec<String>,
    /// Their words.
    words: Vec<String>,
}

/// A value at least so long is found inside other words too.
const WHOLE_LEAST: usize = 5;
/// Words of a value at least so long are found.
const WORD_LEAST: usize = 2;
/// In a make and model only words at least so long are: a customer's 'van' or
/// 'co' is no reason to cut one there.
const NAME_LEAST: usize = 4;
/// A value of so many words at most is found as words in a row.
const IN_A_ROW: usize = 4;
/// Words of names that name nobody.
const LITTLE: [&str; 14] = [
    "and", "the", "of", "for", "to", "at", "in", "on", "by", "van", "car", "co", "ltd", "mr",
];

/// Letters and figures of a text, small.
pub(super) fn plain(text: &str) -> String {
    let letters = text.chars().filter(|c| c.is_alphanumeric());
    letters.flat_map(char::to_lowercase).collect()
}

/// The words of a text, each [`plain`].
pub(super) fn words_of(text: &str) -> impl Iterator<Item = String> {
    text.split(|c: char| !c.is_alphanumeric()).map(plain)
}

fn is_long(text: &str, least: usize) -> bool {
    text.chars().count() >= least
}

impl Secrets {
    pub(super) fn of(values: &[String]) -> Self {
        let mut secrets = Self {
            whole: Vec::new(),
            joined: Vec::new(),
            words: Vec::new(),
        };
        for value in values {
            let plain = plain(value);
            if is_long(&plain, WHOLE_LEAST) {
                secrets.whole.push(plain);
            } else if is_long(&plain, WORD_LEAST) {
                secrets.joined.push(plain);
            }
            let names = |word: &String| {
                is_long(word, WORD_LEAST)
                    && word.contains(char::is_alphabetic)
                    && !LITTLE.contains(&word.as_str())
            };
            secrets.words.extend(words_of(value).filter(names));
        }
        secrets
    }

    /// Whether a text says any of it, or looks as if it said whose vehicle
    /// it is: a vehicle's number, a telephone, an address to write to.
    pub(super) fn told_by(&self, text: &str) -> bool {
        let letters = plain(text);
        let whole = self.whole.iter().any(|value| letters.contains(value));
        let words: Vec<String> = words_of(text).filter(|word| !word.is_empty()).collect();
        let word = words.iter().any(|word| self.words.contains(word));
        let number = words
            .iter()
            .any(|word| word.len() == 17 && word.contains(is_figure));
        whole
            || word
            || self.in_a_row(&words)
            || number
            || text.contains('@')
            || has_telephone(text)
    }

    /// Whether words in a row are one of the shorter values.
    fn in_a_row(&self, words: &[String]) -> bool {
        (0..words.len()).any(|from| {
            let mut row = String::new();
            words[from..].iter().take(IN_A_ROW).any(|word| {
                row.push_str(word);
                self.joined.contains(&row)
            })
        })
    }

    /// A name (of a vehicle, of a kit) without what it says of them; empty
    /// where it says one across its words.
    pub(super) fn taken_out_of(&self, name: &str) -> String {
        self.parted(name).0
    }

    /// A name without what it says of them, and the words that it says.
    pub(super) fn parted(&self, name: &str) -> (String, Vec<String>) {
        let tells = |word: &str| {
            let letters = plain(word);
            let long = is_long(&letters, NAME_LEAST) && self.words.contains(&letters);
            let number = letters.len() == 17 && letters.contains(is_figure);
            long || self.whole.iter().any(|value| letters.contains(value))
                || self.joined.contains(&letters)
                || number
                || word.contains('@')
                || has_telephone(word)
        };
        let all = || name.split_whitespace().map(str::to_owned);
        let (told, left): (Vec<String>, Vec<String>) = all().partition(|word| tells(word));
        let left = left.join(" ");
        let letters = plain(&left);
        if self.whole.iter().any(|value| letters.contains(value)) || has_telephone(&left) {
            return (String::new(), all().collect());
        }
        (left, told)
    }
}

fn is_figure(letter: char) -> bool {
    letter.is_ascii_digit()
}

/// Nine figures or more with nothing but spaces and signs between them.
fn has_telephone(text: &str) -> bool {
    let mut run = 0;
    for letter in text.chars() {
        if letter.is_ascii_digit() {
            run += 1;
        } else if letter.is_alphabetic() || matches!(letter, ',' | ';') {
            run = 0;
        }
        if run >= 9 {
            return true;
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    fn secrets() -> Secrets {
        Secrets::of(
            &["Bo Li", "Ann Fox", "AB 12", "Beckside Workshop", "Van & Co"].map(str::to_owned),
        )
    }

    #[test]
    fn short_names_and_plates_in_several_words_are_found() {
        for tells in [
            "Bo Li wants it low",
            "ask Fox first",
            "beside AB 12 in the yard",
            "AB-12",
            "boli",
        ] {
            assert!(secrets().told_by(tells), "{tells}");
        }
        for tells_not in [
            "under the left seat",
            "12 mm lower",
            "behind the van's lamp",
        ] {
            assert!(!secrets().told_by(tells_not), "{tells_not}");
        }
    }

    #[test]
    fn a_name_keeps_what_is_not_theirs() {
        let secrets = secrets();
        assert_eq!(secrets.taken_out_of("Tarn Carrier van"), "Tarn Carrier van");
        assert_eq!(secrets.taken_out_of("Beckside four"), "four");
        assert_eq!(secrets.taken_out_of("Beckside Workshop"), "");
    }
}
