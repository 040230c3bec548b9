//! Ring set: which ring, and insert if any, a head gets.
