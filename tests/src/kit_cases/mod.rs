//! Kit sheets and spots made by a seeded generator, and the ring-set rule a
//! second time: every combination looked at, in whole thousandths of a
//! degree, sharing no code with the core.

mod judge;

use rakeline_core::decide::ring_set::{InsertUse, RakeOrigin, SpotFacts};
use rakeline_core::kit::{self, KitSheet, Material};
use rakeline_core::units::{Degrees, Estimate, Millimetres};
use serde_json::{Value, json};

use crate::dice::Dice;

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
}
