//! The ring set that goes in at each spot: the rule's, the pair's, or one
//! taken by hand; and whether it sits.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::drilled_set::{holes_stay, other_hole, set_needs_other_hole};
use super::rings::{ring_choice, ring_choices, with_plus_minus};
use super::state::JobState;
use super::waits::heads_wait;
use crate::decide::drill::Instead;
use crate::decide::ring_set::{
    InsertUse, Pair, RingChoice, RingSet, aim_words, choose_by_hand, pair,
};
use crate::table::Table;
use crate::text::{Message, msg};

/// A set taken against the rule.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HandTaken {
    /// The set.
    pub set: RingSet,
    /// Why, in the fitter's words.
    pub reason: String,
}

/// What was decided and done about ring sets.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct RingsState {
    /// Sets taken by hand, by spot.
    pub by_hand: Table<u8, HandTaken>,
    /// Heads that sit: arrow up, clicked home and tugged, by spot.
    pub seated: Table<u8, DateTime<FixedOffset>>,
    /// The set that a head sat with last, by spot: its ring comes off first
    /// where another one goes in.
    pub sat_with: Table<u8, RingSet>,
    /// Whether an insert may be used for its lift alone.
    pub inserts: InsertUse,
}

impl Default for RingsState {
    fn default() -> Self {
        Self {
            by_hand: Table::new(),
            seated: Table::new(),
            sat_with: Table::new(),
            inserts: InsertUse::WhereNeeded,
        }
    }
}

/// What was decided or done about a ring set.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum RingsEvent {
    /// A set was taken by hand, with a reason.
    ByHand {
        /// Which spot.
        spot: u8,
        /// The set.
        set: RingSet,
        /// Why.
        reason: String,
    },
    /// The rule's set counts again.
    ByRule(u8),
    /// The head sits with its set: arrow up, clicked home, tugged.
    Seated(u8),
    /// It does not sit after all.
    Unseated(u8),
    /// Whether an insert may be used for its lift alone was said.
    InsertsUsed(InsertUse),
}

pub(super) fn apply(
    next: &mut JobState,
    event: RingsEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    match event {
        RingsEvent::ByHand { spot, set, reason } => {
            let choice = read_choice(next, spot)?;
            let taken = choose_by_hand(&next.kit, &choice, &set, &reason)
                .map_err(|fault| Refusal(fault.message()))?;
            if let Some(why) = other_hole(next, spot, &set) {
                return Err(Refusal(why));
            }
            next.rings.seated.remove(&spot);
            next.rings.by_hand.insert(
                spot,
                HandTaken {
                    set: taken.set,
                    reason: super::apply::cut(taken.reason),
                },
            );
        }
        RingsEvent::ByRule(spot) => {
            let before = next.clone();
            next.rings.by_hand.remove(&spot);
            next.rings.seated.remove(&spot);
            holes_stay(&before, next)?;
        }
        RingsEvent::InsertsUsed(inserts) => {
            let before = next.clone();
            next.rings.inserts = inserts;
            holes_stay(&before, next)?;
        }
        RingsEvent::Seated(spot) => {
            if !next.holes.drilled.contains_key(&spot) {
                return Err(Refusal(msg("refused-seated-before-hole")));
            }
            if let Some(why) = set_needs_other_hole(next, usize::from(spot)) {
                return Err(Refusal(why));
            }
            if let Some(why) = heads_wait(next, at) {
                return Err(Refusal(why));
            }
            if let Some(taken) = set_taken(next, usize::from(spot)) {
                next.rings.sat_with.insert(spot, taken.set);
            }
            next.rings.seated.insert(spot, at);
        }
        RingsEvent::Unseated(spot) => {
            next.rings.seated.remove(&spot);
        }
    }
    Ok(())
}

fn read_choice(job: &JobState, spot: u8) -> Result<RingChoice, Refusal> {
    job.spots
        .get(usize::from(spot))
        .and_then(|place| ring_choice(job, place))
        .ok_or_else(|| Refusal(msg("refused-face-not-read")))
}

/// What to know of a set taken by hand: why the rule would not take it.
/// Empty where it is right, or none is taken by hand.
#[must_use]
pub fn hand_cautions(job: &JobState, spot: usize) -> Vec<Message> {
    let cautions = || {
        let hand = job.rings.by_hand.get(&u8::try_from(spot).ok()?)?;
        let choice = ring_choice(job, job.spots.get(spot)?)?;
        let taken = choose_by_hand(&job.kit, &choice, &hand.set, &hand.reason).ok()?;
        Some(taken.cautions(&job.kit))
    };
    cautions().unwrap_or_default()
}

/// Why a set goes in at a spot.
#[derive(Clone, Debug, PartialEq)]
pub enum TakenBy {
    /// The rule chose it for the spot alone.
    Rule,
    /// It fits both mirrored spots.
    Pair,
    /// By hand, for this reason.
    Hand(String),
}

/// The set that goes in at a spot.
#[derive(Clone, Debug, PartialEq)]
pub struct SetTaken {
    /// The set.
    pub set: RingSet,
    /// Why.
    pub by: TakenBy,
}

impl SetTaken {
    /// As the drill gate takes it.
    #[must_use]
    pub fn instead(&self) -> Option<Instead<'_>> {
        match self.by {
            TakenBy::Rule => None,
            TakenBy::Pair => Some(Instead::ForPair(&self.set)),
            TakenBy::Hand(_) => Some(Instead::ByHand(&self.set)),
        }
    }
}

/// Two mirrored spots and what they come to.
#[derive(Clone, Debug, PartialEq)]
pub struct MirrorPair {
    /// The left spot.
    pub left: usize,
    /// The right spot.
    pub right: usize,
    /// What they come to.
    pub pair: Pair,
}

/// The mirrored spots of the job, outer ones first.
#[must_use]
pub fn pairs(job: &JobState) -> Vec<MirrorPair> {
    pairs_of(job, &ring_choices(job))
}

fn pairs_of(job: &JobState, choices: &[Option<RingChoice>]) -> Vec<MirrorPair> {
    let heads = choices.len();
    (0..heads / 2)
        .filter_map(|left| {
            let right = heads - 1 - left;
            let (l, r) = (choices[left].as_ref()?, choices[right].as_ref()?);
            Some(MirrorPair {
                left,
                right,
                pair: by_the_holes(job, [left, right], pair(&job.kit, l, r)),
            })
        })
        .collect()
}

/// A pair's set that does not go into a hole that is there is not taken: the
/// hole stays as it is, so each of the two keeps its own.
fn by_the_holes(job: &JobState, spots: [usize; 2], pair: Pair) -> Pair {
    match pair {
        Pair::Take {
            set,
            left_alone,
            right_alone,
        } if spots.into_iter().any(|spot| {
            u8::try_from(spot).is_ok_and(|spot| other_hole(job, spot, &set).is_some())
        }) =>
        {
            Pair::Differ {
                left: left_alone,
                right: right_alone,
            }
        }
        pair => pair,
    }
}

/// The sets that go in, left to right; `None` where none is chosen yet.
#[must_use]
pub fn sets_taken(job: &JobState) -> Vec<Option<SetTaken>> {
    let choices = ring_choices(job);
    let mut taken: Vec<Option<SetTaken>> = choices
        .iter()
        .map(|choice| {
            let set = choice.as_ref()?.set()?.clone();
            Some(SetTaken {
                set,
                by: TakenBy::Rule,
            })
        })
        .collect();
    for mirror in pairs_of(job, &choices) {
        if let Pair::Take { set, .. } = mirror.pair {
            for spot in [mirror.left, mirror.right] {
                if let Some(Some(at_spot)) = taken.get_mut(spot)
                    && at_spot.set != set
                {
                    *at_spot = SetTaken {
                        set: set.clone(),
                        by: TakenBy::Pair,
                    };
                }
            }
        }
    }
    for (spot, hand) in &job.rings.by_hand {
        if let Some(place) = taken.get_mut(usize::from(*spot)) {
            *place = Some(SetTaken {
                set: hand.set.clone(),
                by: TakenBy::Hand(hand.reason.clone()),
            });
        }
    }
    taken
}

/// The set that goes in at one spot.
#[must_use]
pub fn set_taken(job: &JobState, spot: usize) -> Option<SetTaken> {
    sets_taken(job).into_iter().nth(spot).flatten()
}

/// Where the head at a spot points with the set that goes in, in words with
/// its ±. `None` until the face is read and a set is taken.
#[must_use]
pub fn aim_at(job: &JobState, spot: usize) -> Option<Message> {
    let taken = set_taken(job, spot)?;
    let choice = ring_choice(job, job.spots.get(spot)?)?;
    let candidate = choice.candidate(&job.kit, &taken.set)?;
    Some(with_plus_minus(
        aim_words(candidate.aim.value),
        candidate.aim.expanded(),
    ))
}

/// Why a spot has another set than the rule's, in words.
#[must_use]
pub fn taken_words(taken: &SetTaken) -> Option<Message> {
    match &taken.by {
        TakenBy::Rule => None,
        TakenBy::Pair => Some(msg("ring-taken-pair").message("set", taken.set.name())),
        TakenBy::Hand(reason) => Some(
            msg("ring-taken-by-hand")
                .message("set", taken.set.name())
                .text("reason", reason.clone()),
        ),
    }
}

/// What to know of a pair: `None` where left and right get the same anyway.
#[must_use]
pub fn pair_words(job: &JobState, mirror: &MirrorPair) -> Option<Message> {
    match mirror.pair {
        Pair::Same { .. } | Pair::NotYet => None,
        Pair::Take { .. } | Pair::Differ { .. } => {
            let label = |spot: usize| job.spots.get(spot).map_or("", |s| &s.label).to_owned();
            Some(
                msg("ring-pair-of")
                    .text("left_label", label(mirror.left))
                    .text("right_label", label(mirror.right))
                    .message("what", mirror.pair.message()),
            )
        }
    }
}

/// A set taken by hand belongs to its mark: where the mark moved, it is void.
pub(super) fn void_spot(next: &mut JobState, spot: u8) {
    next.rings.by_hand.remove(&spot);
    next.rings.seated.remove(&spot);
    next.rings.sat_with.remove(&spot);
}
