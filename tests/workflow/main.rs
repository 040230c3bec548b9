//! t
mod mark_cards;
mod template;
