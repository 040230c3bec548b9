//! What Rakeline's test suites share.

pub mod kit_cases;
pub mod oracle;
