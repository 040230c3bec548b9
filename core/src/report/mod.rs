//! The job sheet: one document for screen, print and PDF. Pages at full size:
//! the template of the marks and the mark cards.

mod fitting;
mod job_sheet;
mod learned;
#[cfg(feature = "pdf")]
mod lettering;
mod mark_cards;
mod paper;
#[cfg(feature = "pdf")]
mod pdf;
mod quote_sheet;
mod template;
mod template_facts;
pub mod tiles;
mod workshop;

pub use job_sheet::job_sheet;
pub use mark_cards::mark_cards;
pub use paper::{Page, Pages, Paper};
#[cfg(feature = "pdf")]
pub use pdf::{PdfFault, pdf};
pub use quote_sheet::quote_sheet;
pub use template::template;
pub use template_facts::{AcrossLine, TemplateFacts, TemplateHead, Unrolled, template_facts};
pub use workshop::workshop_sheet;

use crate::drawing::Drawing;
use crate::text::Message;

/// A piece of a section.
#[derive(Clone, Debug, PartialEq)]
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
}

/// A part of a document under one heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its heading.
    pub heading: Message,
    /// What it holds.
    pub blocks: Vec<Block>,
}

/// A document.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// Its title.
    pub title: Message,
    /// Its sections in order.
    pub sections: Vec<Section>,
}
