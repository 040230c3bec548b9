//! Estimates: measured values with their uncertainty.
//!
//! # Where to start
//! [`still::StillWindow`] turns samples into a [`still::StillReading`];
//! [`rake::estimate_rake`] turns readings at one spot into a face angle
//! with an itemised [`budget::Budget`], given how the phone was zeroed
//! ([`zero`]), how it touches ([`contact`]), how the ground lies
//! ([`ground`]) and the corner angle ([`turn`], [`shape`]).
//! [`level`] draws level and plumb into a picture; [`photo`] measures in one;
//! [`beep`] hears beeps.

pub mod beep;
pub mod budget;
pub mod contact;
pub mod ground;
pub mod left;
pub mod level;
pub mod photo;
pub mod propagate;
pub mod rake;
pub mod reading;
pub mod repeats;
pub mod seating;
pub mod shape;
pub mod stats;
pub mod still;
pub mod turn;
pub mod window;
pub mod zero;
