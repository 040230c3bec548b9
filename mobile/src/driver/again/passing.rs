//! What goes out to a colleague and what comes in.

use rakeline_core::again::{ModelWords, TaughtBy, model_words, pass_on as written, read_passed};
use rakeline_core::text::msg;

use super::{PASSED_PREFIX, Said};
use crate::driver::intent::Action;
use crate::driver::jobs;
use crate::driver::state::{AppState, Notice, UndoOf};
use crate::driver::workshop::Letter;
use crate::platform::{OpenedFile, OutFile, Write};

/// Names of the workshop and the fitter: what is not to be said must not
/// stand in any words that go along.
fn kept_in(app: &AppState) -> Vec<String> {
    let mut kept_in: Vec<String> = app.settings.letterhead.lines();
    kept_in.push(app.settings.fitter.trim().to_owned());
    kept_in
}

/// What the offered model is called in a file, unless the fitter says
/// otherwise.
#[must_use]
pub fn pass_words(app: &AppState) -> ModelWords {
    model_words(&app.again.jobs, &kept_in(app))
}

/// What the offered own jobs teach, as a file.
pub(super) fn pass_on(app: &mut AppState) -> Vec<Action> {
    let workshop = app.settings.letterhead.line(Letter::Name).trim().to_owned();
    let fitter = app.settings.fitter.trim().to_owned();
    let by = TaughtBy {
        workshop: match app.again.say_workshop {
            Said::Yes => workshop,
            Said::No => String::new(),
        },
        fitter: match app.again.say_fitter {
            Said::Yes => fitter,
            Said::No => String::new(),
        },
    };
    let model = app.again.pass_model.clone().unwrap_or_default();
    match written(&app.again.jobs, by, &kept_in(app), &model) {
        Ok(text) => vec![Action::Share(OutFile {
            name: "same-again.json".to_owned(),
            mime: "application/json",
            bytes: text.into_bytes(),
        })],
        Err(why) => jobs::say(app, why),
    }
}

fn commit(app: &mut AppState, write: Write) -> Vec<Action> {
    app.commits += 1;
    vec![Action::Commit(app.commits, vec![write])]
}

/// Keeps a colleague's file that can be read whole; else says why not.
pub(super) fn brought(app: &mut AppState, id: &str, file: OpenedFile) -> Vec<Action> {
    app.again.brought_fault = None;
    let text = match file {
        OpenedFile::Text { text, .. } => text,
        OpenedFile::Nothing => return Vec::new(),
        OpenedFile::TooLarge { bytes } => {
            let fault = rakeline_core::again::PassedFault::TooLarge(bytes);
            app.again.brought_fault = Some(fault.message());
            return Vec::new();
        }
        OpenedFile::NotText(why) => {
            app.again.brought_fault = Some(msg("kit-file-not-read").text("why", why));
            return Vec::new();
        }
    };
    let passed = match read_passed(&text) {
        Ok(passed) => passed,
        Err(fault) => {
            app.again.brought_fault = Some(fault.message());
            return Vec::new();
        }
    };
    if app.again.files.iter().any(|(_, known)| *known == text) {
        return jobs::say(app, msg("passed-already-here"));
    }
    let key = format!("{PASSED_PREFIX}{id}");
    let jobs = i64::try_from(passed.lessons.len()).unwrap_or(i64::MAX);
    let mut files = app.again.files.clone();
    files.push((key.clone(), text.clone()));
    app.again.receive(files);
    app.again.group(&app.jobs);
    app.notice = Some(Notice {
        message: msg("passed-kept").count("jobs", jobs),
        undo: None,
    });
    commit(app, Write::Put { key, value: text })
}

/// Removes a colleague's file, with a way back.
pub(super) fn remove(app: &mut AppState, key: &str) -> Vec<Action> {
    let mut files = app.again.files.clone();
    let Some(at) = files.iter().position(|(other, _)| other == key) else {
        return Vec::new();
    };
    app.again.removed = Some(files.remove(at));
    app.again.receive(files);
    app.again.group(&app.jobs);
    app.notice = Some(Notice {
        message: msg("passed-removed"),
        undo: Some(UndoOf::Received),
    });
    let key = key.to_owned();
    commit(app, Write::Delete { key })
}

pub(super) fn bring_back(app: &mut AppState) -> Vec<Action> {
    let Some((key, value)) = app.again.removed.take() else {
        return Vec::new();
    };
    app.notice = None;
    let mut files = app.again.files.clone();
    files.push((key.clone(), value.clone()));
    app.again.receive(files);
    app.again.group(&app.jobs);
    commit(app, Write::Put { key, value })
}
