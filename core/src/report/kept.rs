//! What the workshop's file holds besides the fitting: photos, steps that
//! were skipped, minutes, visits.

use super::customer::head_photos;
use super::job_sheet::literal;
use super::{Block, Section, SheetPhoto};
use crate::job::{
    HowEnded, JobState, Photo, PhotoOf, StepStands, not_done, photo_name, stages_spent, step_path,
    words_as_before,
};
use crate::moment;
use crate::steps::{Asks, StepBook, StepName};
use crate::text::{Message, msg};

/// Sections of photos, steps, minutes and visits, as far as there are any.
#[must_use]
pub fn kept(job: &JobState, book: &StepBook) -> Vec<Section> {
    let sections = [
        photos(job, book),
        written(job, book),
        minutes(job),
        visits(job),
        skipped(job, book),
    ];
    sections.into_iter().flatten().collect()
}

fn photos(job: &JobState, book: &StepBook) -> Option<Section> {
    let mut blocks = Vec::new();
    let heads = head_photos(job);
    if !heads.is_empty() {
        blocks.push(Block::Photos(heads));
    }
    blocks.extend(pairs(job, book).into_iter().map(Block::Photos));
    let steps: Vec<SheetPhoto> = job
        .photos
        .iter()
        .filter_map(|photo| match &photo.of {
            PhotoOf::Step(name) if half(book, name).is_none() => {
                Some(step_photo(photo, name, book))
            }
            PhotoOf::Step(_) | PhotoOf::Head(_) => None,
        })
        .collect();
    if !steps.is_empty() {
        blocks.push(Block::Photos(steps));
    }
    let behind = job.behind.photos.iter().map(|photo| SheetPhoto {
        blob: photo.blob.clone(),
        caption: photo_name(job, photo),
        size: (photo.width, photo.height),
        notes: Vec::new(),
    });
    let behind: Vec<SheetPhoto> = behind.collect();
    if !behind.is_empty() {
        blocks.push(Block::Photos(behind));
    }
    (!blocks.is_empty()).then(|| Section {
        heading: msg("sheet-photos"),
        blocks,
    })
}

/// Photos before and after side by side, in the order in which they were
/// taken; where one has no other half, it stands alone.
fn pairs(job: &JobState, book: &StepBook) -> Vec<Vec<SheetPhoto>> {
    let of = |wanted: &Asks, key: &'static str| -> Vec<SheetPhoto> {
        let photos = job.photos.iter().filter(|photo| match &photo.of {
            PhotoOf::Step(name) => half(book, name) == Some(wanted),
            PhotoOf::Head(_) => false,
        });
        let named = photos.map(|photo| SheetPhoto {
            blob: photo.blob.clone(),
            caption: msg(key).text("when", moment::day_and_clock(&photo.at)),
            size: (photo.width, photo.height),
            notes: photo.notes.clone(),
        });
        named.collect()
    };
    let before = of(&Asks::Before, "sheet-photo-before");
    let after = of(&Asks::After, "sheet-photo-after");
    let count = before.len().max(after.len());
    (0..count)
        .map(|at| {
            let both = [before.get(at), after.get(at)];
            both.into_iter().flatten().cloned().collect()
        })
        .collect()
}

/// Which half of a pair the photos of a step are.
fn half<'a>(book: &'a StepBook, name: &StepName) -> Option<&'a Asks> {
    let (_, step) = book.step(name)?;
    let mut asks = step.asks.iter();
    asks.find(|asks| matches!(asks, Asks::Before | Asks::After))
}

fn step_photo(photo: &Photo, name: &StepName, book: &StepBook) -> SheetPhoto {
    let what = book
        .step(name)
        .map_or_else(|| literal(&name.0), |(_, step)| step.what());
    SheetPhoto {
        blob: photo.blob.clone(),
        caption: msg("sheet-step-photo")
            .message("what", what)
            .text("when", moment::day_and_clock(&photo.at)),
        size: (photo.width, photo.height),
        notes: photo.notes.clone(),
    }
}

/// What was written down at steps.
fn written(job: &JobState, book: &StepBook) -> Option<Section> {
    let pairs: Vec<(Message, Message)> = book
        .steps()
        .filter_map(|(_, step)| {
            let words = literal(job.steps.words.get(&step.name)?);
            let words = if words_as_before(job, &step.name) {
                msg("sheet-written-before").message("words", words)
            } else {
                words
            };
            Some((step.what(), words))
        })
        .collect();
    (!pairs.is_empty()).then(|| Section {
        heading: msg("sheet-written"),
        blocks: vec![Block::Pairs(pairs)],
    })
}

fn minutes(job: &JobState) -> Option<Section> {
    let spent = stages_spent(job);
    let all: u32 = spent.iter().map(|(_, minutes)| minutes).sum();
    if all == 0 {
        return None;
    }
    let mut pairs: Vec<(Message, Message)> = spent
        .into_iter()
        .map(|(stage, minutes)| (stage.message(), in_minutes(minutes)))
        .collect();
    pairs.push((msg("sheet-minutes-all"), in_minutes(all)));
    Some(Section {
        heading: msg("sheet-minutes"),
        blocks: vec![Block::Pairs(pairs)],
    })
}

fn in_minutes(minutes: u32) -> Message {
    msg("sheet-minutes-are").count("minutes", i64::from(minutes))
}

fn visits(job: &JobState) -> Option<Section> {
    let lines: Vec<Message> = job
        .visits
        .iter()
        .map(|visit| {
            msg("sheet-visit")
                .text("when", moment::date(&visit.at))
                .text("why", visit.why.clone())
                .text("done", visit.done.clone())
                .count("sheet", i64::from(visit.sheet))
        })
        .collect();
    (!lines.is_empty()).then(|| Section {
        heading: msg("sheet-visits"),
        blocks: vec![Block::Lines(lines)],
    })
}

/// Skipped with a reason, open, and closed as usual: each is said.
fn skipped(job: &JobState, book: &StepBook) -> Option<Section> {
    let mut lines = not_done(job, book);
    let path = step_path(job, book);
    let usual = path
        .iter()
        .flat_map(|stage| &stage.steps)
        .filter(|step| step.stands == StepStands::Done)
        .filter(|step| {
            let ended = job.steps.ended.get(&step.sheet.name);
            ended.is_some_and(|ended| ended.how == HowEnded::AsUsual)
        })
        .map(|step| step.sheet.what());
    let usual: Vec<Message> = usual.collect();
    if !usual.is_empty() {
        lines.push(msg("sheet-as-usual").list("steps", usual));
    }
    (!lines.is_empty()).then(|| Section {
        heading: msg("sheet-steps"),
        blocks: vec![Block::Lines(lines)],
    })
}
