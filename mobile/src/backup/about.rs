//! What an archive is called, what it says of itself, and how much fits in.

use chrono::{DateTime, FixedOffset};
use rakeline_core::text::{Message, msg};
use rakeline_core::{json, moment, record};
use serde_json::{Map, Value};

use super::limits::{BACKUP_VERSION, MOST_ENTRIES};
use super::make::BackupOf;
use super::talk::BackupTask;
use crate::driver::{JOB_PREFIX, TRASH_PREFIX};
use crate::texts::say;

/// Whether an archive of so many records and pictures could be taken in
/// again: each record may bring a paper, and the archive says what it is.
pub(super) fn fits(records: usize, pictures: usize) -> Result<(), Message> {
    let entries = 2 * records + pictures + 1;
    if entries <= MOST_ENTRIES {
        return Ok(());
    }
    let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
    Err(msg("backup-too-many")
        .count("entries", count(entries))
        .count("limit", count(MOST_ENTRIES)))
}

/// Name and kind of the file, and how the worker begins it.
pub(super) fn file(
    of: &BackupOf,
    now: DateTime<FixedOffset>,
) -> (String, &'static str, BackupTask) {
    let day = moment::sorted_date(&now);
    let words = match of {
        BackupOf::All(_) => msg("backup-file").text("day", day),
        BackupOf::Job(id, _) => msg("backup-file-job")
            .text("day", day)
            .text("job", id.0.clone()),
        BackupOf::Tables => msg("export-file").text("day", day),
    };
    let zip = format!("{}.zip", say(&words));
    match of {
        BackupOf::Tables => (zip, "application/zip", BackupTask::StartTables),
        BackupOf::All(None) | BackupOf::Job(_, None) => {
            (zip, "application/zip", BackupTask::Start(None))
        }
        BackupOf::All(locked) | BackupOf::Job(_, locked) => (
            format!("{zip}.age"),
            "application/octet-stream",
            BackupTask::Start(locked.clone()),
        ),
    }
}

pub(super) fn manifest(keys: &[String], now: DateTime<FixedOffset>) -> String {
    let count = |prefix: &str| keys.iter().filter(|key| key.starts_with(prefix)).count();
    let about = [
        ("format", Value::from("rakeline-backup")),
        ("version", Value::from(BACKUP_VERSION)),
        ("record_version", Value::from(record::VERSION)),
        ("app", Value::from(env!("CARGO_PKG_VERSION"))),
        ("made", Value::from(now.to_rfc3339())),
        ("jobs", Value::from(count(JOB_PREFIX))),
        ("deleted", Value::from(count(TRASH_PREFIX))),
    ];
    let about: Map<String, Value> = about
        .into_iter()
        .map(|(name, value)| (name.to_owned(), value))
        .collect();
    json::print(&Value::Object(about))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_could_not_be_taken_in_again_is_not_made() {
        assert_eq!(fits(10_000, MOST_ENTRIES - 20_001), Ok(()));
        let refused = fits(10_000, MOST_ENTRIES - 20_000).unwrap_err();
        assert_eq!(refused.key, "backup-too-many");
    }
}
