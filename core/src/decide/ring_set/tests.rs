//! Tests of the ring-set rule on our own two kits.

use super::*;
use crate::kit::parse;
use crate::text::{Arg, msg};

const PLAIN: &str = include_str!("../../../../assets/kits/plain-four.json");
const METAL: &str = include_str!("../../../../assets/kits/metal-four.json");

fn plain() -> KitSheet {
    parse(PLAIN).unwrap()
}

fn metal() -> KitSheet {
    parse(METAL).unwrap()
}

fn spot(rake: f64, u: f64, origin: RakeOrigin) -> SpotFacts {
    SpotFacts::plain(Estimate::new(Degrees(rake), Degrees(u)), origin)
}

fn typed(rake: f64) -> SpotFacts {
    spot(rake, 0.2, RakeOrigin::Typed)
}

fn ring(name: &str) -> Message {
    msg("ring-set-ring").text("ring", name)
}

#[test]
fn a_sure_choice_says_so_first_and_gives_its_numbers_below() {
    let choice = choose(&plain(), &typed(-6.0));
    let wanted = msg("ring-set-sure").message("set", ring("9"));
    assert_eq!(choice.headline(), wanted);
    let reason = choice.reason();
    assert_eq!(reason.key, "ring-reason-sure");
    let words =
        |name: &str, message: Message| (name.to_owned().into(), Arg::Message(message.into()));
    assert!(
        reason
            .args
            .contains(&words("rake", msg("ring-face-down").deg("angle", 6.0)))
    );
    assert!(
        reason
            .args
            .contains(&words("aim", msg("ring-aim-up").deg("angle", 3.0)))
    );
    assert!(choice.blocked.is_empty());
}

#[test]
fn an_angle_too_small_to_show_is_upright_or_level() {
    assert_eq!(face_words(Degrees(-0.04)), msg("ring-face-upright"));
    assert_eq!(aim_words(Degrees(0.04)), msg("ring-aim-level"));
    assert_eq!(
        aim_words(Degrees(-0.06)),
        msg("ring-aim-down").deg("angle", 0.06)
    );
}

#[test]
fn a_tolerance_of_lift_counts_once_for_a_ring_and_once_for_its_insert() {
    let mut facts = typed(-6.0);
    facts.material = Material::Metal;
    let sheet = metal();
    let choice = choose(&sheet, &facts);
    let u = |set: &RingSet| choice.candidate(&sheet, set).unwrap().lift.u.0;
    let one = 0.5 / 3.0_f64.sqrt();
    assert!((u(&RingSet::ring("9")) - one).abs() < 1e-12);
    assert!((u(&RingSet::with_insert("9", "flat")) - one * 2.0_f64.sqrt()).abs() < 1e-12);
    assert!((u(&RingSet::with_insert("9", "steep")) - one).abs() < 1e-12);
}

#[test]
fn an_unzeroed_phone_takes_the_estimates_pick_for_now_and_names_what_settles_it() {
    let choice = choose(&plain(), &spot(-6.0, 2.5, RakeOrigin::Unzeroed));
    let Verdict::CloseCall {
        proposed, settle, ..
    } = &choice.verdict
    else {
        panic!("a close call");
    };
    assert_eq!(*proposed, Some(RingSet::ring("9")));
    assert_eq!(settle[0], msg("ring-settle-zero"));
    let wanted = msg("ring-set-of-many").message("set", ring("9"));
    assert_eq!(choice.headline(), wanted);
    let others = msg("ring-set-or")
        .list("first", vec![ring("14")])
        .message("last", ring("5"));
    let wanted = msg("ring-set-others").message("sets", others);
    assert_eq!(choice.others(), Some(wanted));
}

#[test]
fn a_close_call_of_two_names_both_in_the_headline() {
    let choice = choose(&plain(), &spot(-6.9, 0.5, RakeOrigin::Zeroed));
    let sets = msg("ring-set-or")
        .list("first", vec![ring("14")])
        .message("last", ring("9"));
    let wanted = msg("ring-set-for-now")
        .message("sets", sets)
        .message("set", choice.set().map(RingSet::name).unwrap());
    assert_eq!(choice.headline(), wanted);
    assert_eq!(choice.others(), None);
}

#[test]
fn a_zeroed_phone_proposes_the_rules_choice_and_an_unzeroed_one_does_not() {
    // The fitted 2 is right at the estimate; 5 stays inside over the whole ±.
    let of = |origin| choose(&plain(), &spot(-0.9, 0.3, origin)).set().cloned();
    assert_eq!(of(RakeOrigin::Zeroed), Some(RingSet::ring("5")));
    assert_eq!(of(RakeOrigin::Typed), Some(RingSet::ring("5")));
    assert_eq!(of(RakeOrigin::Unzeroed), Some(RingSet::ring("2")));
}

#[test]
fn none_at_the_estimate_and_one_within_the_plus_minus_is_none_yet() {
    let choice = choose(&plain(), &spot(-13.5, 0.5, RakeOrigin::Zeroed));
    let Verdict::CloseCall { proposed, .. } = &choice.verdict else {
        panic!("a close call, not {:?}", choice.verdict);
    };
    assert_eq!(*proposed, None);
    assert_eq!(choice.headline().key, "ring-set-none-yet");
    assert!(choice.blocks(Blocked::Drill), "the spot may have to move");
}

#[test]
fn a_spot_out_of_reach_says_which_face_angles_are_served() {
    let choice = choose(&plain(), &typed(-20.0));
    let Verdict::CannotBeServed { serves, what_to_do } = &choice.verdict else {
        panic!("cannot be served");
    };
    // Least aim 0 and 1 for load, greatest 9; rings 14 to 2.
    assert_eq!(*serves, [(Degrees(-13.0), Degrees(7.0))]);
    assert_eq!(*what_to_do, msg("ring-do-face-too-far-down"));
    assert_eq!(serves_range(&plain(), &typed(3.0)), *serves);
    let up = choose(&plain(), &typed(12.0));
    assert!(matches!(
        up.verdict,
        Verdict::CannotBeServed { what_to_do, .. } if what_to_do.key == "ring-do-face-too-far-up"
    ));
}

#[test]
fn serving_leaves_out_the_gap_between_rings_that_are_far_apart() {
    let mut sheet = plain();
    sheet.rings.truncate(2);
    sheet.rings[1].lift = Degrees(20.0);
    let serves = serves_range(&sheet, &typed(0.0));
    let wanted = [
        (Degrees(-19.0), Degrees(-11.0)),
        (Degrees(-1.0), Degrees(7.0)),
    ];
    assert_eq!(serves, wanted);
    let choice = choose(&sheet, &typed(-6.0));
    assert!(matches!(
        choice.verdict,
        Verdict::CannotBeServed { what_to_do, .. } if what_to_do.key == "ring-do-face-in-a-gap"
    ));
}

#[test]
fn the_fitted_ring_stays_where_it_is_acceptable_though_another_is_nearer() {
    let choice = choose(&plain(), &typed(0.2));
    assert_eq!(choice.set(), Some(&RingSet::ring("2")));
    let five = choice.candidate(&plain(), &RingSet::ring("5")).unwrap();
    assert_eq!(five.outcome, Outcome::MoreParts);
    assert_eq!(five.why(&plain()).key, "ring-why-more-parts");
}

#[test]
fn a_load_carrier_needs_more() {
    let mut facts = typed(-0.1);
    facts.load_allowance = Degrees(0.0);
    assert_eq!(choose(&plain(), &facts).set(), Some(&RingSet::ring("2")));
    facts.load_allowance = LOAD_ALLOWANCE_CARRIER;
    assert_eq!(choose(&plain(), &facts).set(), Some(&RingSet::ring("5")));
}

#[test]
fn metal_gets_its_insert_or_nothing() {
    let mut facts = typed(-4.0);
    facts.material = Material::Metal;
    facts.inserts = InsertUse::WhereNeeded;
    let choice = choose(&metal(), &facts);
    assert_eq!(
        choice.set(),
        Some(&RingSet::with_insert("2", "steep")),
        "the ring that is fitted, with the insert that lifts"
    );
    let without = choose(&plain(), &facts);
    let Verdict::CannotBeServed { serves, what_to_do } = &without.verdict else {
        panic!("cannot be served");
    };
    assert!(serves.is_empty());
    assert_eq!(*what_to_do, msg("ring-do-insert-for-material"));
}

#[test]
fn an_old_hole_larger_than_the_head_needs_the_insert_that_covers_it() {
    let mut facts = typed(-6.0);
    facts.inserts = InsertUse::WhereNeeded;
    facts.old_hole = Some(Millimetres(29.0));
    let choice = choose(&metal(), &facts);
    assert!(choice.set().is_some_and(|s| s.insert.is_some()));
    let bare = choice.candidate(&metal(), &RingSet::ring("9")).unwrap();
    let wanted = Outcome::OldHoleTooLarge {
        old_hole: Millimetres(29.0),
        covers: Millimetres(21.0),
    };
    assert_eq!(bare.outcome, wanted);
    facts.old_hole = Some(Millimetres(34.0));
    let refused = choose(&metal(), &facts);
    assert!(matches!(
        refused.verdict,
        Verdict::CannotBeServed { what_to_do, .. } if what_to_do.key == "ring-do-old-hole"
    ));
    facts.old_hole = Some(Millimetres(f64::NAN));
    assert_eq!(choose(&metal(), &facts).set(), None);
}

#[test]
fn a_close_call_between_inserts_blocks_the_drill_and_one_between_rings_does_not() {
    let rings = choose(&plain(), &spot(-0.9, 0.3, RakeOrigin::Zeroed));
    assert!(!rings.blocks(Blocked::Drill));
    assert!(rings.blocks(Blocked::Paint));
    let mut unpainted = plain();
    for ring in &mut unpainted.rings {
        ring.paintable = Some(false);
    }
    let unpainted = choose(&unpainted, &spot(-0.9, 0.3, RakeOrigin::Zeroed));
    assert!(unpainted.blocked.is_empty());
    // Down here only an insert lifts enough, just above a ring alone does.
    let inserts = choose(&metal(), &spot(-12.9, 0.3, RakeOrigin::Zeroed));
    assert!(matches!(inserts.verdict, Verdict::CloseCall { .. }));
    assert!(inserts.blocks(Blocked::Drill));
}

#[test]
fn left_and_right_come_together_where_one_set_serves_both() {
    let sheet = plain();
    let (left, right) = (choose(&sheet, &typed(0.0)), choose(&sheet, &typed(-0.6)));
    assert_eq!(left.set(), Some(&RingSet::ring("2")));
    assert_eq!(right.set(), Some(&RingSet::ring("5")));
    let Pair::Take { set, .. } = pair(&sheet, &left, &right) else {
        panic!("one for both");
    };
    assert_eq!(set, RingSet::ring("5"));
    let message = pair(&sheet, &left, &right).message();
    assert_eq!(message.key, "ring-pair-take");
}

#[test]
fn of_two_sets_that_serve_both_the_smaller_greater_distance_from_target_counts() {
    let mut sheet = plain();
    sheet.heads.comes_with = None;
    sheet.rings.truncate(2);
    sheet.rings[1].lift = Degrees(4.0);
    // Alone: 2 at 1.2 up (aim 3.2, against 5.2), 4 at 0.6 up (aim 4.6).
    let (left, right) = (choose(&sheet, &typed(1.2)), choose(&sheet, &typed(0.6)));
    assert_eq!(left.set(), Some(&RingSet::ring("2")));
    assert_eq!(right.set(), Some(&RingSet::ring("5")));
    // At both: 2 is off by 0.8 and 1.4; 4 is off by 1.2 and 0.6: take 4.
    let Pair::Take { set, .. } = pair(&sheet, &left, &right) else {
        panic!("one for both");
    };
    assert_eq!(set, RingSet::ring("5"));
}

#[test]
fn left_and_right_that_nothing_serves_both_are_said_to_differ() {
    let sheet = plain();
    let (left, right) = (choose(&sheet, &typed(4.0)), choose(&sheet, &typed(-11.0)));
    let wanted = Pair::Differ {
        left: RingSet::ring("2"),
        right: RingSet::ring("14"),
    };
    assert_eq!(pair(&sheet, &left, &right), wanted);
    let nowhere = choose(&sheet, &typed(-20.0));
    assert_eq!(pair(&sheet, &left, &nowhere), Pair::NotYet);
}

#[test]
fn a_set_taken_by_hand_needs_a_reason_and_keeps_it() {
    let sheet = plain();
    let choice = choose(&sheet, &typed(-6.0));
    let five = RingSet::ring("5");
    assert_eq!(
        choose_by_hand(&sheet, &choice, &five, "  "),
        Err(ByHandFault::NoReason)
    );
    let unknown = RingSet::ring("11");
    assert_eq!(
        choose_by_hand(&sheet, &choice, &unknown, "why not"),
        Err(ByHandFault::NotOnTheSheet { set: unknown })
    );
    let taken = choose_by_hand(&sheet, &choice, &five, " customer's wish ").unwrap();
    assert_eq!(taken.reason, "customer's wish");
    assert_eq!(taken.cautions(&sheet)[0].key, "ring-why-too-low");
}

#[test]
fn a_ring_upside_down_doubles_the_error() {
    let sheet = plain();
    let choice = choose(&sheet, &typed(-6.0));
    let nine = choice.candidate(&sheet, &RingSet::ring("9")).unwrap();
    let lost = nine.aim.value - nine.aim_upside_down(&sheet);
    assert!((lost.0 - 18.0).abs() < 1e-12);
}

#[test]
fn a_face_angle_that_is_no_number_gets_no_set() {
    let choice = choose(&plain(), &spot(f64::NAN, 0.5, RakeOrigin::Typed));
    assert_eq!(choice.set(), None);
    let choice = choose(&plain(), &spot(-6.0, f64::INFINITY, RakeOrigin::Typed));
    assert!(matches!(choice.verdict, Verdict::CloseCall { .. }));
}
