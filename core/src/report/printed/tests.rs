use chrono::{DateTime, FixedOffset};

use super::*;
use crate::job::{JobId, JobState, Particular};
use crate::report::{Block, Section, SheetPhoto, customer_sheet, job_sheet};

fn job() -> JobState {
    let sheet = include_str!("../../../../assets/kits/plain-four.json");
    let at = moment();
    let mut job = JobState::start(
        JobId("a1".to_owned()),
        crate::kit::parse(sheet).unwrap(),
        at,
    );
    let hostile = "\u{202e}Zoë <b>\u{1f697}</b> ".repeat(20);
    job.particulars
        .insert(Particular::Customer, hostile.chars().take(500).collect());
    job
}

fn moment() -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339("2026-03-12T09:00:00+01:00").unwrap()
}

fn look(length: Length) -> SheetLook {
    SheetLook {
        paper: Paper::A4,
        length,
        workshop: vec!["Workshop".to_owned()],
        logo: None,
        inches: false,
        foot: crate::text::msg("app-name"),
        at: moment(),
    }
}

fn say(message: &Message) -> String {
    format!("{} {:?}", message.key, message.args)
}

#[test]
fn nothing_stands_outside_the_borders_of_a_page() {
    let face = Face::built_in().unwrap();
    let laid = laid_out(
        &job_sheet(&job(), moment(), "UTC"),
        &look(Length::AsNeeded),
        &face,
        &say,
    );
    let At(width, height) = standing(Paper::A4);
    let mut texts = 0;
    for placed in laid.pages.iter().flatten() {
        if let lay::What::Text(at, _, size, text) = &placed.what {
            texts += 1;
            assert!(
                at.0 >= lay::SIDE - 1e-9 && at.1 <= height - lay::BOTTOM + 1e-9,
                "{text}"
            );
            assert!(
                at.0 + face.width(text) * size <= width - lay::SIDE + 1e-6,
                "{text}"
            );
        }
    }
    assert!(texts > 30);
}

#[test]
fn the_customers_page_is_one_page_also_with_a_name_of_500_characters() {
    let face = Face::built_in().unwrap();
    let laid = laid_out(
        &customer_sheet(&job(), moment()),
        &look(Length::OnePage),
        &face,
        &say,
    );
    assert_eq!(laid.pages.len(), 1);
}

/// The customer's page with everything as long as it can be: 16 heads with
/// photos, every text of 500 characters, forty lines of the walk.
fn longest() -> Document {
    let long = "Wolfeschlegelsteinhausen ".repeat(20);
    let text = |text: &str| crate::text::msg("literal").text("text", text);
    let mut job = job();
    for which in [Particular::Vehicle, Particular::Plate, Particular::Fitter] {
        job.particulars.insert(which, long.clone());
    }
    job.kit.name = long.clone();
    let mut document = customer_sheet(&job, moment());
    let row = |number: usize| vec![text(&number.to_string()), text(&long), text(&long)];
    let photo = |number: usize| SheetPhoto {
        blob: number.to_string(),
        caption: text(&format!("Head {number} {long}")),
        size: (1_200, 1_600),
        notes: Vec::new(),
    };
    for section in &mut document.sections {
        if section.heading.key == "sheet-heads" {
            section.blocks.push(Block::Table {
                head: vec![text("Head"), text("Position"), text("Ring")],
                rows: (0..16).map(row).collect(),
            });
            section
                .blocks
                .push(Block::Photos((0..16).map(photo).collect()));
        }
    }
    document.sections.push(Section {
        heading: crate::text::msg("sheet-walk"),
        blocks: vec![Block::Lines((0..40).map(|_| text(&long)).collect())],
    });
    document
}

#[test]
fn the_longest_customers_page_is_one_page_and_says_what_it_leaves_out() {
    let face = Face::built_in().unwrap();
    for (paper, letterhead) in [(Paper::A4, 1), (Paper::Letter, 4)] {
        let look = SheetLook {
            paper,
            workshop: vec!["Fell & Tarn Fitting ".repeat(6); letterhead],
            ..look(Length::OnePage)
        };
        let laid = laid_out(&longest(), &look, &face, &say);
        assert_eq!(laid.pages.len(), 1);
        assert!(laid.body >= BODY_LEAST, "{}", laid.body);
        let At(width, height) = standing(paper);
        let mut said = String::new();
        for placed in &laid.pages[0] {
            if let lay::What::Text(at, _, size, text) = &placed.what {
                said.push_str(text);
                said.push(' ');
                assert!(at.1 <= height - lay::BOTTOM + 1e-9, "{text}");
                let right = at.0 + face.width(text) * size;
                assert!(right <= width - lay::SIDE + 1e-6, "{text}");
            }
        }
        for whole in [
            "customer-limit-driver",
            "customer-limit-near",
            "customer-care-tow-bar",
            "sheet-more-lines",
            "sheet-shortened",
        ] {
            assert!(said.contains(whole), "{whole} is not in {said}");
        }
    }
}

#[test]
fn the_sheet_passes_the_writers_own_check_for_archives() {
    let document = job_sheet(&job(), moment(), "UTC");
    let face = Face::built_in().unwrap();
    let look = look(Length::AsNeeded);
    let laid = laid_out(&document, &look, &face, &say);
    let pictures = Pictures::new();
    let pdf = paint::paint(
        &laid,
        &document,
        &look,
        &pictures,
        &face,
        &say,
        paint::Conform::PdfA,
    );
    let pdf = pdf.unwrap();
    let text = String::from_utf8_lossy(&pdf);
    assert!(text.contains("pdfaid"));
}
