//! The job sheet: one document for screen, print and PDF.

mod job_sheet;

pub use job_sheet::job_sheet;

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
