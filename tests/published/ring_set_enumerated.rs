//! Source: none; the ring-set rule done a second time by looking at every
//! combination, and chances by scipy's normal distribution.

#![allow(clippy::expect_used, reason = "a test stops here")]

use rakeline_core::decide::ring_set::{Verdict, choose};
use rakeline_tests::dice::Dice;
use rakeline_tests::kit_cases::case;
use rakeline_tests::oracle;
use serde_json::json;

#[test]
fn every_size_of_sheet_gets_the_set_that_enumeration_finds() {
    let mut dice = Dice(5);
    let (mut sure, mut close, mut not_served) = (0, 0, 0);
    for round in 0..400 {
        for rings in 1..=5 {
            for inserts in 0..=4 {
                let case = case(&mut dice, rings, inserts);
                let sheet = case.sheet().expect("a valid sheet");
                let choice = choose(&sheet, &case.facts());
                let fault = case.fault(&choice, 6, &mut dice);
                assert_eq!(fault, None, "round {round}: {case:?}");
                match choice.verdict {
                    Verdict::Sure { .. } => sure += 1,
                    Verdict::CloseCall { .. } => close += 1,
                    Verdict::CannotBeServed { .. } => not_served += 1,
                }
            }
        }
    }
    // None of the three verdicts is a rarity in these cases.
    assert!(sure > 1000 && close > 1000 && not_served > 1000);
}

#[test]
fn the_chance_of_pointing_down_is_scipys() {
    let mut dice = Dice(6);
    let mut pairs = Vec::new();
    let mut ours = Vec::new();
    while pairs.len() < 200 {
        let case = case(&mut dice, 3, 2);
        let sheet = case.sheet().expect("a valid sheet");
        for candidate in choose(&sheet, &case.facts()).candidates {
            if candidate.aim.u.0 > 0.0 {
                pairs.push(json!([candidate.aim.value.0, candidate.aim.u.0]));
                ours.push(candidate.points_down());
            }
        }
    }
    let theirs = oracle::run("kit_chance.py", &json!(pairs));
    let theirs = theirs.as_array().expect("a list");
    assert_eq!(theirs.len(), ours.len());
    for (ours, theirs) in ours.iter().zip(theirs) {
        let theirs = theirs.as_f64().expect("a number");
        assert!((ours - theirs).abs() < 1e-6, "{ours} {theirs}");
    }
}
