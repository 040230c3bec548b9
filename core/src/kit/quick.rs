//! The quick sheet: about a dozen fields are enough to work.

use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use super::draft::{as_value, number, rule};
use super::parse::{from_value, says_inches, single};
use super::{KitSheet, SheetFault, VERSION, Why};
use crate::text::{Message, msg};

/// A field of the quick sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub enum QuickField {
    /// What the kit is called.
    Name,
    /// Labels of the heads, left to right seen from behind: `1 2 3 4`.
    Labels,
    /// Hole of a head, millimetres.
    Hole,
    /// Depth of a head behind the face, millimetres; may be left out.
    Depth,
    /// What the rings add, degrees, the fitted one first: `2 5 9 14`.
    Rings,
    /// What the insert adds, degrees; may be left out.
    InsertLift,
    /// The insert's hole, millimetres; goes with what it adds.
    InsertHole,
    /// Inner limit, millimetres.
    Inner,
    /// Least corner gap, millimetres.
    CornerGap,
    /// Least aim, degrees.
    LeastAim,
    /// Greatest aim, degrees.
    GreatestAim,
    /// Aim to be near to, degrees.
    TargetAim,
    /// Cycles of the obstacle learn; may be left out.
    Cycles,
    /// How long the last cycle stays silent, seconds; goes with the cycles.
    SilentSeconds,
    /// Length of a head's lead, millimetres; may be left out.
    LeadLength,
}

impl QuickField {
    /// All fields in the order of the screen.
    pub const ALL: [Self; 15] = [
        Self::Name,
        Self::Labels,
        Self::Hole,
        Self::Depth,
        Self::Rings,
        Self::InsertLift,
        Self::InsertHole,
        Self::Inner,
        Self::CornerGap,
        Self::LeastAim,
        Self::GreatestAim,
        Self::TargetAim,
        Self::Cycles,
        Self::SilentSeconds,
        Self::LeadLength,
    ];

    /// Key of its name.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Name => "quick-name",
            Self::Labels => "quick-labels",
            Self::Hole => "quick-hole",
            Self::Depth => "quick-depth",
            Self::Rings => "quick-rings",
            Self::InsertLift => "quick-insert-lift",
            Self::InsertHole => "quick-insert-hole",
            Self::Inner => "quick-inner",
            Self::CornerGap => "quick-corner-gap",
            Self::LeastAim => "quick-least-aim",
            Self::GreatestAim => "quick-greatest-aim",
            Self::TargetAim => "quick-target-aim",
            Self::Cycles => "quick-cycles",
            Self::SilentSeconds => "quick-silent-seconds",
            Self::LeadLength => "quick-lead-length",
        }
    }

    /// Where it goes on the full sheet.
    fn path(self) -> &'static str {
        match self {
            Self::Name => "name",
            Self::Labels => "heads.labels",
            Self::Hole => "holes.head",
            Self::Depth => "heads.depth",
            Self::Rings => "rings",
            Self::InsertLift => "inserts[0].lift",
            Self::InsertHole => "inserts[0].hole",
            Self::Inner => "mark_out.inner",
            Self::CornerGap => "mark_out.corner_gap_least",
            Self::LeastAim => "aim.least",
            Self::GreatestAim => "aim.greatest",
            Self::TargetAim => "aim.target",
            Self::Cycles => "obstacle_learn.cycles",
            Self::SilentSeconds => "obstacle_learn.silent",
            Self::LeadLength => "leads.head.length",
        }
    }

    fn may_be_empty(self) -> bool {
        matches!(
            self,
            Self::Depth
                | Self::InsertLift
                | Self::InsertHole
                | Self::Cycles
                | Self::SilentSeconds
                | Self::LeadLength
        )
    }

    /// The field that a fault of the full sheet belongs to.
    fn of_path(at: &str) -> Self {
        let exact = Self::ALL.iter().find(|f| f.path() == at);
        let begins = || Self::ALL.iter().find(|f| at.starts_with(f.path()));
        let group = || match at {
            "aim" => Some(&Self::LeastAim),
            "mark_out.spacing_least" => Some(&Self::Inner),
            _ => None,
        };
        *exact.or_else(begins).or_else(group).unwrap_or(&Self::Name)
    }
}

/// The quick sheet as it is typed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct QuickSheet {
    typed: Vec<(QuickField, String)>,
}

impl QuickSheet {
    /// What is typed in a field.
    #[must_use]
    pub fn get(&self, field: QuickField) -> &str {
        self.typed
            .iter()
            .find(|(f, _)| *f == field)
            .map_or("", |(_, text)| text)
    }

    /// Puts what is typed into a field.
    pub fn set(&mut self, field: QuickField, typed: impl Into<String>) {
        self.typed.retain(|(f, _)| *f != field);
        self.typed.push((field, typed.into()));
    }

    /// What is wrong with a field while it is typed; an empty one is not yet wrong.
    #[must_use]
    pub fn check(&self, field: QuickField) -> Option<Message> {
        let typed = self.get(field);
        if typed.trim().is_empty() {
            return None;
        }
        let fault = match field {
            QuickField::Rings => match rings(typed) {
                Err(fault) => return Some(fault.message().message("at", msg(field.key()))),
                Ok(_) => None,
            },
            QuickField::Labels => twice(&labels(typed)),
            QuickField::SilentSeconds => match number(typed) {
                Some(seconds) => fault_of(field, &(seconds * 1000.0).to_string()),
                None => fault_of(field, typed),
            },
            _ => fault_of(field, typed),
        };
        fault.map(|why| why.message().message("at", msg(field.key())))
    }

    /// The sheet; what was not asked stays 'not given'.
    ///
    /// # Errors
    /// Every field with what is wrong there.
    pub fn sheet(&self) -> Result<KitSheet, Vec<(QuickField, Message)>> {
        let mut faults: Vec<(QuickField, Message)> = Vec::new();
        let named =
            |field: QuickField, why: &Why| (field, why.message().message("at", msg(field.key())));
        for field in QuickField::ALL {
            let empty = self.get(field).trim().is_empty();
            if empty && (!field.may_be_empty() || self.partner_is_given(field)) {
                faults.push(named(field, &Why::Missing));
            }
        }
        let lifts = match rings(self.get(QuickField::Rings)) {
            Ok(lifts) => lifts,
            Err(ListFault::Why(Why::Missing)) => Vec::new(),
            Err(fault) => {
                let message = fault.message();
                let field = QuickField::Rings;
                faults.push((field, message.message("at", msg(field.key()))));
                Vec::new()
            }
        };
        match from_value(self.document(&lifts)) {
            Ok(sheet) if faults.is_empty() => Ok(sheet),
            Ok(_) => Err(faults),
            Err(found) => {
                for SheetFault { at, why } in found {
                    let field = QuickField::of_path(&at);
                    if !faults.iter().any(|(f, _)| *f == field) {
                        faults.push(named(field, &why));
                    }
                }
                Err(faults)
            }
        }
    }

    /// Fields that go together: one without the other is missing.
    fn partner_is_given(&self, field: QuickField) -> bool {
        let partner = match field {
            QuickField::InsertLift => QuickField::InsertHole,
            QuickField::InsertHole => QuickField::InsertLift,
            QuickField::Cycles => QuickField::SilentSeconds,
            QuickField::SilentSeconds => QuickField::Cycles,
            _ => return false,
        };
        !self.get(partner).trim().is_empty()
    }

    /// One typed number as JSON: what is no number stays text and is refused.
    fn value(&self, field: QuickField) -> Value {
        let typed = self.get(field);
        match number(typed) {
            Some(whole) if whole.fract() == 0.0 && whole.abs() < 1e9 => json!(whole as i64),
            Some(number) => json!(number),
            None => json!(typed),
        }
    }

    fn document(&self, lifts: &[f64]) -> Value {
        use QuickField as F;
        let given = |field: F| !self.get(field).trim().is_empty();
        let rings: Vec<Value> = lifts
            .iter()
            .map(|lift| json!({ "name": plain(*lift), "lift": lift }))
            .collect();
        let mut sheet = json!({
            "rakeline_kit": VERSION,
            "name": self.get(F::Name).trim(),
            "heads": { "labels": labels(self.get(F::Labels)) },
            "rings": rings,
            "aim": {
                "least": self.value(F::LeastAim),
                "greatest": self.value(F::GreatestAim),
                "target": self.value(F::TargetAim),
            },
            "mark_out": {
                "inner": self.value(F::Inner),
                "corner_gap_least": self.value(F::CornerGap),
            },
            "holes": { "head": self.value(F::Hole) },
        });
        if let Some(first) = lifts.first() {
            sheet["heads"]["comes_with"] = json!(plain(*first));
        }
        if given(F::Depth) {
            sheet["heads"]["depth"] = self.value(F::Depth);
        }
        if given(F::InsertLift) || given(F::InsertHole) {
            sheet["inserts"] = json!([{
                "name": plain(number(self.get(F::InsertLift)).unwrap_or(0.0)),
                "lift": self.value(F::InsertLift),
                "hole": self.value(F::InsertHole),
                "needed_for": ["metal"],
            }]);
        }
        if given(F::Cycles) || given(F::SilentSeconds) {
            let silent = number(self.get(F::SilentSeconds))
                .map_or_else(|| self.value(F::SilentSeconds), |s| json!(s * 1000.0));
            sheet["obstacle_learn"] = json!({ "cycles": self.value(F::Cycles), "silent": silent });
        }
        if given(F::LeadLength) {
            sheet["leads"] = json!({ "head": { "length": self.value(F::LeadLength) } });
        }
        sheet
    }
}

fn fault_of(field: QuickField, typed: &str) -> Option<Why> {
    let kind = rule(field.path())?;
    single(&as_value(&kind, typed), &kind)
}

fn twice(labels: &[&str]) -> Option<Why> {
    let (_, label) = labels
        .iter()
        .enumerate()
        .find(|(i, label)| labels[..*i].contains(label))?;
    Some(Why::Twice {
        value: (*label).to_owned(),
    })
}

/// A figure as it is called: `9`, `2.5`.
fn plain(value: f64) -> String {
    value.to_string()
}

/// Labels: divided by commas or semicolons where there are any, else by spaces.
fn labels(typed: &str) -> Vec<&str> {
    let divided = typed.contains([',', ';']);
    typed
        .split(move |c: char| {
            if divided {
                c == ',' || c == ';'
            } else {
                c.is_whitespace()
            }
        })
        .map(str::trim)
        .filter(|label| !label.is_empty())
        .collect()
}

enum ListFault {
    Why(Why),
    /// `2,5` may be two rings or one of two and a half.
    Unclear,
}

impl ListFault {
    fn message(&self) -> Message {
        match self {
            Self::Why(why) => why.message(),
            Self::Unclear => msg("quick-list-unclear"),
        }
    }
}

/// Figures divided by spaces, semicolons, or commas with a space; by commas
/// alone where there are several.
fn rings(typed: &str) -> Result<Vec<f64>, ListFault> {
    let typed = typed.trim();
    if typed.is_empty() {
        return Err(ListFault::Why(Why::Missing));
    }
    if says_inches(typed) {
        return Err(ListFault::Why(Why::NotANumber));
    }
    let spaced = typed.contains(|c: char| c.is_whitespace() || c == ';');
    let commas = typed.matches(',').count();
    if !spaced && commas == 1 && !typed.contains('.') {
        return Err(ListFault::Unclear);
    }
    typed
        .split(|c: char| c.is_whitespace() || c == ';' || (c == ',' && !spaced))
        .map(|part| part.trim_matches(','))
        .filter(|part| !part.is_empty())
        .map(|part| number(part).ok_or(ListFault::Why(Why::NotANumber)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::{Material, parse, to_json};
    use crate::units::{Degrees, Millimetres, Millis};

    fn typed(change: &[(QuickField, &str)]) -> QuickSheet {
        use QuickField as F;
        let mut quick = QuickSheet::default();
        for (field, text) in [
            (F::Name, "Shelf kit"),
            (F::Labels, "1 2 3 4"),
            (F::Hole, "21"),
            (F::Rings, "2 5 9 14"),
            (F::Inner, "280"),
            (F::CornerGap, "180"),
            (F::LeastAim, "0"),
            (F::GreatestAim, "9"),
            (F::TargetAim, "4"),
        ] {
            quick.set(field, text);
        }
        for (field, text) in change {
            quick.set(*field, *text);
        }
        quick
    }

    fn fault(quick: &QuickSheet) -> Vec<(QuickField, String)> {
        let faults = quick.sheet().unwrap_err();
        faults
            .into_iter()
            .map(|(f, m)| (f, m.key.into_owned()))
            .collect()
    }

    #[test]
    fn nine_fields_make_a_sheet_and_the_rest_is_not_given() {
        let sheet = typed(&[]).sheet().unwrap();
        assert_eq!(sheet.heads.labels, ["1", "2", "3", "4"]);
        assert_eq!(sheet.heads.comes_with.as_deref(), Some("2"));
        assert_eq!(sheet.rings[2].name, "9");
        assert_eq!(sheet.rings[3].lift, Degrees(14.0));
        assert_eq!(sheet.heads.depth, None);
        assert_eq!(sheet.leads, None);
        assert_eq!(sheet.obstacle_learn, None);
        assert!(sheet.inserts.is_empty());
        assert_eq!(parse(&to_json(&sheet)), Ok(sheet));
    }

    #[test]
    fn all_fields_go_where_they_belong() {
        use QuickField as F;
        let sheet = typed(&[
            (F::Depth, "17,5"),
            (F::InsertLift, "7"),
            (F::InsertHole, "28"),
            (F::Cycles, "6"),
            (F::SilentSeconds, "4"),
            (F::LeadLength, "2400"),
        ])
        .sheet()
        .unwrap();
        assert_eq!(sheet.heads.depth, Some(Millimetres(17.5)));
        assert_eq!(sheet.inserts[0].hole, Millimetres(28.0));
        assert_eq!(sheet.inserts[0].needed_for, [Material::Metal]);
        let learn = sheet.obstacle_learn.unwrap();
        assert_eq!((learn.cycles, learn.silent), (6, Millis(4000.0)));
        let head = sheet.leads.and_then(|l| l.head).unwrap();
        assert_eq!(head.length, Millimetres(2400.0));
    }

    #[test]
    fn each_wrong_field_is_named_with_what_is_wrong() {
        use QuickField as F;
        let quick = typed(&[
            (F::Hole, "0.8"),
            (F::Labels, "1 2 2 4"),
            (F::LeastAim, "zero"),
        ]);
        let faults = fault(&quick);
        assert!(faults.contains(&(F::Hole, "kit-fault-looks-like-inches".to_owned())));
        assert!(faults.contains(&(F::LeastAim, "kit-fault-not-a-number".to_owned())));
        assert_eq!(quick.check(F::Labels).unwrap().key, "kit-fault-twice");
        assert_eq!(quick.check(F::Rings), None);
    }

    #[test]
    fn an_empty_form_names_the_nine_fields_that_are_needed() {
        let faults = fault(&QuickSheet::default());
        let missing = faults.iter().filter(|(_, key)| key == "kit-fault-missing");
        assert_eq!(missing.count(), 9);
        assert_eq!(faults.len(), 9, "{faults:?}");
    }

    #[test]
    fn an_insert_and_a_learn_come_in_twos() {
        use QuickField as F;
        let faults = fault(&typed(&[(F::InsertLift, "7"), (F::Cycles, "6")]));
        let missing = "kit-fault-missing".to_owned();
        assert!(faults.contains(&(F::InsertHole, missing.clone())));
        assert!(faults.contains(&(F::SilentSeconds, missing)));
    }

    #[test]
    fn a_single_comma_between_figures_is_asked_about() {
        use QuickField as F;
        let lifts = |text: &str| {
            let sheet = typed(&[(F::Rings, text)]).sheet();
            sheet.map(|s| s.rings.iter().map(|r| r.lift.0).collect::<Vec<_>>())
        };
        assert_eq!(
            fault(&typed(&[(F::Rings, "2,5")])),
            [(F::Rings, "quick-list-unclear".to_owned())]
        );
        assert_eq!(lifts("2,5,9"), Ok(vec![2.0, 5.0, 9.0]));
        assert_eq!(lifts("2, 5, 9"), Ok(vec![2.0, 5.0, 9.0]));
        assert_eq!(lifts("2,5 5"), Ok(vec![2.5, 5.0]));
        assert_eq!(lifts("2.5;5"), Ok(vec![2.5, 5.0]));
    }

    #[test]
    fn a_least_above_its_greatest_is_shown_at_the_aim() {
        use QuickField as F;
        let faults = fault(&typed(&[(F::LeastAim, "10")]));
        assert_eq!(
            faults,
            [(F::LeastAim, "kit-fault-least-above-greatest".to_owned())]
        );
        let faults = fault(&typed(&[(F::CornerGap, "600")]));
        assert_eq!(
            faults,
            [(F::CornerGap, "kit-fault-least-above-greatest".to_owned())]
        );
    }
}
