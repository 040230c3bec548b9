//! From JSON to a valid sheet, or to every fault of it.

use serde_json::{Map, Value};

use super::fault::MILLIMETRES_AN_INCH;
use super::rules::{Field, Kind, Need, SHEET, Unit};
use super::{KitSheet, SheetFault, VERSION, Why, clashes};
use crate::json::{self, NotJson};

/// A longer document is refused before it is read, in bytes.
pub const LARGEST_SHEET: usize = 1_000_000;

/// Reads a kit sheet. Everything that is wrong is named at once, with where
/// and why; nothing is mended in silence.
///
/// # Errors
/// All faults found: first those of the fields, and when the fields are
/// right, those of fields that contradict each other.
pub fn parse(text: &str) -> Result<KitSheet, Vec<SheetFault>> {
    if text.len() > LARGEST_SHEET {
        return one("", Why::DocumentTooLarge { bytes: text.len() });
    }
    let value = match json::parse(text.trim_start_matches('\u{feff}')) {
        Ok(value) => value,
        Err(NotJson { line, column }) => return one("", Why::NotJson { line, column }),
    };
    from_value(value)
}

/// Writes a sheet as JSON that [`parse`] reads back to an equal sheet.
#[must_use]
pub fn to_json(sheet: &KitSheet) -> String {
    json::to_value(sheet).map_or_else(|_| String::new(), |value| json::pretty(&value))
}

pub(super) fn from_value(value: Value) -> Result<KitSheet, Vec<SheetFault>> {
    let Value::Object(map) = &value else {
        return one("", Why::NotAKitSheet);
    };
    match map.get("rakeline_kit") {
        None => return one("", Why::NotAKitSheet),
        Some(found) if found.as_f64() != Some(f64::from(VERSION)) => {
            return one(
                "rakeline_kit",
                Why::Version {
                    found: json::print(found),
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
    let sheet: KitSheet = match json::of_value(&value) {
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
        (Kind::Whole { least, greatest }, value) => match value.as_f64() {
            Some(number) if number.fract() == 0.0 => {
                outside(number, Unit::Count, f64::from(*least), f64::from(*greatest))
            }
            Some(_) => Some(Why::NotWhole),
            None => Some(Why::NotANumber),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Degrees, Millimetres};

    const PLAIN: &str = include_str!("../../../assets/kits/plain-four.json");
    const METAL: &str = include_str!("../../../assets/kits/metal-four.json");

    fn with(place: &str, value: Value) -> Vec<SheetFault> {
        let mut document: Value = serde_json::from_str(METAL).unwrap();
        *document.pointer_mut(place).unwrap() = value;
        parse(&document.to_string()).unwrap_err()
    }

    fn fault(at: &str, why: Why) -> Vec<SheetFault> {
        vec![SheetFault::new(at, why)]
    }

    #[test]
    fn both_kits_parse_and_come_back_equal_through_json() {
        for kit in [PLAIN, METAL] {
            let sheet = parse(kit).unwrap();
            assert_eq!(parse(&to_json(&sheet)), Ok(sheet));
        }
    }

    #[test]
    fn what_is_left_out_is_not_given_and_defaults_are_stated() {
        let sheet = parse(
            r#"{"rakeline_kit":1,"name":"k","heads":{"labels":["1"]},"rings":[{"name":"2","lift":2}],
            "aim":{"least":0,"greatest":9,"target":4},"holes":{"head":21},
            "mark_out":{"inner":280,"corner_gap_least":180}}"#,
        )
        .unwrap();
        assert_eq!(sheet.heads.depth, None);
        assert_eq!(sheet.obstacle_learn, None);
        assert_eq!(sheet.lift_tolerance, Degrees(0.5));
        assert_eq!(sheet.mark_out.corner_gap_greatest, Millimetres(450.0));
        assert_eq!(sheet.mark_out.spacing_least, Millimetres(150.0));
        assert_eq!(sheet.mark_out.spacing_greatest, None);
    }

    #[test]
    fn unknown_fields_of_a_newer_version_survive_at_every_level() {
        let mut document: Value = serde_json::from_str(METAL).unwrap();
        for place in [
            "",
            "/heads",
            "/rings/1",
            "/inserts/0",
            "/leads/head",
            "/mark_out",
        ] {
            document.pointer_mut(place).unwrap()["later"] = serde_json::json!({ "deep": [1, 2] });
        }
        let sheet = parse(&document.to_string()).unwrap();
        let written: Value = serde_json::from_str(&to_json(&sheet)).unwrap();
        for place in [
            "",
            "/heads",
            "/rings/1",
            "/inserts/0",
            "/leads/head",
            "/mark_out",
        ] {
            let kept = &written.pointer(place).unwrap()["later"];
            assert_eq!(*kept, serde_json::json!({ "deep": [1, 2] }), "{place}");
        }
    }

    #[test]
    fn ten_megabytes_are_refused_before_they_are_read() {
        // Not even JSON: the size is judged first.
        let huge = "[".repeat(10_000_000);
        let why = Why::DocumentTooLarge { bytes: 10_000_000 };
        assert_eq!(parse(&huge), Err(fault("", why)));
    }

    #[test]
    fn deep_nesting_is_refused_and_does_not_overflow() {
        let deep = "[".repeat(900_000);
        let faults = parse(&deep).unwrap_err();
        assert!(matches!(faults[0].why, Why::NotJson { .. }));
    }

    #[test]
    fn no_json_says_line_and_column() {
        let faults = parse("{\n  \"rakeline_kit\": 1,\n  oops }").unwrap_err();
        assert_eq!(faults, fault("", Why::NotJson { line: 3, column: 3 }));
    }

    #[test]
    fn other_json_is_not_taken_for_a_sheet() {
        for other in ["[]", "7", "null", "{}", r#"{"name":"k"}"#] {
            assert_eq!(parse(other), Err(fault("", Why::NotAKitSheet)), "{other}");
        }
    }

    #[test]
    fn a_wrong_version_is_named() {
        let found = "2".to_owned();
        let faults = with("/rakeline_kit", 2.into());
        assert_eq!(faults, fault("rakeline_kit", Why::Version { found }));
    }

    #[test]
    fn inches_are_refused_in_three_guises() {
        let found = "in".to_owned();
        assert_eq!(
            with("/units", "in".into()),
            fault("units", Why::Units { found })
        );
        let at = "holes.head";
        assert_eq!(with("/holes/head", "0.83\"".into()), fault(at, Why::Inches));
        let value = 0.83;
        assert_eq!(
            with("/holes/head", value.into()),
            fault(at, Why::LooksLikeInches { value })
        );
    }

    #[test]
    fn sizes_that_cannot_be_say_by_how_much() {
        let value = -21.0;
        assert_eq!(
            with("/holes/head", value.into()),
            fault("holes.head", Why::Negative { value })
        );
        let why = Why::TooGreat {
            value: 2100.0,
            greatest: 90.0,
            unit: Unit::Millimetres,
        };
        assert_eq!(with("/holes/head", 2100.0.into()), fault("holes.head", why));
    }

    #[test]
    fn every_fault_is_named_at_once() {
        let mut document: Value = serde_json::from_str(METAL).unwrap();
        document["rings"] = Value::Array(Vec::new());
        document["holes"]["head"] = "twenty".into();
        document["inserts"][1]["lift"] = Value::Null;
        document["obstacle_learn"]["cycles"] = 6.5.into();
        document["aim"].as_object_mut().unwrap().remove("target");
        let faults = parse(&document.to_string()).unwrap_err();
        let places: Vec<&str> = faults.iter().map(|f| f.at.as_str()).collect();
        let wanted = [
            "rings",
            "inserts[1].lift",
            "aim.target",
            "holes.head",
            "obstacle_learn.cycles",
        ];
        assert_eq!(places, wanted);
        assert_eq!(faults[0].why, Why::TooFew { least: 1 });
        assert_eq!(faults[4].why, Why::NotWhole);
    }

    #[test]
    fn contradictions_say_where_and_why() {
        let twice = |value: &str| Why::Twice {
            value: value.to_owned(),
        };
        assert_eq!(
            with("/heads/labels/3", "1 ".into()),
            fault("heads.labels[3]", twice("1"))
        );
        let name = "steeper".to_owned();
        assert_eq!(
            with("/totals/0/insert", "steeper".into()),
            fault("totals[0].insert", Why::UnknownInsert { name })
        );
        let why = Why::LeastAboveGreatest {
            least: 12.0,
            greatest: 9.0,
            unit: Unit::Degrees,
        };
        assert_eq!(with("/aim/least", 12.into()), fault("aim", why));
    }

    #[test]
    fn a_fault_names_its_place_in_words_and_counts_from_one() {
        let faults = with("/rings/2/lift", "steep".into());
        let wanted = crate::text::msg("kit-fault-not-a-number").message(
            "at",
            crate::text::msg("kit-at-entry")
                .message("field", crate::text::msg("kit-field-rings-lift"))
                .count("number", 3),
        );
        assert_eq!(faults[0].message(), wanted);
    }
}
