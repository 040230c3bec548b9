//! What the kit sheet has to say in the mark-out: labels and holes.

use rakeline::driver::{CheckIntent, Intent, MarkOutIntent, SETTINGS_KEY};
use rakeline::platform::memory::MemoryPlatform;
use rakeline_core::decide::mark_out::{PlanKind, TapeVerdict};
use rakeline_core::job::{self, Field, MarksFrom};
use rakeline_core::units::{Millimetres, Offset};
use serde_json::{Value, json};

use crate::bench::Bench;
use crate::marks::{mark_out, marks, text_of, typed};
use crate::scenario;

/// A phone whose kit used last is the plain one with a change.
pub fn with_sheet(change: impl Fn(&mut Value)) -> Bench {
    let mut sheet: Value =
        serde_json::from_str(include_str!("../../assets/kits/plain-four.json")).expect("a sheet");
    change(&mut sheet);
    let kit = rakeline_core::kit::parse(&sheet.to_string()).expect("a good sheet");
    let phone = MemoryPlatform::new();
    let settings = json!({ "last_kit": kit, "fitter": "A. Beck" });
    phone.storage.plant(SETTINGS_KEY, &settings.to_string());
    let mut bench = Bench::on(phone);
    scenario::to_marks(&mut bench);
    bench
}

#[test]
fn a_head_is_named_by_its_label_where_labels_run_from_the_right() {
    let mut bench = with_sheet(|sheet| sheet["heads"]["labels"] = json!(["4", "3", "2", "1"]));
    // The leftmost mark, label 4, goes too near the corner.
    mark_out(&mut bench, MarkOutIntent::Move(0, Offset(-800.0)));
    let notice = &bench.app.notice.as_ref().expect("refused").message;
    assert_eq!(text_of(notice, "head").as_deref(), Some("4"));
    let from = bench.job().marks.as_ref().map(|marks| marks.from);
    assert_eq!(from, Some(MarksFrom::Plan(PlanKind::Symmetric)));
    // Tape read too far right at the leftmost mark.
    let at = marks(&bench)[0] + 7.0;
    typed(&mut bench, Field::TapeMark(0), &at.to_string());
    bench.send(Intent::Check(CheckIntent::TapeReady));
    let notice = &bench.app.notice.as_ref().expect("not ready").message;
    assert_eq!(notice.key, "tape-mark-too-far-right");
    assert_eq!(text_of(notice, "head").as_deref(), Some("4"));
    let view = job::check_view(bench.job()).expect("marks");
    let TapeVerdict::NotReady(against) = view.tape.verdict else {
        panic!("three marks are not read");
    };
    let heads: Vec<_> = against.iter().filter_map(|m| text_of(m, "head")).collect();
    assert_eq!(heads, ["4", "3", "2", "1"]);
}

#[test]
fn marks_leave_room_for_the_largest_hole_of_any_material() {
    let radius = |bench: &Bench| {
        let half = Millimetres(870.0);
        job::task_for(bench.job(), half, half).hole_radius
    };
    assert_eq!(radius(&with_sheet(|_| ())), Millimetres(10.5));
    let metal = with_sheet(|sheet| {
        sheet["holes"]["by_material"] = json!([{ "material": "metal", "diameter": 26 }]);
        sheet["heads"]["flange_diameter"] = json!(32);
    });
    assert_eq!(radius(&metal), Millimetres(13.0));
}
