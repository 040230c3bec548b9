//! The step book that comes with the app.

use std::sync::OnceLock;

use rakeline_core::steps::{BOOK_VERSION, StepBook, read_book};

/// All steps of a fitting.
pub fn book() -> &'static StepBook {
    static BOOK: OnceLock<StepBook> = OnceLock::new();
    BOOK.get_or_init(|| {
        // The file is compiled in and a test reads it; without it the path
        // is empty, and everything else of the app still works.
        read_book(include_str!("../../assets/steps/fitting.json")).unwrap_or(StepBook {
            version: BOOK_VERSION,
            stages: Vec::new(),
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_book_that_comes_with_the_app_is_read() {
        assert!(book().steps().count() > 40);
    }
}
