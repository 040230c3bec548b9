//! From JSON to a valid sheet, or to every fault of it.

use serde_json::{Map, Value};

use super::fault::MILLIMETRES_AN_INCH;
use super::rules::{Field, Kind, Need, SHEET, Unit};
use super::{KitSheet, SheetFault, VERSION, Why, clashes};

/// A longer document is refused before it is read, in bytes.
pub const LARGEST_SHEET: usize = 1_000_000;

/// Reads a kit sheet. Everything that is wrong is named at once, with where
/// and why; nothing is mended in silence.
///
/// # Errors
/// All faults found: first those of the fields, and when the fields are
/// right, those of fields that contradict each other.
pub fn parse(json: &str) -> Result<KitSheet, Vec<SheetFault>> {
    if json.len() > LARGEST_SHEET {
        return one("", Why::DocumentTooLarge { bytes: json.len() });
    }
    let value: Value = match serde_json::from_str(json.trim_start_matches('\u{feff}')) {
        Ok(value) => value,
        Err(error) => {
            return one(
                "",
                Why::NotJson {
                    line: error.line(),
                    column: error.column(),
                },
            );
        }
    };
    from_value(value)
}

/// Writes a sheet as JSON that [`parse`] reads back to an equal sheet.
#[must_use]
pub fn to_json(sheet: &KitSheet) -> String {
    serde_json::to_string_pretty(sheet).unwrap_or_default()
}

pub(super) fn from_value(value: Value) -> Result<KitSheet, Vec<SheetFault>> {
    let Value::Object(map) = &value else {
        return one("", Why::NotAKitSheet);
    };
    match map.get("rakeline_kit") {
        None => return one("", Why::NotAKitSheet),
        Some(found) if found.as_u64() != Some(u64::from(VERSION)) => {
            return one(
                "rakeline_kit",
                Why::Version {
                    found: found.to_string(),
                },
            );
        }
        Some(_) => {}
    }
    if let Some(Value::String(found)) = map.get("units")
        && found != "mm"
    {
        return one(
            "units",
            Why::Units {
                found: found.clone(),
            },
        );
    }
    let mut faults = Vec::new();
    group(map, SHEET, "", &mut faults);
    if !faults.is_empty() {
        return Err(faults);
    }
    let sheet: KitSheet = match serde_json::from_value(value) {
        Ok(sheet) => sheet,
        Err(error) => {
            return one(
                "",
                Why::Other {
                    detail: error.to_string(),
                },
            );
        }
    };
    let faults = clashes::of(&sheet);
    if faults.is_empty() {
        Ok(sheet)
    } else {
        Err(faults)
    }
}

fn one(at: &str, why: Why) -> Result<KitSheet, Vec<SheetFault>> {
    Err(vec![SheetFault::new(at, why)])
}

fn group(map: &Map<String, Value>, fields: &[Field], at: &str, faults: &mut Vec<SheetFault>) {
    for field in fields {
        let place = || {
            if at.is_empty() {
                field.name.to_owned()
            } else {
                format!("{at}.{}", field.name)
            }
        };
        match (map.get(field.name), field.need) {
            (None, Need::Required) => faults.push(SheetFault::new(place(), Why::Missing)),
            (None, _) | (Some(Value::Null), Need::Optional) => {}
            (Some(value), _) => check(value, &field.kind, &place, faults),
        }
    }
}

/// Checks one value against its rule; `place` is only built for a fault or a
/// level further down.
fn check(value: &Value, kind: &Kind, place: &dyn Fn() -> String, faults: &mut Vec<SheetFault>) {
    let why = match (kind, value) {
        (Kind::Group(fields), Value::Object(map)) => {
            group(map, fields, &place(), faults);
            None
        }
        (Kind::Group(_), _) => Some(Why::NotAGroup),
        (Kind::List { of, least, most }, Value::Array(entries)) => {
            let at = place();
            for (i, entry) in entries.iter().enumerate().take(*most) {
                check(entry, of, &|| format!("{at}[{i}]"), faults);
            }
            if entries.len() < *least {
                Some(Why::TooFew { least: *least })
            } else if entries.len() > *most {
                Some(Why::TooMany { most: *most })
            } else {
                None
            }
        }
        (Kind::List { .. }, _) => Some(Why::NotAList),
        _ => single(value, kind),
    };
    if let Some(why) = why {
        faults.push(SheetFault::new(place(), why));
    }
}

/// The fault of a single value, if any.
pub(super) fn single(value: &Value, kind: &Kind) -> Option<Why> {
    match (kind, value) {
        (
            Kind::Number {
                unit,
                least,
                greatest,
            },
            value,
        ) => match (value.as_f64(), value) {
            (Some(number), _) => outside(number, *unit, *least, *greatest),
            (None, Value::String(text)) if says_inches(text) => Some(Why::Inches),
            _ => Some(Why::NotANumber),
        },
        (Kind::Whole { least, greatest }, value) => match (value.as_i64(), value.as_f64()) {
            (Some(whole), _) => outside(
                whole as f64,
                Unit::Count,
                f64::from(*least),
                f64::from(*greatest),
            ),
            (None, Some(_)) => Some(Why::NotWhole),
            (None, None) => Some(Why::NotANumber),
        },
        (Kind::Text { longest }, Value::String(text)) => {
            if text.trim().is_empty() {
                Some(Why::Empty)
            } else if text.chars().count() > *longest {
                Some(Why::TooLong { longest: *longest })
            } else {
                None
            }
        }
        (Kind::Text { .. }, _) => Some(Why::NotText),
        (Kind::OneOf(allowed), Value::String(text)) if allowed.contains(&text.as_str()) => None,
        (Kind::OneOf(allowed), _) => Some(Why::NotOneOf { allowed }),
        (Kind::Switch, Value::Bool(_)) => None,
        (Kind::Switch, _) => Some(Why::NotASwitch),
        (Kind::Group(_) | Kind::List { .. }, _) => None,
    }
}

/// The fault of a number outside its bounds, if it is.
pub(super) fn outside(value: f64, unit: Unit, least: f64, greatest: f64) -> Option<Why> {
    if value < least {
        let as_inches = value * MILLIMETRES_AN_INCH;
        if value < 0.0 && least >= 0.0 {
            Some(Why::Negative { value })
        } else if unit == Unit::Millimetres
            && value > 0.0
            && (least..=greatest).contains(&as_inches)
        {
            Some(Why::LooksLikeInches { value })
        } else {
            Some(Why::TooSmall { value, least, unit })
        }
    } else if value > greatest {
        Some(Why::TooGreat {
            value,
            greatest,
            unit,
        })
    } else {
        None
    }
}

/// Whether a text gives a length in inches: `21 in`, `0.8"`, `3/4 inch`.
pub(super) fn says_inches(text: &str) -> bool {
    let text = text.trim().to_ascii_lowercase();
    text.starts_with(|c: char| c.is_ascii_digit() || c == '.')
        && ["in", "in.", "inch", "inches", "\"", "″", "''"]
            .iter()
            .any(|mark| text.ends_with(mark))
}
