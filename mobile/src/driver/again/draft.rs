//! What the screens of same again show at a moment.

use std::rc::Rc;

use chrono::{DateTime, FixedOffset};
use rakeline_core::again::{
    self, Fleet, Lesson, Likeness, Line, Offer, PassedOn, VehicleName, lesson, read_passed,
};
use rakeline_core::job::{JobId, JobState};
use rakeline_core::order;
use rakeline_core::table::Table;
use rakeline_core::text::Message;

use super::Said;
use crate::driver::JobEntry;

/// Most jobs of a model whose records are read, the newest (our own figure:
/// twice as many as count).
pub const RECALLED_GREATEST: usize = 2 * rakeline_core::job::EARLIER_JOBS_GREATEST;

/// Jobs on vehicles of one name.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// By which it is told from others.
    pub key: String,
    /// As it was typed last.
    pub title: String,
    /// The name, with the years of all.
    pub name: VehicleName,
    /// Own jobs, last changed first.
    pub ids: Vec<JobId>,
    /// Jobs that colleagues passed on.
    pub theirs: usize,
    /// Last worked on.
    pub newest: DateTime<FixedOffset>,
}

impl Group {
    /// How many jobs.
    #[must_use]
    pub fn count(&self) -> usize {
        self.ids.len() + self.theirs
    }
}

/// What the screens of same again show.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct AgainDraft {
    /// The vehicle as typed.
    pub typed: String,
    /// All models that were fitted before, last worked on first.
    pub groups: Rc<Vec<Group>>,
    /// Own jobs whose vehicle has no name.
    pub nameless: usize,
    /// Keys of the models that are offered.
    pub chosen: Vec<String>,
    /// Whether the store is asked.
    pub waiting: bool,
    /// What it was asked for last.
    pub(super) asked: Vec<JobId>,
    /// Jobs that were read.
    pub jobs: Vec<JobState>,
    /// How many could not be read.
    pub not_read: usize,
    /// Colleagues' files by key.
    pub received: Vec<(String, PassedOn)>,
    /// Files that cannot be read, by key. They are kept.
    pub unreadable: Vec<(String, Message)>,
    /// The fleet taken off the list last.
    pub(super) ended: Option<Fleet>,
    /// The file removed last.
    pub(super) removed: Option<(String, String)>,
    /// Texts of the files by key.
    pub(super) files: Vec<(String, String)>,
    /// What is wrong with the file chosen last.
    pub brought_fault: Option<Message>,
    /// What is offered.
    pub offer: Option<Rc<Offer>>,
    /// Lines that are left out.
    pub left_out: Vec<Line>,
    /// How many vehicles, as typed.
    pub fleet_typed: String,
    /// Whether the workshop's name goes along.
    pub say_workshop: Said,
    /// Whether the fitter's name goes along.
    pub say_fitter: Said,
}

fn key_of(name: &VehicleName) -> String {
    let body = name.body.map(|body| body.message().key.into_owned());
    format!("{} {}", name.model, body.unwrap_or_default())
}

impl AgainDraft {
    /// Nothing is offered any more.
    pub(super) fn close(&mut self) {
        self.chosen.clear();
        self.left_out.clear();
        self.jobs.clear();
        self.offer = None;
        self.fleet_typed.clear();
        self.brought_fault = None;
        self.asked.clear();
        self.waiting = false;
    }

    /// Sorts own jobs and received ones by the name of their vehicle.
    pub(super) fn group(&mut self, jobs: &[JobEntry]) {
        let mut groups: Table<String, Group> = Table::new();
        let mut nameless = 0;
        let mut put = |vehicle: &str, at: DateTime<FixedOffset>, id: Option<&JobId>| {
            let name = VehicleName::read(vehicle);
            if name.is_empty() {
                nameless += usize::from(id.is_some());
                return;
            }
            let key = key_of(&name);
            if groups.get(&key).is_none() {
                groups.insert(
                    key.clone(),
                    Group {
                        key: key.clone(),
                        title: vehicle.to_owned(),
                        name: name.clone(),
                        ids: Vec::new(),
                        theirs: 0,
                        newest: at,
                    },
                );
            }
            if let Some(mut group) = groups.remove(&key) {
                if at > group.newest {
                    group.newest = at;
                    vehicle.clone_into(&mut group.title);
                }
                group.name.years = match (group.name.years, name.years) {
                    (Some((a, b)), Some((c, d))) => Some((a.min(c), b.max(d))),
                    (one, other) => one.or(other),
                };
                match id {
                    Some(id) => group.ids.push(id.clone()),
                    None => group.theirs += 1,
                }
                groups.insert(key, group);
            }
        };
        for job in jobs {
            put(&job.vehicle, job.changed, Some(&job.id));
        }
        for lesson in self.received.iter().flat_map(|(_, passed)| &passed.lessons) {
            put(&lesson.vehicle, lesson.at, None);
        }
        let mut groups: Vec<Group> = groups.into_values().collect();
        order::sort_by(&mut groups, |a, b| {
            b.newest.cmp(&a.newest).then_with(|| a.key.cmp(&b.key))
        });
        self.groups = Rc::new(groups);
        self.nameless = nameless;
    }

    /// Groups for what is typed, each with how alike it is: all while
    /// nothing is typed, then the same, then those spelt nearly alike.
    #[must_use]
    pub fn found(&self) -> Vec<(Likeness, &Group)> {
        let wanted = VehicleName::read(&self.typed);
        if wanted.is_empty() {
            return self.groups.iter().map(|g| (Likeness::Same, g)).collect();
        }
        let like = |group: &Group| {
            // A year typed is no other model; a beginning finds while typing.
            let begins = group.name.model.starts_with(&wanted.model) && wanted.body.is_none();
            match wanted.likeness(&group.name) {
                Likeness::Other if begins => Likeness::Alike,
                like => like,
            }
        };
        let mut found: Vec<(Likeness, &Group)> = self
            .groups
            .iter()
            .map(|group| (like(group), group))
            .filter(|(like, _)| *like != Likeness::Other)
            .collect();
        order::sort_by_key(&mut found, |(like, _)| *like);
        found
    }

    /// Groups chosen.
    fn groups_chosen(&self) -> impl Iterator<Item = &Group> {
        let chosen = |group: &&Group| self.chosen.contains(&group.key);
        self.groups.iter().filter(chosen)
    }

    /// How many jobs the chosen models have.
    #[must_use]
    pub fn count_chosen(&self) -> usize {
        self.groups_chosen().map(Group::count).sum()
    }

    /// Other groups that may be the chosen model, spelt differently.
    #[must_use]
    pub fn alike(&self) -> Vec<&Group> {
        let Some(first) = self.groups_chosen().next() else {
            return Vec::new();
        };
        let alike = |group: &&Group| {
            !self.chosen.contains(&group.key) && group.name.likeness(&first.name) != Likeness::Other
        };
        self.groups.iter().filter(alike).collect()
    }

    /// Own jobs of the chosen models, the newest.
    pub(super) fn ids_chosen(&self) -> Vec<JobId> {
        // As many of each model, so that one that counts too is heard.
        let models = self.groups_chosen().count().max(1);
        self.groups_chosen()
            .flat_map(|group| group.ids.iter().take(RECALLED_GREATEST / models))
            .cloned()
            .collect()
    }

    /// What the vehicle of a new job is called: as typed where that is the
    /// chosen model's name, else that name with the years typed. A few
    /// letters that found it are no name.
    pub(super) fn vehicle(&self, offered: &str) -> String {
        let typed = VehicleName::read(&self.typed);
        let model = VehicleName::read(offered);
        if typed.likeness(&model) == Likeness::Same {
            return self.typed.trim().to_owned();
        }
        match typed.years {
            Some((first, last)) if model.years != typed.years => {
                let is_year = |word: &&str| VehicleName::read(word).years.is_some();
                let words = offered.split_whitespace().filter(|word| !is_year(word));
                let mut words: Vec<String> = words.map(str::to_owned).collect();
                words.push(first.to_string());
                words.extend((last != first).then(|| last.to_string()));
                words.join(" ")
            }
            _ => offered.to_owned(),
        }
    }

    /// What colleagues' jobs teach, each file's key first. A job that stands
    /// in two of the files, an older and a later one, teaches once.
    pub(super) fn theirs(&self) -> Vec<(String, Lesson)> {
        let mut all: Vec<(String, Lesson)> = Vec::new();
        for (key, passed) in &self.received {
            for lesson in &passed.lessons {
                let mut theirs = lesson.clone();
                theirs.id = format!("{key}/{}", theirs.id);
                let twin = |(other, known): &(String, Lesson)| {
                    other != key && again::is_same_job(known, lesson)
                };
                match all.iter().position(twin) {
                    Some(at) if all[at].1.at < theirs.at => all[at] = (key.clone(), theirs),
                    Some(_) => {}
                    None => all.push((key.clone(), theirs)),
                }
            }
        }
        all
    }

    /// Reads colleagues' files.
    pub(super) fn receive(&mut self, files: Vec<(String, String)>) {
        self.received.clear();
        self.unreadable.clear();
        for (key, text) in &files {
            match read_passed(text) {
                Ok(passed) => self.received.push((key.clone(), passed)),
                Err(fault) => self.unreadable.push((key.clone(), fault.message())),
            }
        }
        self.files = files;
    }

    /// Works out what is offered from the jobs read.
    pub(super) fn offered(&mut self) {
        if self.chosen.is_empty() {
            self.offer = None;
            return;
        }
        let mut lessons: Vec<Lesson> = self.jobs.iter().filter_map(lesson).collect();
        let is_chosen = |(_, theirs): &(String, Lesson)| {
            let name = VehicleName::read(&theirs.vehicle);
            self.chosen.contains(&key_of(&name))
        };
        let theirs = self.theirs().into_iter().filter(is_chosen);
        lessons.extend(theirs.map(|(_, theirs)| theirs));
        let wanted = self.wanted();
        self.offer = again::offer(&wanted, &lessons).map(Rc::new);
    }

    /// The vehicle that is wanted: as typed, else the chosen model's.
    fn wanted(&self) -> VehicleName {
        let typed = VehicleName::read(&self.typed);
        if typed.years.is_some() || !typed.is_empty() {
            return typed;
        }
        VehicleName::default()
    }
}
