//! A job as the list knows it: small enough that ten thousand of them are
//! read at the start.

use chrono::{DateTime, FixedOffset};
use rakeline_core::decide::parts::PartLine;
use rakeline_core::job::{
    JobId, JobState, Particular, Standing, blobs_of, parts_taken_at, parts_used,
};
use rakeline_core::json;
use rakeline_core::kit::library::print_of;

/// A job in the list.
#[derive(Clone, Debug, PartialEq)]
pub struct JobEntry {
    /// Its name in the store.
    pub id: JobId,
    /// What it is called, empty if nothing was typed.
    pub name: String,
    /// The vehicle, empty if not typed.
    pub vehicle: String,
    /// The customer, empty if not typed.
    pub customer: String,
    /// The number plate, empty if not typed.
    pub plate: String,
    /// Vehicle's number and kit's serial number, in one; empty if not typed.
    pub numbers: String,
    /// When it was started.
    pub created: DateTime<FixedOffset>,
    /// Its last change.
    pub changed: DateTime<FixedOffset>,
    /// Changes so far.
    pub revision: u64,
    /// Face angles read.
    pub read: usize,
    /// Heads of the kit.
    pub heads: usize,
    /// How it stands with its customer.
    pub standing: Standing,
    /// Name of its kit sheet.
    pub kit: String,
    /// What its kit sheet is recognised by, as it was when fitted.
    pub kit_print: u64,
    /// When the first part was taken from the shelf.
    pub taken_at: Option<DateTime<FixedOffset>>,
    /// The parts it took, as stored; [`JobEntry::parts`] reads them.
    pub parts_text: String,
    /// Keys of its pictures.
    pub blobs: Vec<String>,
    /// When it was deleted, for one among the deleted ones.
    pub deleted: Option<DateTime<FixedOffset>>,
    /// What the text of its record is recognised by.
    pub sum: u64,
    /// All that is searched, in small letters.
    pub found_by: String,
}

impl JobEntry {
    /// The list's view of a job whose record has this text.
    #[must_use]
    pub fn of(job: &JobState, record: &str) -> Self {
        let taken_at = parts_taken_at(job);
        let parts = taken_at.map(|_| parts_used(job)).unwrap_or_default();
        let said = |which| line(job.particular(which));
        let mut entry = Self {
            id: job.id.clone(),
            name: line(&job.name),
            vehicle: said(Particular::Vehicle),
            customer: said(Particular::Customer),
            plate: said(Particular::Plate),
            numbers: [Particular::Vin, Particular::KitSerial]
                .map(|which| without_gaps(&said(which)))
                .join(" ")
                .trim()
                .to_owned(),
            created: job.created,
            changed: job.changed,
            revision: job.revision,
            read: job.read_count(),
            heads: job.spots.len(),
            standing: job.standing,
            kit: line(&job.kit.name),
            kit_print: print_of(&job.kit),
            taken_at,
            parts_text: if parts.is_empty() {
                String::new()
            } else {
                json::write(&parts).unwrap_or_default()
            },
            blobs: blobs_of(job),
            deleted: None,
            sum: json::sum(record),
            found_by: String::new(),
        };
        entry.index();
        entry
    }

    /// The parts it took.
    #[must_use]
    pub fn parts(&self) -> Vec<PartLine> {
        json::read(&self.parts_text).unwrap_or_default()
    }

    /// Fills what is searched: the texts, and plate and numbers without
    /// their gaps.
    pub(super) fn index(&mut self) {
        let plate = without_gaps(&self.plate);
        let texts = [
            &self.name,
            &self.customer,
            &self.vehicle,
            &self.plate,
            &plate,
            &self.numbers,
            &self.kit,
        ];
        self.found_by.clear();
        for text in texts {
            self.found_by.push_str(&text.to_lowercase());
            self.found_by.push('\n');
        }
    }
}

fn without_gaps(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).collect()
}

/// A typed text as one line, without the signs that part a stored entry.
fn line(text: &str) -> String {
    let plain = text.trim().chars();
    plain
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}
