//! Every combination of ring and insert, its lift and its rank.

use std::cmp::Ordering;

use serde::{Deserialize, Serialize};

use super::{InsertUse, RingSet, SpotFacts, passes_for};
use crate::kit::{KitSheet, Material};
use crate::units::{COVERAGE_95, Degrees, Estimate, Millimetres};

/// Bounds are compared with this slack, in degrees.
pub(super) const SLACK: f64 = 1e-9;

/// One combination and what became of it. Names stand on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Candidate {
    /// Which ring of the sheet, from 0.
    pub ring: u16,
    /// Which insert of the sheet, from 0, if any.
    pub insert: Option<u16>,
    /// What it adds, with its standard uncertainty.
    pub lift: Estimate<Degrees>,
    /// Where the head would point, with its standard uncertainty; + up.
    pub aim: Estimate<Degrees>,
    /// Parts beyond what the head comes with.
    pub added_parts: u8,
    /// The hole it needs, diameter.
    pub hole: Millimetres,
    /// Whether the rule chose it, or why not.
    pub outcome: Outcome,
}

/// Whether the rule chose a candidate, or why not.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Outcome {
    /// The rule's choice.
    Chosen,
    /// The material must not be met without an insert, or not with this one.
    MaterialNeedsAnInsert,
    /// Nothing at this spot needs an insert, and none is wanted for its lift alone.
    InsertNotNeeded,
    /// An old hole is larger than this covers.
    OldHoleTooLarge {
        /// The old hole, diameter.
        old_hole: Millimetres,
        /// What this covers, diameter.
        covers: Millimetres,
    },
    /// May point below the least aim.
    PointsTooLow {
        /// By how much at the lower end of its ±.
        by: Degrees,
    },
    /// May point above the greatest aim.
    PointsTooHigh {
        /// By how much at the upper end of its ±.
        by: Degrees,
    },
    /// Would do; the chosen one needs fewer added parts.
    MoreParts,
    /// Would do; the chosen one needs a smaller hole.
    LargerHole,
    /// Would do; the chosen one points nearer to the target.
    FurtherFromTarget,
    /// Would do; the chosen one adds less.
    AddsMore,
}

impl Candidate {
    /// Whether it points inside the limits over its whole ±.
    #[must_use]
    pub fn acceptable(&self) -> bool {
        matches!(
            self.outcome,
            Outcome::Chosen
                | Outcome::MoreParts
                | Outcome::LargerHole
                | Outcome::FurtherFromTarget
                | Outcome::AddsMore
        )
    }

    /// The set by its names.
    #[must_use]
    pub fn set(&self, sheet: &KitSheet) -> RingSet {
        let name = |i: u16| sheet.inserts.get(usize::from(i)).map(|i| i.name.clone());
        RingSet {
            ring: sheet
                .rings
                .get(usize::from(self.ring))
                .map_or_else(String::new, |r| r.name.clone()),
            insert: self.insert.and_then(name),
        }
    }

    /// Whether it is that set.
    #[must_use]
    pub fn is(&self, sheet: &KitSheet, set: &RingSet) -> bool {
        let ring = sheet.rings.get(usize::from(self.ring));
        let insert = self.insert.and_then(|i| sheet.inserts.get(usize::from(i)));
        ring.is_some_and(|r| r.name == set.ring)
            && insert.map(|i| i.name.as_str()) == set.insert.as_deref()
            && self.insert.is_some() == set.insert.is_some()
    }

    /// Chance, 0 to 1, that the head points below level: the normal
    /// distribution of its aim (GUM, JCGM 100:2008, G.1.4).
    #[must_use]
    pub fn points_down(&self) -> f64 {
        if self.aim.u.0 <= 0.0 {
            return if self.aim.value.0 < 0.0 { 1.0 } else { 0.0 };
        }
        normal_below(-self.aim.value.0 / self.aim.u.0)
    }
}

/// Chance that a standard normal value lies below `z`; error under 1e-7
/// (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.17).
fn normal_below(z: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.231_641_9 * z.abs());
    let density = (-0.5 * z * z).exp() / (2.0 * core::f64::consts::PI).sqrt();
    let tail = density
        * t
        * (0.319_381_530
            + t * (-0.356_563_782
                + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
    if z > 0.0 { 1.0 - tail } else { tail }
}

/// The combinations of one sheet with their lifts, made once for all spots.
#[derive(Clone, Copy, Debug)]
pub(super) struct Combination {
    pub ring: u16,
    pub insert: Option<u16>,
    pub lift: f64,
    pub u_lift: f64,
    pub added_parts: u8,
}

/// Without an insert first, then insert by insert; rings in the sheet's order.
pub(super) fn combinations(sheet: &KitSheet) -> Vec<Combination> {
    let (rings, inserts) = (sheet.rings.len(), sheet.inserts.len());
    // Rectangular tolerance ± a has the standard uncertainty a/sqrt(3)
    // (GUM 4.3.7); two parts of a sum combine as root sum of squares.
    let u_one = sheet.lift_tolerance.0 / 3.0_f64.sqrt();
    let u_two = u_one * 2.0_f64.sqrt();
    let mut all = Vec::with_capacity(rings * (inserts + 1));
    for slot in 0..=inserts {
        let insert = slot.checked_sub(1);
        let insert_lift = insert.map_or(0.0, |i| sheet.inserts[i].lift.0);
        for (r, ring) in sheet.rings.iter().enumerate() {
            let comes_with = sheet.heads.comes_with.as_deref() == Some(ring.name.as_str());
            all.push(Combination {
                ring: narrow(r),
                insert: insert.map(narrow),
                lift: sheet.heads.bare_lift.0 + ring.lift.0 + insert_lift,
                u_lift: if insert.is_some() { u_two } else { u_one },
                added_parts: u8::from(!comes_with) + u8::from(insert.is_some()),
            });
        }
    }
    for total in &sheet.totals {
        let slot = match &total.insert {
            None => Some(0),
            Some(name) => sheet
                .inserts
                .iter()
                .position(|i| i.name == *name)
                .map(|i| i + 1),
        };
        let ring = sheet.rings.iter().position(|r| r.name == total.ring);
        if let (Some(slot), Some(ring)) = (slot, ring) {
            let measured = &mut all[slot * rings + ring];
            measured.lift = total.lift.0;
            measured.u_lift = u_one;
        }
    }
    all
}

fn narrow(i: usize) -> u16 {
    u16::try_from(i).unwrap_or(u16::MAX)
}

/// What hinders an insert, or no insert, at a spot: judged without the aim.
/// Index 0 is 'no insert', index i + 1 the sheet's insert i.
pub(super) fn hindrances(sheet: &KitSheet, facts: &SpotFacts) -> Vec<Option<Outcome>> {
    let material = facts.material;
    let needs = needs_insert(sheet, material);
    let old_too_large = |hole: Millimetres, covers: Millimetres| match facts.old_hole {
        Some(old_hole) if passes_for(old_hole, hole) => None,
        // A hole that is no number counts as too large.
        Some(old_hole) if old_hole.0.total_cmp(&covers.0).is_gt() => {
            Some(Outcome::OldHoleTooLarge { old_hole, covers })
        }
        _ => None,
    };
    let bare = if needs {
        Some(Outcome::MaterialNeedsAnInsert)
    } else {
        let hole = sheet.head_hole(material);
        old_too_large(hole, hole)
    };
    let wanted = bare.is_some() || facts.inserts == InsertUse::Allowed;
    let with = sheet.inserts.iter().map(|insert| {
        if needs && !insert.needed_for.contains(&material) {
            Some(Outcome::MaterialNeedsAnInsert)
        } else if !wanted {
            Some(Outcome::InsertNotNeeded)
        } else {
            old_too_large(insert.hole, insert.largest_old_hole())
        }
    });
    core::iter::once(bare).chain(with).collect()
}

/// Metal always needs an insert; another material where an insert says so.
pub(super) fn needs_insert(sheet: &KitSheet, material: Material) -> bool {
    material == Material::Metal
        || sheet
            .inserts
            .iter()
            .any(|i| i.needed_for.contains(&material))
}

/// A combination that nothing but its aim can hinder.
#[derive(Clone, Copy, Debug)]
pub(super) struct Usable {
    /// Index into the combinations.
    pub index: usize,
    pub lift: f64,
    pub u_lift: f64,
    pub added_parts: u8,
    pub hole: f64,
}

impl Usable {
    /// Fewer added parts, then a smaller hole, first.
    pub fn by_parts_and_hole(&self, other: &Self) -> Ordering {
        self.added_parts
            .cmp(&other.added_parts)
            .then(self.hole.total_cmp(&other.hole))
    }

    /// The whole order of preference at a face angle.
    pub fn by_preference(&self, other: &Self, rake: f64, target: f64) -> Ordering {
        let far = |c: &Self| (rake + c.lift - target).abs();
        let (mine, theirs) = (far(self), far(other));
        let nearer = if (mine - theirs).abs() <= SLACK {
            Ordering::Equal
        } else {
            mine.total_cmp(&theirs)
        };
        self.by_parts_and_hole(other)
            .then(nearer)
            .then(self.lift.total_cmp(&other.lift))
    }
}

/// Where a head may point at a spot.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bounds {
    pub least: f64,
    pub greatest: f64,
    pub target: f64,
}

impl Bounds {
    pub fn of(sheet: &KitSheet, facts: &SpotFacts) -> Self {
        Self {
            least: sheet.aim.least.0 + facts.load_allowance.0,
            greatest: sheet.aim.greatest.0,
            target: sheet.aim.target.0,
        }
    }

    /// Whether an aim lies inside with its whole ±.
    pub fn hold(&self, aim: f64, u: f64) -> bool {
        let half = COVERAGE_95 * u;
        aim - half >= self.least - SLACK && aim + half <= self.greatest + SLACK
    }
}

/// Standard uncertainties of aims: a sheet's sets have but two of their own,
/// which come one after the other, so the last one is kept.
#[derive(Clone, Copy, Debug)]
pub(super) struct AimSpread {
    u_rake: f64,
    last: (f64, f64),
}

impl AimSpread {
    /// With a face angle of this standard uncertainty.
    pub fn new(u_rake: f64) -> Self {
        Self {
            u_rake,
            last: (f64::NAN, f64::NAN),
        }
    }

    /// Of the aim with a set.
    pub fn with(&mut self, u_lift: f64) -> f64 {
        if self.last.0.to_bits() != u_lift.to_bits() {
            self.last = (u_lift, self.u_rake.hypot(u_lift));
        }
        self.last.1
    }
}

/// The first by the order of preference among those whose aim is inside;
/// `u_rake` is `None` when everything counts as exact. `usable` is sorted by
/// parts and hole, so that the first rank with anything inside ends the search.
pub(super) fn pick(
    usable: &[Usable],
    bounds: &Bounds,
    rake: f64,
    u_rake: Option<f64>,
) -> Option<usize> {
    let mut best: Option<usize> = None;
    let mut spread = u_rake.map(AimSpread::new);
    for (i, candidate) in usable.iter().enumerate() {
        if best.is_some_and(|b| candidate.by_parts_and_hole(&usable[b]).is_gt()) {
            break;
        }
        let u = spread
            .as_mut()
            .map_or(0.0, |spread| spread.with(candidate.u_lift));
        if !bounds.hold(rake + candidate.lift, u) {
            continue;
        }
        let better = best.is_none_or(|b| {
            candidate
                .by_preference(&usable[b], rake, bounds.target)
                .is_lt()
        });
        if better {
            best = Some(i);
        }
    }
    best
}
