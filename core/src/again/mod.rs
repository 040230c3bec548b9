//! Same again: what earlier jobs on a model teach the next one.
//!
//! A [`Lesson`] is what one job teaches, without its customer. [`offer`]
//! pools the lessons of a model into what the next vehicle is expected to
//! be like, and hands it on as [`crate::job::Handed`]; whether this vehicle
//! agrees is asked in [`crate::job::faces_agree`]. [`VehicleName`] says
//! which jobs are of the same model, [`passed`] is the file that goes to a
//! colleague, [`fleet`] several vehicles from one job.

mod amounts;
pub mod fleet;
mod kinds;
mod kit_words;
mod lesson;
mod name;
mod offer;
pub mod passed;
mod pictures;
mod pool;
mod secrets;
mod told;
mod words;
mod years;

pub use fleet::{FLEET_GREATEST, Fleet, FleetParts, fleet_parts};
pub use lesson::{FaceLearned, HandedOver, Lesson, TaughtBy, lesson};
pub use name::{Body, Likeness, VehicleName};
pub use offer::{Line, Offer, OfferLine, SAME_BUMPER, is_same_job, offer, offer_of};
pub use passed::{
    ModelWords, PassedFault, PassedOn, TEACHES_GREATEST, model_words, pass_on, read_passed,
};
pub use pictures::{PICTURES_GREATEST, Picture, pictures};
pub use pool::{Expected, Pooled, SPREAD_SCALE, expected, paule_mandel};
pub use told::Told;
