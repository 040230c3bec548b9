//! Words broken into lines of a width.

use super::super::lettering::Face;

/// A text without what a page cannot carry: control characters and marks
/// that turn the direction of what follows (Unicode Standard Annex 9).
pub(super) fn plain(text: &str) -> String {
    let kept = text.chars().filter(|c| {
        let turns = matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
        !turns && (*c == '\n' || !c.is_control())
    });
    kept.collect()
}

/// A text in lines no wider than `width` at the lettering `size`; a word that
/// is wider than a line is cut.
pub(super) fn lines(face: &Face, text: &str, size: f64, width: f64) -> Vec<String> {
    let most = width / size;
    let mut lines = Vec::new();
    for paragraph in plain(text).lines() {
        let mut line = String::new();
        for word in paragraph.split_whitespace() {
            for piece in pieces(face, word, most) {
                let longer = if line.is_empty() {
                    piece.clone()
                } else {
                    format!("{line} {piece}")
                };
                if line.is_empty() || face.width(&longer) <= most {
                    line = longer;
                } else {
                    lines.push(std::mem::replace(&mut line, piece));
                }
            }
        }
        lines.push(line);
    }
    lines
}

/// A word in pieces that each fit a line.
fn pieces(face: &Face, word: &str, most: f64) -> Vec<String> {
    if face.width(word) <= most {
        return vec![word.to_owned()];
    }
    let mut pieces = Vec::new();
    let mut piece = String::new();
    for letter in word.chars() {
        piece.push(letter);
        if face.width(&piece) > most && piece.chars().count() > 1 {
            piece.pop();
            pieces.push(std::mem::replace(&mut piece, letter.to_string()));
        }
    }
    pieces.push(piece);
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_its_column_and_no_letter_is_lost() {
        let face = Face::built_in().unwrap();
        let text = "Head 3 points up 2.5° ± 0.8° Donaudampfschifffahrtsgesellschaftskapitän";
        let broken = lines(&face, text, 3.5, 20.0);
        assert!(broken.iter().all(|line| face.width(line) * 3.5 <= 20.0));
        let joined: String = broken.concat().replace(' ', "");
        assert_eq!(joined, text.replace(' ', ""));
    }

    #[test]
    fn marks_that_turn_the_direction_are_left_out() {
        assert_eq!(plain("a\u{202e}b\u{7}c\u{2066}"), "abc");
    }
}
