//! What the fitter is told about ring sets: verdict first, numbers below.

use super::candidates::{Candidate, Outcome, needs_insert};
use super::{RakeOrigin, RightSomewhere, RingChoice, RingSet, SpotFacts, Verdict};
use crate::kit::KitSheet;
use crate::text::{Message, msg};
use crate::units::Degrees;

/// 'Ring 9' or 'Ring 9 with insert flat'.
pub(super) fn name(set: &RingSet) -> Message {
    match &set.insert {
        None => msg("ring-set-ring").text("ring", set.ring.clone()),
        Some(insert) => msg("ring-set-ring-insert")
            .text("ring", set.ring.clone())
            .text("insert", insert.clone()),
    }
}

/// Angles smaller than this are shown as upright or level: the screen's last digit.
const SHOWN: f64 = 0.05;

fn signed(value: Degrees, keys: [&'static str; 3]) -> Message {
    let [down, level, up] = keys;
    match value.0 {
        v if v <= -SHOWN => msg(down).deg("angle", -v),
        v if v < SHOWN => msg(level),
        v => msg(up).deg("angle", v),
    }
}

/// A face angle in words: 'faces down 4.2°'.
#[must_use]
pub fn face_words(rake: Degrees) -> Message {
    signed(
        rake,
        ["ring-face-down", "ring-face-upright", "ring-face-up"],
    )
}

/// An aim in words: 'points up 2.5°'.
#[must_use]
pub fn aim_words(aim: Degrees) -> Message {
    signed(aim, ["ring-aim-down", "ring-aim-level", "ring-aim-up"])
}

impl RingSet {
    /// The set in words: 'Ring 9' or 'Ring 9 with insert flat'.
    #[must_use]
    pub fn name(&self) -> Message {
        name(self)
    }
}

/// 'Ring 5, Ring 9 or Ring 14'.
fn any_of(sets: &[&RingSet]) -> Message {
    match sets {
        [] => msg("ring-set-none"),
        [only] => name(only),
        [first @ .., last] => msg("ring-set-or")
            .list("first", first.iter().map(|s| name(s)).collect())
            .message("last", name(last)),
    }
}

/// Each set once, in the order of the stretches.
fn once(stretches: &[RightSomewhere]) -> Vec<&RingSet> {
    let mut sets: Vec<&RingSet> = Vec::new();
    for stretch in stretches {
        if !sets.contains(&&stretch.set) {
            sets.push(&stretch.set);
        }
    }
    sets
}

impl RingChoice {
    /// The verdict in one line: 'Ring 9: sure', 'Ring 9 or 14, 9 for now'.
    #[must_use]
    pub fn headline(&self) -> Message {
        match &self.verdict {
            Verdict::Sure { set } => msg("ring-set-sure").message("set", name(set)),
            Verdict::CannotBeServed { .. } => msg("ring-set-cannot"),
            Verdict::CloseCall {
                proposed,
                right_somewhere,
                ..
            } => {
                let mut sets = once(right_somewhere);
                let Some(proposed) = proposed else {
                    return msg("ring-set-none-yet").message("sets", any_of(&sets));
                };
                if !sets.contains(&proposed) {
                    sets.push(proposed);
                }
                match sets.len() {
                    1 => msg("ring-set-near-limit").message("set", name(proposed)),
                    2 => msg("ring-set-for-now")
                        .message("sets", any_of(&sets))
                        .message("set", name(proposed)),
                    _ => msg("ring-set-of-many").message("set", name(proposed)),
                }
            }
        }
    }

    /// The other sets of a close call with more than two, which the
    /// headline leaves out: 'Ring 5, Ring 14'.
    #[must_use]
    pub fn others(&self) -> Option<Message> {
        let Verdict::CloseCall {
            proposed: Some(proposed),
            right_somewhere,
            ..
        } = &self.verdict
        else {
            return None;
        };
        let others: Vec<&RingSet> = once(right_somewhere)
            .into_iter()
            .filter(|set| *set != proposed)
            .collect();
        (others.len() > 1).then(|| msg("ring-set-others").message("sets", any_of(&others)))
    }

    /// Why: the numbers behind the verdict, in words.
    #[must_use]
    pub fn reason(&self) -> Message {
        let rake = self.facts.rake;
        let base = |key: &'static str| {
            msg(key)
                .message("rake", face_words(rake.value))
                .deg("plus", rake.expanded().0)
        };
        match &self.verdict {
            Verdict::Sure { .. } => match self.chosen_by_rule() {
                Some(c) => base("ring-reason-sure")
                    .deg("lift", c.lift.value.0)
                    .message("aim", aim_words(c.aim.value))
                    .deg("aim_plus", c.aim.expanded().0)
                    .number("down", c.points_down() * 100.0, 1),
                None => base("ring-reason-none"),
            },
            Verdict::CloseCall {
                right_somewhere, ..
            } => base("ring-reason-close").list(
                "stretches",
                right_somewhere
                    .iter()
                    .map(RightSomewhere::message)
                    .collect(),
            ),
            Verdict::CannotBeServed { serves, .. } if serves.is_empty() => base("ring-reason-none"),
            Verdict::CannotBeServed { serves, .. } => {
                base("ring-reason-cannot").list("serves", serves.iter().map(range).collect())
            }
        }
    }
}

impl RightSomewhere {
    /// 'Ring 9 from faces down 6.0° to faces down 3.0°'.
    #[must_use]
    pub fn message(&self) -> Message {
        msg("ring-right-from-to")
            .message("set", name(&self.set))
            .message("from", face_words(self.from))
            .message("to", face_words(self.to))
    }
}

fn range(r: &(Degrees, Degrees)) -> Message {
    msg("ring-serves-from-to")
        .message("from", face_words(r.0))
        .message("to", face_words(r.1))
}

/// The way to settle a close call of a phone that was never zeroed.
pub const SETTLED_BY_ZEROING: &str = "ring-settle-zero";

/// What would settle a close call.
pub(super) fn what_settles(facts: &SpotFacts) -> Vec<Message> {
    match facts.origin {
        RakeOrigin::Unzeroed => vec![msg(SETTLED_BY_ZEROING), msg("ring-settle-read-again")],
        RakeOrigin::Zeroed => vec![msg("ring-settle-read-again")],
        RakeOrigin::Typed => vec![msg("ring-settle-finer-gauge")],
    }
}

/// What to do where only an insert for its lift alone would serve a spot.
pub(super) fn allow_the_insert() -> Message {
    msg("ring-do-allow-insert")
}

/// What to do where the kit cannot serve a spot.
pub(super) fn what_to_do(
    sheet: &KitSheet,
    facts: &SpotFacts,
    hindered: &[Option<Outcome>],
    serves: &[(Degrees, Degrees)],
) -> Message {
    if !serves.is_empty() {
        let rake = facts.rake.value.0;
        let low = serves.iter().all(|r| r.0.0 > rake);
        let high = serves.iter().all(|r| r.1.0 < rake);
        return if low {
            msg("ring-do-face-too-far-down")
        } else if high {
            msg("ring-do-face-too-far-up")
        } else {
            msg("ring-do-face-in-a-gap")
        };
    }
    let old_hole = hindered.iter().flatten().find_map(|o| match o {
        Outcome::OldHoleTooLarge { old_hole, .. } => Some(*old_hole),
        _ => None,
    });
    if let Some(old_hole) = old_hole {
        return msg("ring-do-old-hole").number("old_hole", old_hole.0, 1);
    }
    if needs_insert(sheet, facts.material) {
        return msg("ring-do-insert-for-material");
    }
    msg("ring-do-limits")
        .deg("least", sheet.aim.least.0 + facts.load_allowance.0)
        .deg("greatest", sheet.aim.greatest.0)
}

impl Candidate {
    /// Why it was chosen or lost.
    #[must_use]
    pub fn why(&self, sheet: &KitSheet) -> Message {
        let message = match self.outcome {
            Outcome::Chosen => msg("ring-why-chosen"),
            Outcome::MaterialNeedsAnInsert => msg("ring-why-material"),
            Outcome::InsertNotNeeded => msg("ring-why-insert-not-needed"),
            Outcome::OldHoleTooLarge { old_hole, covers } => msg("ring-why-old-hole")
                .number("old_hole", old_hole.0, 1)
                .number("covers", covers.0, 1),
            Outcome::PointsTooLow { by } => msg("ring-why-too-low").deg("by", by.0),
            Outcome::PointsTooHigh { by } => msg("ring-why-too-high").deg("by", by.0),
            Outcome::MoreParts => msg("ring-why-more-parts"),
            Outcome::LargerHole => msg("ring-why-larger-hole").number("hole", self.hole.0, 1),
            Outcome::FurtherFromTarget => msg("ring-why-further").deg("target", sheet.aim.target.0),
            Outcome::AddsMore => msg("ring-why-adds-more"),
        };
        message
            .message("aim", aim_words(self.aim.value))
            .deg("plus", self.aim.expanded().0)
    }

    /// The chance that the head points down with it, in words.
    #[must_use]
    pub fn chance(&self) -> Message {
        msg("ring-points-down-chance").number("down", self.points_down() * 100.0, 1)
    }
}
