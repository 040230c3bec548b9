//! The shell of Rakeline: screens, words, devices. What is decided and
//! measured stands in `rakeline-core`.
//!
//! # Where to start
//! [`app::App`] shows the screen of a [`route::Route`]; a screen reads
//! [`driver::AppState`] and sends [`driver::Intent`]s; [`driver::handle`]
//! turns them into the next state and actions; [`shell`] performs those on a
//! [`platform::Platform`].

pub mod app;
pub mod driver;
mod parts;
pub mod platform;
pub mod route;
mod sample_job;
mod screens;
pub mod shell;
pub mod texts;
