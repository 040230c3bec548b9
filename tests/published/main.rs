//! Values from published sources, from the trade and from independent
//! computations, one module a source.

mod kit_schema;
mod markout_brute_force;
mod markout_milp;
mod markout_properties;
mod markout_trade;
mod ring_set;
mod ring_set_enumerated;
mod wiring;
