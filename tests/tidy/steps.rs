//! The step file and its words belong together.

use std::collections::BTreeSet;

use rakeline_core::steps::read_book;

use crate::ftl::read;
use crate::sources::file;

#[test]
fn every_step_has_its_words_and_no_words_are_without_a_step() {
    let book = read_book(&file("assets/steps/fitting.json").text).unwrap();
    let texts = read(&file("assets/texts/en.ftl"));
    let mut wanted = BTreeSet::new();
    for (_, step) in book.steps() {
        wanted.extend([step.what(), step.why(), step.how()].map(|m| m.key.into_owned()));
        wanted.extend(step.caution().map(|m| m.key.into_owned()));
    }
    let worded: BTreeSet<String> = texts
        .arguments
        .keys()
        .filter(|key| key.starts_with("s-"))
        .cloned()
        .collect();
    assert_eq!(wanted, worded);
}
