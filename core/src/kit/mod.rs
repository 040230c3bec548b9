//! Kit sheets: the description of a kit.
