//! A document as plain text, as a reader sees it.

use rakeline::texts::say;
use rakeline_core::drawing::{Drawing, Item, Words};
use rakeline_core::report::{Block, Document, SheetPhoto};
use rakeline_core::text::Message;

/// The document, one fact a line.
pub fn text_of(document: &Document) -> String {
    let mut lines = vec![format!("# {}", say(&document.title))];
    for section in &document.sections {
        lines.push(String::new());
        lines.push(format!("## {}", say(&section.heading)));
        for block in &section.blocks {
            match block {
                Block::Pairs(pairs) => {
                    let pair = |(name, value): &(Message, Message)| {
                        format!("{}: {}", say(name), say(value))
                    };
                    lines.extend(pairs.iter().map(pair));
                }
                Block::Lines(sentences) => {
                    lines.extend(sentences.iter().map(|line| format!("- {}", say(line))));
                }
                Block::Table { head, rows } => {
                    lines.push(row(head));
                    lines.extend(rows.iter().map(|cells| row(cells)));
                }
                Block::Drawing(drawing) => lines.push(drawn(drawing)),
                Block::Photos(photos) => {
                    let photo = |photo: &SheetPhoto| format!("photo: {}", say(&photo.caption));
                    lines.extend(photos.iter().map(photo));
                }
            }
        }
    }
    lines.push(String::new());
    lines.join("\n")
}

fn row(cells: &[Message]) -> String {
    let words: Vec<String> = cells.iter().map(say).collect();
    format!("| {} |", words.join(" | "))
}

fn drawn(drawing: &Drawing) -> String {
    let written: Vec<String> = drawing
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Text { words, .. } => Some(match words {
                Words::Message(message) => say(message),
                Words::Literal(text) => text.clone(),
            }),
            _ => None,
        })
        .collect();
    format!("[{}: {}]", say(&drawing.title), written.join(", "))
}
