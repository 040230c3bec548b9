//! The diagnosis measured: how many seeded faults stand where they should,
//! and how long a diagnosis takes.

use std::time::Instant;

use rakeline_core::diagnose::diagnose;

use super::{Case, by_chance, one_fault, two_faults};

/// Prints the bars of the diagnosis; whether all are met. `chance` is how
/// many records by chance are tried.
#[must_use]
pub fn bars(chance: usize) -> bool {
    let (one, two) = (one_fault(), two_faults());
    let (one_by_chance, two_by_chance) = (by_chance(chance, 1, 71), by_chance(chance, 2, 72));
    let told = [
        least("diagnosis_records", one.len() as f64, 24.0),
        least("diagnosis_records_with_two_faults", two.len() as f64, 6.0),
        least("diagnosis_first_or_second_percent", found(&one), 100.0),
        least("diagnosis_two_in_first_three_percent", found(&two), 100.0),
        least("diagnosis_by_chance_percent", found(&one_by_chance), 99.0),
        least(
            "diagnosis_two_by_chance_percent",
            found(&two_by_chance),
            98.0,
        ),
        most("diagnosis_ms", time(&one), 20.0),
    ];
    told.into_iter().all(|met| met)
}

fn found(cases: &[Case]) -> f64 {
    let missed: Vec<String> = cases
        .iter()
        .filter(|case| !case.is_found())
        .map(Case::list)
        .collect();
    for list in missed.iter().take(10) {
        println!("missed: {list}");
    }
    100.0 * (cases.len() - missed.len()) as f64 / cases.len().max(1) as f64
}

/// The median time of a diagnosis, ms.
fn time(cases: &[Case]) -> f64 {
    let mut times: Vec<f64> = cases
        .iter()
        .map(|case| {
            let start = Instant::now();
            std::hint::black_box(diagnose(&case.job));
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times.get(times.len() / 2).copied().unwrap_or(f64::NAN)
}

fn least(figure: &str, value: f64, limit: f64) -> bool {
    told(figure, value, ">=", limit, value >= limit)
}

fn most(figure: &str, value: f64, limit: f64) -> bool {
    told(figure, value, "<=", limit, value <= limit)
}

fn told(figure: &str, value: f64, sign: &str, limit: f64, met: bool) -> bool {
    let verdict = if met { "ok" } else { "short" };
    println!("bar {figure} {value:.2} {sign} {limit} {verdict}");
    met
}
