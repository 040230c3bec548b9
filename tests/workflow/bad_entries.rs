//! What a fitter can type wrong: it stays as typed, with what is wrong.

use rakeline::driver::Intent;
use rakeline::driver::SETTINGS_KEY;
use rakeline::platform::memory::MemoryPlatform;
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::job::{
    Facing, Field, HalfWidths, TEXT_GREATEST, half_widths, no_plan_messages, plans,
};

use crate::bench::Bench;
use crate::scenario;

/// Types a left half width beside a good right one; gives what is said.
fn said_to(text: &str) -> String {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    bench.send(Intent::Type(Field::HalfLeft, text.to_owned()));
    bench.send(Intent::Type(Field::HalfRight, "868".to_owned()));
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(bench.job().marks, None, "no marks from {text:?}");
    let after = bench.killed();
    assert_eq!(after.job().typed(Field::HalfLeft), text, "kept as typed");
    match half_widths(after.job()) {
        HalfWidths::Open {
            left: Some(left),
            right: None,
        } => left.key.into_owned(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_half_width_of_zero_is_refused() {
    assert_eq!(said_to("0"), "half-width-not-positive");
}

#[test]
fn a_negative_half_width_is_refused() {
    assert_eq!(said_to("-871"), "half-width-not-positive");
}

#[test]
fn a_half_width_of_words_is_refused() {
    assert_eq!(said_to("about this wide"), "entry-not-a-length");
}

#[test]
fn a_half_width_of_ten_metres_is_refused() {
    assert_eq!(said_to("10 m"), "half-width-too-large");
    assert_eq!(said_to("10000"), "half-width-too-large");
}

#[test]
fn inches_typed_for_millimetres_are_recognised() {
    assert_eq!(said_to("34.25"), "half-width-inches");
}

#[test]
fn an_empty_field_is_no_fault_yet() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    let open = HalfWidths::Open {
        left: None,
        right: None,
    };
    assert_eq!(half_widths(bench.job()), open);
    assert_eq!(bench.job().marks, None);
}

#[test]
fn half_widths_that_differ_much_ask_for_the_centre_line() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    scenario::type_half_widths(&mut bench, "901", "868");
    match half_widths(bench.job()) {
        HalfWidths::Ready {
            doubt: Some(doubt), ..
        } => assert_eq!(doubt.key, "half-widths-differ"),
        other => panic!("{other:?}"),
    }
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert!(bench.job().marks.is_some(), "a question, not a refusal");
}

/// A phone whose kit used last has a greatest spacing.
fn with_greatest_spacing(millimetres: f64) -> Bench {
    let phone = MemoryPlatform::new();
    let mut sheet: serde_json::Value =
        serde_json::from_str(include_str!("../../assets/kits/plain-four.json")).expect("a sheet");
    sheet["mark_out"]["spacing_greatest"] = millimetres.into();
    let kit = rakeline_core::kit::parse(&sheet.to_string()).expect("a good sheet");
    let settings = serde_json::json!({ "last_kit": kit, "fitter": "A. Beck" });
    phone.storage.plant(SETTINGS_KEY, &settings.to_string());
    Bench::on(phone)
}

#[test]
fn a_mark_out_without_a_solution_says_which_rules_clash_and_keeps_what_was_typed() {
    let mut bench = with_greatest_spacing(400.0);
    bench.send(Intent::StartJob(bench.new_id()));
    scenario::type_half_widths(&mut bench, "1340", "1340");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    let job = bench.job();
    assert_eq!(job.marks, None);
    let none = plans(job).expect("both can be used").expect_err("no plan");
    let messages = no_plan_messages(job, &none);
    assert!(messages[0].key.starts_with("mark-out-"));
    assert!(messages.len() > 1, "what would help: {messages:?}");
    assert_eq!(job.typed(Field::HalfLeft), "1340");
    scenario::type_half_widths(&mut bench, "871", "868");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert!(bench.job().marks.is_some());
}

#[test]
fn marks_stay_while_a_wrong_half_width_stands_in_its_field() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let marks = bench.job().marks.clone();
    bench.send(Intent::Type(Field::HalfLeft, "8".to_owned()));
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(bench.job().marks, marks);
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    assert!(rakeline_core::job::marks_are_stale(bench.job()));
}

#[test]
fn a_wrong_face_angle_stays_in_its_field_and_is_not_taken() {
    let wrong = [
        ("steep", "", "entry-not-an-angle"),
        ("80", "", "entry-face-too-steep"),
        ("NaN", "", "entry-not-an-angle"),
        ("4.2", "0", "entry-gauge-plus-minus"),
        ("4.2", "some", "entry-not-an-angle"),
    ];
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for (angle, plus_minus, key) in wrong {
        scenario::type_face(&mut bench, angle, Facing::Down, plus_minus);
        assert_eq!(bench.notice(), Some(key));
        assert_eq!(bench.readings(), [0, 0, 0, 0]);
        assert_eq!(bench.job().typed(Field::FaceAngle), angle);
        assert_eq!(bench.job().typed(Field::GaugePlusMinus), plus_minus);
    }
}

#[test]
fn endless_text_is_cut_and_the_job_is_still_kept() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    bench.send(Intent::Rename("ÿ".repeat(100_000)));
    assert_eq!(bench.job().name.chars().count(), TEXT_GREATEST);
    assert_eq!(bench.killed().app.job(), Some(bench.job()));
}

#[test]
fn a_step_that_needs_another_first_says_so() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    bench.send(Intent::TapeOn);
    assert_eq!(bench.notice(), Some("refused-no-marks"));
}
