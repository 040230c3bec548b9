//! What Rakeline's test suites share.

pub mod dice;
pub mod kit_cases;
pub mod oracle;
