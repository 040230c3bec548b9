//! Records with one seeded fault.

mod aims;
mod fits;
mod others;
mod plugs;

use rakeline_core::diagnose::Cause;

use super::{Case, Record};

/// Every one of them.
#[must_use]
pub fn one_fault() -> Vec<Case> {
    let lists = [aims::all(), fits::all(), plugs::all(), others::all()];
    lists.into_iter().flatten().collect()
}

fn case(name: &str, record: Record, cause: Cause) -> Case {
    Case::new(name, record, &[cause])
}
