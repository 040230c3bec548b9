//! Source: common practice, no source.
//!
//! Figures that fitters use, as check values. Each stands in its own test
//! with its own sheet; all other figures of that sheet are invented.

#![allow(clippy::expect_used, reason = "a test stops here")]

use rakeline_core::decide::look_behind::{Behind, LookBehind, Looked};
use rakeline_core::decide::ring_set::{
    Blocked, Candidate, InsertUse, Outcome, RakeOrigin, RingChoice, RingSet, SpotFacts, Verdict,
    choose,
};
use rakeline_core::decide::{drill, leads};
use rakeline_core::kit::{self, KitSheet, Material};
use rakeline_core::units::{COVERAGE_95, Degrees, Estimate, Millimetres, Offset};
use serde_json::{Value, json};

fn sheet(json: &Value) -> KitSheet {
    kit::parse(&json.to_string()).expect("the sheet of this test is valid")
}

/// A spot on a plastic bumper, ± as 95 %, no load allowance, no insert
/// unless one is needed.
fn spot(rake: f64, plus_minus: f64, origin: RakeOrigin) -> SpotFacts {
    SpotFacts {
        rake: Estimate::new(Degrees(rake), Degrees(plus_minus / COVERAGE_95)),
        origin,
        material: Material::Plastic,
        load_allowance: Degrees(0.0),
        old_hole: None,
        inserts: InsertUse::WhereNeeded,
    }
}

fn aim_of(sheet: &KitSheet, choice: &RingChoice, set: &RingSet) -> f64 {
    let candidate: &Candidate = choice.candidate(sheet, set).expect("a candidate");
    candidate.aim.value.0
}

fn sure(set: RingSet) -> Verdict {
    Verdict::Sure { set }
}

#[test]
fn a_face_falling_away_by_ten_and_a_half_needs_the_ring_of_thirteen() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "three" },
        "rings": [
            { "name": "three", "lift": 3 }, { "name": "six", "lift": 6 }, { "name": "thirteen", "lift": 13 }
        ],
        "aim": { "least": 0, "greatest": 8, "target": 3 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let choice = choose(&sheet, &spot(-10.5, 0.5, RakeOrigin::Typed));
    let set = RingSet::ring("thirteen");
    assert_eq!(choice.verdict, sure(set.clone()));
    assert!((aim_of(&sheet, &choice, &set) - 2.5).abs() < 1e-12);
}

#[test]
fn a_face_falling_away_by_four_gets_the_ring_of_six() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "three" },
        "rings": [
            { "name": "three", "lift": 3 }, { "name": "six", "lift": 6 }, { "name": "thirteen", "lift": 13 }
        ],
        "aim": { "least": 0, "greatest": 8, "target": 3 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let choice = choose(&sheet, &spot(-4.0, 0.4, RakeOrigin::Typed));
    let set = RingSet::ring("six");
    assert_eq!(choice.verdict, sure(set.clone()));
    assert!((aim_of(&sheet, &choice, &set) - 2.0).abs() < 1e-12);
}

#[test]
fn an_upright_face_keeps_the_ring_of_three_that_is_fitted() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "three" },
        "rings": [
            { "name": "three", "lift": 3 }, { "name": "six", "lift": 6 }, { "name": "thirteen", "lift": 13 }
        ],
        "aim": { "least": 0, "greatest": 8, "target": 3 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let choice = choose(&sheet, &spot(0.0, 0.5, RakeOrigin::Typed));
    assert_eq!(choice.verdict, sure(RingSet::ring("three")));
    let kept = choice.chosen_by_rule().expect("a choice");
    assert_eq!(kept.added_parts, 0);
}

#[test]
fn an_unzeroed_phone_at_four_down_leaves_three_rings_open() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "three" },
        "rings": [
            { "name": "three", "lift": 3 }, { "name": "six", "lift": 6 }, { "name": "thirteen", "lift": 13 }
        ],
        "aim": { "least": 0, "greatest": 8, "target": 3 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let choice = choose(&sheet, &spot(-4.0, 3.0, RakeOrigin::Unzeroed));
    let Verdict::CloseCall {
        proposed,
        right_somewhere,
        ..
    } = &choice.verdict
    else {
        panic!("a close call, not {:?}", choice.verdict);
    };
    assert_eq!(*proposed, Some(RingSet::ring("six")));
    let named: Vec<(&str, f64, f64)> = right_somewhere
        .iter()
        .map(|r| (r.set.ring.as_str(), r.from.0, r.to.0))
        .collect();
    let wanted = [
        ("thirteen", -7.0, -6.0),
        ("six", -6.0, -3.0),
        ("three", -3.0, -1.0),
    ];
    assert_eq!(named.len(), wanted.len(), "{named:?}");
    for (found, wanted) in named.iter().zip(wanted) {
        assert_eq!(found.0, wanted.0);
        assert!((found.1 - wanted.1).abs() < 1e-9, "{found:?}");
        assert!((found.2 - wanted.2).abs() < 1e-9, "{found:?}");
    }
    assert!(
        !choice.blocks(Blocked::Drill),
        "rings can be changed after drilling"
    );
    assert!(choice.blocks(Blocked::Paint), "a painted ring cannot");
}

#[test]
fn a_zeroed_phone_near_three_down_proposes_six_and_says_when_three_would_do() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "three" },
        "rings": [
            { "name": "three", "lift": 3 }, { "name": "six", "lift": 6 }, { "name": "thirteen", "lift": 13 }
        ],
        "aim": { "least": 0, "greatest": 8, "target": 3 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let choice = choose(&sheet, &spot(-2.9, 0.4, RakeOrigin::Zeroed));
    let Verdict::CloseCall {
        proposed,
        right_somewhere,
        ..
    } = &choice.verdict
    else {
        panic!("a close call, not {:?}", choice.verdict);
    };
    assert_eq!(*proposed, Some(RingSet::ring("six")));
    let three = right_somewhere
        .iter()
        .find(|r| r.set == RingSet::ring("three"))
        .expect("three is named");
    assert!((three.from.0 - -3.0).abs() < 1e-9);
    assert!((three.to.0 - -2.5).abs() < 1e-9);
}

#[test]
fn eighteen_down_is_served_only_because_the_measured_total_beats_the_sum() {
    // The ring is the trade's; head and insert are invented and make the sum 18.
    let with_total = json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "bare_lift": 1 },
        "rings": [{ "name": "thirteen", "lift": 13 }],
        "inserts": [{ "name": "ours", "lift": 4, "hole": 28 }],
        "totals": [{ "ring": "thirteen", "insert": "ours", "lift": 20.5 }],
        "aim": { "least": 0, "greatest": 8, "target": 3 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    });
    let mut facts = spot(-18.0, 1.0, RakeOrigin::Typed);
    facts.inserts = InsertUse::Allowed;
    let measured = choose(&sheet(&with_total), &facts);
    assert_eq!(
        measured.verdict,
        sure(RingSet::with_insert("thirteen", "ours"))
    );
    let chosen = measured.chosen_by_rule().expect("a choice");
    assert!((chosen.lift.value.0 - 20.5).abs() < 1e-12);

    let mut by_sum = with_total;
    by_sum["totals"] = json!([]);
    let summed = choose(&sheet(&by_sum), &facts);
    assert_eq!(summed.chosen_by_rule(), None, "the sum of 18 is not enough");
    assert!((summed.candidates[1].lift.value.0 - 18.0).abs() < 1e-12);
}

#[test]
fn twenty_four_down_cannot_be_served() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "bare_lift": 1 },
        "rings": [{ "name": "thirteen", "lift": 13 }],
        "inserts": [{ "name": "ours", "lift": 4, "hole": 28 }],
        "totals": [{ "ring": "thirteen", "insert": "ours", "lift": 20.5 }],
        "aim": { "least": 0, "greatest": 8, "target": 3 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let mut facts = spot(-24.0, 1.0, RakeOrigin::Typed);
    facts.inserts = InsertUse::Allowed;
    let choice = choose(&sheet, &facts);
    let Verdict::CannotBeServed { serves, what_to_do } = &choice.verdict else {
        panic!("cannot be served, not {:?}", choice.verdict);
    };
    assert!((serves[0].0.0 - -20.5).abs() < 1e-9, "{serves:?}");
    assert_eq!(what_to_do.key, "ring-do-face-too-far-down");
    assert!(choice.blocks(Blocked::Drill), "another spot may be needed");
}

#[test]
fn the_ring_of_thirteen_with_a_measured_total_goes_over_twenty() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"] },
        "rings": [{ "name": "thirteen", "lift": 13 }],
        "inserts": [{ "name": "ours", "lift": 4, "hole": 28 }],
        "totals": [{ "ring": "thirteen", "insert": "ours", "lift": 20.5 }],
        "aim": { "least": 0, "greatest": 8, "target": 3 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let choice = choose(&sheet, &spot(-15.0, 0.5, RakeOrigin::Typed));
    let both = RingSet::with_insert("thirteen", "ours");
    let candidate = choice.candidate(&sheet, &both).expect("a candidate");
    assert!(candidate.lift.value.0 > 20.0);
    // One tolerance for a measured total, not one for each part.
    assert!((candidate.lift.u.0 - 0.5 / 3.0_f64.sqrt()).abs() < 1e-12);
}

#[test]
fn inserts_of_nought_and_five_lift_as_they_say() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "two" },
        "rings": [{ "name": "two", "lift": 2 }],
        "inserts": [
            { "name": "nought", "lift": 0, "hole": 28 }, { "name": "five", "lift": 5, "hole": 28 }
        ],
        "aim": { "least": 0, "greatest": 9, "target": 4 }, "lift_tolerance": 0,
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let mut facts = spot(-5.0, 0.5, RakeOrigin::Typed);
    facts.inserts = InsertUse::Allowed;
    let choice = choose(&sheet, &facts);
    let aim = |insert: &str| aim_of(&sheet, &choice, &RingSet::with_insert("two", insert));
    assert!((aim("nought") - -3.0).abs() < 1e-12);
    assert!((aim("five") - 2.0).abs() < 1e-12);
    assert_eq!(choice.verdict, sure(RingSet::with_insert("two", "five")));
}

#[test]
fn the_head_goes_into_a_hole_of_eighteen_point_eight() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "two" },
        "rings": [{ "name": "two", "lift": 2 }],
        "aim": { "least": 0, "greatest": 9, "target": 4 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 18.8 }
    }));
    let set = RingSet::ring("two");
    let hole = set.hole(&sheet, Material::Plastic);
    assert_eq!(hole, Some(Millimetres(18.8)));
}

#[test]
fn an_insert_goes_into_a_hole_of_twenty_five() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "two" },
        "rings": [{ "name": "two", "lift": 2 }],
        "inserts": [{ "name": "ours", "lift": 4, "hole": 25 }],
        "aim": { "least": 0, "greatest": 9, "target": 4 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let set = RingSet::with_insert("two", "ours");
    let hole = set.hole(&sheet, Material::Metal);
    assert_eq!(hole, Some(Millimetres(25.0)));
}

#[test]
fn metal_without_an_insert_is_refused_because_it_causes_false_alarms() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"], "comes_with": "two" },
        "rings": [{ "name": "two", "lift": 2 }],
        "inserts": [{ "name": "ours", "lift": 1, "hole": 28, "needed_for": ["metal"] }],
        "aim": { "least": 0, "greatest": 9, "target": 4 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let mut facts = spot(1.0, 0.5, RakeOrigin::Typed);
    facts.material = Material::Metal;
    let choice = choose(&sheet, &facts);
    assert_eq!(choice.verdict, sure(RingSet::with_insert("two", "ours")));
    assert_eq!(choice.candidates[0].outcome, Outcome::MaterialNeedsAnInsert);
    assert_eq!(choice.candidates[0].why(&sheet).key, "ring-why-material");
}

#[test]
fn the_zone_shift_for_a_tow_bar_moves_the_near_zone_by_two_hundred() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"] },
        "rings": [{ "name": "two", "lift": 2 }],
        "aim": { "least": 0, "greatest": 9, "target": 4 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 },
        "control_box": { "zone_shift": { "how": "a switch", "distance": 200 } }
    }));
    let shift = sheet.control_box.and_then(|b| b.zone_shift);
    assert_eq!(shift.map(|s| s.distance), Some(Millimetres(200.0)));
}

#[test]
fn a_load_carrier_gets_the_long_leads() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": { "labels": ["1", "2"] },
        "rings": [{ "name": "two", "lift": 2 }],
        "aim": { "least": 0, "greatest": 9, "target": 4 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 },
        "leads": { "head": { "length": 2400, "long": 5200 } }
    }));
    let route = leads::Route {
        of: leads::LeadOf::Head("1".to_owned()),
        stretches: vec![Millimetres(1400.0), Millimetres(3300.0)],
        straight: None,
        slack: leads::DEFAULT_SLACK,
        kit: leads::LeadKit::AsNeeded,
    };
    let plan = leads::plan(&sheet, &route).expect("it reaches");
    assert_eq!(plan.choice, leads::LeadChoice::Long);
}

#[test]
fn a_tight_fit_causes_false_alarms_so_the_hole_is_filed_until_the_head_lifts_out() {
    let sheet = sheet(&json!({
        "rakeline_kit": 1, "name": "one check",
        "heads": {
            "labels": ["1", "2"], "comes_with": "two",
            "depth": 17, "connector_length": 19, "bend": 14, "connector_diameter": 12
        },
        "rings": [{ "name": "two", "lift": 2 }],
        "aim": { "least": 0, "greatest": 9, "target": 4 },
        "mark_out": { "inner": 280, "corner_gap_least": 180 }, "holes": { "head": 21 }
    }));
    let choice = choose(&sheet, &spot(1.0, 0.5, RakeOrigin::Typed));
    let look = LookBehind {
        bumper: Looked {
            behind: Some(Behind::SeenAndClear),
            depth: Some(Millimetres(60.0)),
            ..Looked::default()
        },
        ..LookBehind::default()
    };
    let at = drill::AtHead {
        sheet: &sheet,
        label: "1",
        mark: Offset(-230.0),
        choice: &choice,
        instead: None,
        look: &look,
    };
    let tools = drill::Tools {
        reach_past_teeth: Some(Millimetres(15.0)),
        ..drill::Tools::default()
    };
    let plan = drill::plan(&at, &tools).expect("a plan");
    let place = |key: &str| {
        let found = plan.steps.iter().position(|s| s.key == key);
        found.expect("the step is there")
    };
    assert!(place("drill-step-saw") < place("drill-step-file"));
    assert!(place("drill-step-file") < place("drill-step-press-edge"));
}
