//! Published and oracle-checked values, one module a source.

mod markout_brute_force;
mod markout_milp;
mod markout_properties;
mod markout_trade;
