//! Sheets at full size: asked for, under way, out of the app.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::{JobState, WalkKind, marks_fault, read_check_line};
use rakeline_core::report::{
    Document, Length, Paper, SheetLook, customer_sheet, job_sheet, kept, template_facts,
    walk_sheet, workshop_walk,
};
use rakeline_core::text::{Message, msg};

use super::intent::{Action, Now};
use super::sight;
use super::state::{AppState, Making, Notice, Settings, Sheets};
use super::workshop::Units;
use super::{cards, jobs, keeping, work};
use crate::platform::{OutFile, Shared, Task, WorkEvent};
use crate::steps::book;
use crate::texts::say;

/// Longest file name without its ending, characters.
const NAME_LONGEST: usize = 60;

/// Keeps the paper for next time.
pub(super) fn choose(app: &mut AppState, paper: Paper) -> Vec<Action> {
    if app.settings.paper == paper {
        return Vec::new();
    }
    app.settings.paper = paper;
    app.drafts.check_line = None;
    keeping::save(app)
}

/// What the check line measures: kept for the paper once it is a length that
/// can be; an emptied field forgets it.
pub(super) fn check_line(app: &mut AppState, typed: String, now: &Now) -> Vec<Action> {
    let paper = app.settings.paper;
    let read = read_check_line(&typed);
    let empty = typed.trim().is_empty();
    app.drafts.check_line = Some(typed);
    let before = app.settings.check_lines.clone();
    if empty || read.is_ok() {
        let lines = &mut app.settings.check_lines;
        lines.retain(|(other, _)| *other != paper);
        lines.extend(read.ok().map(|line| (paper, line)));
    }
    if app.settings.check_lines == before {
        return Vec::new();
    }
    let mut actions = keeping::save(app);
    actions.extend(cards::line_changed(app, now));
    actions
}

/// Starts to make sheets; a second tap starts none.
pub(super) fn make(app: &mut AppState, sheets: Sheets, now: &Now) -> Vec<Action> {
    let mut actions = Vec::new();
    let is_sheet = matches!(sheets, Sheets::Customer | Sheets::Workshop | Sheets::Data);
    if is_sheet && app.making.is_none() {
        actions = work::issue(app, now);
    }
    let paper = app.settings.paper;
    let Some(job) = app.job().filter(|_| app.making.is_none()) else {
        return actions;
    };
    let mut pictures = Vec::new();
    let (task, name) = match sheets {
        Sheets::Template => {
            let Some(facts) = template_facts(job) else {
                return Vec::new();
            };
            if let Some(why) = marks_fault(job) {
                return jobs::say(app, why);
            }
            let name = msg("template-file").text("job", facts.job.clone());
            (Task::Template { facts, paper }, name)
        }
        Sheets::MarkCards => {
            let marks = job.spots.len();
            (Task::MarkCards { marks, paper }, msg("cards-file"))
        }
        Sheets::Walk(kind) => {
            let document = match walk_sheet(job, kind, now.at) {
                Ok(document) => document,
                Err(why) => return jobs::say(app, why),
            };
            let page = (document, Length::OnePage);
            let name = msg(match kind {
                WalkKind::Nine => "walk-sheet-file",
                WalkKind::Grid => "walk-sheet-file-grid",
            });
            let name = name.text("job", job.name.clone());
            (printed(&app.settings, job, page, now.at).0, name)
        }
        Sheets::Customer | Sheets::Workshop | Sheets::Data => {
            let (task, keys) = sheet_task(app, job, sheets);
            pictures = keys;
            (task, sheet_name(job, sheets))
        }
    };
    actions.extend(under_way(app, sheets, &name, task, pictures));
    actions
}

/// Makes a job sheet again of the job as it was when it was issued.
pub(super) fn make_of(app: &mut AppState, job: &JobState, sheets: Sheets) -> Vec<Action> {
    let (task, pictures) = sheet_task(app, job, sheets);
    let name = sheet_name(job, sheets);
    under_way(app, sheets, &name, task, pictures)
}

/// The customer's page and the workshop's file go to different people: their
/// names say which is which.
fn sheet_name(job: &JobState, sheets: Sheets) -> Message {
    let number = job.sheets.last().map_or(0, |sheet| sheet.number);
    msg(match sheets {
        Sheets::Customer => "sheet-file-customer",
        Sheets::Workshop => "sheet-file-workshop",
        _ => "sheet-file",
    })
    .text("job", job.name.clone())
    .count("number", i64::from(number))
}

/// Starts the task that makes sheets.
fn under_way(
    app: &mut AppState,
    sheets: Sheets,
    name: &Message,
    task: Task,
    pictures: Vec<String>,
) -> Vec<Action> {
    sight::give_way(app);
    app.worked += 1;
    app.notice = None;
    app.making = Some(Making {
        number: app.worked,
        sheets,
        share: 0.0,
        name: file_name(&say(name), ending(sheets)),
    });
    vec![Action::StartSheet(app.worked, task, pictures)]
}

/// The job sheet in one of its two forms, as it was issued, with the keys of
/// the pictures that it shows.
fn sheet_task(app: &AppState, job: &JobState, sheets: Sheets) -> (Task, Vec<String>) {
    let (at, zone) = match job.issued() {
        Some(issue) => (issue.at, issue.zone.as_str()),
        None => (job.changed, ""),
    };
    let (document, length) = match sheets {
        Sheets::Customer => (customer_sheet(job, at), Length::OnePage),
        _ => {
            let mut document = job_sheet(job, at, zone);
            document.sections.extend(kept(job, book()));
            let walked = workshop_walk(job).map(|walked| walked.sections);
            document.sections.extend(walked.into_iter().flatten());
            (document, Length::AsNeeded)
        }
    };
    if sheets == Sheets::Data {
        let task = Task::SheetData {
            job: Box::new(job.clone()),
            document: Box::new(document),
        };
        return (task, Vec::new());
    }
    printed(&app.settings, job, (document, length), at)
}

/// The task that prints a document, and the keys of the pictures on it.
fn printed(
    settings: &Settings,
    job: &JobState,
    (document, length): (Document, Length),
    at: DateTime<FixedOffset>,
) -> (Task, Vec<String>) {
    let mut pictures = document.pictures();
    pictures.extend(settings.logo.as_ref().map(|logo| logo.blob.clone()));
    let predicted = (length == Length::AsNeeded).then(|| Box::new(job.clone()));
    let task = Task::Sheet {
        predicted,
        pictures: Vec::new(),
        files: Vec::new(),
        document: Box::new(document),
        look: SheetLook {
            paper: settings.paper,
            length,
            workshop: settings.letterhead.lines(),
            logo: settings.logo.clone(),
            inches: settings.units == Units::MmAndInches,
            foot: msg("sheet-foot")
                .text("id", job.id.0.clone())
                .text("version", env!("CARGO_PKG_VERSION")),
            at,
        },
    };
    (task, pictures)
}

/// The whole job sheet as it was issued last, with its number and the keys of
/// its pictures, for a backup;
/// `None` where the job has changed since or none was issued.
#[must_use]
pub fn sheet_of(settings: &Settings, job: &JobState) -> Option<(u32, Task, Vec<String>)> {
    let issue = job.issued()?;
    let mut document = job_sheet(job, issue.at, &issue.zone);
    document.sections.extend(kept(job, book()));
    let walked = workshop_walk(job).map(|walked| walked.sections);
    document.sections.extend(walked.into_iter().flatten());
    let whole = (document, Length::AsNeeded);
    let (task, pictures) = printed(settings, job, whole, issue.at);
    Some((issue.number, task, pictures))
}

/// Gives up what is under way.
pub(super) fn stop(app: &mut AppState) -> Vec<Action> {
    match app.making.take() {
        Some(_) => vec![Action::StopWork],
        None => Vec::new(),
    }
}

/// What the worker said of a task; of one that was given up nothing counts.
pub(super) fn worked(app: &mut AppState, number: u64, event: WorkEvent) -> Vec<Action> {
    let Some(making) = app.making.as_mut().filter(|making| making.number == number) else {
        return Vec::new();
    };
    match event {
        WorkEvent::Progress(share) => {
            making.share = share;
            Vec::new()
        }
        WorkEvent::Done(bytes) => {
            let name = making.name.clone();
            let mime = match making.sheets {
                Sheets::Data => "application/json",
                _ => "application/pdf",
            };
            app.making = None;
            vec![Action::Share(OutFile { name, mime, bytes })]
        }
        WorkEvent::Failed(message) => {
            app.making = None;
            app.notice = Some(Notice {
                message,
                undo: None,
            });
            Vec::new()
        }
    }
}

/// What became of a file.
pub(super) fn shared(app: &mut AppState, name: &str, outcome: &Shared) -> Vec<Action> {
    if let Some(message) = outcome.message(name) {
        app.notice = Some(Notice {
            message,
            undo: None,
        });
    }
    Vec::new()
}

/// How a file of these sheets ends.
fn ending(sheets: Sheets) -> &'static str {
    match sheets {
        Sheets::Data => "json",
        _ => "pdf",
    }
}

/// A name that every system takes: letters and figures, else hyphens.
fn file_name(words: &str, ending: &str) -> String {
    let mut name = String::new();
    for letter in words.chars().flat_map(char::to_lowercase) {
        if letter.is_alphanumeric() {
            name.push(letter);
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    let short: String = name.chars().take(NAME_LONGEST).collect();
    format!("{}.{ending}", short.trim_end_matches('-'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_name_holds_no_sign_that_a_system_refuses() {
        assert_eq!(
            file_name("Template ../Fell: \"\u{c5}se\" / 3?", "pdf"),
            "template-fell-\u{e5}se-3.pdf"
        );
        assert!(file_name(&"long ".repeat(40), "pdf").chars().count() <= NAME_LONGEST + 4);
    }
}
