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

/// An own job of a group.
#[derive(Clone, Debug, PartialEq)]
pub struct Own {
    /// The job.
    pub id: JobId,
    /// Years of its vehicle.
    pub years: Option<(u16, u16)>,
}

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
    pub own: Vec<Own>,
    /// Jobs that colleagues passed on.
    pub theirs: usize,
    /// Last worked on.
    pub newest: DateTime<FixedOffset>,
}

impl Group {
    /// How many jobs.
    #[must_use]
    pub fn count(&self) -> usize {
        self.own.len() + self.theirs
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
    /// Which of the kinds under the name is offered.
    pub kind: usize,
    /// The job that takes over what is offered; `None` for a new one.
    pub into: Option<JobState>,
    /// What the model is called in a file, as typed.
    pub pass_model: Option<String>,
    /// How many vehicles, as typed.
    pub fleet_typed: String,
    /// Whether the workshop's name goes along.
    pub say_workshop: Said,
    /// Whether the fitter's name goes along.
    pub say_fitter: Said,
}

/// Whether colleagues' files are other ones than before.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Received {
    /// They are.
    Anew,
    /// They are not.
    AsBefore,
}

fn key_of(name: &VehicleName) -> String {
    let body = name.body.map(|body| body.message().key.into_owned());
    let figure = |figure: Option<u16>| figure.map_or_else(String::new, |one| one.to_string());
    let [engine, figure] = [name.engine, name.figure].map(figure);
    let body = body.unwrap_or_default();
    format!("{} {body} {engine} {figure}", name.model)
}

impl AgainDraft {
    /// Nothing is offered any more.
    pub(super) fn close(&mut self) {
        self.chosen.clear();
        self.left_out.clear();
        self.jobs.clear();
        self.offer = None;
        self.fleet_typed.clear();
        self.kind = 0;
        self.pass_model = None;
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
                        own: Vec::new(),
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
                    Some(id) => group.own.push(Own {
                        id: id.clone(),
                        years: name.years,
                    }),
                    None => group.theirs += 1,
                }
                groups.insert(key, group);
            }
        };
        for job in jobs {
            put(&job.vehicle, job.changed, Some(&job.id));
        }
        for (_, lesson) in self.theirs() {
            put(&lesson.vehicle, lesson.at, None);
        }
        let mut groups: Vec<Group> = groups.into_values().collect();
        order::sort_by(&mut groups, |a, b| {
            b.newest.cmp(&a.newest).then_with(|| a.key.cmp(&b.key))
        });
        self.groups = Rc::new(groups);
        self.nameless = nameless;
    }

    /// Whether so many own jobs were sorted.
    pub(super) fn holds(&self, jobs: usize) -> bool {
        let named: usize = self.groups.iter().map(|group| group.own.len()).sum();
        named + self.nameless == jobs
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

    /// Own jobs of the chosen models: nearest to the years wanted, then the
    /// newest. Each model in turn gives one, so that one that counts too is
    /// heard.
    pub(super) fn ids_chosen(&self) -> Vec<JobId> {
        let wanted = self.wanted();
        let apart = |own: &&Own| {
            let years = VehicleName {
                years: own.years,
                ..VehicleName::default()
            };
            wanted.years_apart(&years)
        };
        let nearest = |group: &Group| {
            let mut own: Vec<&Own> = group.own.iter().collect();
            order::sort_by_key(&mut own, apart);
            own.into_iter().map(|own| own.id.clone()).collect()
        };
        let models: Vec<Vec<JobId>> = self
            .groups_chosen()
            .map(|group| -> Vec<JobId> { nearest(group) })
            .collect();
        let longest = models.iter().map(Vec::len).max().unwrap_or_default();
        let in_turn = (0..longest).flat_map(|at| models.iter().filter_map(move |one| one.get(at)));
        in_turn.take(RECALLED_GREATEST).cloned().collect()
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
            Some(years) if model.years != typed.years => VehicleName::with_years(offered, years),
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

    /// What colleagues' jobs teach beside own ones: what came back from them
    /// is no second vehicle.
    pub(super) fn theirs_beside(&self, own: &[Lesson]) -> Vec<(String, Lesson)> {
        let twin = |lesson: &Lesson| own.iter().any(|own| again::is_same_job(own, lesson));
        let all = self.theirs().into_iter();
        all.filter(|(_, lesson)| !twin(lesson)).collect()
    }

    /// Reads colleagues' files, unless they are those of before.
    pub(super) fn receive(&mut self, files: Vec<(String, String)>) -> Received {
        if files == self.files {
            return Received::AsBefore;
        }
        self.received.clear();
        self.unreadable.clear();
        for (key, text) in &files {
            match read_passed(text) {
                Ok(passed) => self.received.push((key.clone(), passed)),
                Err(fault) => self.unreadable.push((key.clone(), fault.message())),
            }
        }
        self.files = files;
        Received::Anew
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
        let theirs = self.theirs_beside(&lessons).into_iter().filter(is_chosen);
        let theirs: Vec<Lesson> = theirs.map(|(_, theirs)| theirs).collect();
        lessons.extend(theirs);
        let wanted = self.wanted();
        self.offer = again::offer_of(&wanted, &lessons, self.kind).map(Rc::new);
    }

    /// Lines of the offer that are taken.
    #[must_use]
    pub fn taken(&self) -> Vec<Line> {
        let lines = self.offer.iter().flat_map(|offer| &offer.lines);
        let lines = lines.map(|line| line.line);
        lines.filter(|line| !self.left_out.contains(line)).collect()
    }

    /// A line is left out: face angles belong to their marks.
    pub(super) fn leave(&mut self, line: Line) {
        let with = (line == Line::Marks).then_some(Line::Faces);
        for line in [line].into_iter().chain(with) {
            if !self.left_out.contains(&line) {
                self.left_out.push(line);
            }
        }
    }

    /// A line is taken after all, with the marks that it needs.
    pub(super) fn take(&mut self, line: Line) {
        let with = (line == Line::Faces).then_some(Line::Marks);
        self.left_out
            .retain(|other| *other != line && Some(*other) != with);
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
