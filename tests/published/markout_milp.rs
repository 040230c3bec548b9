//! Mark-out against `scipy.optimize.milp` (HiGHS), an independent solver.

#[test]
fn placeholder() {}
