//! A typed line in pieces: years, sizes of engines, words.

/// Years that a vehicle on the road can have.
const YEARS: std::ops::RangeInclusive<u16> = 1950..=2100;

/// A model is built for so many years at most; two years further apart are
/// no range.
const BUILT_GREATEST: u16 = 30;

/// Words beside a year that say no more than it does.
const BESIDE_YEARS: [&str; 5] = ["from", "since", "on", "onwards", "my"];

/// A piece of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Piece {
    /// A year, or first and last of a range.
    Years(u16, u16),
    /// An engine's size, tenths of a litre.
    Engine(u16),
    /// Anything else.
    Word(String),
}

/// A word with what stands before it.
struct Token<'a> {
    before: &'a str,
    word: &'a str,
}

fn tokens(line: &str) -> Vec<Token<'_>> {
    let mut all = Vec::new();
    let mut rest = line;
    while let Some(from) = rest.find(char::is_alphanumeric) {
        let (before, at) = rest.split_at(from);
        let end = at.find(|c: char| !c.is_alphanumeric());
        let (word, after) = at.split_at(end.unwrap_or(at.len()));
        all.push(Token { before, word });
        rest = after;
    }
    all
}

/// A line of small letters in pieces.
pub(super) fn pieces(line: &str) -> Vec<Piece> {
    let tokens = tokens(line);
    let mut found: Vec<Piece> = Vec::new();
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let next = tokens.get(at + 1);
        at += 1;
        if let Some((tenths, letters)) = next.and_then(|next| engine(token.word, next)) {
            found.push(Piece::Engine(tenths));
            if !matches!(letters, "" | "l") {
                found.push(Piece::Word(letters.to_owned()));
            }
            at += 1;
        } else if is_month(token.word) && next.is_some_and(month_ends) {
            // The month of a year: the year says enough.
        } else if let Some(first) = year(token) {
            let (mut least, mut greatest) = (first, first);
            let mut to = at;
            // '2019 to 22' is joined by a word.
            if tokens.get(to).is_some_and(|token| token.word == "to") {
                to += 1;
            }
            while let Some(joined) = tokens.get(to).and_then(|token| {
                let by_word = to > at;
                (by_word || is_joint(token.before)).then(|| last_year(first, token.word))?
            }) {
                (least, greatest) = (least.min(joined), greatest.max(joined));
                to += 1;
                at = to;
            }
            found.push(Piece::Years(least, greatest));
        } else {
            found.push(Piece::Word(token.word.to_owned()));
        }
    }
    if found.iter().any(|piece| matches!(piece, Piece::Years(..))) {
        let says = |piece: &Piece| match piece {
            Piece::Word(word) => !BESIDE_YEARS.contains(&word.as_str()),
            _ => true,
        };
        found.retain(says);
    }
    found
}

/// Figures and letters of a word: '0td' is '0' and 'td'.
fn figures(word: &str) -> (&str, &str) {
    let end = word.find(|c: char| !c.is_ascii_digit());
    word.split_at(end.unwrap_or(word.len()))
}

/// '2.0' or '2,0', with what stands behind it.
fn engine<'a>(word: &str, next: &Token<'a>) -> Option<(u16, &'a str)> {
    let whole: u16 = word.parse().ok()?;
    let (tenths, letters) = figures(next.word);
    let is_one = word.len() == 1 && tenths.len() == 1 && matches!(next.before, "." | ",");
    is_one.then_some(())?;
    Some((whole * 10 + tenths.parse::<u16>().ok()?, letters))
}

fn is_month(word: &str) -> bool {
    word.len() <= 2
        && word
            .parse()
            .is_ok_and(|month: u16| (1..=12).contains(&month))
}

fn month_ends(next: &Token) -> bool {
    matches!(next.before, "/" | ".") && four_figures(next.word).is_some()
}

/// Whether what stands between two years makes them first and last.
fn is_joint(between: &str) -> bool {
    matches!(between.trim(), "-" | "‐" | "‑" | "–" | "—" | "/")
}

fn four_figures(word: &str) -> Option<u16> {
    let year = word.parse().ok().filter(|year| YEARS.contains(year))?;
    (word.len() == 4).then_some(year)
}

fn year(token: &Token) -> Option<u16> {
    let word = token.word;
    if let Some(year) = four_figures(word) {
        return Some(year);
    }
    let said = token.before.ends_with(['\'', '’', '‘']);
    let short = word.strip_prefix("my").or(said.then_some(word))?;
    four_figures(short).or_else(|| two_figures(short).map(|year| 2000 + year))
}

fn two_figures(word: &str) -> Option<u16> {
    (word.len() == 2).then(|| word.parse().ok())?
}

/// The other end of a range that began with `first`: whole, or its last two
/// figures.
fn last_year(first: u16, word: &str) -> Option<u16> {
    let whole = four_figures(word).or_else(|| {
        let short = first / 100 * 100 + two_figures(word)?;
        Some(if short < first { short + 100 } else { short })
    })?;
    (whole.abs_diff(first) <= BUILT_GREATEST && YEARS.contains(&whole)).then_some(whole)
}
