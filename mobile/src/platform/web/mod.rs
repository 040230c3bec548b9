//! The browser.
