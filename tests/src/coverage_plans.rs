//! Random plans of heads for the coverage oracle, and what it says.

use rakeline_core::decide::coverage::{
    Air, Area, Celsius, HeadInPlace, Hectopascals, Humidity, NO_ECHO, ONE_WAY_EDGE, Sensor,
    TWO_WAY_EDGE, Target, View, map,
};
use rakeline_core::kit::BeamWay;
use rakeline_core::text::Message;
use rakeline_core::units::{Degrees, Millimetres, Millis, Offset};
use serde_json::{Value, json};

use crate::oracle;
use crate::tilt_sim::rng::Rng;

/// A plan of heads, what is looked for, and where.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The heads.
    pub heads: Vec<HeadInPlace>,
    /// From above or from the side.
    pub view: View,
    /// The squares.
    pub area: Area,
    /// The day's air.
    pub air: Air,
    task: Value,
}

/// Plans that differ in everything the formulas know.
///
/// # Errors
/// A message of the core: it would be a plan that cannot be.
pub fn plans(count: usize, seed: u64, cell: f64) -> Result<Vec<Plan>, Message> {
    let mut rng = Rng::new(seed);
    (0..count).map(|i| plan(&mut rng, i, cell)).collect()
}

fn plan(rng: &mut Rng, index: usize, cell: f64) -> Result<Plan, Message> {
    let rated = rng.uniform(900.0, 2600.0);
    let kilohertz = rng.uniform(38.0, 60.0);
    let widths = [rng.uniform(60.0, 140.0), rng.uniform(25.0, 80.0)];
    let (way, edge) = if rng.share() < 0.5 {
        (BeamWay::OneWay, ONE_WAY_EDGE)
    } else {
        (BeamWay::TwoWay, TWO_WAY_EDGE)
    };
    let ringing = rng.uniform(0.6, 1.6);
    let sensor = Sensor::new(
        Millimetres(rated),
        kilohertz,
        widths.map(Degrees),
        way,
        Millis(ringing),
    )?;
    let air = Air {
        celsius: Celsius::new(rng.uniform(-30.0, 50.0))?,
        humidity: Humidity::new(rng.uniform(5.0, 100.0))?,
        pressure: Hectopascals::new(rng.uniform(700.0, 1050.0))?,
    };
    let count = 2 + index % 5;
    let height = rng.uniform(350.0, 700.0);
    let heads: Vec<HeadInPlace> = (0..count)
        .map(|head| {
            let share = (head as f64 + 0.5) / count as f64 - 0.5;
            HeadInPlace {
                label: format!("{}", head + 1),
                offset: Offset(1500.0 * share + rng.uniform(-60.0, 60.0)),
                forward: Millimetres(600.0 * share * share + rng.uniform(0.0, 20.0)),
                height: Millimetres(height + rng.uniform(-20.0, 20.0)),
                aim: Degrees(rng.uniform(-12.0, 14.0)),
                turn: Degrees(80.0 * share + rng.uniform(-8.0, 8.0)),
                sensor,
            }
        })
        .collect();
    let up = Millimetres(rng.uniform(250.0, 600.0));
    let tread = Millimetres(rng.uniform(280.0, 380.0));
    let (view, target) = match index % 6 {
        0 | 1 => (View::Above(Target::Pole), json!("pole")),
        2 => (View::Side, json!("side")),
        3 => (
            View::Above(Target::TowBall { height: up }),
            json!({ "ball": up.0 / 1e3 }),
        ),
        4 => (
            View::Above(Target::SpareWheel {
                height: up,
                radius: tread,
            }),
            json!({ "wheel": [up.0 / 1e3, tread.0 / 1e3] }),
        ),
        _ if (index / 6).is_multiple_of(2) => (View::Above(Target::Wall), json!("wall")),
        _ => (View::Above(Target::Kerb), json!("kerb")),
    };
    let area = match view {
        View::Side => area(60.0, 4060.0, 0.0, 1500.0, cell),
        View::Above(_) => area(-2500.0, 2500.0, 60.0, 4060.0, cell),
    };
    let (columns, rows) = area.size();
    let metres = |of: Vec<Millimetres>| -> Vec<f64> { of.iter().map(|v| v.0 / 1e3).collect() };
    let task = json!({
        "heads": heads.iter().map(|head| json!({
            "x": head.offset.0 / 1e3, "y": head.forward.0 / 1e3, "z": head.height.0 / 1e3,
            "aim": head.aim.0, "turn": head.turn.0,
        })).collect::<Vec<_>>(),
        "sensor": {
            "rated": rated / 1e3, "hertz": kilohertz * 1e3, "across": widths[0],
            "upright": widths[1], "edge": edge, "ringing": ringing / 1e3,
        },
        "air": {
            "celsius": air.celsius.get(), "humidity": air.humidity.get(),
            "pascals": air.pressure.get() * 100.0,
        },
        "target": target,
        "columns": metres((0..columns).map(|i| area.column(i)).collect()),
        "rows": metres((0..rows).map(|i| area.row(i)).collect()),
    });
    Ok(Plan {
        heads,
        view,
        area,
        air,
        task,
    })
}

fn area(from: f64, to: f64, rows_from: f64, rows_to: f64, cell: f64) -> Area {
    Area {
        columns_from: Millimetres(from),
        columns_to: Millimetres(to),
        rows_from: Millimetres(rows_from),
        rows_to: Millimetres(rows_to),
        cell: Millimetres(cell),
    }
}

/// How maps agree with the oracle's.
#[derive(Clone, Copy, Debug, Default)]
pub struct Agreement {
    /// Greatest difference, dB, head by head and together.
    pub greatest: f64,
    /// Squares compared.
    pub compared: usize,
    /// Squares where one side has an echo or a too-close zone and the other
    /// none.
    pub unlike: usize,
}

/// Holds each head's map and the map of all against the oracle, wherever
/// |D| > 0.001.
#[must_use]
pub fn agreement(plans: &[Plan]) -> Agreement {
    let tasks: Vec<&Value> = plans.iter().map(|plan| &plan.task).collect();
    let told = oracle::run("coverage.py", &json!({ "plans": tasks }));
    let mut found = Agreement::default();
    for (index, plan) in plans.iter().enumerate() {
        let told = &told["plans"][index];
        let mut best: Vec<Option<(f64, bool)>> = Vec::new();
        for (i, head) in plan.heads.iter().enumerate() {
            let map = map(std::slice::from_ref(head), plan.view, plan.area, &plan.air);
            best.resize(map.levels.len(), None);
            for (cell, level) in map.levels.iter().enumerate() {
                let wanted = told["levels"][i][cell].as_f64();
                let clear = told["clear"][i][cell] == true;
                compare(&mut found, *level, wanted, clear);
                if let Some(wanted) = wanted
                    && best[cell].is_none_or(|(best, _)| wanted > best)
                {
                    best[cell] = Some((wanted, clear));
                }
            }
        }
        let map = map(&plan.heads, plan.view, plan.area, &plan.air);
        for (cell, level) in map.levels.iter().enumerate() {
            let (wanted, clear) = best[cell].unzip();
            compare(&mut found, *level, wanted, clear.unwrap_or(true));
            found.unlike += usize::from(map.near[cell] != (told["near"][cell] == true));
        }
    }
    found
}

fn compare(found: &mut Agreement, level: f64, wanted: Option<f64>, clear: bool) {
    match wanted {
        None => found.unlike += usize::from(level > NO_ECHO),
        Some(wanted) if clear => {
            found.compared += 1;
            let off = (level - wanted).abs();
            found.greatest = if off.is_nan() {
                f64::INFINITY
            } else {
                found.greatest.max(off)
            };
        }
        Some(_) => {}
    }
}

/// Seconds that numpy takes for the first plan's picture, each repeat.
#[must_use]
pub fn numpy_seconds(plan: &Plan, repeats: usize) -> Vec<f64> {
    let task = json!({ "plans": [plan.task], "repeats": repeats, "only_time": true });
    let told = oracle::run("coverage.py", &task);
    serde_json::from_value(told["seconds"].clone()).unwrap_or_default()
}
