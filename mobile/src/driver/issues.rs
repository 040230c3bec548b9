//! Job sheets as they were issued: the job of each is kept beside its record,
//! so that an earlier number can be opened again as it was.

use rakeline_core::job::{JobId, JobState};
use rakeline_core::text::msg;

use super::intent::Action;
use super::state::{AppState, Sheets};
use super::{KEPT_JOB_PREFIX, KEPT_SHEET_PREFIX, jobs, paper};
use crate::platform::{StorageFault, Write};

/// What is said of a job sheet that was issued earlier.
#[derive(Clone, Debug, PartialEq)]
pub enum IssueIntent {
    /// The sheet of that number is wanted as a file.
    Make(u32, Sheets),
    /// The job as it was then was read, `None` if it was not kept.
    Read(JobId, u32, Sheets, Result<Option<String>, StorageFault>),
}

/// Key of a job as it was when its sheet of that number was issued.
#[must_use]
pub fn sheet_key(id: &JobId, number: u32) -> String {
    format!("{KEPT_JOB_PREFIX}{}/{KEPT_SHEET_PREFIX}-{number}", id.0)
}

/// The step that keeps a job as its sheet shows it; none where it changed
/// since, or no sheet was issued.
pub(super) fn kept(job: &JobState, record: &str) -> Option<Write> {
    let issue = job.issued()?;
    Some(Write::Put {
        key: sheet_key(&job.id, issue.number),
        value: record.to_owned(),
    })
}

pub(super) fn handle(app: &mut AppState, said: IssueIntent) -> Vec<Action> {
    match said {
        IssueIntent::Make(number, sheets) => match app.job() {
            Some(job) if app.making.is_none() => {
                vec![Action::ReadIssue(job.id.clone(), number, sheets)]
            }
            _ => Vec::new(),
        },
        IssueIntent::Read(id, number, sheets, found) => read(app, &id, number, sheets, found),
    }
}

fn read(
    app: &mut AppState,
    id: &JobId,
    number: u32,
    sheets: Sheets,
    found: Result<Option<String>, StorageFault>,
) -> Vec<Action> {
    // The job was left meanwhile, or another sheet is under way.
    if app.job().is_none_or(|job| job.id != *id) || app.making.is_some() {
        return Vec::new();
    }
    let text = match found {
        Ok(Some(text)) => text,
        Ok(None) => {
            return jobs::say(
                app,
                msg("issue-not-kept").count("number", i64::from(number)),
            );
        }
        Err(fault) => return jobs::say(app, fault.message()),
    };
    match jobs::read_as(id, &text) {
        Ok(job) => paper::make_of(app, &job, sheets),
        Err(why) => jobs::say(app, why),
    }
}
