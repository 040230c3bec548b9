//! The job sheet as PDF, read by poppler and qpdf.

use rakeline::driver::{Intent, Letter, Sheets, WorkshopIntent};
use rakeline_core::job::{Particular, WalkKind};
use rakeline_tests::printed::Printed;

use crate::bench::Bench;

fn sample() -> Bench {
    let mut bench = Bench::new();
    let id = bench.new_id();
    bench.send(Intent::OpenSample(id));
    bench
}

fn pdf(bench: &mut Bench, sheets: Sheets, name: &str) -> Printed {
    bench.send(Intent::MakeSheets(sheets));
    let files = bench.phone.share.files();
    Printed::new(name, &files.last().unwrap().bytes)
}

#[test]
fn the_customers_page_is_one_page_in_plain_words_without_predictions() {
    let mut bench = sample();
    let typed = WorkshopIntent::Typed(Letter::Name, "Fell & Tarn Fitting".to_owned());
    bench.send(Intent::Workshop(typed));
    let page = pdf(&mut bench, Sheets::Customer, "sheet-customer");
    let [text] = &page.texts()[..] else {
        panic!("more than one page");
    };
    for wanted in [
        "Fell & Tarn Fitting",
        "does not make reversing safe",
        "Head",
        "Rakeline 0",
    ] {
        assert!(text.contains(wanted), "{wanted} is not in\n{text}");
    }
    assert!(!text.to_lowercase().contains("predict"));
}

#[test]
fn every_font_of_the_file_is_embedded_and_the_file_is_sound() {
    let mut bench = sample();
    let file = pdf(&mut bench, Sheets::Workshop, "sheet-workshop");
    let fonts = file.fonts();
    assert!(!fonts.is_empty());
    assert!(fonts.iter().all(|(embedded, subset)| *embedded && *subset));
    assert_eq!(file.faults().unwrap_or_default(), "");
}

#[test]
fn a_printed_file_has_the_number_of_the_sheet_and_a_changed_job_the_next() {
    let mut bench = sample();
    pdf(&mut bench, Sheets::Customer, "sheet-number");
    pdf(&mut bench, Sheets::Workshop, "sheet-number");
    assert_eq!(bench.app.job().unwrap().sheets.len(), 1);
    bench.send(Intent::Particular(Particular::Plate, "T 42".to_owned()));
    let next = pdf(&mut bench, Sheets::Customer, "sheet-number");
    assert_eq!(bench.app.job().unwrap().sheets.len(), 2);
    assert!(next.texts().concat().contains("T 42"));
    let names: Vec<String> = bench
        .phone
        .share
        .files()
        .iter()
        .map(|f| f.name.clone())
        .collect();
    assert!(
        names[0].ends_with("-1.pdf") && names[2].ends_with("-2.pdf"),
        "{names:?}"
    );
}

#[test]
fn the_page_to_walk_by_is_one_page_with_every_place_and_is_no_sheet_number() {
    let mut bench = sample();
    let page = pdf(&mut bench, Sheets::Walk(WalkKind::Nine), "sheet-walk-page");
    let text = page.texts().concat();
    for words in ["Walk test", "764 mm", "300", "900", "1500", "Steady tone"] {
        assert!(text.contains(words), "{words} in {text}");
    }
    assert_eq!(page.texts().len(), 1, "one page");
    assert_eq!(bench.job().sheets.len(), 0);
}

#[test]
fn the_grid_has_a_page_of_its_own_without_a_prediction() {
    let mut bench = sample();
    let page = pdf(&mut bench, Sheets::Walk(WalkKind::Grid), "sheet-walk-grid");
    let text = page.texts().concat();
    for words in ["250 mm", "950 mm", "1 to 17", "Write into each square"] {
        assert!(text.contains(words), "{words} in {text}");
    }
    assert_eq!(page.texts().len(), 1, "one page");
    assert!(!text.contains("prediction"), "{text}");
}

#[test]
fn hostile_names_are_on_the_sheet_and_break_nothing() {
    let mut bench = sample();
    let hostile = format!(
        "\u{202e}</b>\u{1f697} {}",
        "Wolfeschlegelsteinhausen".repeat(20)
    );
    bench.send(Intent::Particular(Particular::Customer, hostile));
    let page = pdf(&mut bench, Sheets::Customer, "sheet-hostile");
    let texts = page.texts();
    assert_eq!(texts.len(), 1);
    assert!(texts[0].contains("</b>"));
}
