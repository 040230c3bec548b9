//! The speech synthesiser that the bench of listening needs.

use anyhow::{Result, bail};

use crate::tools;

/// Makes sure that espeak-ng is in PATH, freshly installed where that can be done.
pub fn ensure() -> Result<()> {
    let there = || tools::in_path(&["espeak-ng"]).is_some();
    if there() || (tools::apt_install("espeak-ng")? && there()) {
        return Ok(());
    }
    bail!("no espeak-ng found: install it (Debian: apt-get install espeak-ng)")
}
