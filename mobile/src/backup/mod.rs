//! Backups: one zip with every job, its photos and papers, locked with a
//! passphrase by age; and the way back.
//!
//! The page reads the store and hands items to the worker, which zips and
//! locks them; what comes back is written out piece by piece. On the way
//! back the file goes to the worker piece by piece and comes out as items.
//! Neither side ever holds more than some pieces.

mod about;
pub mod items;
mod limits;
mod make;
mod named;
mod pictures;
mod plan;
mod restore;
mod settings;
mod taking;
mod talk;

#[cfg(feature = "worker")]
mod export;
#[cfg(feature = "worker")]
mod lock;
#[cfg(feature = "worker")]
mod session;
#[cfg(feature = "worker")]
mod sheet_data;
#[cfg(feature = "worker")]
pub mod unzip;
#[cfg(feature = "worker")]
pub mod zip;
#[cfg(feature = "worker")]
mod zip_bytes;
#[cfg(feature = "worker")]
mod zip_fault;

pub use limits::*;
pub use make::{BackupOf, Made, Progress, make};
pub use plan::{Brings, Found, KitDiffers, Plan, Side, Verdict};
pub use restore::look_into;
pub use taking::{Restored, take_in};
pub use talk::{BackupTask, Passphrase, Stop};

#[cfg(feature = "worker")]
pub use session::work;
#[cfg(feature = "worker")]
pub use sheet_data::{SHEET_SCHEMA, sheet_data};
