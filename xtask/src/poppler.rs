//! Poppler for tests that read and render PDFs.

use anyhow::{Result, bail};

use crate::tools;

/// What the tests call.
const PROGRAMS: [&str; 3] = ["pdftoppm", "pdftotext", "pdffonts"];

/// Makes sure that poppler's programs are in PATH, freshly installed where that can be done.
pub fn ensure() -> Result<()> {
    let there = || {
        PROGRAMS
            .iter()
            .all(|name| tools::in_path(&[name]).is_some())
    };
    if there() || (tools::apt_install("poppler-utils")? && there()) {
        return Ok(());
    }
    bail!("no poppler found: install it (Debian: apt-get install poppler-utils)")
}
