//! A sheet line by line, as an editor or a page shows it: lists opened to
//! their entries, each field with its path, name and how it is typed.

use super::fault::place;
use super::{Draft, Entry, FieldInfo, FieldNeed, fields};
use crate::text::{Message, msg};

/// One line of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Where it stands: `rings[2].lift`.
    pub path: String,
    /// Its name, with the number of its entry if it is in a list.
    pub name: Message,
    /// What the line is.
    pub kind: LineKind,
}

/// What a line is.
#[derive(Clone, Debug, PartialEq)]
pub enum LineKind {
    /// A field to be typed or chosen.
    Field(Entry, FieldNeed),
    /// The head of a list; its entries follow.
    List,
    /// The head of one entry of a list; its fields follow.
    EntryOf {
        /// Path of the list.
        list: String,
        /// Which entry, from 0.
        index: usize,
    },
}

/// A group of lines under one name, in the order of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct LineGroup {
    /// The name of the field of the sheet that holds them all.
    pub top: String,
    /// What it is called.
    pub name: Message,
    /// The lines.
    pub lines: Vec<Line>,
}

/// All lines of a sheet as it is typed, by group. Single fields of the sheet
/// itself come first.
#[must_use]
pub fn line_groups(draft: &Draft) -> Vec<LineGroup> {
    let all = fields();
    let mut lines = Vec::new();
    open(&all, "", "", draft, &mut lines);
    let mut groups = vec![LineGroup {
        top: String::new(),
        name: msg("kit-group-sheet"),
        lines: Vec::new(),
    }];
    for line in lines {
        let top = line.path.split(['.', '[']).next().unwrap_or_default();
        let is_single = top == line.path && matches!(line.kind, LineKind::Field(..));
        let wanted = if is_single { "" } else { top };
        match groups.iter_mut().find(|group| group.top == wanted) {
            Some(group) => group.lines.push(line),
            None => groups.push(LineGroup {
                top: wanted.to_owned(),
                name: place(wanted),
                lines: vec![line],
            }),
        }
    }
    groups
}

/// Opens a run of fields below `pattern`, which stands at `here`.
fn open(fields: &[FieldInfo], pattern: &str, here: &str, draft: &Draft, all: &mut Vec<Line>) {
    let mut rest = fields;
    while let [field, after @ ..] = rest {
        rest = after;
        let path = format!("{here}{}", field.path.strip_prefix(pattern).unwrap_or(""));
        let line = |path: &str, kind| Line {
            path: path.to_owned(),
            name: place(path),
            kind,
        };
        if field.entry != Entry::List {
            all.push(line(
                &path,
                LineKind::Field(field.entry.clone(), field.need),
            ));
            continue;
        }
        let inner_pattern = format!("{}[]", field.path);
        let inside = after
            .iter()
            .take_while(|below| below.path.starts_with(&inner_pattern))
            .count();
        let (inner, beyond) = after.split_at(inside);
        rest = beyond;
        all.push(line(&path, LineKind::List));
        for index in 0..draft.entries(&path) {
            let entry = format!("{path}[{index}]");
            let list = path.clone();
            all.push(line(&entry, LineKind::EntryOf { list, index }));
            open(inner, &inner_pattern, &entry, draft, all);
        }
    }
}

/// A word that a sheet may hold, as the fitter reads it.
#[must_use]
pub fn word(raw: &str) -> Message {
    msg(match raw {
        "plastic" => "kit-word-plastic",
        "fibre" => "kit-word-fibre",
        "metal" => "kit-word-metal",
        "display" => "kit-word-display",
        "speaker" => "kit-word-speaker",
        "both" => "kit-word-both",
        "beep" => "kit-word-beep",
        "light" => "kit-word-light",
        "nothing" => "kit-word-nothing",
        "one_way" => "kit-word-one-way",
        "two_way" => "kit-word-two-way",
        "true" => "kit-word-yes",
        "false" => "kit-word-no",
        _ => return msg("literal").text("text", raw),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::parse;

    const METAL: &str = include_str!("../../../assets/kits/metal-four.json");

    #[test]
    fn lists_open_to_their_entries_and_every_path_can_be_typed_at() {
        let mut draft = Draft::of(&parse(METAL).unwrap());
        let groups = line_groups(&draft);
        let lines: Vec<&Line> = groups.iter().flat_map(|group| &group.lines).collect();
        let paths: Vec<&str> = lines.iter().map(|line| line.path.as_str()).collect();
        for wanted in [
            "name",
            "heads.labels[3]",
            "rings[3].lift",
            "inserts[1].needed_for[0]",
            "totals[1].insert",
            "leads.head.length",
        ] {
            assert!(paths.contains(&wanted), "{wanted} in {paths:?}");
        }
        let before = draft.clone();
        for line in lines {
            if matches!(line.kind, LineKind::Field(..)) {
                let typed = draft.typed(&line.path);
                draft.set(&line.path, &typed);
            }
        }
        assert_eq!(draft.sheet(), before.sheet());
    }

    #[test]
    fn single_fields_of_the_sheet_stand_together_first() {
        let groups = line_groups(&Draft::blank());
        assert_eq!(groups[0].lines[0].path, "name");
        assert!(groups.iter().skip(1).all(|group| !group.top.is_empty()));
    }
}
