//! From the look behind to the last head: the drill gate, holes, leads and
//! supply, parts, and what the job sheet says of them.

use rakeline::driver::{CheckIntent, Intent};
use rakeline_core::decide::look_behind::{Behind, Obstacle};
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::decide::parts::Part;
use rakeline_core::decide::ring_set::RingSet;
use rakeline_core::decide::supply::{LampCircuit, Reading};
use rakeline_core::job::{
    self, BehindEvent, Field, Hole, HolesEvent, JobEvent, LoomEvent, QuoteEvent, RingsEvent,
    TakenBy, WhichLead, Whose, hole,
};
use rakeline_core::kit::Material;
use rakeline_core::report::job_sheet;

use crate::bench::Bench;
use crate::scenario;

pub fn fit(bench: &mut Bench, event: JobEvent) {
    bench.send(Intent::Fit(Box::new(event)));
}

pub fn seen(bench: &mut Bench, whose: Whose, behind: Behind) {
    fit(bench, JobEvent::Behind(BehindEvent::Seen(whose, behind)));
}

pub fn typed(bench: &mut Bench, field: Field, text: &str) {
    bench.send(Intent::Type(field, text.to_owned()));
}

/// A job with its faces typed as sure, looked behind, and the saw entered.
pub fn ready_to_drill() -> Bench {
    let mut bench = Bench::new();
    on_to_drill(&mut bench);
    bench
}

/// The same on a phone that has jobs already.
pub fn on_to_drill(bench: &mut Bench) {
    scenario::to_faces(bench);
    for angle in ["5.5", "4.0", "4.0", "5.5"] {
        scenario::type_face(bench, angle, job::Facing::Down, "0.3");
    }
    assert!(bench.job().all_read());
    seen(bench, Whose::Bumper, Behind::SeenAndClear);
    typed(bench, Field::Depth(Whose::Bumper), "62");
    typed(bench, Field::ReachPastTeeth, "16");
}

pub fn why(bench: &Bench, spot: usize) -> Vec<String> {
    match hole(bench.job(), spot) {
        Hole::Shut(why) => why.into_iter().map(|why| why.key.into_owned()).collect(),
        Hole::Plan(_) => vec!["plan".to_owned()],
        Hole::Drilled(_) => vec!["drilled".to_owned()],
    }
}

pub fn drill(bench: &mut Bench, spot: u8) {
    bench.send(Intent::Check(CheckIntent::Seen(usize::from(spot))));
    fit(bench, JobEvent::Holes(HolesEvent::HoleDrilled(spot)));
}

pub fn sheet(bench: &Bench) -> String {
    format!("{:?}", job_sheet(bench.job(), bench.job().changed, "UTC"))
}

#[test]
fn only_seen_and_clear_opens_the_drill_and_one_head_may_differ() {
    let mut bench = ready_to_drill();
    assert_eq!(why(&bench, 1), ["plan"]);
    seen(&mut bench, Whose::Spot(1), Behind::CouldNotSee);
    assert_eq!(why(&bench, 1), ["drill-shut-could-not-see"]);
    assert_eq!(why(&bench, 2), ["plan"]);
    seen(
        &mut bench,
        Whose::Bumper,
        Behind::SomethingThere(vec![Obstacle::CrashBeam]),
    );
    assert_eq!(why(&bench, 2), ["drill-shut-something-there"]);
    fit(
        &mut bench,
        JobEvent::Behind(BehindEvent::ExceptionDropped(1)),
    );
    assert_eq!(why(&bench, 1), ["drill-shut-something-there"]);
    assert!(sheet(&bench).contains("behind-something-is"));
}

#[test]
fn a_hole_needs_its_cautions_and_its_mark_confirmed_from_behind() {
    let mut bench = ready_to_drill();
    bench.send(Intent::Check(CheckIntent::Seen(0)));
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    assert_eq!(bench.notice(), Some("refused-cautions-first"));
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(1)));
    assert_eq!(bench.notice(), Some("refused-confirm-first"));
    assert!(bench.job().holes.drilled.is_empty());
    fit(&mut bench, JobEvent::Rings(RingsEvent::Seated(0)));
    assert_eq!(bench.notice(), Some("refused-seated-before-hole"));
    drill(&mut bench, 0);
    assert_eq!(why(&bench, 0), ["drilled"]);
    fit(&mut bench, JobEvent::Rings(RingsEvent::Seated(0)));
    assert!(bench.job().rings.seated.contains_key(&0));
    bench.send(Intent::Undo);
    bench.send(Intent::Undo);
    assert_eq!(why(&bench, 0), ["plan"], "undone twice");
}

#[test]
fn a_drilled_mark_stays_and_so_do_kit_and_panel() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    let before = bench.job().marks.clone().expect("marks");
    scenario::type_half_widths(&mut bench, "905", "905");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    let after = bench.job().marks.clone().expect("marks");
    assert_eq!(after.offsets[0], before.offsets[0]);
    let metal = BehindEvent::MaterialChosen(Material::Metal);
    fit(&mut bench, JobEvent::Behind(metal));
    assert_eq!(bench.notice(), Some("refused-already-drilled"));
    assert_eq!(bench.job().behind.material, Material::Plastic);
}

#[test]
fn a_moved_mark_voids_what_was_seen_behind_it() {
    let mut bench = ready_to_drill();
    seen(&mut bench, Whose::Spot(0), Behind::CouldNotSee);
    typed(&mut bench, Field::Depth(Whose::Spot(0)), "70");
    scenario::type_half_widths(&mut bench, "905", "905");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    let own = |bench: &Bench| bench.job().behind.spots.get(&0).cloned();
    assert_eq!(bench.job().typed(Field::Depth(Whose::Spot(0))), "");
    let kept = own(&bench).and_then(|own| own.behind);
    assert_eq!(kept, Some(Behind::CouldNotSee), "nobody looked since");
    seen(&mut bench, Whose::Spot(0), Behind::SeenAndClear);
    scenario::type_half_widths(&mut bench, "900", "900");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(own(&bench), None, "the bumper's answer holds");
}

#[test]
fn what_keeps_the_drill_shut_outlives_a_moved_mark() {
    let mut bench = ready_to_drill();
    let radar = Behind::SomethingThere(vec![Obstacle::Radar]);
    seen(&mut bench, Whose::Spot(0), radar.clone());
    typed(&mut bench, Field::Depth(Whose::Spot(3)), "30");
    scenario::type_half_widths(&mut bench, "905", "905");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    let found = |spot| bench.job().behind.spots.get(&spot)?.behind.clone();
    assert_eq!(found(0), Some(radar));
    assert_eq!(found(3), Some(Behind::CouldNotSee));
}

#[test]
fn a_depth_not_measured_or_absurd_says_where_and_why() {
    let mut bench = ready_to_drill();
    typed(&mut bench, Field::Depth(Whose::Bumper), "");
    assert_eq!(why(&bench, 0), ["drill-shut-depth-not-measured"]);
    typed(&mut bench, Field::Depth(Whose::Bumper), "9000");
    let said = job::typed_depth(bench.job(), Whose::Bumper).unwrap();
    assert_eq!(said.unwrap_err().key, "entry-length-outside");
    assert_eq!(why(&bench, 0), ["drill-shut-depth-not-measured"]);
    typed(&mut bench, Field::Depth(Whose::Bumper), "30");
    assert_eq!(why(&bench, 0), ["drill-shut-too-shallow"]);
}

#[test]
fn the_saws_centre_drill_is_asked_once_and_stands_in_the_next_job() {
    let mut bench = ready_to_drill();
    typed(&mut bench, Field::ReachPastTeeth, "");
    assert_eq!(why(&bench, 0), ["drill-reach-not-entered"]);
    typed(&mut bench, Field::ReachPastTeeth, "62");
    assert_eq!(why(&bench, 0), ["drill-reaches-too-far"]);
    typed(&mut bench, Field::ReachPastTeeth, "18");
    assert_eq!(why(&bench, 0), ["plan"]);
    bench.send(Intent::GoJobs);
    bench.send(Intent::StartJob(bench.new_id()));
    assert_eq!(bench.job().typed(Field::ReachPastTeeth), "18");
}

#[test]
fn the_step_drills_reach_is_asked_once_and_stands_in_the_next_job() {
    let mut bench = ready_to_drill();
    typed(&mut bench, Field::OldHoleSize(0), "18");
    assert_eq!(why(&bench, 0), ["drill-step-reach-not-entered"]);
    typed(&mut bench, Field::StepDrillReach, "62");
    assert_eq!(why(&bench, 0), ["drill-step-reaches-too-far"]);
    typed(&mut bench, Field::StepDrillReach, "34");
    assert_eq!(why(&bench, 0), ["plan"]);
    bench.send(Intent::GoJobs);
    bench.send(Intent::StartJob(bench.new_id()));
    assert_eq!(bench.job().typed(Field::StepDrillReach), "34");
}

#[test]
fn a_set_by_hand_needs_a_reason_and_the_sheet_keeps_it() {
    let mut bench = ready_to_drill();
    let by_hand = |reason: &str| {
        JobEvent::Rings(RingsEvent::ByHand {
            spot: 0,
            set: RingSet::ring("14"),
            reason: reason.to_owned(),
        })
    };
    fit(&mut bench, by_hand("  "));
    assert_eq!(bench.notice(), Some("ring-by-hand-no-reason"));
    fit(&mut bench, by_hand("the only one left"));
    let taken = job::set_taken(bench.job(), 0).unwrap();
    assert_eq!(taken.set, RingSet::ring("14"));
    assert_eq!(taken.by, TakenBy::Hand("the only one left".to_owned()));
    assert!(sheet(&bench).contains("the only one left"));
    fit(&mut bench, JobEvent::Rings(RingsEvent::ByRule(0)));
    assert_eq!(job::set_taken(bench.job(), 0).unwrap().by, TakenBy::Rule);
}

#[test]
fn a_lead_shorter_than_the_straight_line_is_refused_by_how_much() {
    let mut bench = ready_to_drill();
    let lead = WhichLead::Spot(0);
    typed(&mut bench, Field::Route(lead), "700");
    let said = |bench: &Bench| job::lead_plan(bench.job(), lead).unwrap();
    assert_eq!(said(&bench).unwrap_err().key, "loom-grommet-missing");
    typed(&mut bench, Field::GrommetToBox, "900");
    assert!(said(&bench).is_ok());
    typed(&mut bench, Field::Straight(lead), "1800");
    assert_eq!(said(&bench).unwrap_err().key, "lead-shorter-than-straight");
    typed(&mut bench, Field::Straight(lead), "1500");
    let plan = said(&bench).unwrap();
    assert!((plan.left_over.0 - (2400.0 - 700.0 - 900.0 - 250.0)).abs() < 1e-9);
}

#[test]
fn four_hundred_volts_are_refused_and_a_missing_fuse_is_not_skipped() {
    let mut bench = ready_to_drill();
    typed(&mut bench, Field::Volts(Reading::ReverseOn), "400");
    let trouble = |bench: &Bench| {
        job::volts(bench.job(), Reading::ReverseOn)
            .unwrap()
            .trouble(Reading::ReverseOn)
            .map(|why| why.key.into_owned())
    };
    assert_eq!(trouble(&bench).as_deref(), Some("supply-refused"));
    typed(&mut bench, Field::Volts(Reading::ReverseOn), "27.1");
    assert_eq!(
        trouble(&bench).as_deref(),
        Some("supply-looks-like-twenty-four")
    );
    typed(&mut bench, Field::Volts(Reading::ReverseOn), "12,6 V");
    assert_eq!(trouble(&bench), None);
    typed(&mut bench, Field::FuseAmperes, "30");
    fit(&mut bench, JobEvent::Loom(LoomEvent::FuseFitted));
    assert_eq!(bench.notice(), Some("supply-fuse-too-large"));
    assert_eq!(bench.job().loom.fuse, None);
    typed(&mut bench, Field::FuseAmperes, "");
    fit(&mut bench, JobEvent::Loom(LoomEvent::FuseFitted));
    assert!(bench.job().loom.fuse.is_some());
    fit(
        &mut bench,
        JobEvent::Loom(LoomEvent::LampFound(LampCircuit::Pulsed)),
    );
    assert!(sheet(&bench).contains("supply-lamp-pulsed"));
}

#[test]
fn parts_are_used_from_the_first_hole_and_the_quote_adds_up() {
    let mut bench = ready_to_drill();
    assert!(job::parts_used(bench.job()).is_empty());
    let kit = Part::Kit {
        kit: bench.job().kit.name.clone(),
    };
    let price = QuoteEvent::PriceTyped(kit, "120,50".to_owned());
    fit(&mut bench, JobEvent::Quote(price));
    typed(&mut bench, Field::QuoteMinutes, "90");
    typed(&mut bench, Field::QuoteAnHour, "60");
    assert_eq!(
        job::quote(bench.job()).total().map(|total| total.shown()),
        Some("210.50".to_owned())
    );
    assert!(job::unpriced(bench.job()) > 0);
    typed(&mut bench, Field::QuoteMinutes, "a while");
    assert_eq!(
        job::minutes_trouble(bench.job()).map(|why| why.key.into_owned()),
        Some("quote-not-minutes".to_owned())
    );
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    assert!(!job::parts_used(bench.job()).is_empty());
    let entry = &bench.app.jobs[0];
    assert!(entry.taken_at.is_some() && !entry.parts().is_empty());
}

#[test]
fn the_sheet_says_what_was_not_done_or_could_not_be_seen() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let text = sheet(&bench);
    for said in ["sheet-open-look", "sheet-open-holes", "sheet-open-loom"] {
        assert!(text.contains(said), "{said}");
    }
    seen(&mut bench, Whose::Bumper, Behind::CouldNotSee);
    assert!(sheet(&bench).contains("sheet-open-hidden"));
}

#[test]
fn everything_of_the_fitting_survives_a_kill() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    fit(&mut bench, JobEvent::Rings(RingsEvent::Seated(0)));
    typed(&mut bench, Field::Route(WhichLead::Supply), "900");
    let before = bench.job().clone();
    assert_eq!(*bench.killed().job(), before);
}
