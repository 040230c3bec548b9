//! How an entry of the list is stored beside its record: one line, so that
//! ten thousand are read in a moment. It holds nothing that the record does
//! not: one that is missing, of another version or in doubt is made anew.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::{JobId, Standing};

use super::entry::JobEntry;
use super::intent::Place;
use super::{JOB_PREFIX, TRASH_PREFIX};
use crate::platform::Write;

/// Key of a brief: this, then the key of its record.
pub const BRIEF_PREFIX: &str = "brief/";

/// The form that is written. Another form is made anew from its record.
pub const BRIEF_VERSION: &str = "2";

/// Parts the fields; no text of an entry holds it.
const FIELD: char = '\u{1f}';
/// Parts what stands in one field.
const ITEM: char = '\u{1e}';

/// The key of the brief of a job's record in this place.
#[must_use]
pub fn key(place: Place, id: &JobId) -> String {
    format!("{BRIEF_PREFIX}{}", place.key(id))
}

/// Where a deleted or a kept job's entry belongs.
#[must_use]
pub fn place(entry: &JobEntry) -> Place {
    match entry.deleted {
        Some(_) => Place::Trash,
        None => Place::Jobs,
    }
}

/// The step that keeps an entry in its place.
#[must_use]
pub fn put(entry: &JobEntry) -> Write {
    Write::Put {
        key: key(place(entry), &entry.id),
        value: write(entry),
    }
}

fn moment(at: &DateTime<FixedOffset>) -> String {
    let offset = at.offset().local_minus_utc();
    format!("{}{ITEM}{offset}", at.timestamp_millis())
}

fn maybe(at: Option<&DateTime<FixedOffset>>) -> String {
    at.map(moment).unwrap_or_default()
}

/// The text of an entry.
#[must_use]
pub fn write(entry: &JobEntry) -> String {
    let standing = Standing::ALL.iter().position(|one| *one == entry.standing);
    let items = ITEM.to_string();
    let fields = [
        BRIEF_VERSION.to_owned(),
        entry.name.clone(),
        entry.vehicle.clone(),
        entry.customer.clone(),
        entry.plate.clone(),
        entry.numbers.clone(),
        moment(&entry.created),
        moment(&entry.changed),
        entry.revision.to_string(),
        entry.read.to_string(),
        entry.heads.to_string(),
        standing.unwrap_or_default().to_string(),
        entry.kit.clone(),
        format!("{:x}", entry.kit_print),
        maybe(entry.taken_at.as_ref()),
        entry.parts_text.clone(),
        entry.blobs.join(&items),
        maybe(entry.deleted.as_ref()),
        format!("{:x}", entry.sum),
    ];
    fields.join(&FIELD.to_string())
}

fn read_moment(text: &str) -> Option<DateTime<FixedOffset>> {
    let (ms, offset) = text.split_once(ITEM)?;
    let at = DateTime::from_timestamp_millis(ms.parse().ok()?)?;
    Some(at.with_timezone(&FixedOffset::east_opt(offset.parse().ok()?)?))
}

fn read_maybe(text: &str) -> Option<Option<DateTime<FixedOffset>>> {
    if text.is_empty() {
        return Some(None);
    }
    read_moment(text).map(Some)
}

/// The entry of a brief under its key; `None` for one of another form, or
/// in another's place.
#[must_use]
pub fn read(key: &str, text: &str) -> Option<JobEntry> {
    let record = key.strip_prefix(BRIEF_PREFIX)?;
    let (id, in_trash) = match record.strip_prefix(JOB_PREFIX) {
        Some(id) => (id, false),
        None => (record.strip_prefix(TRASH_PREFIX)?, true),
    };
    let mut fields = text.split(FIELD);
    if fields.next()? != BRIEF_VERSION {
        return None;
    }
    let mut next = || fields.next();
    let mut entry = JobEntry {
        id: JobId(id.to_owned()),
        name: next()?.to_owned(),
        vehicle: next()?.to_owned(),
        customer: next()?.to_owned(),
        plate: next()?.to_owned(),
        numbers: next()?.to_owned(),
        created: read_moment(next()?)?,
        changed: read_moment(next()?)?,
        revision: next()?.parse().ok()?,
        read: next()?.parse().ok()?,
        heads: next()?.parse().ok()?,
        standing: *Standing::ALL.get(next()?.parse::<usize>().ok()?)?,
        kit: next()?.to_owned(),
        kit_print: u64::from_str_radix(next()?, 16).ok()?,
        taken_at: read_maybe(next()?)?,
        parts_text: next()?.to_owned(),
        blobs: {
            let all = next()?.split(ITEM).filter(|blob| !blob.is_empty());
            all.map(str::to_owned).collect()
        },
        deleted: read_maybe(next()?)?,
        sum: u64::from_str_radix(next()?, 16).ok()?,
        found_by: String::new(),
    };
    if fields.next().is_some() || entry.deleted.is_some() != in_trash {
        return None;
    }
    entry.index();
    Some(entry)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry() -> JobEntry {
        let kit = rakeline_core::kit::parse(include_str!("../../../assets/kits/plain-four.json"));
        let at = DateTime::parse_from_rfc3339("2026-03-12T09:30:00.125+05:45").unwrap();
        let id = JobId("a1".to_owned());
        let mut job = crate::sample_job::build(id, kit.unwrap(), at).unwrap();
        job.name = " Dent \u{1f} and\n\u{1e}line \u{1F6A7} ".to_owned();
        JobEntry::of(&job, "text of the record")
    }

    #[test]
    fn an_entry_comes_back_the_same_from_either_place() {
        let mut entry = entry();
        let text = write(&entry);
        assert_eq!(read("brief/job/a1", &text), Some(entry.clone()));
        assert_eq!(read("brief/trash/a1", &text), None);
        entry.deleted = Some(entry.changed);
        entry.blobs = vec!["behind-a1-5".to_owned(), "level-a1-6".to_owned()];
        entry.taken_at = Some(entry.created);
        entry.parts_text = "[]".to_owned();
        let text = write(&entry);
        assert_eq!(read("brief/trash/a1", &text), Some(entry));
        assert_eq!(read("brief/job/a1", &text), None);
    }

    #[test]
    fn signs_that_part_an_entry_are_not_taken_from_what_was_typed() {
        let entry = entry();
        assert_eq!(entry.name, "Dent   and  line \u{1F6A7}");
        assert_eq!(write(&entry).matches('\u{1f}').count(), 18);
    }

    #[test]
    fn a_brief_of_another_version_or_cut_off_is_made_anew() {
        let text = write(&entry());
        assert!(read("brief/job/a1", &text).is_some());
        assert_eq!(read("brief/job/a1", &text.replacen('2', "1", 1)), None);
        assert_eq!(read("brief/job/a1", &format!("{text}\u{1f}more")), None);
        for fields in 0..18 {
            let cut: Vec<&str> = text.split('\u{1f}').take(fields).collect();
            assert_eq!(read("brief/job/a1", &cut.join("\u{1f}")), None, "{fields}");
        }
        assert_eq!(read("job/a1", &text), None);
    }
}
