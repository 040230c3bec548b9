//! Bench suite `diagnose`: the test records of the diagnosis, more of them by
//! chance, and how long a diagnosis takes.

use rakeline_tests::fault_cases::bars;

fn main() {
    let quick = std::env::args().any(|arg| arg == "--quick");
    let met = bars(if quick { 300 } else { 3000 });
    std::process::exit(i32::from(!met));
}
