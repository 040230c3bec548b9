//! Values from published sources, from the trade and from independent
//! computations, one module a source.
#![cfg(test)]

mod an3461;
mod attitude;
mod axes;
mod gum;
mod kit_schema;
mod markout_brute_force;
mod markout_milp;
mod markout_properties;
mod markout_trade;
mod reversal;
mod ring_set;
mod ring_set_enumerated;
mod tilt_monte_carlo;
mod tones;
mod tones_numpy;
mod wiring;
