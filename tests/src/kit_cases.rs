//! Kit sheets and spots made by a seeded generator, and the ring-set rule a
//! second time: every combination looked at, in whole thousandths of a
//! degree, sharing no code with the core.

use rakeline_core::decide::ring_set::{
    InsertUse, RakeOrigin, RingChoice, RingSet, SpotFacts, Verdict,
};
use rakeline_core::kit::{self, KitSheet, Material};
use rakeline_core::units::{Degrees, Estimate, Millimetres};
use serde_json::{Value, json};

/// SplitMix64 (Steele, Lea, Flood 2014): small, seeded, the same everywhere.
#[derive(Clone, Debug)]
pub struct Dice(pub u64);

impl Dice {
    /// The next 64 bits.
    pub fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 to below `n`.
    pub fn below(&mut self, n: usize) -> usize {
        usize::try_from(self.roll() % (n as u64)).unwrap_or(0)
    }

    /// A whole number from `low` to `high`, both possible.
    pub fn between(&mut self, low: i64, high: i64) -> i64 {
        let span = u64::try_from(high - low + 1).unwrap_or(1);
        low + i64::try_from(self.roll() % span).unwrap_or(0)
    }
}

/// An insert of a case; angles in thousandths, holes in millimetres.
#[derive(Clone, Debug)]
struct CaseInsert {
    lift: i64,
    hole: i64,
    covers: Option<i64>,
    for_metal: bool,
    for_fibre: bool,
}

/// A sheet and a spot in whole thousandths of a degree and millimetres.
#[derive(Clone, Debug)]
pub struct Case {
    rings: Vec<i64>,
    inserts: Vec<CaseInsert>,
    totals: Vec<(usize, Option<usize>, i64)>,
    comes_with: Option<usize>,
    bare: i64,
    least: i64,
    greatest: i64,
    target: i64,
    tolerance: f64,
    fibre_hole: Option<i64>,
    rake: i64,
    u: f64,
    origin: RakeOrigin,
    material: Material,
    allowance: i64,
    old_hole: Option<i64>,
    inserts_use: InsertUse,
}

const HEAD_HOLE: i64 = 21;

/// A random case with so many rings and inserts.
#[must_use]
pub fn case(dice: &mut Dice, rings: usize, inserts: usize) -> Case {
    let least = dice.between(-2, 2) * 500;
    let greatest = least + dice.between(4, 22) * 500;
    let target = least + dice.between(0, (greatest - least) / 500) * 500;
    let mut totals = Vec::new();
    for insert in core::iter::once(None).chain((0..inserts).map(Some)) {
        for ring in 0..rings {
            if dice.below(6) == 0 {
                totals.push((ring, insert, dice.between(0, 46) * 500));
            }
        }
    }
    Case {
        rings: (0..rings).map(|_| dice.between(0, 32) * 500).collect(),
        inserts: (0..inserts)
            .map(|_| {
                let hole = dice.between(24, 30);
                CaseInsert {
                    lift: dice.between(0, 16) * 500,
                    hole,
                    covers: (dice.below(2) == 0).then(|| hole + dice.between(0, 6)),
                    for_metal: dice.below(2) == 0,
                    for_fibre: dice.below(8) == 0,
                }
            })
            .collect(),
        totals,
        comes_with: (dice.below(4) > 0).then(|| dice.below(rings)),
        bare: dice.between(0, 2) * 500,
        least,
        greatest,
        target,
        tolerance: [0.0, 0.0, 0.5][dice.below(3)],
        fibre_hole: (dice.below(2) == 0).then_some(22),
        rake: dice.between(-112, 48) * 250,
        u: [0.0, 0.2, 0.5, 1.2, 2.5][dice.below(5)],
        origin: [RakeOrigin::Zeroed, RakeOrigin::Unzeroed, RakeOrigin::Typed][dice.below(3)],
        material: [
            Material::Plastic,
            Material::Plastic,
            Material::Fibre,
            Material::Metal,
        ][dice.below(4)],
        allowance: dice.between(0, 4) * 500,
        old_hole: [None, None, Some(20), Some(26), Some(33)][dice.below(5)],
        inserts_use: [InsertUse::Allowed, InsertUse::WhereNeeded][dice.below(2)],
    }
}

fn degrees(thousandths: i64) -> f64 {
    thousandths as f64 / 1000.0
}

impl Case {
    /// The sheet as JSON.
    #[must_use]
    pub fn json(&self) -> Value {
        let ring = |i: usize| format!("r{i}");
        let insert = |i: usize| format!("i{i}");
        let needed = |i: &CaseInsert| -> Vec<&str> {
            let metal = i.for_metal.then_some("metal");
            metal
                .into_iter()
                .chain(i.for_fibre.then_some("fibre"))
                .collect()
        };
        let mut sheet = json!({
            "rakeline_kit": 1,
            "name": "made by dice",
            "heads": { "labels": ["1", "2"], "bare_lift": degrees(self.bare) },
            "rings": self.rings.iter().enumerate()
                .map(|(i, l)| json!({ "name": ring(i), "lift": degrees(*l) }))
                .collect::<Vec<_>>(),
            "inserts": self.inserts.iter().enumerate()
                .map(|(i, it)| json!({
                    "name": insert(i), "lift": degrees(it.lift), "hole": it.hole,
                    "covers_old_hole": it.covers, "needed_for": needed(it),
                }))
                .collect::<Vec<_>>(),
            "totals": self.totals.iter()
                .map(|(r, i, l)| json!({
                    "ring": ring(*r), "insert": i.map(insert), "lift": degrees(*l),
                }))
                .collect::<Vec<_>>(),
            "aim": {
                "least": degrees(self.least),
                "greatest": degrees(self.greatest),
                "target": degrees(self.target),
            },
            "lift_tolerance": self.tolerance,
            "mark_out": { "inner": 280, "corner_gap_least": 180 },
            "holes": { "head": HEAD_HOLE },
        });
        if let Some(i) = self.comes_with {
            sheet["heads"]["comes_with"] = json!(ring(i));
        }
        if let Some(hole) = self.fibre_hole {
            sheet["holes"]["by_material"] = json!([{ "material": "fibre", "diameter": hole }]);
        }
        sheet
    }

    /// The sheet; `None` if the parser refuses it, which is a fault of the parser.
    #[must_use]
    pub fn sheet(&self) -> Option<KitSheet> {
        kit::parse(&self.json().to_string()).ok()
    }

    /// The facts of the spot.
    #[must_use]
    pub fn facts(&self) -> SpotFacts {
        SpotFacts {
            rake: Estimate::new(Degrees(degrees(self.rake)), Degrees(self.u)),
            origin: self.origin,
            material: self.material,
            load_allowance: Degrees(degrees(self.allowance)),
            old_hole: self.old_hole.map(|d| Millimetres(d as f64)),
            inserts: self.inserts_use,
        }
    }

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
