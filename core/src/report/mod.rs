//! The job sheet: one document for screen, print and PDF. Pages at full size:
//! the template of the marks and the mark cards.

mod angles;
mod customer;
mod fitting;
mod head_row;
mod job_sheet;
mod kept;
mod learned;
#[cfg(feature = "pdf")]
mod lettering;
mod look;
mod mark_cards;
mod paper;
#[cfg(feature = "pdf")]
mod pdf;
#[cfg(feature = "pdf")]
mod printed;
mod quote_sheet;
mod template;
mod template_facts;
pub mod tiles;
mod walk;
mod walk_sheet;
#[cfg(feature = "pdf")]
mod wording;
mod workshop;

pub use customer::customer_sheet;
pub use job_sheet::job_sheet;
pub use kept::kept;
pub use look::{Length, Logo, SheetLook};
pub use mark_cards::mark_cards;
pub use paper::{Page, Pages, Paper};
#[cfg(feature = "pdf")]
pub use pdf::{PdfFault, pdf};
#[cfg(feature = "pdf")]
pub use printed::{ON_PAPER, Pictures, for_paper, sheet_pdf};
pub use quote_sheet::quote_sheet;
pub use template::template;
pub use template_facts::{AcrossLine, TemplateFacts, TemplateHead, Unrolled, template_facts};
pub use walk::workshop_walk;
pub use walk_sheet::walk_sheet;
pub use workshop::workshop_sheet;

use serde::{Deserialize, Serialize};

use crate::drawing::Drawing;
use crate::job::Note;
use crate::text::Message;

/// A piece of a section.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Block {
    /// Names and values.
    Pairs(Vec<(Message, Message)>),
    /// A table; each row has as many cells as the head.
    Table {
        /// Column heads.
        head: Vec<Message>,
        /// Rows.
        rows: Vec<Vec<Message>>,
    },
    /// Sentences one below the other.
    Lines(Vec<Message>),
    /// A drawing.
    Drawing(Drawing),
    /// Photos side by side.
    Photos(Vec<SheetPhoto>),
}

/// A photo on the sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetPhoto {
    /// Key of the picture in the blob store.
    pub blob: String,
    /// What it shows, for below it.
    pub caption: Message,
    /// Width and height, pixels.
    pub size: (u32, u32),
    /// What is drawn on it.
    pub notes: Vec<Note>,
}

/// A part of a document under one heading.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Section {
    /// Its heading.
    pub heading: Message,
    /// What it holds.
    pub blocks: Vec<Block>,
}

/// A document.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Document {
    /// Its title.
    pub title: Message,
    /// Its sections in order.
    pub sections: Vec<Section>,
}

impl Document {
    /// Keys of the pictures that the document shows, each once.
    #[must_use]
    pub fn pictures(&self) -> Vec<String> {
        let mut keys = Vec::new();
        for block in self.sections.iter().flat_map(|section| &section.blocks) {
            if let Block::Photos(photos) = block {
                for photo in photos {
                    if !keys.contains(&photo.blob) {
                        keys.push(photo.blob.clone());
                    }
                }
            }
        }
        keys
    }
}
