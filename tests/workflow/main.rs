//! t
mod template;
