//! The job sheet as PDF, read by poppler and qpdf.

use rakeline::driver::{
    Intent, IssueIntent, Letter, PhotoIntent, PictureFrom, Sheets, Shows, WalkIntent,
    WorkshopIntent,
};
use rakeline::platform::cleaned;
use rakeline::route::Step;
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::job::{
    HolesEvent, JobEvent, Particular, PhotoOf, RingsEvent, WalkEvent, WalkKind,
};
use rakeline_core::units::Millis;
use rakeline_scene::file::{Wrapping, encode};
use rakeline_tests::printed::Printed;

use crate::bench::Bench;
use crate::fitting::{drill, fit, ready_to_drill};

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
    let ends = [
        "-1-for-the-customer.pdf",
        "-1-for-the-workshop.pdf",
        "-2-for-the-customer.pdf",
    ];
    for (name, end) in names.iter().zip(ends) {
        assert!(name.ends_with(end), "{names:?}");
    }
}

#[test]
fn a_number_that_was_issued_earlier_is_opened_again_as_it_was() {
    let mut bench = sample();
    bench.send(Intent::Particular(Particular::Plate, "T 41".to_owned()));
    pdf(&mut bench, Sheets::Customer, "sheet-earlier");
    bench.send(Intent::Particular(Particular::Plate, "T 42".to_owned()));
    pdf(&mut bench, Sheets::Customer, "sheet-earlier");
    let mut bench = bench.killed();
    let before = bench.job().clone();
    bench.send(Intent::Issue(IssueIntent::Make(1, Sheets::Workshop)));
    let files = bench.phone.share.files();
    let file = files.last().expect("a file");
    assert!(
        file.name.ends_with("-1-for-the-workshop.pdf"),
        "{}",
        file.name
    );
    let text = Printed::new("sheet-earlier", &file.bytes).texts().concat();
    assert!(text.contains("T 41") && !text.contains("T 42"), "{text}");
    assert!(text.contains("issue 1"));
    assert_eq!(*bench.job(), before, "the job is as it was");
    // A number that was never kept is said.
    bench.send(Intent::Issue(IssueIntent::Make(7, Sheets::Workshop)));
    assert_eq!(bench.notice(), Some("issue-not-kept"));
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

/// Every text as long as it can be, all heads drilled, seated, photographed
/// upright, walked and answered.
fn longest() -> Bench {
    let mut bench = ready_to_drill();
    let long = "Wolfeschlegelsteinhausenbergerdorff & Ghyll ".repeat(12);
    for which in Particular::ALL {
        bench.send(Intent::Particular(which, long.clone()));
    }
    for line in Letter::ALL {
        let typed = WorkshopIntent::Typed(line, long.clone());
        bench.send(Intent::Workshop(typed));
    }
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    for spot in 0..4 {
        drill(&mut bench, spot);
        fit(&mut bench, JobEvent::Rings(RingsEvent::Seated(spot)));
    }
    bench.send(Intent::GoStep(Step::Walk));
    fit(&mut bench, JobEvent::Walk(WalkEvent::GateHeeded));
    bench.send(Intent::Walk(WalkIntent::Start(WalkKind::Grid)));
    let test = bench.job().walk.test.as_ref();
    let points = test.map_or(0, |test| test.points.len());
    assert!(points > 100, "{points}");
    for _ in 0..points {
        bench.send(Intent::Walk(WalkIntent::Sounded(Sounded::Nothing)));
    }
    bench.send(Intent::GoStep(Step::Sheet));
    let (wide, high) = (240, 320);
    let grey = vec![90; wide * high];
    let file = encode((wide, high), &grey, Wrapping::default(), None).expect("a file");
    for head in 0..4 {
        bench
            .phone
            .camera
            .gives(cleaned(file.clone()).expect("a picture"));
        bench.phone.clock.advance(Millis(5.0));
        let shows = Shows::Job(PhotoOf::Head(head));
        bench.send(Intent::Photo(PhotoIntent::Ask(shows, PictureFrom::Camera)));
    }
    bench
}

#[test]
fn the_customers_page_of_the_longest_job_is_one_page_and_keeps_its_limits() {
    let mut bench = longest();
    let page = pdf(&mut bench, Sheets::Customer, "sheet-longest");
    let texts = page.texts();
    assert_eq!(texts.len(), 1, "one page");
    let words = texts[0].split_whitespace().collect::<Vec<_>>().join(" ");
    for whole in [
        "it does not make reversing safe. You look, and you answer for the manoeuvre.",
        "A child or an animal can be missed.",
        "have it learn again",
        "stands whole in the workshop's file",
    ] {
        assert!(words.contains(whole), "{whole} is not in {words}");
    }
    assert_eq!(page.faults().unwrap_or_default(), "");
    let file = pdf(&mut bench, Sheets::Workshop, "sheet-longest-file");
    let whole = file.texts().concat().replace(char::is_whitespace, "");
    let name = "Wolfeschlegelsteinhausenbergerdorff&Ghyll".repeat(11);
    assert!(whole.contains(&name), "the file holds the texts whole");
}
