//! Fields of a sheet that are right one by one and contradict each other.

use super::rules::Unit;
use super::{KitSheet, SheetFault, Why};

/// Every contradiction in the sheet.
pub(super) fn of(sheet: &KitSheet) -> Vec<SheetFault> {
    let mut faults = Vec::new();
    names(sheet, &mut faults);
    totals(sheet, &mut faults);
    limits(sheet, &mut faults);
    holes(sheet, &mut faults);
    faults
}

fn twice<'a>(
    values: impl Iterator<Item = &'a str>,
    at: impl Fn(usize) -> String,
    faults: &mut Vec<SheetFault>,
) {
    let mut seen: Vec<&str> = Vec::new();
    for (i, value) in values.enumerate() {
        let value = value.trim();
        if seen.contains(&value) {
            let why = Why::Twice {
                value: value.to_owned(),
            };
            faults.push(SheetFault::new(at(i), why));
        }
        seen.push(value);
    }
}

fn names(sheet: &KitSheet, faults: &mut Vec<SheetFault>) {
    let labels = sheet.heads.labels.iter().map(String::as_str);
    twice(labels, |i| format!("heads.labels[{i}]"), faults);
    let rings = sheet.rings.iter().map(|r| r.name.as_str());
    twice(rings, |i| format!("rings[{i}].name"), faults);
    let inserts = sheet.inserts.iter().map(|i| i.name.as_str());
    twice(inserts, |i| format!("inserts[{i}].name"), faults);
    let materials: Vec<String> = sheet
        .holes
        .by_material
        .iter()
        .map(|h| format!("{:?}", h.material).to_ascii_lowercase())
        .collect();
    twice(
        materials.iter().map(String::as_str),
        |i| format!("holes.by_material[{i}].material"),
        faults,
    );
    if let Some(name) = &sheet.heads.comes_with
        && sheet.ring(name).is_none()
    {
        let why = Why::UnknownRing { name: name.clone() };
        faults.push(SheetFault::new("heads.comes_with", why));
    }
}

fn totals(sheet: &KitSheet, faults: &mut Vec<SheetFault>) {
    for (i, total) in sheet.totals.iter().enumerate() {
        if sheet.ring(&total.ring).is_none() {
            let why = Why::UnknownRing {
                name: total.ring.clone(),
            };
            faults.push(SheetFault::new(format!("totals[{i}].ring"), why));
        }
        if let Some(name) = &total.insert
            && sheet.insert(name).is_none()
        {
            let why = Why::UnknownInsert { name: name.clone() };
            faults.push(SheetFault::new(format!("totals[{i}].insert"), why));
        }
        let before = &sheet.totals[..i];
        if before
            .iter()
            .any(|t| t.ring == total.ring && t.insert == total.insert)
        {
            let value = match &total.insert {
                Some(insert) => format!("{} + {insert}", total.ring),
                None => total.ring.clone(),
            };
            faults.push(SheetFault::new(
                format!("totals[{i}]"),
                Why::Twice { value },
            ));
        }
    }
}

fn ordered(at: &str, least: f64, greatest: f64, unit: Unit, faults: &mut Vec<SheetFault>) {
    if least > greatest {
        let why = Why::LeastAboveGreatest {
            least,
            greatest,
            unit,
        };
        faults.push(SheetFault::new(at, why));
    }
}

fn limits(sheet: &KitSheet, faults: &mut Vec<SheetFault>) {
    let (aim, marks) = (&sheet.aim, &sheet.mark_out);
    let mm = Unit::Millimetres;
    ordered("aim", aim.least.0, aim.greatest.0, Unit::Degrees, faults);
    if aim.least <= aim.greatest && (aim.target < aim.least || aim.target > aim.greatest) {
        let why = Why::TargetOutside {
            target: aim.target.0,
            least: aim.least.0,
            greatest: aim.greatest.0,
        };
        faults.push(SheetFault::new("aim.target", why));
    }
    let (least, greatest) = (marks.corner_gap_least.0, marks.corner_gap_greatest.0);
    ordered("mark_out.corner_gap_least", least, greatest, mm, faults);
    if let Some(greatest) = marks.spacing_greatest {
        let least = marks.spacing_least.0;
        ordered("mark_out.spacing_least", least, greatest.0, mm, faults);
    }
    if let Some(grip) = &sheet.heads.grip {
        ordered("heads.grip", grip.least.0, grip.greatest.0, mm, faults);
    }
    if let Some(height) = &sheet.height {
        ordered("height", height.least.0, height.greatest.0, mm, faults);
    }
    if let Some(supply) = &sheet.supply
        && let (Some(least), Some(greatest)) = (supply.least_volts, supply.greatest_volts)
    {
        ordered("supply", least, greatest, Unit::Volts, faults);
    }
    if let Some(supply) = &sheet.supply
        && let (Some(current), Some(fuse)) = (supply.amperes, supply.fuse_amperes)
        && fuse < current
    {
        let why = Why::FuseBelowCurrent { fuse, current };
        faults.push(SheetFault::new("supply.fuse_amperes", why));
    }
    for (i, insert) in sheet.inserts.iter().enumerate() {
        if let Some(covers) = insert.covers_old_hole
            && covers < insert.hole
        {
            let why = Why::CoversLessThanItsHole {
                covers: covers.0,
                hole: insert.hole.0,
            };
            let at = format!("inserts[{i}].covers_old_hole");
            faults.push(SheetFault::new(at, why));
        }
    }
}

/// The head goes into every hole, its flange into none but an insert's.
fn holes(sheet: &KitSheet, faults: &mut Vec<SheetFault>) {
    let bare = sheet.holes.by_material.iter().map(|hole| hole.diameter.0);
    let bare: Vec<f64> = std::iter::once(sheet.holes.head.0).chain(bare).collect();
    let inserts = sheet.inserts.iter().map(|insert| insert.hole.0);
    let narrowest = bare.iter().copied().chain(inserts).fold(f64::MAX, f64::min);
    let widest = bare.iter().copied().fold(f64::MIN, f64::max);
    if let Some(head) = sheet.heads.diameter
        && head.0 > narrowest
    {
        let why = Why::HeadWiderThanHole {
            head: head.0,
            hole: narrowest,
        };
        faults.push(SheetFault::new("heads.diameter", why));
    }
    if let Some(flange) = sheet.heads.flange_diameter
        && flange.0 <= widest
    {
        let why = Why::FlangeInHole {
            flange: flange.0,
            hole: widest,
        };
        faults.push(SheetFault::new("heads.flange_diameter", why));
    }
}
