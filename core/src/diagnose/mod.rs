//! Why a system gives false alarms or misses: each possible cause with what
//! speaks for it, against it, and what is not known, out of the job's record
//! and of what was found at the car.
//!
//! Start with [`diagnose`]. The weights are data in `weights.rs`; `aim`,
//! `fit`, `feed`, `field`, `plugs` and `walked` say what the record holds,
//! `seen` what the heads are predicted to see.
//! Nothing is hidden: a suspect's points are the sum of its evidence, its
//! prior and how it fits the symptoms.

mod aim;
mod cause;
mod contradict;
mod evidence;
mod feed;
mod field;
mod fit;
mod next;
mod plugs;
mod seen;
mod walked;
mod weigh;
mod weights;

pub use cause::Cause;
pub use evidence::{Evidence, From};
pub use next::{Question, next_question};
pub use weigh::{Diagnosis, Suspect, diagnose};
