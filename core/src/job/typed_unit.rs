//! Electrical figures as they are typed, with or without their unit.

use crate::figure;

/// Units that may stand behind volts, with what they make of them.
pub(super) const VOLTS: [(&str, f64); 5] = [
    ("", 1.0),
    ("v", 1.0),
    ("volt", 1.0),
    ("volts", 1.0),
    ("mv", 1e-3),
];
/// The same behind amperes.
pub(super) const AMPERES: [(&str, f64); 5] = [
    ("", 1.0),
    ("a", 1.0),
    ("amp", 1.0),
    ("amps", 1.0),
    ("ma", 1e-3),
];

/// A typed figure in the base unit; `None` for none, or another unit.
pub(super) fn typed_figure(typed: &str, units: &[(&str, f64)]) -> Option<f64> {
    let plain = typed.trim().replace(',', ".").replace('−', "-");
    let number = plain.trim_end_matches(|c: char| c.is_alphabetic() || c.is_whitespace());
    let unit = plain[number.len()..].trim().to_lowercase();
    let (_, factor) = units.iter().find(|(name, _)| *name == unit)?;
    let value = figure::read(number)? * factor;
    value.is_finite().then_some(value)
}
