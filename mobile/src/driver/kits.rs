//! The workshop's kit sheets: typed quickly, edited in full, copied,
//! brought in from files and handed out, chosen for a job.

use std::rc::Rc;

use rakeline_core::job::JobEvent;
use rakeline_core::json;
use rakeline_core::kit::library::{self, Import};
use rakeline_core::kit::{self, Draft, KitSheet, QuickSheet, SheetFault};
use rakeline_core::order;
use rakeline_core::text::{Message, msg};

use super::intent::{Action, Now};
use super::kit_shelf::{Editing, KitEntry, KitIntent, page_of, samples};
use super::state::{AppState, Notice, UndoOf, Unreadable};
use super::work::{self, Back};
use super::{KIT_DRAFT_KEY, KIT_PREFIX, jobs, keeping, kit_edit, restock};
use crate::platform::{OpenedFile, OutFile, Write};
use crate::route::{KitId, Route};

pub(super) fn handle(app: &mut AppState, intent: KitIntent, now: &Now) -> Vec<Action> {
    match intent {
        KitIntent::Booted { kits, quick, edit } => {
            app.kits.unkept = edit.and_then(|text| Draft::of_stored(&text));
            booted(app, kits, quick.as_deref())
        }
        KitIntent::Go(route) => go(app, route),
        KitIntent::QuickTyped(field, text) => {
            app.kits.quick.set(field, text);
            app.kits.quick_faults.retain(|(faulty, _)| *faulty != field);
            keep_quick(app)
        }
        KitIntent::QuickPage(page) => {
            app.kits.page = page;
            Vec::new()
        }
        KitIntent::QuickKeep(id) => quick_keep(app, id),
        KitIntent::FieldTyped(path, text) => kit_edit::edit(app, |draft| draft.set(&path, &text)),
        KitIntent::EntryAdded(path) => kit_edit::edit(app, |draft| draft.add(&path)),
        KitIntent::EntryTaken(path, entry) => {
            kit_edit::edit(app, |draft| draft.remove(&path, entry))
        }
        KitIntent::EditKeep => kit_edit::keep_it(app),
        KitIntent::EditThrow => kit_edit::throw(app),
        KitIntent::Copy(id, new) => copy(app, &id, new),
        KitIntent::Delete(id) => delete(app, &id),
        KitIntent::BringBack => bring_back(app),
        KitIntent::OpenFile => {
            app.kits.import_faults.clear();
            vec![Action::OpenFile(kit::LARGEST_SHEET)]
        }
        KitIntent::FileOpened(id, file) => opened(app, id, file),
        KitIntent::SaveFile(id) => app.kits.find(&id).map_or_else(Vec::new, |entry| {
            vec![Action::Share(OutFile {
                name: library::file_name(&entry.sheet),
                mime: "application/json",
                bytes: kit::to_json(&entry.sheet).into_bytes(),
            })]
        }),
        KitIntent::UseNext(id) => use_next(app, &id),
        KitIntent::UseHere(id) => use_here(app, &id, now),
        KitIntent::Restocked => restock::all_bought(app),
        KitIntent::NotRestocked(before) => restock::not_bought(app, *before),
        KitIntent::TypeFull(id) => kit_edit::type_full(app, id),
    }
}

fn booted(app: &mut AppState, kits: Vec<(String, String)>, quick: Option<&str>) -> Vec<Action> {
    app.kits.samples = samples();
    // Read again after a backup was taken in.
    app.kits.own.clear();
    app.kits.unreadable.clear();
    for (key, text) in kits {
        match kit::parse(&text) {
            Ok(sheet) => app.kits.own.push(KitEntry {
                id: KitId(key.trim_start_matches(KIT_PREFIX).to_owned()),
                sheet: Rc::new(sheet),
            }),
            Err(faults) => app.kits.unreadable.push(Unreadable {
                key,
                why: faults
                    .first()
                    .map_or_else(|| msg("kit-none"), SheetFault::message),
                about: None,
            }),
        }
    }
    sort(&mut app.kits.own);
    app.kits.quick = quick
        .and_then(|text| json::read(text).ok())
        .unwrap_or_default();
    Vec::new()
}

fn sort(entries: &mut [KitEntry]) {
    order::sort_by(entries, |a, b| {
        a.sheet
            .name
            .cmp(&b.sheet.name)
            .then_with(|| a.id.cmp(&b.id))
    });
}

/// Shows a screen outside a job; an open job is left in order.
fn go(app: &mut AppState, route: Route) -> Vec<Action> {
    if app.route == route {
        return Vec::new();
    }
    jobs::go_to(app, route)
}

/// Makes ready what a screen needs.
pub(super) fn arrive(app: &mut AppState) {
    app.kits.import_faults.clear();
    app.kits.page = 0;
    let Route::EditKit(id) = &app.route else {
        app.kits.editing = None;
        return;
    };
    if app.kits.editing.as_ref().is_some_and(|e| e.id == *id) || app.kits.is_sample(id) {
        return;
    }
    let unkept = app.kits.unkept.as_ref().filter(|(of, _)| *of == id.0);
    let begun = unkept.map(|(_, draft)| draft.clone());
    let kept = app.kits.find(id).map(|entry| Draft::of(&entry.sheet));
    let draft = begun.or(kept);
    app.kits.editing = draft.map(|draft| Editing::of(id.clone(), draft));
}

pub(super) fn commit(app: &mut AppState, writes: Vec<Write>) -> Vec<Action> {
    app.commits += 1;
    vec![Action::Commit(app.commits, writes)]
}

fn put(entry: &KitEntry) -> Write {
    Write::Put {
        key: format!("{KIT_PREFIX}{}", entry.id.0),
        value: kit::to_json(&entry.sheet),
    }
}

fn keep_settings(app: &mut AppState) -> Vec<Action> {
    let writes = keeping::settings(app);
    commit(app, writes)
}

fn keep_quick(app: &mut AppState) -> Vec<Action> {
    match json::write(&app.kits.quick) {
        Ok(value) => {
            let key = KIT_DRAFT_KEY.to_owned();
            commit(app, vec![Write::Put { key, value }])
        }
        Err(_) => Vec::new(),
    }
}

/// Puts a sheet into the library, in place of the one of that id.
pub(super) fn keep(app: &mut AppState, id: KitId, sheet: KitSheet) -> Write {
    let entry = KitEntry {
        id,
        sheet: Rc::new(sheet),
    };
    let write = put(&entry);
    app.kits.own.retain(|other| other.id != entry.id);
    app.kits.own.push(entry);
    sort(&mut app.kits.own);
    app.kits.deleted = None;
    write
}

pub(super) fn say(app: &mut AppState, message: Message, undo: Option<UndoOf>) {
    app.notice = Some(Notice { message, undo });
}

/// Keeps the quick sheet; the next job is fitted with it.
fn quick_keep(app: &mut AppState, id: KitId) -> Vec<Action> {
    let mut sheet = match app.kits.quick.sheet() {
        Ok(sheet) => sheet,
        Err(faults) => {
            if let Some((first, _)) = faults.first() {
                app.kits.page = page_of(*first);
            }
            app.kits.quick_faults = faults;
            return Vec::new();
        }
    };
    sheet.name = library::free_name(&sheet.name, &app.kits.sheets());
    app.settings.last_kit = Some(sheet.clone());
    let mut writes = vec![keep(app, id.clone(), sheet)];
    app.kits.quick = QuickSheet::default();
    app.kits.quick_faults.clear();
    writes.push(Write::Delete {
        key: KIT_DRAFT_KEY.to_owned(),
    });
    writes.extend(keeping::settings(app));
    let mut actions = commit(app, writes);
    actions.extend(instead(app, Route::Kit(id)));
    say(app, msg("kit-kept-next"), None);
    actions
}

/// Shows a screen in place of the present one.
pub(super) fn instead(app: &mut AppState, route: Route) -> Vec<Action> {
    app.route = route.clone();
    app.notice = None;
    arrive(app);
    vec![Action::Replace(route)]
}

fn copy(app: &mut AppState, id: &KitId, new: KitId) -> Vec<Action> {
    let Some(entry) = app.kits.find(id) else {
        return Vec::new();
    };
    let sheet = library::copy(&entry.sheet, &app.kits.sheets());
    let write = keep(app, new.clone(), sheet);
    let mut actions = commit(app, vec![write]);
    app.route = Route::Kit(new);
    arrive(app);
    actions.push(Action::Push(app.route.clone()));
    say(app, msg("kit-copied"), None);
    actions
}

fn delete(app: &mut AppState, id: &KitId) -> Vec<Action> {
    let Some(place) = app.kits.own.iter().position(|entry| entry.id == *id) else {
        return Vec::new();
    };
    let entry = app.kits.own.remove(place);
    let key = format!("{KIT_PREFIX}{}", entry.id.0);
    let name = entry.sheet.name.clone();
    app.kits.deleted = Some(entry);
    let mut actions = commit(app, vec![Write::Delete { key }]);
    if app.route != Route::Kits {
        actions.extend(instead(app, Route::Kits));
    }
    say(app, msg("kit-deleted").text("kit", name), Some(UndoOf::Kit));
    actions
}

fn bring_back(app: &mut AppState) -> Vec<Action> {
    let Some(entry) = app.kits.deleted.take() else {
        return Vec::new();
    };
    app.notice = None;
    let write = keep(app, entry.id, entry.sheet.as_ref().clone());
    commit(app, vec![write])
}

/// A file was chosen: a new sheet joins the library, nothing there changes.
fn opened(app: &mut AppState, id: KitId, file: OpenedFile) -> Vec<Action> {
    app.notice = None;
    let text = match file {
        OpenedFile::Text { text, .. } => text,
        OpenedFile::Nothing => return Vec::new(),
        OpenedFile::TooLarge { bytes } => {
            let fault = kit::Why::DocumentTooLarge { bytes };
            app.kits.import_faults = vec![fault.message()];
            return Vec::new();
        }
        OpenedFile::NotText(why) => {
            app.kits.import_faults = vec![msg("kit-file-not-read").text("why", why)];
            return Vec::new();
        }
    };
    let (sheet, said) = match library::import(&text, &app.kits.sheets()) {
        Err(faults) => {
            app.kits.import_faults = faults.iter().map(SheetFault::message).collect();
            return Vec::new();
        }
        Ok(Import::AlreadyThere { name }) => {
            say(app, msg("kit-already-there").text("name", name), None);
            return Vec::new();
        }
        Ok(Import::New(sheet)) => {
            let said = msg("kit-brought-in").text("name", sheet.name.clone());
            (sheet, said)
        }
        Ok(Import::Renamed { sheet, was }) => {
            let said = msg("kit-brought-in-renamed")
                .text("name", sheet.name.clone())
                .text("was", was);
            (sheet, said)
        }
    };
    let write = keep(app, id, sheet);
    let actions = commit(app, vec![write]);
    say(app, said, None);
    actions
}

fn use_next(app: &mut AppState, id: &KitId) -> Vec<Action> {
    let Some(entry) = app.kits.find(id) else {
        return Vec::new();
    };
    app.settings.last_kit = Some(entry.sheet.as_ref().clone());
    let mut actions = keep_settings(app);
    actions.extend(jobs::go_to(app, Route::Jobs));
    actions
}

/// The open job takes this kit; refused once a hole is drilled.
fn use_here(app: &mut AppState, id: &KitId, now: &Now) -> Vec<Action> {
    let Some(entry) = app.kits.find(id) else {
        return Vec::new();
    };
    let sheet = entry.sheet.as_ref().clone();
    let had_marks = app.job().is_some_and(|job| job.marks.is_some());
    let chosen = JobEvent::KitChosen(Box::new(sheet.clone()));
    app.notice = None;
    let actions = work::event(app, chosen, Back::Step, now);
    let taken = app.job().is_some_and(|job| job.kit == sheet);
    if taken {
        app.settings.last_kit = Some(sheet);
        let marks_went = had_marks && app.job().is_some_and(|job| job.marks.is_none());
        if marks_went {
            say(app, msg("kit-marks-went"), Some(UndoOf::Step));
        }
        return keeping::save(app);
    }
    actions
}

/// What was filled in on the job's sheet goes on the library's sheet too,
/// where that was the same.
pub(super) fn follow_job(app: &mut AppState, was: &KitSheet) -> Vec<Action> {
    let Some(now) = app.job().map(|job| job.kit.clone()) else {
        return Vec::new();
    };
    if now == *was {
        return Vec::new();
    }
    let mut writes = Vec::new();
    if app.settings.last_kit.as_ref() == Some(was) {
        app.settings.last_kit = Some(now.clone());
        writes.extend(keeping::settings(app));
    }
    let same = app.kits.own.iter().find(|entry| *entry.sheet == *was);
    if let Some(id) = same.map(|entry| entry.id.clone()) {
        writes.push(keep(app, id, now));
    }
    if writes.is_empty() {
        Vec::new()
    } else {
        commit(app, writes)
    }
}
