//! One invented fitting, step by step.

use rakeline::driver::Intent;
use rakeline::route::Step;
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::job::{Facing, Field, Particular};

use crate::bench::Bench;

/// Face angles that the scripted phone finds at the four marks.
pub const FACES: [f64; 4] = [-3.7, -1.6, -1.4, -3.5];

/// What the fitter types and taps until the marks are shown.
pub fn to_marks(bench: &mut Bench) {
    bench.send(Intent::StartJob(bench.new_id()));
    type_half_widths(bench, "871", "868");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
}

/// Types both half widths, letter by letter as the fields report it.
pub fn type_half_widths(bench: &mut Bench, left: &str, right: &str) {
    for (field, text) in [(Field::HalfLeft, left), (Field::HalfRight, right)] {
        for end in 1..=text.len() {
            bench.send(Intent::Type(field, text[..end].to_owned()));
        }
    }
}

/// Until the sensor waits for the first face.
pub fn to_faces(bench: &mut Bench) {
    to_marks(bench);
    bench.send(Intent::TapeOn);
}

/// Until the ring sets are shown.
pub fn to_rings(bench: &mut Bench) {
    to_faces(bench);
    for face in FACES {
        bench.hold_to(face);
    }
}

/// The particulars, before the job sheet.
pub fn particulars(bench: &mut Bench) {
    bench.send(Intent::Rename("Scar End van".to_owned()));
    let texts = [
        (Particular::Customer, "Fell & Ghyll Deliveries"),
        (Particular::Vehicle, "Tarn Carrier, 2023"),
        (Particular::Plate, "FG 12 TARN"),
        (Particular::Fitter, "A. Beck, Beckside Workshop"),
    ];
    for (which, text) in texts {
        bench.send(Intent::Particular(which, text.to_owned()));
    }
}

/// Until the job sheet is issued.
pub fn to_sheet(bench: &mut Bench) {
    to_rings(bench);
    bench.send(Intent::GoStep(Step::Sheet));
    particulars(bench);
    bench.send(Intent::IssueSheet);
}

/// Types a face angle for the chosen spot.
pub fn type_face(bench: &mut Bench, angle: &str, facing: Facing, plus_minus: &str) {
    bench.send(Intent::Type(Field::FaceAngle, angle.to_owned()));
    bench.send(Intent::Type(Field::GaugePlusMinus, plus_minus.to_owned()));
    bench.send(Intent::TakeTyped(facing));
}
