//! What the test suites and the benches share.

pub mod markout;
pub mod oracle;
