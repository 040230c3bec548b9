//! Values from published sources, from the trade and from independent
//! computations, one module a source.
#![cfg(test)]

mod again_random_effects;
mod an3461;
mod attitude;
mod axes;
mod coverage_oracle;
mod cramer;
mod diagnosis;
mod gum;
mod iso_9613;
mod kit_schema;
mod learn_events;
mod learn_expression;
mod learn_trade;
mod markout_brute_force;
mod markout_milp;
mod markout_properties;
mod markout_trade;
mod photo_apriltag;
mod photo_bundle;
mod photo_cards;
mod photo_files;
mod photo_kept;
mod photo_plane;
mod photo_scenes;
mod photo_trouble;
mod piston;
mod rear_zone;
mod reversal;
mod ring_set;
mod ring_set_enumerated;
mod step_schema;
mod tilt_monte_carlo;
mod tones;
mod tones_numpy;
mod wiring;
