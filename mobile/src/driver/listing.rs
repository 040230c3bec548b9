//! What of the list is shown: searched, filtered, sorted, so many at a time.

use std::cmp::Ordering;

use chrono::{DateTime, Datelike, FixedOffset};
use rakeline_core::job::Standing;
use rakeline_core::moment;
use rakeline_core::order;

use super::entry::JobEntry;
use super::state::AppState;

/// How many jobs are shown at first, and how many more at a time.
pub const SHOWN: usize = 40;

/// Longest search, characters.
pub const WORDS_GREATEST: usize = 100;

/// In which order jobs are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SortBy {
    /// Last changed first.
    #[default]
    Changed,
    /// Last started first.
    Started,
    /// By customer, then last changed first.
    Customer,
    /// By number plate.
    Plate,
    /// By vehicle.
    Vehicle,
}

impl SortBy {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 5] = [
        Self::Changed,
        Self::Started,
        Self::Customer,
        Self::Plate,
        Self::Vehicle,
    ];

    /// The key of its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Changed => "sort-changed",
            Self::Started => "sort-started",
            Self::Customer => "sort-customer",
            Self::Plate => "sort-plate",
            Self::Vehicle => "sort-vehicle",
        }
    }

    fn compare(self, a: &JobEntry, b: &JobEntry) -> Ordering {
        let text = |a: &str, b: &str| {
            // What was not typed comes last.
            let empty = a.is_empty().cmp(&b.is_empty());
            empty.then_with(|| a.to_lowercase().cmp(&b.to_lowercase()))
        };
        match self {
            Self::Changed => Ordering::Equal,
            Self::Started => b.created.cmp(&a.created),
            Self::Customer => text(&a.customer, &b.customer),
            Self::Plate => text(&a.plate, &b.plate),
            Self::Vehicle => text(&a.vehicle, &b.vehicle),
        }
    }
}

/// What of the list is to be shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListWish {
    /// Words that all have to be found, as typed.
    pub words: String,
    /// Only jobs that stand so.
    pub standing: Option<Standing>,
    /// Only jobs with this kit.
    pub kit: Option<String>,
    /// Only jobs started or changed on this day or later, as `2026-03-12`;
    /// empty for all.
    pub from: String,
    /// Only jobs started or changed on this day or before; empty for all.
    pub to: String,
    /// In which order.
    pub sort: SortBy,
    /// At most so many.
    pub most: usize,
}

impl Default for ListWish {
    fn default() -> Self {
        Self {
            words: String::new(),
            standing: None,
            kit: None,
            from: String::new(),
            to: String::new(),
            sort: SortBy::default(),
            most: SHOWN,
        }
    }
}

impl ListWish {
    /// Whether every job is meant.
    #[must_use]
    pub fn is_open(&self) -> bool {
        self.words.trim().is_empty()
            && self.standing.is_none()
            && self.kit.is_none()
            && Day::of(&self.from).is_none()
            && Day::of(&self.to).is_none()
    }

    /// Whether the first day comes after the last one: no job fits then.
    #[must_use]
    pub fn is_upside_down(&self) -> bool {
        let days = (Day::of(&self.from), Day::of(&self.to));
        matches!(days, (Some(from), Some(to)) if from > to)
    }
}

/// What is said about the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ListIntent {
    /// Words to be found were typed.
    Words(String),
    /// Only jobs that stand so; all with `None`.
    Standing(Option<Standing>),
    /// Only jobs with this kit; all with `None`.
    Kit(Option<String>),
    /// The first day was chosen; none with an empty text.
    From(String),
    /// The last day was chosen; none with an empty text.
    To(String),
    /// Another order.
    Sort(SortBy),
    /// More of them.
    More,
    /// All jobs again.
    Open,
}

/// What the list shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed<'a> {
    /// The jobs shown.
    pub rows: Vec<&'a JobEntry>,
    /// How many fit in all.
    pub found: usize,
}

pub(super) fn handle(wish: &mut ListWish, said: ListIntent) {
    let before = wish.most;
    wish.most = SHOWN;
    match said {
        ListIntent::Words(words) => wish.words = words.chars().take(WORDS_GREATEST).collect(),
        ListIntent::Standing(standing) => wish.standing = standing,
        ListIntent::Kit(kit) => wish.kit = kit,
        ListIntent::From(day) => wish.from = day.chars().take(WORDS_GREATEST).collect(),
        ListIntent::To(day) => wish.to = day.chars().take(WORDS_GREATEST).collect(),
        ListIntent::Sort(sort) => wish.sort = sort,
        ListIntent::More => wish.most = before.saturating_add(SHOWN),
        ListIntent::Open => *wish = ListWish::default(),
    }
}

/// The jobs that the wish means, in its order.
#[must_use]
pub fn listed(app: &AppState) -> Listed<'_> {
    let wish = &app.list;
    let lower = wish.words.to_lowercase();
    let words: Vec<Word<'_>> = lower.split_whitespace().map(Word::of).collect();
    let (from, to) = (Day::of(&wish.from), Day::of(&wish.to));
    let between = |at: &DateTime<FixedOffset>| {
        let day = Day::on(at);
        from.is_none_or(|from| from <= day) && to.is_none_or(|to| day <= to)
    };
    let fits = |job: &&JobEntry| {
        wish.standing
            .is_none_or(|standing| job.standing == standing)
            && wish.kit.as_ref().is_none_or(|kit| job.kit == *kit)
            && words.iter().all(|word| word.is_in(job))
            && (between(&job.created) || between(&job.changed))
    };
    let mut rows: Vec<&JobEntry> = app.jobs.iter().filter(fits).collect();
    if wish.sort != SortBy::Changed {
        order::sort_by(&mut rows, |a, b| wish.sort.compare(a, b));
    }
    let found = rows.len();
    rows.truncate(wish.most);
    Listed { rows, found }
}

/// A day as it is compared: year, month, day.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Day(i32, u32, u32);

impl Day {
    /// The day of a text as `2026-03-12`.
    fn of(text: &str) -> Option<Self> {
        let mut parts = text.trim().splitn(3, '-');
        let year = parts.next()?.parse().ok()?;
        let month = parts.next()?.parse().ok()?;
        Some(Self(year, month, parts.next()?.parse().ok()?))
    }

    fn on(at: &DateTime<FixedOffset>) -> Self {
        Self(at.year(), at.month(), at.day())
    }
}

/// A word that is looked for, and what it would be as a day.
struct Word<'a> {
    text: &'a str,
    year: Option<i32>,
    month: Option<u32>,
    day: bool,
}

impl<'a> Word<'a> {
    fn of(text: &'a str) -> Self {
        let digits = text.chars().all(|c| c.is_ascii_digit());
        let months = MONTHS.iter().position(|month| text.starts_with(month));
        Self {
            text,
            year: text.parse().ok().filter(|_| digits && text.len() == 4),
            month: months.and_then(|at| u32::try_from(at).ok()),
            day: text.len() >= 7 && text.as_bytes().get(4) == Some(&b'-'),
        }
    }

    /// Whether it stands in a job's texts, or is (part of) the day of its
    /// start or its last change: `2026`, `mar`, `2026-03`, `2026-03-12`.
    fn is_in(&self, job: &JobEntry) -> bool {
        let on = |at: &DateTime<FixedOffset>| {
            self.year == Some(at.year())
                || self.month == Some(at.month0())
                || (self.day && moment::sorted_date(at).starts_with(self.text))
        };
        job.found_by.contains(self.text) || on(&job.created) || on(&job.changed)
    }
}

/// The beginnings of the months' names, as [`moment`] writes them.
const MONTHS: [&str; 12] = [
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
];

/// The kits that jobs were fitted with, by name.
#[must_use]
pub fn kits_of(app: &AppState) -> Vec<String> {
    let mut kits: Vec<String> = Vec::new();
    for job in &app.jobs {
        // Neighbours mostly share their kit.
        if kits.last() != Some(&job.kit) && !kits.contains(&job.kit) {
            kits.push(job.kit.clone());
        }
    }
    order::sort_by_key(&mut kits, |kit| kit.to_lowercase());
    kits
}
