//! Values from published sources and from the trade, one module a source.

mod ring_set;
