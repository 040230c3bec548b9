//! Mark-out: where the heads go.
