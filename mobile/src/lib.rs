//! Rakeline's shell: the phone in the hand of the fitter.

pub mod platform;
