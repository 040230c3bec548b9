//! How a job is stored: a versioned record.
//!
//! What was shown as saved is never lost to a new version: every version's
//! fixture is read by a test for ever, and a record that can't be read is
//! named, kept and never overwritten.

use serde::Serialize;
use serde_json::Value;

use crate::job::JobState;
use crate::json;
use crate::text::{Message, msg};

/// The version that is written.
pub const VERSION: u32 = 1;

#[derive(Serialize)]
struct Record<'a> {
    version: u32,
    job: &'a JobState,
}

/// Why a record can't be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RecordFault {
    /// Not a record at all, or broken off.
    NotARecord {
        /// Where the reader stopped, in its own words.
        why: String,
    },
    /// Written by a newer version of the app.
    Newer {
        /// Its version.
        version: u32,
    },
    /// A record of a known version whose job does not fit it.
    Damaged {
        /// Where the reader stopped, in its own words.
        why: String,
    },
    /// A job that would not come back as it is, so it was not written.
    NotWritten {
        /// Where the reader stopped, in its own words.
        why: String,
    },
}

impl RecordFault {
    /// What the fitter is told, with what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::NotARecord { why } => msg("record-not-a-record").text("why", why.clone()),
            Self::Newer { version } => msg("record-newer")
                .count("version", i64::from(*version))
                .count("known", i64::from(VERSION)),
            Self::Damaged { why } => msg("record-damaged").text("why", why.clone()),
            Self::NotWritten { why } => msg("record-not-written").text("why", why.clone()),
        }
    }
}

/// The text that is stored for a job. It is read back first: what is stored
/// can be read, and is the same job.
///
/// # Errors
/// [`RecordFault::NotWritten`] for a job that does not come back the same,
/// such as one with a figure that is no number. Nothing must be stored then.
pub fn write(job: &JobState) -> Result<String, RecordFault> {
    let record = Record {
        version: VERSION,
        job,
    };
    let not_written = |why: String| RecordFault::NotWritten { why };
    let text = json::write(&record).map_err(|fault| not_written(fault.to_string()))?;
    match read(&text) {
        Ok(back) if back == *job => Ok(text),
        Ok(_) => Err(not_written("it reads back as another job".to_owned())),
        Err(fault) => Err(not_written(format!("{fault:?}"))),
    }
}

/// Reads a stored record of any known version.
///
/// # Errors
/// What is wrong with it; the caller keeps the text as it is.
pub fn read(text: &str) -> Result<JobState, RecordFault> {
    let no_record = |why: String| RecordFault::NotARecord { why };
    let record = json::parse(text).map_err(|at| no_record(json::Fault::from(at).to_string()))?;
    let version = record.get("version").and_then(Value::as_u64);
    let version = version.and_then(|version| u32::try_from(version).ok());
    match (version, record.get("job")) {
        (Some(VERSION), Some(job)) => json::of_value(job).map_err(|fault| RecordFault::Damaged {
            why: fault.to_string(),
        }),
        (Some(version), Some(_)) if version > VERSION => Err(RecordFault::Newer { version }),
        (Some(version), _) => Err(no_record(format!("version {version}"))),
        (None, _) => Err(no_record("no version".to_owned())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::JobId;
    use crate::kit;
    use crate::units::Degrees;

    fn job() -> JobState {
        let sheet = include_str!("../../assets/kits/plain-four.json");
        let at = chrono::DateTime::parse_from_rfc3339("2026-03-12T09:30:00.125+05:45").unwrap();
        JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at)
    }

    #[test]
    fn a_job_comes_back_the_same_with_its_offset() {
        let text = write(&job()).unwrap();
        assert_eq!(read(&text), Ok(job()));
        assert!(text.contains("2026-03-12T09:30:00.125+05:45"));
    }

    #[test]
    fn figures_come_back_to_the_last_bit() {
        for value in [0.1 + 0.2, 1.0 / 3.0, 5e-324, -1.797e308, 9.806_65] {
            let mut job = job();
            job.load_allowance = Degrees(value);
            let back = read(&write(&job).unwrap()).unwrap();
            assert_eq!(back.load_allowance.0.to_bits(), value.to_bits());
        }
    }

    #[test]
    fn a_figure_that_is_no_number_is_not_written() {
        for value in [f64::NAN, f64::INFINITY] {
            let mut job = job();
            job.load_allowance = Degrees(value);
            let fault = write(&job).unwrap_err();
            assert_eq!(fault.message().key, "record-not-written");
        }
    }

    #[test]
    fn each_kind_of_wrong_text_has_its_name() {
        let key = |text: &str| read(text).unwrap_err().message().key.into_owned();
        assert_eq!(key(""), "record-not-a-record");
        assert_eq!(key("[]"), "record-not-a-record");
        assert_eq!(key(r#"{"version":"1","job":{}}"#), "record-not-a-record");
        assert_eq!(key(r#"{"version":0,"job":{}}"#), "record-not-a-record");
        assert_eq!(key(r#"{"version":1,"job":{}}"#), "record-damaged");
        let newer = read(r#"{"version":2,"job":0}"#).unwrap_err();
        let said = msg("record-newer").count("version", 2).count("known", 1);
        assert_eq!(newer.message(), said);
    }

    #[test]
    fn a_record_cut_off_anywhere_is_no_record() {
        let text = write(&job()).unwrap();
        for end in (0..text.len()).filter(|end| text.is_char_boundary(*end)) {
            assert!(read(&text[..end]).is_err(), "{end}");
        }
    }

    #[test]
    fn fields_of_a_later_version_do_not_hinder() {
        let text = write(&job()).unwrap();
        let text = text.replacen("{\"id\"", "{\"later\":[1,2],\"id\"", 1);
        assert_eq!(read(&text), Ok(job()));
    }
}
