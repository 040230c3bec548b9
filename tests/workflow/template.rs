//! The template and the mark cards as a printer would put them on paper.

use rakeline::texts::say;
use rakeline_core::report::{
    AcrossLine, Paper, TemplateFacts, TemplateHead, Unrolled, mark_cards, pdf, template,
};
use rakeline_core::units::{Millimetres, Offset};
use rakeline_tests::printed::Printed;

/// Four heads of our own, the outer ones with the larger hole.
fn facts() -> TemplateFacts {
    let heads = [("1", -637.0, 28.0), ("2", -213.0, 21.0), ("3", 213.0, 21.0), ("4", 637.0, 28.0)];
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
        across: Some(AcrossLine {
            above: Millimetres(28.5),
        }),
    }
}

#[test]
fn look() {
    for paper in [Paper::A4, Paper::Letter] {
        let bytes = pdf(&template(&facts(), paper), &say).unwrap();
        let p = Printed::new(&format!("template-{paper:?}"), &bytes);
        println!("{} {:?} {:?}", bytes.len(), p.fonts(), p.faults());
        println!("{}", p.texts().join("\n=====\n"));
        println!("{:?}", p.images());
        let bytes = pdf(&mark_cards(8, paper), &say).unwrap();
        let p = Printed::new(&format!("cards-{paper:?}"), &bytes);
        println!("{} {:?} {:?}", bytes.len(), p.fonts(), p.faults());
        println!("{:?}", p.images());
    }
}
