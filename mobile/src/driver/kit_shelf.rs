//! The workshop's kit sheets as the app knows them, and what is wanted of them.

use std::rc::Rc;

use rakeline_core::kit::{self, Draft, KitSheet, QuickField, QuickSheet, SheetFault};
use rakeline_core::text::Message;

use super::restock::Bought;
use super::state::Unreadable;
use crate::platform::OpenedFile;
use crate::route::{KitId, Route};

/// The samples that come with the app, by the name in their address.
const SAMPLES: [(&str, &str); 2] = [
    (
        "plain-four",
        include_str!("../../../assets/kits/plain-four.json"),
    ),
    (
        "metal-four",
        include_str!("../../../assets/kits/metal-four.json"),
    ),
];

/// A sheet of the library.
#[derive(Clone, Debug, PartialEq)]
pub struct KitEntry {
    /// Its name in the store and in the address.
    pub id: KitId,
    /// The sheet.
    pub sheet: Rc<KitSheet>,
}

/// A sheet in the full editor.
#[derive(Clone, Debug, PartialEq)]
pub struct Editing {
    /// Which.
    pub id: KitId,
    /// As it is typed.
    pub draft: Draft,
    /// What is wrong with it as it stands, as far as it is told.
    pub faults: Vec<SheetFault>,
    /// How far it is told.
    pub told: Told,
}

/// How much of what is wrong with a sheet is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Told {
    /// What is wrong with what is typed so far.
    SoFar,
    /// All of it: it was to be kept.
    All,
}

impl Editing {
    /// A sheet as it is typed, with what is wrong so far.
    #[must_use]
    pub fn of(id: KitId, draft: Draft) -> Self {
        let faults = draft.faults_so_far();
        Self {
            id,
            draft,
            faults,
            told: Told::SoFar,
        }
    }

    /// Looks again at what is wrong.
    pub(super) fn look(&mut self) {
        self.faults = match self.told {
            Told::SoFar => self.draft.faults_so_far(),
            Told::All => self.draft.sheet().err().unwrap_or_default(),
        };
        if self.faults.is_empty() {
            self.told = Told::SoFar;
        }
    }
}

/// The workshop's kit sheets and what is being typed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kits {
    /// The workshop's own, by name.
    pub own: Vec<KitEntry>,
    /// The samples of the app.
    pub samples: Vec<KitEntry>,
    /// The quick sheet as it is typed.
    pub quick: QuickSheet,
    /// Which screenful of it is shown, from 0.
    pub page: usize,
    /// Faults of the quick sheet when it was to be kept.
    pub quick_faults: Vec<(QuickField, Message)>,
    /// The sheet in the full editor.
    pub editing: Option<Editing>,
    /// What was typed there and is not on the sheet yet, by its id.
    pub unkept: Option<(String, Draft)>,
    /// What is wrong with the file that was to be brought in.
    pub import_faults: Vec<Message>,
    /// Stored sheets that cannot be read; they are kept as they are.
    pub unreadable: Vec<Unreadable>,
    /// The sheet deleted last, until something else is done.
    pub deleted: Option<KitEntry>,
}

impl Kits {
    /// A sheet of the workshop's own or a sample.
    #[must_use]
    pub fn find(&self, id: &KitId) -> Option<&KitEntry> {
        let mut all = self.own.iter().chain(&self.samples);
        all.find(|entry| entry.id == *id)
    }

    /// Whether something was typed in the full editor that is not on the
    /// sheet yet.
    #[must_use]
    pub fn is_unkept(&self, id: &KitId) -> bool {
        self.unkept.as_ref().is_some_and(|(of, _)| *of == id.0)
    }

    /// A sheet begun from nothing that is not kept yet.
    #[must_use]
    pub fn begun(&self) -> Option<(KitId, &Draft)> {
        let (id, draft) = self.unkept.as_ref()?;
        let id = KitId(id.clone());
        self.find(&id).is_none().then_some((id, draft))
    }

    /// Whether it is a sample: it can be copied, not changed.
    #[must_use]
    pub fn is_sample(&self, id: &KitId) -> bool {
        self.samples.iter().any(|entry| entry.id == *id)
    }

    pub(super) fn sheets(&self) -> Vec<KitSheet> {
        let all = self.own.iter().chain(&self.samples);
        all.map(|entry| entry.sheet.as_ref().clone()).collect()
    }
}

/// What the fitter wants of the kit sheets.
#[derive(Clone, Debug, PartialEq)]
pub enum KitIntent {
    /// The stored sheets and the quick sheet begun before were read.
    Booted {
        /// Keys and texts under `kit/`.
        kits: Vec<(String, String)>,
        /// The quick sheet as it was typed.
        quick: Option<String>,
        /// The sheet in the full editor as it was typed.
        edit: Option<String>,
    },
    /// Shows a screen outside a job.
    Go(Route),
    /// A field of the quick sheet was typed.
    QuickTyped(QuickField, String),
    /// Another screenful of the quick sheet.
    QuickPage(usize),
    /// The quick sheet is to be kept under this name.
    QuickKeep(KitId),
    /// A field of the full editor was typed.
    FieldTyped(String, String),
    /// An entry was added to a list.
    EntryAdded(String),
    /// An entry was taken out of a list.
    EntryTaken(String, usize),
    /// The edited sheet is to be kept.
    EditKeep,
    /// What was typed in the full editor is thrown away.
    EditThrow,
    /// A copy under a free name.
    Copy(KitId, KitId),
    /// Deletes a sheet; it can come back.
    Delete(KitId),
    /// The sheet deleted last comes back.
    BringBack,
    /// Asks for a file.
    OpenFile,
    /// A file was chosen, or was not.
    FileOpened(KitId, OpenedFile),
    /// Hands a sheet out as a file.
    SaveFile(KitId),
    /// The next job is fitted with this kit.
    UseNext(KitId),
    /// The open job is fitted with this kit.
    UseHere(KitId),
    /// What the jobs took so far is bought again.
    Restocked,
    /// It was not bought after all.
    NotRestocked(Box<Bought>),
    /// Begins a full sheet from nothing.
    TypeFull(KitId),
}

/// The samples of the app.
pub(super) fn samples() -> Vec<KitEntry> {
    SAMPLES
        .iter()
        .filter_map(|(id, text)| {
            let sheet = Rc::new(kit::parse(text).ok()?);
            let id = KitId((*id).to_owned());
            Some(KitEntry { id, sheet })
        })
        .collect()
}

/// Fields of the quick sheet by screenful.
pub const QUICK_PAGES: [&[QuickField]; 5] = [
    &[QuickField::Name, QuickField::Labels, QuickField::Hole],
    &[
        QuickField::Rings,
        QuickField::InsertLift,
        QuickField::InsertHole,
    ],
    &[
        QuickField::LeastAim,
        QuickField::GreatestAim,
        QuickField::TargetAim,
    ],
    &[QuickField::Inner, QuickField::CornerGap, QuickField::Depth],
    &[
        QuickField::LeadLength,
        QuickField::Cycles,
        QuickField::SilentSeconds,
    ],
];

/// The screenful of a field.
pub(super) fn page_of(field: QuickField) -> usize {
    let pages = QUICK_PAGES.iter();
    let mut pages = pages.enumerate();
    pages
        .find(|(_, fields)| fields.contains(&field))
        .map_or(0, |(page, _)| page)
}
