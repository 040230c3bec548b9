//! The template as a printer would put it on paper.

use rakeline::driver::{Intent, MarkOutIntent, Sheets};
use rakeline::texts::say;
use rakeline_core::drawing::{At, Item, Pen};
use rakeline_core::job::{CentreBy, Field, RowLine};
use rakeline_core::report::{
    AcrossLine, Page, Paper, TemplateFacts, TemplateHead, Unrolled, pdf, template, template_facts,
};
use rakeline_core::text::msg;
use rakeline_core::units::{Millimetres, Offset};
use rakeline_tests::oracle;
use rakeline_tests::printed::{DPI, Printed};
use serde_json::{Value, json};

use crate::bench::Bench;
use crate::scenario;

/// What the sheets must keep, mm.
const WITHIN: f64 = 0.1;

/// Four heads of our own, the outer ones with the larger hole.
fn facts() -> TemplateFacts {
    let heads = [
        ("1", -637.0, 28.0),
        ("2", -213.0, 21.0),
        ("3", 213.0, 21.0),
        ("4", 637.0, 28.0),
    ];
    TemplateFacts {
        job: "Tarn Carrier \u{c5}se".to_owned(),
        heads: heads
            .map(|(label, at, hole)| TemplateHead {
                label: label.to_owned(),
                at: Offset(at),
                along: Millimetres(at),
                hole: Millimetres(hole),
            })
            .to_vec(),
        unrolled: Unrolled::Straight,
        across: None,
        centre: None,
    }
}

/// The same below a line that is on the paper.
fn below_a_line() -> TemplateFacts {
    facts().from_line(AcrossLine {
        above: Millimetres(45.0),
        called: RowLine::ShutLine.message(),
    })
}

/// Where a page's layout has its height line, the line that was measured
/// from and the tip of its arrow, mm.
fn layout(page: &Page) -> (f64, Option<f64>, At) {
    let wide = |points: &[At]| points.len() == 2 && points[0].1 == points[1].1;
    let lines = |pen: Pen| {
        let lying = page.items.iter().filter_map(move |item| match item {
            Item::Line { pen: other, points } if *other == pen && wide(points) => {
                let length = points[1].0 - points[0].0;
                (length > 100.0).then_some(points[0].1)
            }
            _ => None,
        });
        lying.collect::<Vec<f64>>()
    };
    let tips = page.items.iter().filter_map(|item| match item {
        Item::Area {
            pen: Pen::Solid,
            points,
        } => Some(points[0]),
        _ => None,
    });
    let [level] = lines(Pen::Thin)[..] else {
        panic!("one height line");
    };
    let tips: Vec<At> = tips.collect();
    assert_eq!(tips.len(), 1, "one arrow");
    (level, lines(Pen::Outline).first().copied(), tips[0])
}

/// The app's sample job.
fn sample() -> TemplateFacts {
    let mut bench = Bench::new();
    let id = bench.new_id();
    bench.send(Intent::OpenSample(id));
    template_facts(bench.app.job().unwrap()).unwrap()
}

fn printed(name: &str, facts: &TemplateFacts, paper: Paper) -> Printed {
    Printed::new(name, &pdf(&template(facts, paper), &say).unwrap())
}

fn f(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap()
}

/// What image analysis finds: places of holes along the joined strip from the
/// centre line, with their diameters. Heights and check bars are asserted.
fn holes_on(name: &str, facts: &TemplateFacts, paper: Paper) -> Vec<(f64, f64)> {
    let layouts: Vec<_> = template(facts, paper).pages.iter().map(layout).collect();
    let asked: Vec<Value> = layouts
        .iter()
        .map(|(level, across, tip)| json!({ "level": level, "across": across, "arrow": [tip.0, tip.1] }))
        .collect();
    let printed = printed(name, facts, paper);
    let mut radii: Vec<f64> = facts.heads.iter().map(|h| h.hole.0 / 2.0).collect();
    radii.sort_by(f64::total_cmp);
    radii.dedup();
    let pages = oracle::run(
        "template_pages.py",
        &json!({ "pages": printed.images(), "layouts": asked, "dpi": DPI, "radii": radii,
                 "join_radius": 3.0, "bar": 100.0 }),
    );
    let pages = list(&pages);
    let (mut start, mut holes, mut centre) = (0.0, Vec::new(), None);
    for (index, page) in pages.iter().enumerate() {
        let size = paper.lying();
        assert!((f(&page["size"][0]) - size.0).abs() < WITHIN);
        assert!((f(&page["size"][1]) - size.1).abs() < WITHIN);
        for way in ["across", "up"] {
            let [bar] = list(&page["bars"][way]) else {
                panic!("{way} on sheet {}: {}", index + 1, page["bars"]);
            };
            let length = f(&bar["to"]) - f(&bar["from"]);
            assert!((length - 100.0).abs() < WITHIN, "{length}");
        }
        let (level, across, tip) = layouts[index];
        let found = |value: &Value, at: f64, what: &str| {
            let off = value.as_f64().map(|found| found - at);
            let off = off.unwrap_or_else(|| panic!("no {what} on sheet {}", index + 1));
            assert!(
                off.abs() < WITHIN,
                "{what} on sheet {}: {off} mm",
                index + 1
            );
        };
        found(&page["level"], level, "height line");
        if let Some(across) = across {
            found(&page["across"], across, "line measured from");
            let above = facts.across.as_ref().expect("a line").above.0;
            assert!((level - across - above).abs() < 1e-9);
        }
        found(&page["arrow"]["x"], tip.0, "axis of the arrow");
        found(&page["arrow"]["y"], tip.1, "tip of the arrow");
        assert!(tip.1 < level, "it points up, away from the marks");
        // Overlap marks: two on each side that has a neighbour.
        let middle = size.0 / 2.0;
        let side = |left: bool| -> Vec<(f64, f64)> {
            let joins = list(&page["joins"]).iter();
            let places = joins.map(|join| (f(&join["x"]), f(&join["y"])));
            places.filter(|(x, _)| (*x < middle) == left).collect()
        };
        let (left, right) = (side(true), side(false));
        assert_eq!(left.len(), if index == 0 { 0 } else { 2 });
        assert_eq!(right.len(), if index + 1 == pages.len() { 0 } else { 2 });
        let mean = |joins: &[(f64, f64)]| joins.iter().map(|j| j.0).sum::<f64>() / 2.0;
        // The sheet's left edge on the joined strip.
        if !left.is_empty() {
            start -= mean(&left);
        }
        if let Some(x) = page["centre"].as_f64() {
            centre = Some(start + x);
        }
        for circle in list(&page["circles"]) {
            let asked = f(&circle["asked"]);
            assert!((f(&circle["r"]) - asked).abs() < WITHIN);
            found(&circle["y"], level, "hole on the height line");
            found(&circle["cross"]["x"], f(&circle["x"]), "cross in a hole, x");
            found(&circle["cross"]["y"], f(&circle["y"]), "cross in a hole, y");
            holes.push((start + f(&circle["x"]), 2.0 * asked, f(&circle["y"])));
        }
        if !right.is_empty() {
            start += mean(&right);
        }
    }
    let level = holes[0].2;
    assert!(holes.iter().all(|hole| (hole.2 - level).abs() < WITHIN));
    let centre = centre.expect("a centre line");
    holes.sort_by(|a, b| a.0.total_cmp(&b.0));
    holes.iter().map(|hole| (hole.0 - centre, hole.1)).collect()
}

fn carries(name: &str, facts: &TemplateFacts, paper: Paper) {
    let holes = holes_on(name, facts, paper);
    assert_eq!(holes.len(), facts.heads.len(), "{holes:?}");
    for (head, (along, hole)) in facts.heads.iter().zip(holes) {
        let off = along - head.along.0;
        assert!(off.abs() < WITHIN, "head {} is off by {off} mm", head.label);
        assert!((hole - head.hole.0).abs() < WITHIN);
    }
}

#[test]
fn the_sample_jobs_sheets_joined_carry_its_plan_to_a_tenth_of_a_millimetre() {
    carries("sample-a4", &sample(), Paper::A4);
}

#[test]
fn so_do_letter_sheets_with_two_sizes_of_hole() {
    carries("four-letter", &facts(), Paper::Letter);
}

#[test]
fn the_line_measured_from_height_line_crosses_and_arrow_are_at_their_places_on_both_papers() {
    carries("below-a4", &below_a_line(), Paper::A4);
    carries("below-letter", &below_a_line(), Paper::Letter);
}

#[test]
fn a_template_of_marks_that_do_not_hold_is_refused_with_words() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::Type(Field::HalfLeft, "905".to_owned()));
    bench.send(Intent::MakeSheets(Sheets::Template));
    assert_eq!(bench.notice(), Some("marks-stale-first"));
    assert!(bench.app.making.is_none(), "no sheet is made");
    let said = say(&bench.app.notice.as_ref().expect("said").message);
    assert!(said.contains("half widths were changed"), "{said}");
    bench.send(Intent::Type(Field::HalfLeft, "871".to_owned()));
    bench.send(Intent::MakeSheets(Sheets::Template));
    assert_ne!(bench.notice(), Some("marks-stale-first"));
}

#[test]
fn the_template_says_how_the_centre_line_was_found_and_which_line_was_measured_from() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    for (field, text) in [
        (Field::RowFromLine, "-20"),
        (Field::RowLineWhat, "trim edge"),
    ] {
        bench.send(Intent::Type(field, text.to_owned()));
    }
    bench.send(Intent::MarkOut(MarkOutIntent::TakeRow(Some(
        RowLine::Other,
    ))));
    bench.send(Intent::MarkOut(MarkOutIntent::CentreBy(
        CentreBy::PlateHoles,
    )));
    let facts = template_facts(bench.job()).expect("marks");
    let pages = printed("found", &facts, Paper::A4).texts();
    for page in &pages {
        let said = "You measured from the line 'trim edge': 20.0 mm above the marks";
        assert!(page.contains(said), "{page}");
    }
    let found = pages
        .iter()
        .filter(|page| page.contains("Centre line: plate holes"));
    assert_eq!(found.count(), 1, "{pages:?}");
}

#[test]
fn a_template_laid_along_the_face_carries_the_longer_way() {
    // A face as part of a circle of 1600 mm.
    let along = |at: Offset| Millimetres(1600.0 * (at.0 / 1600.0).asin());
    let facts = facts().unrolled(along);
    assert!(facts.heads[3].along.0 > 650.0);
    carries("along-a4", &facts, Paper::A4);
}

#[test]
fn every_sheet_says_which_it_is_and_every_head_its_label_and_place() {
    let facts = facts().from_line(AcrossLine {
        above: Millimetres(72.5),
        called: RowLine::Swage.message(),
    });
    let printed = printed("texts", &facts, Paper::A4);
    let pages = printed.texts();
    assert_eq!(pages.len(), printed.images().len());
    for (index, page) in pages.iter().enumerate() {
        assert!(page.contains("Tarn Carrier \u{c5}se"), "{page}");
        assert!(page.contains(&format!("Sheet {} of {}", index + 1, pages.len())));
        assert_eq!(page.matches("100 mm").count(), 3, "{page}");
        assert!(page.contains("You measured from the swage line: 72.5 mm above the marks"));
        let up = say(&msg("template-up"));
        assert!(
            page.lines().any(|line| line.trim_start().starts_with(&up)),
            "arrow up: {page}"
        );
    }
    for (label, place) in [
        ("1", "637 mm left straight"),
        ("2", "213 mm left straight"),
        ("3", "213 mm right straight"),
        ("4", "637 mm right straight"),
    ] {
        let sheets: Vec<&String> = pages.iter().filter(|page| page.contains(place)).collect();
        let [sheet] = sheets[..] else {
            panic!("{place} stands on {} sheets", sheets.len());
        };
        assert!(sheet.lines().any(|line| line.trim() == label), "{sheet}");
    }
}

#[test]
fn the_file_is_sound_repeats_and_embeds_a_subset_of_its_font() {
    let pages = template(&facts(), Paper::Letter);
    let (one, two) = (pdf(&pages, &say).unwrap(), pdf(&pages, &say).unwrap());
    assert_eq!(one, two);
    let printed = Printed::new("sound", &one);
    assert_eq!(printed.fonts(), [(true, true)]);
    assert_eq!(printed.faults().unwrap_or_default(), "");
    assert!(one.len() < 40_000, "{} bytes", one.len());
}
