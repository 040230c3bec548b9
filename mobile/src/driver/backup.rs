//! Backup, the way back, and tables for other programs.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::JobId;
use rakeline_core::text::{Message, msg};

use super::intent::{Action, Now};
use super::jobs::say;
use super::state::AppState;
use super::stored::Stored;
use super::{boot, check, keeping, loose};
use crate::backup::{
    BackupOf, Brings, Made, Passphrase, Plan, Progress, Restored, SHORTEST_PASSPHRASE,
};
use crate::platform::{Shared, StorageFault};

/// From so many days on the last backup is old.
pub const BACKUP_DAYS: i64 = 30;
/// From so many jobs on a first backup is asked for.
const FIRST_BACKUP: usize = 3;
/// Longest passphrase, characters.
const PASSPHRASE_GREATEST: usize = 200;

/// What is under way about backups.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BackupDraft {
    /// The passphrase for the next backup, as typed.
    pub passphrase: String,
    /// The passphrase of the chosen file, as typed.
    pub key: String,
    /// A backup or tables being made, and how far.
    pub making: Option<Progress>,
    /// Why the last one came to nothing.
    pub fault: Option<Message>,
    /// When a file was handed out last: it may still be on its way to the
    /// downloads.
    pub handed: Option<DateTime<FixedOffset>>,
    /// The way back.
    pub back: WayBack,
}

/// How far the way back has come.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum WayBack {
    /// No file is chosen.
    #[default]
    Closed,
    /// A file is chosen.
    Chosen(Chosen),
    /// It is being read, so many bytes so far.
    Looking(Chosen, u64),
    /// What it would bring.
    Planned(Chosen, Box<Plan>),
    /// It is being taken in, so many bytes so far.
    Taking(Chosen, Box<Plan>, u64),
}

/// A chosen file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Chosen {
    /// Its name.
    pub name: String,
    /// Its size in bytes.
    pub size: u64,
}

/// Of what a backup is made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Whole {
    /// Everything, locked.
    Locked,
    /// Everything, open to everybody.
    Open,
    /// One job, locked.
    JobLocked(JobId),
    /// One job, open to everybody.
    JobOpen(JobId),
    /// Tables for other programs.
    Tables,
}

/// What is said about backups.
#[derive(Clone, Debug, PartialEq)]
pub enum BackupIntent {
    /// The passphrase for the next backup was typed.
    Typed(String),
    /// The passphrase of the chosen file was typed.
    KeyTyped(String),
    /// Makes it.
    Make(Whole),
    /// How far it has come.
    SoFar(Progress),
    /// It is made, or came to nothing.
    Made(Result<Made, Message>),
    /// Gives up what is under way.
    Stop,
    /// Asks for a file.
    Choose,
    /// One was chosen, or none.
    Chosen(Option<Chosen>),
    /// Looks what is in it.
    Look,
    /// So many bytes of it were read.
    ReadSoFar(u64),
    /// What it would bring, or why it is refused.
    Looked(Result<Box<Plan>, Message>),
    /// Settings and kit sheets that differ take the place of those here, or
    /// do not.
    TakeTheirs(Brings),
    /// Takes it in, the newer ones of both sides' jobs too or not.
    TakeIn(Brings),
    /// It is taken in; the store as it is now.
    TakenIn(Restored, Result<Box<Stored>, StorageFault>),
    /// Lets go of the file.
    Close,
}

impl BackupDraft {
    /// Whether a file is being made or read.
    #[must_use]
    pub fn is_busy(&self) -> bool {
        self.making.is_some() || matches!(self.back, WayBack::Looking(..) | WayBack::Taking(..))
    }

    /// Whether jobs are being taken in: none is opened meanwhile.
    #[must_use]
    pub fn is_taking(&self) -> bool {
        matches!(self.back, WayBack::Taking(..))
    }

    /// What is missing of the passphrase, if anything.
    #[must_use]
    pub fn too_short(&self) -> Option<Message> {
        let signs = self.passphrase.trim().chars().count();
        let least = i64::try_from(SHORTEST_PASSPHRASE).unwrap_or(i64::MAX);
        (signs < SHORTEST_PASSPHRASE).then(|| msg("backup-short").count("least", least))
    }
}

pub(super) fn handle(app: &mut AppState, said: BackupIntent, now: &Now) -> Vec<Action> {
    let draft = &mut app.backup;
    match said {
        BackupIntent::Typed(text) => draft.passphrase = cut(&text),
        BackupIntent::KeyTyped(text) => draft.key = cut(&text),
        BackupIntent::Make(whole) => return make(app, whole),
        BackupIntent::SoFar(progress) => {
            if let Some(making) = &mut draft.making {
                *making = progress;
            }
        }
        BackupIntent::Made(outcome) => return made(app, outcome, now),
        BackupIntent::Stop => return vec![Action::StopBackup],
        BackupIntent::Choose if !draft.is_busy() => {
            draft.fault = None;
            return vec![Action::ChooseBackup];
        }
        BackupIntent::Chosen(Some(chosen)) if !draft.is_busy() => {
            draft.fault = None;
            draft.back = WayBack::Chosen(chosen);
        }
        BackupIntent::Choose | BackupIntent::Chosen(_) => {}
        BackupIntent::Look => return look(app),
        BackupIntent::ReadSoFar(bytes) => {
            if let WayBack::Looking(_, so_far) | WayBack::Taking(_, _, so_far) = &mut draft.back {
                *so_far = bytes;
            }
        }
        BackupIntent::Looked(outcome) => looked(app, outcome),
        BackupIntent::TakeTheirs(theirs) => {
            if let WayBack::Planned(_, plan) = &mut draft.back {
                plan.theirs = theirs;
            }
        }
        BackupIntent::TakeIn(newer) => return take_in(app, newer),
        BackupIntent::TakenIn(restored, stored) => return taken_in(app, &restored, stored, now),
        BackupIntent::Close if !draft.is_busy() => {
            draft.back = WayBack::Closed;
            draft.key.clear();
            draft.fault = None;
        }
        BackupIntent::Close => {}
    }
    Vec::new()
}

fn cut(text: &str) -> String {
    text.chars().take(PASSPHRASE_GREATEST).collect()
}

fn make(app: &mut AppState, whole: Whole) -> Vec<Action> {
    let draft = &mut app.backup;
    if draft.is_busy() {
        return Vec::new();
    }
    let locked = matches!(whole, Whole::Locked | Whole::JobLocked(_));
    if let (true, Some(short)) = (locked, draft.too_short()) {
        draft.fault = Some(short);
        return Vec::new();
    }
    let key = Some(Passphrase(draft.passphrase.trim().to_owned()));
    let of = match whole {
        Whole::Locked => BackupOf::All(key),
        Whole::Open => BackupOf::All(None),
        Whole::JobLocked(id) => BackupOf::Job(id, key),
        Whole::JobOpen(id) => BackupOf::Job(id, None),
        Whole::Tables => BackupOf::Tables,
    };
    draft.fault = None;
    draft.making = Some(Progress::default());
    app.notice = None;
    vec![Action::Backup(of)]
}

fn made(app: &mut AppState, outcome: Result<Made, Message>, now: &Now) -> Vec<Action> {
    if app.backup.making.take().is_none() {
        return Vec::new();
    }
    let made = match outcome {
        Ok(made) => made,
        Err(why) => {
            app.backup.fault = Some(why);
            return Vec::new();
        }
    };
    app.backup.handed = Some(now.at);
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    let words = match made.shared {
        Shared::HandedOver => "backup-handed-over",
        _ => "backup-made",
    };
    let mut said = msg(words)
        .text("name", made.name)
        .count("jobs", count(made.jobs))
        .count("photos", count(made.photos));
    if made.missing > 0 {
        said = msg("backup-made-missing")
            .message("made", said)
            .count("missing", count(made.missing));
    }
    say(app, said);
    if !made.all {
        return Vec::new();
    }
    app.settings.backed_up = Some(now.at);
    let writes = keeping::settings(app);
    keeping::commit(app, writes)
}

fn look(app: &mut AppState) -> Vec<Action> {
    let draft = &mut app.backup;
    let WayBack::Chosen(chosen) = &draft.back else {
        return Vec::new();
    };
    draft.fault = None;
    draft.back = WayBack::Looking(chosen.clone(), 0);
    vec![Action::LookInto(Passphrase(draft.key.trim().to_owned()))]
}

fn looked(app: &mut AppState, outcome: Result<Box<Plan>, Message>) {
    let draft = &mut app.backup;
    let WayBack::Looking(chosen, _) = &draft.back else {
        return;
    };
    let chosen = chosen.clone();
    draft.back = match outcome {
        Ok(plan) => WayBack::Planned(chosen, plan),
        Err(why) => {
            draft.fault = Some(why);
            WayBack::Chosen(chosen)
        }
    };
}

fn take_in(app: &mut AppState, newer: Brings) -> Vec<Action> {
    if !app.left.is_empty() || !app.moving.is_empty() || !app.store.erasing.is_empty() {
        return say(app, msg("erase-busy"));
    }
    let draft = &mut app.backup;
    let WayBack::Planned(chosen, plan) = &draft.back else {
        return Vec::new();
    };
    let plan = plan.clone();
    draft.back = WayBack::Taking(chosen.clone(), plan.clone(), 0);
    let key = Passphrase(draft.key.trim().to_owned());
    vec![Action::TakeIn(key, plan, newer)]
}

fn taken_in(
    app: &mut AppState,
    restored: &Restored,
    stored: Result<Box<Stored>, StorageFault>,
    now: &Now,
) -> Vec<Action> {
    app.backup.back = WayBack::Closed;
    app.backup.key.clear();
    app.backup.fault = restored
        .fault
        .clone()
        .map(|why| msg("restore-broken-off").message("why", why));
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    let mut said = msg("restored")
        .count("new", count(restored.new))
        .count("newer", count(restored.newer))
        .count("photos", count(restored.photos));
    if restored.changed > 0 {
        said = msg("restored-changed")
            .message("restored", said)
            .count("changed", count(restored.changed));
    }
    say(app, said);
    app.store.put_by = None;
    match stored {
        Ok(stored) => {
            let mut actions = boot::fill(app, *stored, now);
            actions.extend(loose::reclaimed(app));
            actions.extend(check::look_over(app));
            actions.push(Action::AskRoom);
            actions
        }
        Err(fault) => say(app, fault.message()),
    }
}

/// What reminds of a backup: none was made, or the last one is old and jobs
/// were changed since.
#[must_use]
pub fn backup_due(app: &AppState, now: &DateTime<FixedOffset>) -> Option<Message> {
    let Some(last) = app.settings.backed_up else {
        return (app.jobs.len() >= FIRST_BACKUP).then(|| msg("backup-never"));
    };
    let days = now.signed_duration_since(last).num_days();
    let changed = app.jobs.first().is_some_and(|job| job.changed > last);
    (days >= BACKUP_DAYS && changed).then(|| msg("backup-old").count("days", days))
}
