//! The full editor: what is typed is kept at once, and goes on the sheet
//! when it is asked to.

use rakeline_core::kit::{Draft, KitSheet, library};
use rakeline_core::text::msg;

use super::intent::Action;
use super::kit_shelf::{Editing, Told};
use super::kits::{arrive, commit, instead, keep, say};
use super::state::AppState;
use super::{KIT_EDIT_KEY, jobs, keeping};
use crate::platform::Write;
use crate::route::{KitId, Route};

/// Something was typed, added or taken out; it is kept as it stands.
pub(super) fn edit(app: &mut AppState, change: impl FnOnce(&mut Draft)) -> Vec<Action> {
    let Some(editing) = &mut app.kits.editing else {
        return Vec::new();
    };
    change(&mut editing.draft);
    editing.look();
    let value = editing.draft.stored(&editing.id.0);
    app.kits.unkept = Some((editing.id.0.clone(), editing.draft.clone()));
    let key = KIT_EDIT_KEY.to_owned();
    commit(app, vec![Write::Put { key, value }])
}

/// What was typed and not kept goes from the store.
fn forget_edit(app: &mut AppState) -> Option<Write> {
    app.kits.unkept.take()?;
    let key = KIT_EDIT_KEY.to_owned();
    Some(Write::Delete { key })
}

/// The sheet stands in the editor as it was kept last.
pub(super) fn throw(app: &mut AppState) -> Vec<Action> {
    let writes: Vec<Write> = forget_edit(app).into_iter().collect();
    let gone = app.kits.editing.take().map(|editing| editing.id);
    let mut actions = commit(app, writes);
    if gone.is_some_and(|id| app.kits.find(&id).is_none()) {
        // It was begun from nothing: there is no sheet to go back to.
        actions.extend(instead(app, Route::Kits));
    } else {
        arrive(app);
    }
    actions
}

/// Begins a full sheet from nothing; one that was begun goes on.
pub(super) fn type_full(app: &mut AppState, new: KitId) -> Vec<Action> {
    let begun = app.kits.begun().map(|(id, draft)| (id, draft.clone()));
    let (id, draft) = begun.unwrap_or_else(|| (new, Draft::blank()));
    app.kits.editing = Some(Editing::of(id.clone(), draft));
    jobs::go_to(app, Route::EditKit(id))
}

/// Puts what is typed on the sheet; what is wrong with it is said.
pub(super) fn keep_it(app: &mut AppState) -> Vec<Action> {
    let Some(editing) = &mut app.kits.editing else {
        return Vec::new();
    };
    let (id, sheet) = match editing.draft.sheet() {
        Ok(sheet) => (editing.id.clone(), sheet),
        Err(_) => {
            editing.told = Told::All;
            editing.look();
            return Vec::new();
        }
    };
    let others: Vec<KitSheet> = app
        .kits
        .own
        .iter()
        .chain(&app.kits.samples)
        .filter(|entry| entry.id != id)
        .map(|entry| entry.sheet.as_ref().clone())
        .collect();
    if library::free_name(&sheet.name, &others) != sheet.name {
        say(app, msg("kit-name-taken").text("name", sheet.name), None);
        return Vec::new();
    }
    let was = app.kits.find(&id).map(|entry| entry.sheet.clone());
    let mut writes = Vec::new();
    // The next job is fitted with the sheet as it is now.
    if was.is_some() && app.settings.last_kit.as_ref() == was.as_deref() {
        app.settings.last_kit = Some(sheet.clone());
        writes.extend(keeping::settings(app));
    }
    writes.push(keep(app, id.clone(), sheet));
    writes.extend(forget_edit(app));
    let mut actions = commit(app, writes);
    actions.extend(instead(app, Route::Kit(id)));
    actions
}
