//! The job sheet on paper.

use rakeline_tests::browser::Server;

use crate::fitter::{PATIENCE, first_screen, job_with_rings, setup};

/// Width and height of A4 in the PDF's points, rounded.
const A4: (f64, f64) = (595.0, 842.0);

#[test]
fn the_job_sheet_prints_on_a4_without_the_app_around_it() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_with_rings(&phone);
    phone.tap_named("To the job sheet");
    phone.wait_for("Job sheet: parking sensors", PATIENCE);
    phone.media("print");
    let paper = phone.text();
    for words in [
        "Job sheet: parking sensors",
        "Centre to outer edge",
        "left 864 mm",
        "Cautions",
    ] {
        assert!(
            paper.contains(words),
            "'{words}' is not on the paper:\n{paper}"
        );
    }
    for words in [
        "Issue and print",
        "saved ·",
        "Measures",
        "Customer, vehicle, plate",
    ] {
        assert!(
            !paper.contains(words),
            "'{words}' is on the paper:\n{paper}"
        );
    }
    // The drawing is dimensioned on paper too: from the centre line, head to
    // head, corner gap, half width.
    let figures = phone
        .eval("[...document.querySelectorAll('.paper-sheet svg text')].map((e) => e.textContent)");
    let figures: Vec<String> = serde_json::from_value(figures).expect("figures");
    for figure in ["684", "228", "456", "180", "864"] {
        assert!(
            figures.iter().any(|text| text == figure),
            "{figure}: {figures:?}"
        );
    }
    let heads = phone.eval(
        "[...document.querySelector('.paper-sheet table').tBodies[0].rows].map((row) => row.innerText)",
    );
    let heads: Vec<String> = serde_json::from_value(heads).expect("the heads");
    assert_eq!(heads.len(), 4);
    let pdf = phone.print_pdf("sheet");
    let sizes = media_boxes(&pdf);
    // The drawing with its distances, heads, what was not done: three at most.
    assert!((1..=3).contains(&sizes.len()), "{} pages", sizes.len());
    for (width, height) in sizes {
        let off = (width - A4.0).abs().max((height - A4.1).abs());
        assert!(off < 1.5, "{width} x {height} is not A4");
    }
    phone.media("");
    phone.wait_for("Issue and print", PATIENCE);
}

/// Width and height of every page, points: `/MediaBox [0 0 W H]`.
fn media_boxes(pdf: &[u8]) -> Vec<(f64, f64)> {
    let text = String::from_utf8_lossy(pdf);
    let boxes = text.split("/MediaBox").skip(1);
    boxes
        .map(|rest| {
            let inside = rest.split(['[', ']']).nth(1).expect("a box has brackets");
            let figures: Vec<f64> = inside
                .split_whitespace()
                .map(|figure| figure.parse().expect("a figure"))
                .collect();
            (figures[2] - figures[0], figures[3] - figures[1])
        })
        .collect()
}
