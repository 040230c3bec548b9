//! A sheet while it is edited: everything typed is kept, right or wrong.

use serde_json::{Map, Value};

use super::parse::{from_value, single};
use super::rules::{Field, Kind, SHEET};
use super::{KitSheet, SheetFault, VERSION};
use crate::figure;
use crate::json;
use crate::text::Message;

/// A sheet that is being typed. What is typed stays as it is until it makes
/// a sheet; fields of a newer version are kept.
///
/// Paths are as in [`SheetFault::at`]: `mark_out.inner`, `rings[2].lift`.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    value: Value,
}

/// One step of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Step<'a> {
    Name(&'a str),
    Entry(usize),
}

fn steps(path: &str) -> Vec<Step<'_>> {
    path.split(['.', '['])
        .filter(|part| !part.is_empty())
        .map(|part| match part.strip_suffix(']') {
            Some(number) => Step::Entry(number.parse().unwrap_or(0)),
            None => Step::Name(part),
        })
        .collect()
}

/// The rule of a path; indices are ignored.
pub(super) fn rule(path: &str) -> Option<Kind> {
    fn find(fields: &[Field], name: &str) -> Option<Kind> {
        fields.iter().find(|f| f.name == name).map(|f| f.kind)
    }
    let mut kind = Kind::Group(SHEET);
    for step in steps(path) {
        kind = match (step, kind) {
            (Step::Name(name), Kind::Group(fields)) => find(fields, name)?,
            (Step::Entry(_), Kind::List { of, .. }) => *of,
            _ => return None,
        };
    }
    Some(kind)
}

/// What is wrong with what is typed into a field, while it is typed; `None`
/// when it fits, and for an empty field (whether it may be empty is said
/// when the sheet is kept).
#[must_use]
pub fn check_typed(path: &str, typed: &str) -> Option<Message> {
    if typed.trim().is_empty() {
        return None;
    }
    let kind = rule(path)?;
    let why = single(&as_value(&kind, typed), &kind)?;
    Some(SheetFault::new(path, why).message())
}

/// What is typed as the JSON value that the field wants, or as the plain
/// text where it is none; a decimal comma is taken as a point.
pub(super) fn as_value(kind: &Kind, typed: &str) -> Value {
    let trimmed = typed.trim();
    let text = || Value::String(typed.to_owned());
    match kind {
        Kind::Number { .. } => number(trimmed).map_or_else(text, Value::from),
        Kind::Whole { .. } => trimmed.parse::<i64>().map_or_else(|_| text(), Value::from),
        Kind::Switch => trimmed.parse::<bool>().map_or_else(|_| text(), Value::from),
        _ => Value::String(trimmed.to_owned()),
    }
}

/// A typed number; a decimal comma or point, nothing else beside it.
pub(super) fn number(typed: &str) -> Option<f64> {
    let plain = typed.trim().replace(',', ".").replace('\u{2212}', "-");
    let fits = plain
        .chars()
        .all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+'));
    figure::read(&plain).filter(|value| fits && value.is_finite())
}

/// Keys of a stored draft.
const ID: &str = "id";
const DRAFT: &str = "draft";

impl Draft {
    /// A sheet with nothing given.
    #[must_use]
    pub fn blank() -> Self {
        let mut map = Map::new();
        map.insert("rakeline_kit".to_owned(), Value::from(VERSION));
        Self {
            value: Value::Object(map),
        }
    }

    /// Begins with a sheet.
    #[must_use]
    pub fn of(sheet: &KitSheet) -> Self {
        Self {
            value: json::to_value(sheet).unwrap_or_default(),
        }
    }

    /// The text that is stored while the sheet of this id is edited.
    #[must_use]
    pub fn stored(&self, id: &str) -> String {
        let mut map = Map::new();
        map.insert(ID.to_owned(), Value::from(id));
        map.insert(DRAFT.to_owned(), self.value.clone());
        json::print(&Value::Object(map))
    }

    /// The id and the draft of a stored text; `None` where it is none.
    #[must_use]
    pub fn of_stored(text: &str) -> Option<(String, Self)> {
        let mut map = match json::parse(text).ok()? {
            Value::Object(map) => map,
            _ => return None,
        };
        let id = map.get(ID)?.as_str()?.to_owned();
        let value = map.remove(DRAFT).filter(Value::is_object)?;
        Some((id, Self { value }))
    }

    /// What stands in a field, as it is typed; empty when not given.
    #[must_use]
    pub fn typed(&self, path: &str) -> String {
        match self.at(path) {
            Some(Value::String(text)) => text.clone(),
            Some(Value::Null) | None => String::new(),
            Some(Value::Number(n)) => n.as_f64().unwrap_or_default().to_string(),
            Some(other) => json::print(other),
        }
    }

    /// How many entries a list has.
    #[must_use]
    pub fn entries(&self, path: &str) -> usize {
        self.at(path).and_then(Value::as_array).map_or(0, Vec::len)
    }

    fn at(&self, path: &str) -> Option<&Value> {
        let mut here = &self.value;
        for step in steps(path) {
            here = match step {
                Step::Name(name) => here.get(name)?,
                Step::Entry(i) => here.get(i)?,
            };
        }
        Some(here)
    }

    /// Puts what is typed into a field; nothing typed makes it 'not given'.
    /// A path that no sheet has changes nothing.
    pub fn set(&mut self, path: &str, typed: &str) {
        if rule(path).is_none() {
            return;
        }
        if typed.trim().is_empty() {
            self.clear(path);
        } else if let Some(place) = self.place(path) {
            // As typed: '1.0' may be on its way to '1.05', 'Bench ' to 'Bench kit'.
            *place = Value::String(typed.to_owned());
        }
    }

    /// Adds an empty entry to a list.
    pub fn add(&mut self, path: &str) {
        let Some(Kind::List { of, .. }) = rule(path) else {
            return;
        };
        let empty = match of {
            Kind::Group(_) => Value::Object(Map::new()),
            _ => Value::String(String::new()),
        };
        if let Some(place) = self.place(path) {
            match place {
                Value::Array(entries) => entries.push(empty),
                other => *other = Value::Array(vec![empty]),
            }
        }
    }

    /// Takes an entry out of a list.
    pub fn remove(&mut self, path: &str, entry: usize) {
        if let Some(Value::Array(entries)) = self.place(path)
            && entry < entries.len()
        {
            entries.remove(entry);
        }
    }

    /// The place of a path, made where groups on the way are missing;
    /// `None` past the end of a list.
    fn place(&mut self, path: &str) -> Option<&mut Value> {
        let mut here = &mut self.value;
        for step in steps(path) {
            here = match step {
                Step::Name(name) => {
                    if !here.is_object() {
                        *here = Value::Object(Map::new());
                    }
                    here.as_object_mut()?
                        .entry(name.to_owned())
                        .or_insert(Value::Null)
                }
                Step::Entry(i) => here.as_array_mut()?.get_mut(i)?,
            };
        }
        Some(here)
    }

    /// Makes a field 'not given', and with it groups that become empty.
    fn clear(&mut self, path: &str) {
        let steps = steps(path);
        take_out(&mut self.value, &steps);
    }

    /// The sheet, or everything that is still wrong.
    ///
    /// # Errors
    /// Every fault, as [`super::parse`] names them.
    pub fn sheet(&self) -> Result<KitSheet, Vec<SheetFault>> {
        let mut value = self.value.clone();
        settle(&mut value, &Kind::Group(SHEET));
        from_value(value)
    }

    /// What is wrong with what is typed so far, contradictions with other
    /// fields too; what is only missing still is not in it.
    #[must_use]
    pub fn faults_so_far(&self) -> Vec<SheetFault> {
        let mut faults = self.sheet().err().unwrap_or_default();
        faults.retain(|fault| !fault.at.is_empty() && !self.typed(&fault.at).trim().is_empty());
        faults
    }
}

/// What is typed becomes what its field wants, where it is that.
fn settle(here: &mut Value, kind: &Kind) {
    match (kind, here) {
        (Kind::Group(fields), Value::Object(map)) => {
            for field in *fields {
                if let Some(below) = map.get_mut(field.name) {
                    settle(below, &field.kind);
                }
            }
        }
        (Kind::List { of, .. }, Value::Array(entries)) => {
            entries.iter_mut().for_each(|entry| settle(entry, of));
        }
        (Kind::Group(_) | Kind::List { .. }, _) => {}
        (_, here) => {
            if let Value::String(typed) = here {
                *here = as_value(kind, typed);
            }
        }
    }
}

fn take_out(here: &mut Value, steps: &[Step<'_>]) {
    match (steps, here) {
        ([Step::Name(name)], Value::Object(map)) => {
            map.remove(*name);
        }
        ([Step::Entry(i)], Value::Array(entries)) => {
            if let Some(entry) = entries.get_mut(*i) {
                *entry = Value::String(String::new());
            }
        }
        ([Step::Name(name), rest @ ..], Value::Object(map)) => {
            if let Some(below) = map.get_mut(*name) {
                take_out(below, rest);
                if below.as_object().is_some_and(Map::is_empty) {
                    map.remove(*name);
                }
            }
        }
        ([Step::Entry(i), rest @ ..], Value::Array(entries)) => {
            if let Some(below) = entries.get_mut(*i) {
                take_out(below, rest);
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::{fields, parse};
    use crate::units::Degrees;

    const METAL: &str = include_str!("../../../assets/kits/metal-four.json");
    const TEXTS: &str = include_str!("../../../assets/texts/en.ftl");

    #[test]
    fn a_sheet_goes_through_the_editor_unchanged() {
        let sheet = parse(METAL).unwrap();
        assert_eq!(Draft::of(&sheet).sheet(), Ok(sheet));
    }

    #[test]
    fn what_is_typed_wrong_stays_as_typed_and_is_named() {
        let mut draft = Draft::of(&parse(METAL).unwrap());
        draft.set("rings[1].lift", "5 deg");
        assert_eq!(draft.typed("rings[1].lift"), "5 deg");
        let faults = draft.sheet().unwrap_err();
        assert_eq!(faults[0].at, "rings[1].lift");
        draft.set("rings[1].lift", "5,5");
        assert_eq!(draft.sheet().unwrap().rings[1].lift, Degrees(5.5));
        assert_eq!(draft.typed("heads.depth"), "17");
    }

    #[test]
    fn what_is_typed_stands_letter_by_letter_until_it_is_kept() {
        let mut draft = Draft::of(&parse(METAL).unwrap());
        for typed in ["1", "1.", "1.0", "1.05"] {
            draft.set("rings[1].lift", typed);
            assert_eq!(draft.typed("rings[1].lift"), typed);
        }
        for typed in ["Bench", "Bench ", "Bench kit", "Bench kit "] {
            draft.set("name", typed);
            assert_eq!(draft.typed("name"), typed);
        }
        let stored = draft.stored("a");
        let (_, back) = Draft::of_stored(&stored).unwrap();
        let sheet = back.sheet().unwrap();
        assert_eq!(
            (sheet.name.as_str(), sheet.rings[1].lift.0),
            ("Bench kit", 1.05)
        );
    }

    #[test]
    fn an_emptied_field_is_not_given_and_takes_its_empty_group_with_it() {
        let mut draft = Draft::of(&parse(METAL).unwrap());
        draft.set("output.kind", "");
        draft.set("heads.depth", " ");
        let sheet = draft.sheet().unwrap();
        assert_eq!(sheet.output, None);
        assert_eq!(sheet.heads.depth, None);
    }

    #[test]
    fn entries_are_added_and_taken_out() {
        let mut draft = Draft::of(&parse(METAL).unwrap());
        draft.add("rings");
        assert_eq!(draft.entries("rings"), 5);
        assert_eq!(draft.sheet().unwrap_err()[0].at, "rings[4].name");
        draft.set("rings[4].name", "17");
        draft.set("rings[4].lift", "17");
        assert_eq!(draft.sheet().unwrap().rings[4].lift, Degrees(17.0));
        draft.remove("rings", 4);
        draft.remove("rings", 40);
        assert_eq!(draft.sheet().unwrap(), parse(METAL).unwrap());
    }

    #[test]
    fn a_whole_sheet_can_be_typed_from_nothing() {
        let mut draft = Draft::blank();
        assert!(draft.sheet().is_err());
        draft.add("heads.labels");
        draft.add("rings");
        for (path, typed) in [
            ("name", "From nothing"),
            ("heads.labels[0]", "L"),
            ("rings[0].name", "2"),
            ("rings[0].lift", "2"),
            ("aim.least", "0"),
            ("aim.greatest", "9"),
            ("aim.target", "4"),
            ("mark_out.inner", "280"),
            ("mark_out.corner_gap_least", "180"),
            ("holes.head", "21"),
        ] {
            assert_eq!(check_typed(path, typed), None, "{path}");
            draft.set(path, typed);
        }
        assert_eq!(draft.sheet().unwrap().heads.labels, ["L"]);
    }

    #[test]
    fn a_contradiction_is_told_as_it_is_typed_and_what_is_missing_is_not() {
        let mut draft = Draft::of(&parse(METAL).unwrap());
        assert_eq!(draft.faults_so_far(), []);
        draft.set("aim.least", "12");
        let faults = draft.faults_so_far();
        assert!(faults.iter().any(|fault| fault.at == "aim"), "{faults:?}");
        draft.set("aim.least", "");
        assert_eq!(draft.faults_so_far(), []);
        assert!(draft.sheet().is_err());
        assert_eq!(Draft::blank().faults_so_far(), []);
    }

    #[test]
    fn a_path_that_no_sheet_has_changes_nothing() {
        let mut draft = Draft::of(&parse(METAL).unwrap());
        let before = draft.clone();
        draft.set("rings.lift", "3");
        draft.set("nowhere", "3");
        draft.set("rings[9].lift", "3");
        draft.add("aim");
        assert_eq!(draft, before);
    }

    #[test]
    fn every_field_has_a_word() {
        for field in fields() {
            let key = field.path.replace("[]", "").replace(['.', '_'], "-");
            assert!(
                TEXTS.contains(&format!("\nkit-field-{key} = ")),
                "{}",
                field.path
            );
        }
        assert!(fields().len() > 80);
    }
}
