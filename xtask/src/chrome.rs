//! The Chromium for browser tests.

use std::path::PathBuf;

use anyhow::{Result, bail};

use crate::tools;

const NAMES: [&str; 5] = [
    "chromium",
    "chromium-browser",
    "google-chrome-stable",
    "google-chrome",
    "chrome",
];

/// The browser that `CHROME` names, else one in PATH, else Debian's, freshly installed.
pub fn ensure() -> Result<PathBuf> {
    if let Some(named) = std::env::var_os("CHROME").filter(|named| !named.is_empty()) {
        let path = PathBuf::from(&named);
        if path.is_file() {
            return Ok(path);
        }
        return match named.to_str().and_then(|name| tools::in_path(&[name])) {
            Some(found) => Ok(found),
            None => bail!("CHROME names '{}', which is not there", path.display()),
        };
    }
    if let Some(found) = tools::in_path(&NAMES) {
        return Ok(found);
    }
    if tools::apt_install("chromium")?
        && let Some(found) = tools::in_path(&NAMES)
    {
        return Ok(found);
    }
    bail!("no Chromium found: install it (Debian: apt-get install chromium) or name one in CHROME")
}
