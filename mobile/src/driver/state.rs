//! What the app knows at a moment. Screens read it and send intents.

use chrono::{DateTime, FixedOffset};
use rakeline_core::again::Fleet;
use rakeline_core::decide::parts::Part;
use rakeline_core::job::{Field, JobId, JobState, Limit, WalkKind};
use rakeline_core::kit::KitSheet;
use rakeline_core::report::{Logo, Paper};
use rakeline_core::sample::CheckLine;
use rakeline_core::text::Message;
use rakeline_core::units::Millis;
use serde::{Deserialize, Serialize};

use super::again::AgainDraft;
use super::backup::BackupDraft;
use super::entry::JobEntry;
use super::held::Held;
use super::kit_shelf::Kits;
use super::listing::ListWish;
use super::measure::Drafts;
use super::phone::{Bay, PhoneSettings, Voice};
use super::restock::Bought;
use super::store::StoreDraft;
use super::workshop::{Letterhead, PhotoPolicy, Theme, Units};
use crate::route::Route;

/// How far the start has come.
#[derive(Clone, Debug, PartialEq)]
pub enum Boot {
    /// Records are being read.
    Opening,
    /// Ready.
    Ready,
    /// Storage does not answer; jobs would not be kept.
    NoStorage(Message),
    /// Another page of the app works on the records.
    Elsewhere,
}

/// A stored record that can't be read. It is kept as it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Unreadable {
    /// Its key in the store.
    pub key: String,
    /// What is wrong with it.
    pub why: Message,
    /// What can be read of one that a newer version wrote: what it is
    /// called, and when it was changed.
    pub about: Option<Message>,
}

impl Unreadable {
    /// A record with its text, of which nothing is changed.
    #[must_use]
    pub fn of(key: String, text: &str, why: Message) -> Self {
        let newer = why.key == "record-newer";
        let about = newer.then(|| super::glimpse::of(text)).flatten();
        Self { key, why, about }
    }

    /// Whether a newer version of the app can open it.
    #[must_use]
    pub fn is_newer(&self) -> bool {
        self.why.key == "record-newer"
    }
}

/// Whether the open job is kept.
#[derive(Clone, Debug, PartialEq)]
pub enum Saved {
    /// All of it is in the store.
    Yes,
    /// The commit with this number is under way.
    Saving(u64),
    /// The last commit failed; what was typed is still on the screen.
    No(Message),
}

/// The job on the screen.
#[derive(Clone, Debug, PartialEq)]
pub struct OpenJob {
    /// As it is now.
    pub job: JobState,
    /// As it was before each step that can be undone, oldest first.
    pub before: Vec<JobState>,
    /// As it was after each step that was taken back, last taken back last.
    pub after: Vec<JobState>,
    /// Whether it is kept.
    pub saved: Saved,
}

/// What became of the commit of a job that was left.
#[derive(Clone, Debug, PartialEq)]
pub enum LeftHow {
    /// The commit with this number is under way.
    Saving(u64),
    /// It failed, and why. The job comes back to the screen.
    NotKept(Message),
}

/// A job that was left before it was kept.
#[derive(Clone, Debug, PartialEq)]
pub struct LeftJob {
    /// As it was left.
    pub job: JobState,
    /// What became of its commit.
    pub how: LeftHow,
}

/// Something said at the foot of the screen.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// What.
    pub message: Message,
    /// What can be taken back with it.
    pub undo: Option<UndoOf>,
}

/// What a notice offers to take back.
#[derive(Clone, Debug, PartialEq)]
pub enum UndoOf {
    /// A deleted job comes back.
    Deletion(JobId),
    /// The open job's last step.
    Step,
    /// The kit sheet deleted last comes back.
    Kit,
    /// A colleague's file removed last comes back.
    Received,
    /// The fleet taken off the list last comes back.
    Fleet,
    /// The parts that were bought again are to be bought still.
    Bought(Box<Bought>),
}

/// What is kept between jobs.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// The kit sheet used last.
    pub last_kit: Option<KitSheet>,
    /// Who fitted last.
    pub fitter: String,
    /// What is typed once for the workshop: tools, the price of an hour.
    pub workshop: Vec<(Field, String)>,
    /// Prices typed last.
    pub prices: Vec<(Part, String)>,
    /// When all parts were bought again, as it was kept before parts were
    /// counted; [`Settings::bought`] takes it over.
    #[serde(skip_serializing)]
    pub restocked: Option<chrono::DateTime<chrono::FixedOffset>>,
    /// What of the parts that jobs took was bought again.
    pub bought: Bought,
    /// Limits of the mark-out that every new job starts with, as typed.
    pub limits: Vec<(Limit, String)>,
    /// The phone that reads.
    pub phone: PhoneSettings,
    /// Bays whose ground was measured, last measured first.
    pub bays: Vec<Bay>,
    /// Whether prompts are spoken.
    pub voice: Voice,
    /// The paper that sheets at full size are printed on.
    pub paper: Paper,
    /// How the screen looks.
    pub theme: Theme,
    /// What stands at the head of printed job sheets.
    pub letterhead: Letterhead,
    /// The workshop's logo on them.
    pub logo: Option<Logo>,
    /// What lengths are said in.
    pub units: Units,
    /// What is kept of photos.
    pub photos: PhotoPolicy,
    /// What the check line of the mark cards measures, by paper.
    pub check_lines: Vec<(Paper, CheckLine)>,
    /// When everything was last backed up.
    pub backed_up: Option<chrono::DateTime<chrono::FixedOffset>>,
    /// Fleets in work.
    pub fleets: Vec<Fleet>,
}

impl Settings {
    /// Settings as an earlier version kept them, in today's form.
    #[must_use]
    pub fn taken_over(mut self) -> Self {
        let until = self.restocked.take();
        self.bought.all_until = self.bought.all_until.or(until);
        self
    }

    /// What the check line measures on the paper in use, once it was measured.
    #[must_use]
    pub fn check_line(&self) -> Option<CheckLine> {
        let mut lines = self.check_lines.iter();
        lines
            .find(|(paper, _)| *paper == self.paper)
            .map(|(_, line)| *line)
    }
}

/// Sheets that are printed at full size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sheets {
    /// The template of the marks.
    Template,
    /// Mark cards for photos.
    MarkCards,
    /// A page to walk by.
    Walk(WalkKind),
    /// The job sheet: one page for the customer.
    Customer,
    /// The job sheet: the whole file for the workshop.
    Workshop,
    /// The whole file as data for other programs.
    Data,
}

/// Sheets under way.
#[derive(Clone, Debug, PartialEq)]
pub struct Making {
    /// Number of the worker's task.
    pub number: u64,
    /// Which.
    pub sheets: Sheets,
    /// The share that is done, 0 to 1.
    pub share: f32,
    /// Name of the file that comes of it.
    pub name: String,
}

impl Making {
    /// The share that is done, in percent.
    #[must_use]
    pub fn percent(&self) -> f64 {
        f64::from(self.share) * 100.0
    }
}

/// All that the app knows.
#[derive(Clone, Debug, PartialEq)]
pub struct AppState {
    /// How far the start has come.
    pub boot: Boot,
    /// Jobs, last changed first.
    pub jobs: Vec<JobEntry>,
    /// Deleted jobs, last changed first.
    pub trash: Vec<JobEntry>,
    /// Records that can't be read.
    pub unreadable: Vec<Unreadable>,
    /// Jobs that the list knows and whose records are gone.
    pub lost: Vec<JobEntry>,
    /// What of the list is shown.
    pub list: ListWish,
    /// The store: room, checks, deletions.
    pub store: StoreDraft,
    /// Backup and the way back.
    pub backup: BackupDraft,
    /// The job on the screen.
    pub open: Option<OpenJob>,
    /// Jobs that were left while their last commit was under way.
    pub left: Vec<LeftJob>,
    /// The job whose record is being read to be opened.
    pub opening: Option<JobId>,
    /// Jobs on their way to the deleted ones or back, as they will be there.
    pub moving: Vec<JobEntry>,
    /// Settings as stored that could not be read, until they are put by.
    pub broken_settings: Option<String>,
    /// The last commit that puts that text by.
    pub putting_by: u64,
    /// When the job sheet was last handed to the printer, monotonic.
    pub printed: Option<Millis>,
    /// Kept between jobs.
    pub settings: Settings,
    /// The workshop's kit sheets.
    pub kits: Kits,
    /// Which screen.
    pub route: Route,
    /// Said at the foot.
    pub notice: Option<Notice>,
    /// Beginnings of the waits whose end was told.
    pub rung: Vec<DateTime<FixedOffset>>,
    /// What the phone is held to.
    pub reading: Option<Held>,
    /// What is under way and not yet a fact of the job.
    pub drafts: Drafts,
    /// What the screens of same again show.
    pub again: AgainDraft,
    /// What the system says this phone is.
    pub device: String,
    /// Commits begun so far.
    pub commits: u64,
    /// Sheets under way.
    pub making: Option<Making>,
    /// Tasks of the worker begun so far.
    pub worked: u64,
}

impl Default for AppState {
    fn default() -> Self {
        Self {
            boot: Boot::Opening,
            jobs: Vec::new(),
            trash: Vec::new(),
            unreadable: Vec::new(),
            lost: Vec::new(),
            list: ListWish::default(),
            store: StoreDraft::default(),
            backup: BackupDraft::default(),
            open: None,
            left: Vec::new(),
            opening: None,
            moving: Vec::new(),
            broken_settings: None,
            putting_by: 0,
            printed: None,
            settings: Settings::default(),
            kits: Kits::default(),
            route: Route::Jobs,
            notice: None,
            rung: Vec::new(),
            reading: None,
            drafts: Drafts::default(),
            again: AgainDraft::default(),
            device: String::new(),
            commits: 0,
            making: None,
            worked: 0,
        }
    }
}

impl AppState {
    /// The open job.
    #[must_use]
    pub fn job(&self) -> Option<&JobState> {
        self.open.as_ref().map(|open| &open.job)
    }
}
