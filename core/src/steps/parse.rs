//! The step file, read as hostile input.

use std::collections::BTreeSet;

use super::{BOOK_VERSION, StepBook};
use crate::json;
use crate::text::{Message, msg};

/// Longest step file, bytes.
pub const BOOK_GREATEST: usize = 256 * 1024;

/// Most steps of a book.
pub const STEPS_GREATEST: usize = 200;

/// Longest name of a step, characters.
pub(super) const NAME_GREATEST: usize = 40;

/// Why a step file can't be used.
#[derive(Clone, Debug, PartialEq)]
pub struct BookFault(pub Message);

fn fault(message: Message) -> Result<StepBook, BookFault> {
    Err(BookFault(message))
}

/// Reads a step file.
///
/// Guarantees: names are unique, lower case with hyphens; `after` names a
/// step that stands before it; there is at least one step.
///
/// # Errors
/// [`BookFault`] with what is wrong and where.
pub fn read_book(text: &str) -> Result<StepBook, BookFault> {
    if text.len() > BOOK_GREATEST {
        return fault(msg("steps-too-long").count("most", as_count(BOOK_GREATEST / 1024)));
    }
    let book: StepBook = json::read(text)
        .map_err(|why| BookFault(msg("steps-not-read").text("why", why.to_string())))?;
    if book.version != BOOK_VERSION {
        return fault(
            msg("steps-version")
                .count("found", i64::from(book.version))
                .count("wanted", i64::from(BOOK_VERSION)),
        );
    }
    let steps: Vec<_> = book.steps().map(|(_, step)| step).collect();
    if steps.is_empty() || steps.len() > STEPS_GREATEST {
        return fault(
            msg("steps-count")
                .count("found", as_count(steps.len()))
                .count("most", as_count(STEPS_GREATEST)),
        );
    }
    let mut seen = BTreeSet::new();
    for step in steps {
        let name = &step.name;
        if !is_name(&name.0) {
            return fault(msg("steps-name").text("name", name.0.clone()));
        }
        if let Some(missing) = step.after.iter().find(|other| !seen.contains(*other)) {
            return fault(
                msg("steps-after")
                    .text("name", name.0.clone())
                    .text("missing", missing.0.clone()),
            );
        }
        if !seen.insert(name.clone()) {
            return fault(msg("steps-twice").text("name", name.0.clone()));
        }
    }
    Ok(book)
}

fn is_name(name: &str) -> bool {
    let fits = |c: char| c.is_ascii_lowercase() || c == '-';
    !name.is_empty() && name.len() <= NAME_GREATEST && name.chars().all(fits)
}

fn as_count(number: usize) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(text: &str) -> String {
        read_book(text).unwrap_err().0.key.into_owned()
    }

    fn book(steps: &str) -> String {
        format!(r#"{{"version":1,"stages":[{{"stage":"survey","steps":[{steps}]}}]}}"#)
    }

    const ONE: &str = r#"{"name":"kit-complete","depth":"quick","asks":["tick"]}"#;

    #[test]
    fn a_step_has_words_by_its_name() {
        let read = read_book(&book(ONE)).unwrap();
        let (_, step) = read.steps().next().unwrap();
        assert_eq!(step.what().key, "s-kit-complete");
        assert_eq!(step.caution(), None);
    }

    #[test]
    fn what_is_no_step_file_is_refused_with_its_reason() {
        assert_eq!(key("{"), "steps-not-read");
        assert_eq!(key(r#"{"version":2,"stages":[]}"#), "steps-version");
        assert_eq!(key(r#"{"version":1,"stages":[]}"#), "steps-count");
        assert_eq!(key(&" ".repeat(BOOK_GREATEST + 1)), "steps-too-long");
        assert_eq!(key(&book(&format!("{ONE},{ONE}"))), "steps-twice");
        let hostile = ONE.replace("kit-complete", "../x");
        assert_eq!(key(&book(&hostile)), "steps-name");
        let unknown = ONE.replace("quick", "deep");
        assert_eq!(key(&book(&unknown)), "steps-not-read");
        let later = ONE.replace("]}", r#"],"after":["nothing"]}"#);
        assert_eq!(key(&book(&later)), "steps-after");
    }
}
