//! Figures with their source, one module a source.
#![cfg(test)]

mod an3461;
mod attitude;
mod axes;
mod gum;
mod reversal;
mod tilt_monte_carlo;
