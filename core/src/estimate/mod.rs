//! Estimates: measured values with their uncertainty.
