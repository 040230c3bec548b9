//! What Rakeline's tests share.

pub mod oracle;
pub mod tilt_sim;
