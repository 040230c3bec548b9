//! The pure part of Rakeline: what a fitter's phone must know to retrofit
//! parking sensors so that every head points level or a little up.
//!
//! # Where to start
//! A job lives in [`job`]: events are facts, [`job::apply`] is the only way a
//! job changes. Measured values come from [`estimate`] (face angles from
//! [`sample`]s), decisions from [`decide`] (mark-out, ring set) by the limits
//! of a [`kit::KitSheet`]. [`drawing`] and [`report`] turn a job into what is
//! seen and printed; [`diagnose`] says why a system gives false alarms; [`record`] is how it is stored;
//! [`again`] is what earlier jobs of a model teach the next.
//!
//! Modules import only from those above them in this list; a test reads the
//! `use` lines. No clock, file, network, randomness or log: time and bytes
//! are arguments. All words are keys of `assets/texts/en.ftl`, see [`text`].
//!
//! # Frames
//! Vehicle: x right, y forward, z up, origin on the ground under the centre
//! line at the bumper's rearmost point. Offsets along the bumper are signed
//! from the centre line, + to the right seen from behind.

pub mod units;

pub mod text;

pub mod figure;

pub mod json;

pub mod order;

pub mod table;

pub mod moment;

pub mod sample;

pub mod estimate;

pub mod kit;

pub mod steps;

pub mod decide;

pub mod learn;

pub mod job;

pub mod drawing;

pub mod diagnose;

pub mod record;

pub mod again;

pub mod report;
