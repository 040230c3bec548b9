//! Inches beside millimetres, for workshops that have both on the tape.

use std::cell::Cell;

/// Millimetres of an inch, exact by its definition (international yard and
/// pound agreement, 1959).
const INCH: f64 = 25.4;

thread_local! {
    static BESIDE: Cell<bool> = const { Cell::new(false) };
}

/// Whether inches stand beside millimetres in all words of this thread from
/// now on.
pub fn inches(beside: bool) {
    BESIDE.set(beside);
}

/// A length in inches, while they stand beside: two decimals, a quarter of a
/// millimetre.
#[must_use]
pub fn beside(millimetres: f64) -> Option<String> {
    let words = || format!("{} in", super::figure(millimetres / INCH, 2));
    BESIDE.get().then(words)
}

/// The words with inches after each length in millimetres.
pub(super) fn with_inches(words: String) -> String {
    if !BESIDE.get() || !words.contains("mm") {
        return words;
    }
    let mut done = String::new();
    let mut rest = words.as_str();
    while let Some((before, after)) = rest.split_once("mm") {
        done.push_str(before);
        done.push_str("mm");
        let is_unit = !after.starts_with(|c: char| c.is_alphanumeric() || c == '²');
        if let Some(length) = last_figure(before).filter(|_| is_unit) {
            let inches = super::figure(length / INCH, 2);
            done.push_str(&format!(" ({inches} in)"));
        }
        rest = after;
    }
    done.push_str(rest);
    done
}

/// The figure that a text ends with, a space after it.
fn last_figure(text: &str) -> Option<f64> {
    let text = text.strip_suffix([' ', '\u{a0}', '\u{202f}'])?;
    let is_part = |c: &char| c.is_ascii_digit() || matches!(c, '.' | '\u{2212}');
    let figure: String = text.chars().rev().take_while(is_part).collect();
    let figure: String = figure.chars().rev().collect();
    figure.replace('\u{2212}', "-").parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_stand_beside_lengths_and_nothing_else() {
        let plain = "864 mm left, 1.3 mm off; −70 mm; 1.5 mm², comma, mm";
        assert_eq!(with_inches(plain.to_owned()), plain);
        inches(true);
        let (with, one) = (with_inches(plain.to_owned()), beside(254.0));
        inches(false);
        let wanted = "864 mm (34.02 in) left, 1.3 mm (0.05 in) off; −70 mm (−2.76 in); \
                      1.5 mm², comma, mm";
        assert_eq!(with, wanted);
        assert_eq!(one.as_deref(), Some("10.00 in"));
        assert_eq!(beside(254.0), None);
    }
}
