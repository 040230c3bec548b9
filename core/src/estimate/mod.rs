//! Estimates: measured values with their uncertainty.
//!
//! # Where to start
//! [`still::StillWindow`] turns samples into a [`still::StillReading`];
//! [`rake::estimate_rake`] turns readings at one spot into a face angle
//! with an itemised [`budget::Budget`], given how the phone was zeroed
//! ([`zero`]), how it touches ([`contact`]), how the ground lies
//! ([`ground`]) and the corner angle.

pub mod budget;
pub mod contact;
pub mod ground;
pub mod left;
pub mod rake;
pub mod seating;
pub mod stats;
pub mod still;
pub mod window;
pub mod zero;
