//! Whole jobs on the memory platform, and what comes out of the app.
mod full_size;
mod mark_cards;
mod template;
