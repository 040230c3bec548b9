//! Values from published sources and from the trade, one module a source.

mod kit_schema;
mod ring_set;
mod ring_set_enumerated;
mod wiring;
