//! The rule: from a sheet and the facts of a spot to a verdict.

use super::candidates::{
    AimSpread, Bounds, Candidate, Combination, Outcome, SLACK, Usable, combinations, hindrances,
    pick,
};
use super::windows::{Window, windows};
use super::{
    Blocked, InsertUse, RakeOrigin, RightSomewhere, RingChoice, RingSet, SpotFacts, Verdict, words,
};
use crate::kit::KitSheet;
use crate::order;
use crate::units::{COVERAGE_95, Degrees, Estimate, Millimetres};

/// The ring set for one spot.
///
/// Acceptable is what points inside the limits over its whole ±. Among
/// those: fewest added parts, smallest hole, nearest to the target, least
/// lift. Where the same order picks another set for the estimate taken as
/// exact, or picks one only elsewhere inside the ±, it is a close call.
#[must_use]
pub fn choose(sheet: &KitSheet, facts: &SpotFacts) -> RingChoice {
    decide(sheet, &combinations(sheet), facts)
}

/// The ring sets for several spots.
#[must_use]
pub fn choose_all(sheet: &KitSheet, facts: &[SpotFacts]) -> Vec<RingChoice> {
    let all = combinations(sheet);
    facts.iter().map(|f| decide(sheet, &all, f)).collect()
}

/// The face angles that the kit can serve at such a spot, from and to, when
/// face angle and lifts are taken as exact; the face angle of `facts` plays
/// no part.
#[must_use]
pub fn serves_range(sheet: &KitSheet, facts: &SpotFacts) -> Vec<(Degrees, Degrees)> {
    let all = combinations(sheet);
    let hindered = hindrances(sheet, facts);
    served(
        &usable(sheet, &all, &hindered, facts),
        &Bounds::of(sheet, facts),
    )
}

fn served(usable: &[Usable], bounds: &Bounds) -> Vec<(Degrees, Degrees)> {
    if bounds.least > bounds.greatest {
        return Vec::new();
    }
    let mut lifts: Vec<f64> = usable.iter().map(|u| u.lift).collect();
    order::sort_by(&mut lifts, |a, b| b.total_cmp(a));
    let mut ranges: Vec<(Degrees, Degrees)> = Vec::new();
    for lift in lifts {
        let (from, to) = (bounds.least - lift, bounds.greatest - lift);
        match ranges.last_mut() {
            Some(last) if from <= last.1.0 + SLACK => last.1 = Degrees(to),
            _ => ranges.push((Degrees(from), Degrees(to))),
        }
    }
    ranges
}

fn slot(insert: Option<u16>) -> usize {
    insert.map_or(0, |i| usize::from(i) + 1)
}

/// Parts beyond what the head comes with: a ring and an insert.
const MOST_ADDED: u8 = 2;

/// What only its aim can hinder, fewer added parts and smaller holes first,
/// else in the order of the combinations.
fn usable(
    sheet: &KitSheet,
    all: &[Combination],
    hindered: &[Option<Outcome>],
    facts: &SpotFacts,
) -> Vec<Usable> {
    let rings = sheet.rings.len();
    let mut holes: Vec<(usize, f64)> = core::iter::once(sheet.head_hole(facts.material))
        .chain(sheet.inserts.iter().map(|i| i.hole))
        .map(|hole| hole.0)
        .enumerate()
        .filter(|(slot, _)| hindered[*slot].is_none())
        .collect();
    order::sort_by(&mut holes, |a, b| a.1.total_cmp(&b.1));
    // There are few holes and at most two added parts: taken in that order
    // the combinations need no sorting.
    let mut usable = Vec::with_capacity(holes.len() * rings);
    for added_parts in 0..=MOST_ADDED {
        for &(slot, hole) in &holes {
            let of_slot = slot * rings..(slot + 1) * rings;
            for (index, c) in of_slot.clone().zip(&all[of_slot]) {
                if c.added_parts == added_parts {
                    usable.push(Usable {
                        index,
                        lift: c.lift,
                        u_lift: c.u_lift,
                        added_parts,
                        hole,
                    });
                }
            }
        }
    }
    usable
}

fn decide(sheet: &KitSheet, all: &[Combination], facts: &SpotFacts) -> RingChoice {
    let bounds = Bounds::of(sheet, facts);
    let hindered = hindrances(sheet, facts);
    let usable = usable(sheet, all, &hindered, facts);
    let rake = facts.rake.value.0;
    let by_rule = pick(&usable, &bounds, rake, Some(facts.rake.u.0));
    let at_estimate = pick(&usable, &bounds, rake, None);
    let candidates = listed(sheet, all, &hindered, &usable, by_rule, facts);
    let set = |i: usize| candidates[usable[i].index].set(sheet);
    if let Some(sure) = by_rule
        && by_rule == at_estimate
    {
        let verdict = Verdict::Sure { set: set(sure) };
        return finish(facts, verdict, candidates, Vec::new());
    }
    let half = COVERAGE_95 * facts.rake.u.0;
    let stretches = windows(&usable, &bounds, rake - half, rake + half);
    if stretches.iter().all(|w| w.right.is_none()) {
        let serves = served(&usable, &bounds);
        let what_to_do = if insert_would_serve(sheet, all, facts) {
            words::allow_the_insert()
        } else {
            words::what_to_do(sheet, facts, &hindered, &serves)
        };
        let verdict = Verdict::CannotBeServed { serves, what_to_do };
        return finish(
            facts,
            verdict,
            candidates,
            vec![Blocked::Drill, Blocked::Paint],
        );
    }
    let proposed = match facts.origin {
        RakeOrigin::Unzeroed => at_estimate,
        RakeOrigin::Zeroed | RakeOrigin::Typed => by_rule.or(at_estimate),
    };
    let blocked = what_waits(sheet, all, &usable, &stretches, proposed);
    let right_somewhere: Vec<RightSomewhere> = stretches
        .iter()
        .filter_map(|w| {
            w.right.map(|i| RightSomewhere {
                set: set(i),
                from: Degrees(w.from),
                to: Degrees(w.to),
            })
        })
        .collect();
    let verdict = Verdict::CloseCall {
        proposed: proposed.map(set),
        settle: words::what_settles(facts),
        right_somewhere,
    };
    finish(facts, verdict, candidates, blocked)
}

/// Whether a set would be right where an insert may be used for its lift alone.
fn insert_would_serve(sheet: &KitSheet, all: &[Combination], facts: &SpotFacts) -> bool {
    let allowed = SpotFacts {
        inserts: InsertUse::Allowed,
        ..*facts
    };
    facts.inserts == InsertUse::WhereNeeded
        && !matches!(
            decide(sheet, all, &allowed).verdict,
            Verdict::CannotBeServed { .. }
        )
}

fn finish(
    facts: &SpotFacts,
    verdict: Verdict,
    candidates: Vec<Candidate>,
    blocked: Vec<Blocked>,
) -> RingChoice {
    RingChoice {
        facts: *facts,
        verdict,
        candidates,
        blocked,
    }
}

/// Hole, insert and spot cannot be changed after drilling; a painted ring
/// cannot be changed after painting.
fn what_waits(
    sheet: &KitSheet,
    all: &[Combination],
    usable: &[Usable],
    stretches: &[Window],
    proposed: Option<usize>,
) -> Vec<Blocked> {
    let in_question = || {
        stretches
            .iter()
            .map(|w| w.right)
            .chain(core::iter::once(proposed))
    };
    let combination = |i: usize| &all[usable[i].index];
    let mut waits = Vec::new();
    let first = in_question().flatten().next();
    let same_hole = in_question()
        .all(|i| i.map(|i| combination(i).insert) == first.map(|i| combination(i).insert));
    if !same_hole {
        waits.push(Blocked::Drill);
    }
    let painted = |i: usize| {
        sheet
            .rings
            .get(usize::from(combination(i).ring))
            .is_some_and(|r| r.paintable != Some(false))
    };
    let same_ring =
        in_question().all(|i| i.map(|i| combination(i).ring) == first.map(|i| combination(i).ring));
    if !same_ring && in_question().any(|i| i.is_none_or(painted)) {
        waits.push(Blocked::Paint);
    }
    waits
}

/// Every combination with its aim and what became of it.
fn listed(
    sheet: &KitSheet,
    all: &[Combination],
    hindered: &[Option<Outcome>],
    usable: &[Usable],
    chosen: Option<usize>,
    facts: &SpotFacts,
) -> Vec<Candidate> {
    let bounds = Bounds::of(sheet, facts);
    let (rake, u_rake) = (facts.rake.value.0, facts.rake.u.0);
    let holes: Vec<Millimetres> = core::iter::once(sheet.head_hole(facts.material))
        .chain(sheet.inserts.iter().map(|i| i.hole))
        .collect();
    let best = chosen.map(|i| &usable[i]);
    let outcome = |index: usize, c: &Combination, aim: f64, u: f64| {
        if let Some(hindrance) = hindered[slot(c.insert)] {
            return hindrance;
        }
        let half = COVERAGE_95 * u;
        if !bounds.hold(aim, u) {
            let low = bounds.least - (aim - half);
            let high = aim + half - bounds.greatest;
            return if low > SLACK {
                Outcome::PointsTooLow { by: Degrees(low) }
            } else {
                Outcome::PointsTooHigh { by: Degrees(high) }
            };
        }
        match best {
            Some(best) if best.index != index => {
                lost_to(best, c, holes[slot(c.insert)], rake, &bounds)
            }
            _ => Outcome::Chosen,
        }
    };
    let mut spread = AimSpread::new(u_rake);
    all.iter()
        .enumerate()
        .map(|(index, c)| {
            let aim = rake + c.lift;
            let u = spread.with(c.u_lift);
            Candidate {
                ring: c.ring,
                insert: c.insert,
                lift: Estimate::new(Degrees(c.lift), Degrees(c.u_lift)),
                aim: Estimate::new(Degrees(aim), Degrees(u)),
                added_parts: c.added_parts,
                hole: holes[slot(c.insert)],
                outcome: outcome(index, c, aim, u),
            }
        })
        .collect()
}

fn lost_to(
    best: &Usable,
    c: &Combination,
    hole: Millimetres,
    rake: f64,
    bounds: &Bounds,
) -> Outcome {
    let far = |lift: f64| (rake + lift - bounds.target).abs();
    if c.added_parts > best.added_parts {
        Outcome::MoreParts
    } else if hole.0 > best.hole {
        Outcome::LargerHole
    } else if far(c.lift) > far(best.lift) + SLACK {
        Outcome::FurtherFromTarget
    } else {
        Outcome::AddsMore
    }
}

impl RightSomewhere {
    /// Whether a set stands in a list of stretches.
    #[must_use]
    pub fn names(list: &[Self], set: &RingSet) -> bool {
        list.iter().any(|r| r.set == *set)
    }
}
