//! The ring-set rule a second time, and the comparison with a choice.

use rakeline_core::decide::ring_set::{InsertUse, RakeOrigin, RingChoice, RingSet, Verdict};
use rakeline_core::kit::Material;

use super::{Case, HEAD_HOLE};
use crate::dice::Dice;

impl Case {
    fn lowest_aim(&self) -> i64 {
        self.least + self.allowance
    }

    /// Everything that may be fitted at all, whatever its aim.
    fn fittable(&self) -> Vec<Part> {
        let needs = match self.material {
            Material::Metal => true,
            Material::Fibre => self.inserts.iter().any(|i| i.for_fibre),
            Material::Plastic => false,
        };
        let bare_hole = match (self.material, self.fibre_hole) {
            (Material::Fibre, Some(hole)) => hole,
            _ => HEAD_HOLE,
        };
        let old = self.old_hole.unwrap_or(0);
        let bare_will_do = !needs && old <= bare_hole;
        let mut all = Vec::new();
        for ring in 0..self.rings.len() {
            let kept = i64::from(self.comes_with != Some(ring));
            if bare_will_do {
                all.push(self.part(ring, None, kept, bare_hole));
            }
            for (i, insert) in self.inserts.iter().enumerate() {
                let serves_material = match self.material {
                    Material::Metal => insert.for_metal,
                    Material::Fibre => insert.for_fibre || !needs,
                    Material::Plastic => true,
                };
                let wanted = self.inserts_use == InsertUse::Allowed || !bare_will_do;
                if serves_material && wanted && old <= insert.covers.unwrap_or(insert.hole) {
                    all.push(self.part(ring, Some(i), kept + 1, insert.hole));
                }
            }
        }
        all
    }

    fn part(&self, ring: usize, insert: Option<usize>, added: i64, hole: i64) -> Part {
        let measured = self
            .totals
            .iter()
            .find(|t| t.0 == ring && t.1 == insert)
            .map(|t| t.2);
        let sum = self.bare + self.rings[ring] + insert.map_or(0, |i| self.inserts[i].lift);
        let tolerances = match (measured, insert) {
            (None, Some(_)) => 2.0,
            _ => 1.0,
        };
        Part {
            ring,
            insert,
            added,
            hole,
            lift: measured.unwrap_or(sum),
            // Variance of a rectangular tolerance ± a is a²/3.
            variance: tolerances * self.tolerance * self.tolerance / 3.0,
        }
    }

    /// The best at a face angle in thousandths; `u` counts with a spread.
    fn best(&self, rake: i64, spread: Spread) -> Option<Part> {
        let inside = |p: &Part| {
            let aim = rake + p.lift;
            let half = match spread {
                Spread::Exact => 0.0,
                Spread::Measured => 1960.0 * (self.u * self.u + p.variance).sqrt(),
            };
            aim as f64 - half >= self.lowest_aim() as f64 - 1e-6
                && aim as f64 + half <= self.greatest as f64 + 1e-6
        };
        let mut fits: Vec<Part> = self.fittable().into_iter().filter(inside).collect();
        fits.sort_by_key(|p| {
            let far = (rake + p.lift - self.target).abs();
            (p.added, p.hole, far, p.lift)
        });
        fits.first().cloned()
    }

    /// Whether a set is as good as another: the rule leaves a tie between
    /// equal parts of equal lift open.
    fn alike(&self, set: &RingSet, part: &Part) -> bool {
        self.fittable().iter().any(|p| {
            p.named() == *set && (p.added, p.hole, p.lift) == (part.added, part.hole, part.lift)
        })
    }

    /// What is wrong with a choice, in words; `None` when it is right.
    ///
    /// `looks` face angles inside the ± are looked at besides those where
    /// something changes.
    #[must_use]
    pub fn fault(&self, choice: &RingChoice, looks: usize, dice: &mut Dice) -> Option<String> {
        let by_rule = self.best(self.rake, Spread::Measured);
        let exact = self.best(self.rake, Spread::Exact);
        let half = 1960.0 * self.u;
        let (low, high) = (self.rake as f64 - half, self.rake as f64 + half);
        let right_anywhere = self.lowest_aim() <= self.greatest
            && self.fittable().iter().any(|p| {
                (self.lowest_aim() - p.lift) as f64 <= high + 1e-6
                    && (self.greatest - p.lift) as f64 >= low - 1e-6
            });
        let same = match (&by_rule, &exact) {
            (Some(a), Some(b)) => a.named() == b.named() || self.alike(&a.named(), b),
            (None, None) => true,
            _ => false,
        };
        let agrees = |set: Option<&RingSet>, part: Option<&Part>| match (set, part) {
            (Some(set), Some(part)) => self.alike(set, part),
            (None, None) => true,
            _ => false,
        };
        match &choice.verdict {
            Verdict::Sure { set } => {
                let right = same && agrees(Some(set), by_rule.as_ref());
                (!right).then(|| format!("sure of {set:?}, wanted {by_rule:?} and {exact:?}"))
            }
            Verdict::CannotBeServed { .. } => (by_rule.is_some() || right_anywhere)
                .then(|| format!("not served, wanted {by_rule:?} or {exact:?}")),
            Verdict::CloseCall {
                proposed,
                right_somewhere,
                ..
            } => {
                if !right_anywhere || (same && by_rule.is_some()) {
                    return Some("a close call that is none".to_owned());
                }
                let wanted = match self.origin {
                    RakeOrigin::Unzeroed => exact,
                    _ => by_rule.or(exact),
                };
                if !agrees(proposed.as_ref(), wanted.as_ref()) {
                    return Some(format!("proposes {proposed:?}, wanted {wanted:?}"));
                }
                let stretches: Vec<(RingSet, f64, f64)> = right_somewhere
                    .iter()
                    .map(|r| (r.set.clone(), r.from.0 * 1000.0, r.to.0 * 1000.0))
                    .collect();
                self.stretches_fault(&stretches, low, high, looks, dice)
            }
        }
    }

    fn stretches_fault(
        &self,
        stretches: &[(RingSet, f64, f64)],
        low: f64,
        high: f64,
        looks: usize,
        dice: &mut Dice,
    ) -> Option<String> {
        let (first, last) = (low.ceil() as i64, high.floor() as i64);
        if first > last {
            return None;
        }
        let mut places = vec![first, last];
        for p in self.fittable() {
            for edge in [self.lowest_aim() - p.lift, self.greatest - p.lift] {
                places.extend([edge - 1, edge, edge + 1]);
            }
        }
        places.extend((0..looks).map(|_| dice.between(first, last)));
        for place in places.into_iter().filter(|p| (first..=last).contains(p)) {
            let at = place as f64;
            let named: Vec<&RingSet> = stretches
                .iter()
                .filter(|(_, from, to)| *from - 1e-5 <= at && at <= *to + 1e-5)
                .map(|(set, ..)| set)
                .collect();
            let inside = stretches
                .iter()
                .find(|(_, from, to)| *from + 1e-5 < at && at < *to - 1e-5);
            let best = self.best(place, Spread::Exact);
            let right = match (&best, inside) {
                (None, inside) => inside.is_none(),
                (Some(best), Some((set, ..))) => self.alike(set, best),
                (Some(best), None) => named.iter().any(|set| self.alike(set, best)),
            };
            if !right {
                return Some(format!("at {place}: {named:?}, wanted {best:?}"));
            }
        }
        None
    }
}

#[derive(Clone, Copy)]
enum Spread {
    Exact,
    Measured,
}

#[derive(Clone, Debug)]
struct Part {
    ring: usize,
    insert: Option<usize>,
    added: i64,
    hole: i64,
    lift: i64,
    variance: f64,
}

impl Part {
    fn named(&self) -> RingSet {
        RingSet {
            ring: format!("r{}", self.ring),
            insert: self.insert.map(|i| format!("i{i}")),
        }
    }
}
