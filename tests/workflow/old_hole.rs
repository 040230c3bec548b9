//! Old holes and figures typed wrong: what is there counts, and what cannot
//! be read keeps the drill shut.

use rakeline::driver::{Intent, KitIntent};
use rakeline::route::KitId;
use rakeline_core::decide::drill::Making;
use rakeline_core::decide::ring_set::RingSet;
use rakeline_core::job::{
    self, Field, Hole, HolesEvent, JobEvent, MarkOutEvent, RingsEvent, Whose, hole,
};
use rakeline_core::units::Millimetres;

use crate::bench::Bench;
use crate::fitting::{drill, fit, ready_to_drill, sheet, typed, why};

fn making(bench: &Bench, spot: usize) -> Option<Making> {
    match hole(bench.job(), spot) {
        Hole::Plan(plan) => Some(plan.making),
        Hole::Shut(_) | Hole::Drilled(_) => None,
    }
}

#[test]
fn an_old_hole_typed_wrong_is_not_taken_for_none() {
    let mut bench = ready_to_drill();
    for wrong in ["2l", "0", "-21", "500"] {
        typed(&mut bench, Field::OldHoleSize(1), wrong);
        assert_eq!(why(&bench, 1), ["drill-shut-typed-wrong"], "{wrong}");
    }
    typed(&mut bench, Field::OldHoleSize(1), "21");
    let kept = Making::KeepOldHole(Millimetres(21.0));
    assert_eq!(making(&bench, 1), Some(kept));
}

#[test]
fn a_panel_or_a_heads_own_depth_typed_wrong_keeps_the_drill_shut() {
    let mut bench = ready_to_drill();
    typed(&mut bench, Field::Panel(Whose::Bumper), "3,x");
    assert_eq!(why(&bench, 0), ["drill-shut-typed-wrong"]);
    typed(&mut bench, Field::Panel(Whose::Bumper), "3");
    assert_eq!(why(&bench, 0), ["plan"]);
    let here = Whose::Spot(0);
    typed(&mut bench, Field::Panel(here), "40");
    assert_eq!(why(&bench, 0), ["drill-shut-typed-wrong"]);
    typed(&mut bench, Field::Panel(here), "");
    // The bumper's depth is none for a head whose own was typed.
    typed(&mut bench, Field::Depth(here), "3o");
    assert_eq!(why(&bench, 0), ["drill-shut-typed-wrong"]);
    assert_eq!(why(&bench, 1), ["plan"]);
}

#[test]
fn a_mark_on_an_old_hole_asks_for_its_size_and_what_is_drilled_is_what_is_there() {
    let mut bench = ready_to_drill();
    let at = bench.job().marks.as_ref().expect("marks").offsets[1];
    let old = MarkOutEvent::OldHoleAdded(at);
    fit(&mut bench, JobEvent::MarkOut(old));
    assert_eq!(why(&bench, 1), ["drill-shut-old-hole-asked"]);
    assert_eq!(why(&bench, 2), ["plan"]);
    typed(&mut bench, Field::OldHoleSize(1), "21.2");
    let kept = Making::KeepOldHole(Millimetres(21.2));
    assert_eq!(making(&bench, 1), Some(kept));
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 1);
    let drilled = bench.job().holes.drilled.get(&1).expect("drilled");
    assert_eq!(drilled.diameter, Millimetres(21.2));
    fit(&mut bench, JobEvent::Rings(RingsEvent::Seated(1)));
    assert!(bench.job().rings.seated.contains_key(&1));
}

#[test]
fn a_set_taken_by_hand_does_not_open_the_drill_on_a_hole_that_it_cannot_cover() {
    let mut bench = ready_to_drill();
    let metal = KitId("metal-four".to_owned());
    bench.send(Intent::Kits(KitIntent::UseHere(metal)));
    typed(&mut bench, Field::OldHoleSize(0), "29");
    let by_hand = |set: RingSet| {
        JobEvent::Rings(RingsEvent::ByHand {
            spot: 0,
            set,
            reason: "it will do".to_owned(),
        })
    };
    fit(&mut bench, by_hand(RingSet::ring("9")));
    assert_eq!(why(&bench, 0), ["drill-shut-old-hole"]);
    let cautions = job::hand_cautions(bench.job(), 0);
    assert_eq!(cautions[0].key, "ring-why-old-hole");
    assert!(sheet(&bench).contains("ring-why-old-hole"));
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    assert!(bench.job().holes.drilled.is_empty());
    fit(&mut bench, by_hand(RingSet::with_insert("5", "flat")));
    let covered = Making::CoverOldHole(Millimetres(29.0));
    assert_eq!(making(&bench, 0), Some(covered));
    drill(&mut bench, 0);
    fit(&mut bench, JobEvent::Rings(RingsEvent::Seated(0)));
    assert!(bench.job().rings.seated.contains_key(&0));
    // Another insert that covers it goes in; a bare ring does not.
    fit(&mut bench, by_hand(RingSet::with_insert("5", "steep")));
    assert_eq!(bench.notice(), None);
    fit(&mut bench, by_hand(RingSet::ring("5")));
    assert_eq!(bench.notice(), Some("refused-other-hole"));
}
