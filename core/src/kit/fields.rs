//! The fields of a sheet as an editor shows them.

use super::rules::{Kind, Need, SHEET, Unit};

/// What an editor must know about a field.
#[derive(Clone, Debug, PartialEq)]
pub struct FieldInfo {
    /// Its path, with `[]` for the entries of a list: `rings[].lift`.
    pub path: String,
    /// How it is typed.
    pub entry: Entry,
    /// Whether a sheet can do without it.
    pub need: FieldNeed,
}

/// Whether a sheet can do without a field.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FieldNeed {
    /// It must be there where its group is.
    Required,
    /// It may stay 'not given', or a stated default holds.
    MayBeMissing,
}

/// How a field is typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Entry {
    /// A number in a unit.
    Number(Unit),
    /// A text.
    Text,
    /// One of these words.
    OneOf(&'static [&'static str]),
    /// `true` or `false`.
    Switch,
    /// A list; its entries' fields follow with `[]` in their paths.
    List,
}

/// Every field of a sheet in the order of an editor; groups are opened.
#[must_use]
pub fn fields() -> Vec<FieldInfo> {
    let mut all = Vec::new();
    for field in SHEET {
        if field.name != "rakeline_kit" {
            describe(
                field.name.to_owned(),
                &field.kind,
                need(field.need),
                &mut all,
            );
        }
    }
    all
}

fn need(need: Need) -> FieldNeed {
    match need {
        Need::Required => FieldNeed::Required,
        Need::Defaulted | Need::Optional => FieldNeed::MayBeMissing,
    }
}

fn describe(path: String, kind: &Kind, need_here: FieldNeed, all: &mut Vec<FieldInfo>) {
    let entry = match kind {
        Kind::Group(fields) => {
            for field in *fields {
                let below = format!("{path}.{}", field.name);
                describe(below, &field.kind, need(field.need), all);
            }
            return;
        }
        Kind::Number { unit, .. } => Entry::Number(*unit),
        Kind::Whole { .. } => Entry::Number(Unit::Count),
        Kind::Text { .. } => Entry::Text,
        Kind::OneOf(words) => Entry::OneOf(words),
        Kind::Switch => Entry::Switch,
        Kind::List { .. } => Entry::List,
    };
    all.push(FieldInfo {
        path: path.clone(),
        entry,
        need: need_here,
    });
    if let Kind::List { of, .. } = kind {
        describe(format!("{path}[]"), of, FieldNeed::Required, all);
    }
}
