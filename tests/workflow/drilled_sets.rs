//! Sets after the hole is drilled, inserts for their lift, and what is said
//! at the head when it goes in.

use rakeline::driver::{Intent, KitIntent};
use rakeline::route::KitId;
use rakeline_core::decide::ring_set::{InsertUse, RingSet, Verdict};
use rakeline_core::job::{self, Facing, HolesEvent, JobEvent, RingsEvent, TakenBy};

use crate::bench::Bench;
use crate::fitting::{drill, fit, ready_to_drill, sheet, why};
use crate::scenario;

fn rings(bench: &mut Bench, event: RingsEvent) {
    fit(bench, JobEvent::Rings(event));
}

fn by_hand(ring: &str) -> RingsEvent {
    RingsEvent::ByHand {
        spot: 0,
        set: RingSet::ring(ring),
        reason: "the one at hand".to_owned(),
    }
}

/// The first face falls away so far that only an insert helps.
fn steep() -> Bench {
    let mut bench = ready_to_drill();
    let metal = KitId("metal-four".to_owned());
    bench.send(Intent::Kits(KitIntent::UseHere(metal)));
    read_anew(&mut bench, "15.0");
    bench
}

fn read_anew(bench: &mut Bench, angle: &str) {
    fit(bench, JobEvent::FaceDropped { spot: 0 });
    bench.send(Intent::ReadAgain(0));
    scenario::type_face(bench, angle, Facing::Down, "0.3");
}

fn first_verdict(bench: &Bench) -> Verdict {
    let choice = job::ring_choice(bench.job(), &bench.job().spots[0]);
    choice.expect("read").verdict
}

#[test]
fn where_only_an_insert_would_serve_it_is_said_and_allowing_it_takes_it() {
    let mut bench = steep();
    let Verdict::CannotBeServed { what_to_do, .. } = first_verdict(&bench) else {
        panic!("served without an insert");
    };
    assert_eq!(what_to_do.key, "ring-do-allow-insert");
    rings(&mut bench, RingsEvent::InsertsUsed(InsertUse::Allowed));
    let taken = job::set_taken(bench.job(), 0).expect("a set");
    assert!(taken.set.insert.is_some(), "{taken:?}");
    assert_eq!(taken.by, TakenBy::Rule);
    let killed = bench.killed();
    assert_eq!(killed.job().rings.inserts, InsertUse::Allowed);
}

#[test]
fn the_rules_set_does_not_come_back_where_it_needs_another_hole() {
    let mut bench = steep();
    rings(&mut bench, RingsEvent::InsertsUsed(InsertUse::Allowed));
    rings(&mut bench, by_hand("14"));
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    assert_eq!(why(&bench, 0), ["drilled"]);
    rings(&mut bench, RingsEvent::ByRule(0));
    assert_eq!(bench.notice(), Some("set-needs-other-hole"));
    let taken = job::set_taken(bench.job(), 0).expect("a set");
    assert_eq!(taken.set, RingSet::ring("14"));
}

#[test]
fn a_face_read_again_after_drilling_never_changes_the_hole_in_silence() {
    let mut bench = ready_to_drill();
    let metal = KitId("metal-four".to_owned());
    bench.send(Intent::Kits(KitIntent::UseHere(metal)));
    rings(&mut bench, RingsEvent::InsertsUsed(InsertUse::Allowed));
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    assert_eq!(job::set_needs_other_hole(bench.job(), 0), None);
    read_anew(&mut bench, "15.0");
    let said = job::set_needs_other_hole(bench.job(), 0).expect("said");
    assert_eq!(said.key, "set-needs-other-hole");
    assert!(sheet(&bench).contains("set-needs-other-hole"));
    rings(&mut bench, RingsEvent::Seated(0));
    assert_eq!(bench.notice(), Some("set-needs-other-hole"));
    assert!(!bench.job().rings.seated.contains_key(&0));
    // A set for the hole that is there is still to be had.
    rings(&mut bench, by_hand("14"));
    rings(&mut bench, RingsEvent::Seated(0));
    assert!(bench.job().rings.seated.contains_key(&0));
}

#[test]
fn at_the_head_it_is_said_which_ring_comes_off_and_how_the_new_one_goes_in() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    let first = |bench: &Bench| job::fitting_at(bench.job(), 0)[0].clone();
    // The head comes with ring 2, and its sheet says how that comes off.
    let off = first(&bench);
    assert_eq!(off.key, "drill-step-comes-off-how");
    assert!(format!("{off:?}").contains("Lift the tab"), "{off:?}");
    rings(&mut bench, RingsEvent::Seated(0));
    assert_eq!(first(&bench).key, "drill-step-arrow-up");
    rings(&mut bench, by_hand("14"));
    let off = first(&bench);
    assert_eq!(off.key, "drill-step-comes-off");
    assert!(format!("{off:?}").contains("\"9\""), "{off:?}");
    rings(&mut bench, by_hand("2"));
    let keys: Vec<String> = job::fitting_at(bench.job(), 0)
        .into_iter()
        .map(|step| step.key.into_owned())
        .collect();
    assert!(keys.contains(&"drill-step-seats".to_owned()), "{keys:?}");
}

#[test]
fn on_a_close_call_the_set_by_the_rule_is_not_called_chosen() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    for spot in &bench.job().spots {
        let choice = job::ring_choice(bench.job(), spot).expect("read");
        let close = matches!(choice.verdict, Verdict::CloseCall { .. });
        assert!(close, "an unzeroed phone is not sure");
        for candidate in &choice.candidates {
            let why = choice.why(candidate, &bench.job().kit);
            assert_ne!(why.key, "ring-why-chosen");
        }
    }
}

#[test]
fn a_pair_does_not_change_the_set_of_a_hole_that_is_there() {
    let mut bench = steep();
    rings(&mut bench, RingsEvent::InsertsUsed(InsertUse::Allowed));
    read_anew(&mut bench, "12.0");
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    let before = job::set_taken(bench.job(), 0);
    fit(&mut bench, JobEvent::FaceDropped { spot: 3 });
    bench.send(Intent::ReadAgain(3));
    scenario::type_face(&mut bench, "15.0", Facing::Down, "0.3");
    assert_eq!(job::set_needs_other_hole(bench.job(), 0), None);
    assert_eq!(job::set_taken(bench.job(), 0), before);
}
