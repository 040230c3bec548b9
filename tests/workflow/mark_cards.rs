//! The mark cards as a printer would put them on paper.

use rakeline::texts::say;
use rakeline_core::estimate::photo::tag36h11::CODE_WORDS;
use rakeline_core::report::{Paper, mark_cards, pdf};
use rakeline_tests::oracle;
use rakeline_tests::printed::{DPI, Printed};
use serde_json::{Value, json};

/// What the cards must keep, mm.
const WITHIN: f64 = 0.1;

fn near(value: &Value, wanted: f64) -> bool {
    (value.as_f64().unwrap() - wanted).abs() < WITHIN
}

/// Reads every card off the sheets: where its code is on the sheet, and which.
fn read(name: &str, marks: usize, paper: Paper, columns: &[f64]) -> Vec<u64> {
    let bytes = pdf(&mark_cards(marks, paper), &say).unwrap();
    assert_eq!(bytes, pdf(&mark_cards(marks, paper), &say).unwrap());
    let printed = Printed::new(name, &bytes);
    assert_eq!(printed.faults().unwrap_or_default(), "");
    assert_eq!(printed.fonts(), [(true, true)]);
    let images = printed.images();
    let middles: Vec<[f64; 2]> = [50.5, 145.5]
        .iter()
        .flat_map(|y| columns.iter().map(|x| [*x, *y]))
        .collect();
    let left = (paper.lying().0 - 250.0) / 2.0;
    let pages = oracle::run(
        "card_pages.py",
        &json!({ "pages": images, "dpi": DPI, "cards": vec![middles.clone(); images.len()],
                 "line": { "from": left, "to": left + 250.0, "y": 203.0 } }),
    );
    let mut bits = Vec::new();
    for (page, text) in pages.as_array().unwrap().iter().zip(printed.texts()) {
        let line = &page["line"];
        let length = line[1].as_f64().unwrap() - line[0].as_f64().unwrap();
        assert!((length - 250.0).abs() < WITHIN, "{length}");
        for (card, middle) in page["cards"].as_array().unwrap().iter().zip(&middles) {
            assert_eq!(card["border"], true);
            assert!(near(&card["middle"][0], middle[0]), "{card}");
            assert!(near(&card["middle"][1], middle[1]), "{card}");
            assert!(near(&card["sides"][0], 36.0) && near(&card["sides"][1], 36.0));
            for off in card["crosses"].as_array().unwrap() {
                assert!(near(&off[0], 0.0) && near(&off[1], 0.0), "{card}");
            }
            assert!(near(&card["tip"][0], 0.0), "{card}");
            assert!(near(&card["tip"][1], 0.0), "{card}");
            bits.push(card["bits"].as_u64().unwrap());
            assert!(
                text.contains(&format!("Mark card {}", bits.len())),
                "{text}"
            );
        }
    }
    bits
}

#[test]
fn six_cards_on_a4_read_as_their_code_words_and_keep_their_measures() {
    let bits = read("cards-a4", 8, Paper::A4, &[58.5, 148.5, 238.5]);
    assert_eq!(bits, CODE_WORDS);
}

#[test]
fn four_cards_on_letter_read_as_their_code_words_and_keep_their_measures() {
    let bits = read("cards-letter", 4, Paper::Letter, &[94.7, 184.7]);
    assert_eq!(bits, CODE_WORDS[..4]);
}
