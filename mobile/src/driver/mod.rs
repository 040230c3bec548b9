//! From intents to the next state of the app and what the phone is to do.
//!
//! [`handle`] is plain code without a clock or a device: the shell gives it
//! the moment and performs the actions, the workflow tests do the same on a
//! scripted phone.

mod again;
mod alarm;
mod backup;
mod beside_head;
mod boot;
mod brief;
mod cards;
mod cards_draft;
mod cards_keep;
mod cards_queue;
mod centre;
mod check;
mod corners;
mod ear;
mod entry;
mod erase;
mod fit;
mod glimpse;
mod guide;
mod held;
mod intent;
mod issues;
mod jobs;
mod keeping;
mod keys;
mod kit_edit;
mod kit_shelf;
mod kits;
mod layout;
mod learn;
mod level;
mod lie;
mod listing;
mod loose;
mod measure;
mod paper;
mod phone;
mod photos;
mod put_by;
mod reading;
mod restock;
mod sight;
mod state;
mod store;
mod stored;
mod storing;
mod target;
mod typed_face;
mod visits;
mod walk;
mod work;
mod workshop;
mod zeroing;

pub use again::{
    AgainDraft, AgainIntent, FleetView, Group, Own, PASSED_PREFIX, RECALLED_GREATEST, Recalled,
    Said, fitted_before, pass_words, told_apart_by,
};
pub use alarm::{counts, rings};
pub use backup::{BACKUP_DAYS, BackupDraft, BackupIntent, Chosen, WayBack, Whole, backup_due};
pub use beside_head::words as beside_words;
pub use brief::BRIEF_PREFIX;
pub use cards::CardsIntent;
pub use cards_draft::CardsDraft;
pub use check::{Checked, Found, Odd};
pub use corners::{SweepDraft, corner_field, station_words, sweep_field, sweep_places};
pub use ear::{Ear, EarNow};
pub use entry::JobEntry;
pub use erase::{EraseWhat, TRASH_DAYS, customers};
pub use guide::{GuideDraft, GuideIntent};
pub use held::{Beside, BoardWay, Held, Phase, Target};
pub use intent::{Action, Intent, Now, Place};
pub use issues::{IssueIntent, sheet_key};
pub use keeping::put as record_and_entry;
pub use kit_shelf::{Editing, KitEntry, KitIntent, Kits, QUICK_PAGES, Told};
pub use layout::{CheckIntent, MarkOutIntent};
pub use learn::{LearnDraft, LearnIntent};
pub use level::{CameraState, LevelDraft, LevelIntent, ShownPhoto, live_level, screen_turn};
pub use lie::BoardDraft;
pub use listing::{ListIntent, ListWish, Listed, SHOWN, SortBy, kits_of, listed};
pub use loose::bereft_words;
pub use measure::{Drafts, Measure};
pub use paper::sheet_of;
pub use phone::{
    Bay, PhoneSettings, Voice, age as zeroing_age, in_use as phone_in_use, profile as phone_profile,
};
pub use photos::{COPY_SIDE, PhotoIntent, PhotosDraft, PictureUse, Shows};
pub use put_by::{PutBy, PutByWhy};
pub use restock::{Bought, to_buy};
pub use sight::{SightDraft, SightIntent, TILT_GREATEST};
pub use state::{
    AppState, Boot, LeftHow, LeftJob, Making, Notice, OpenJob, Saved, Settings, Sheets, UndoOf,
    Unreadable,
};
pub use store::{StoreDraft, StoreIntent};
pub use stored::{
    Erased, Stored, check_all, check_some, drop_loose, erase, move_record, open_store, read_put_by,
    read_store,
};
pub use walk::{Lead, Pace, WalkDraft, WalkIntent, head_now as walk_head, point_now as walk_point};
pub use workshop::{Letter, Letterhead, PhotoPolicy, Theme, Units, WorkshopIntent};
pub use zeroing::ZeroDraft;

pub(crate) use keys::{KeySet, job_of};

pub use crate::platform::PictureFrom;

/// Key of a job's record.
pub const JOB_PREFIX: &str = "job/";
/// Key of a deleted job's record.
pub const TRASH_PREFIX: &str = "trash/";
/// Key of all that is put by.
pub const KEPT_PREFIX: &str = "kept/";
/// Key of a job as it was before a visit, or before a restore.
pub const KEPT_JOB_PREFIX: &str = "kept/job/";
/// What follows the job in the key of one that a restore put by.
pub const KEPT_RESTORED_PREFIX: &str = "restored";
/// What follows the job in the key of one that is kept as its sheet was issued.
pub const KEPT_SHEET_PREFIX: &str = "sheet";
/// Key of a kit sheet that a restore put by.
pub const KEPT_KIT_PREFIX: &str = "kept/kit/";
/// Key of the list of pictures whose jobs are gone.
pub const KEPT_PICTURES_KEY: &str = "kept/pictures";
/// Key of what is noted while a backup is taken in.
pub const RESTORING_KEY: &str = "restoring";
/// Key of the settings.
pub const SETTINGS_KEY: &str = "settings";
/// Key under which settings that could not be read are put by.
pub const KEPT_SETTINGS_KEY: &str = "kept/settings";

/// Key of a kit sheet.
pub const KIT_PREFIX: &str = "kit/";
/// Key of the quick sheet that is being typed.
pub const KIT_DRAFT_KEY: &str = "kit-draft";
/// Key of the sheet that is being edited in full.
pub const KIT_EDIT_KEY: &str = "kit-edit";

/// Turns an intent into the state that follows and the actions to perform.
///
/// An intent that makes no sense at the moment (a second tap on a button
/// that already did its work) changes nothing.
pub fn handle(app: &mut AppState, intent: Intent, now: &Now) -> Vec<Action> {
    let mut actions = handled(app, intent, now);
    actions.extend(guide::follow(app));
    actions
}

fn handled(app: &mut AppState, intent: Intent, now: &Now) -> Vec<Action> {
    if app.boot == Boot::Elsewhere && !store::is_heard_elsewhere(&intent) {
        return Vec::new();
    }
    let mut actions = learn::before(app, &intent, now);
    actions.extend(follow(app, intent, now));
    actions
}

fn follow(app: &mut AppState, intent: Intent, now: &Now) -> Vec<Action> {
    match intent {
        Intent::Booted { stored, path } => boot::booted(app, *stored, &path, now),
        Intent::BlobsFound(keys) => {
            let mut actions = loose::found(app, &keys, now);
            actions.extend(check::look_over(app));
            actions
        }
        Intent::BootFailed(fault) => boot::boot_failed(app, &fault),
        Intent::StartJob(id) => jobs::start(app, id, now),
        Intent::StartFault(id) => jobs::start_fault(app, id, now),
        Intent::OpenSample(id) => jobs::open_sample(app, id, now),
        Intent::OpenJob(id) => jobs::open(app, &id),
        Intent::Loaded(id, step, found) => {
            let mut actions = jobs::loaded(app, &id, step, found);
            actions.extend(learn::found(app, now));
            actions.extend(storing::catch_up(app, now));
            actions
        }
        Intent::DeleteJob(id) => jobs::delete(app, &id, now),
        Intent::RestoreJob(id) => jobs::restore(app, &id, now),
        Intent::Moved(id, outcome) => jobs::moved(app, &id, outcome),
        Intent::List(said) => {
            listing::handle(&mut app.list, said);
            Vec::new()
        }
        Intent::Store(said) => store::handle(app, said, now),
        Intent::Backup(said) => backup::handle(app, said, now),
        Intent::GoJobs => jobs::go_list(app),
        Intent::Popped(path) => jobs::popped(app, &path),
        Intent::Committed(number, outcome) => keeping::committed(app, number, outcome),
        Intent::SaveAgain => keeping::save_again(app),
        Intent::HideNotice => {
            app.notice = None;
            Vec::new()
        }
        Intent::GoStep(step) => work::go_step(app, step),
        Intent::Rename(name) => work::rename(app, name, now),
        Intent::Particular(which, text) => work::particular(app, which, text, now),
        Intent::Type(field, text) => work::typed(app, field, text, now),
        Intent::ShowMarks => work::show_marks(app, now),
        Intent::PlanMarks(kind) => work::plan_marks(app, kind, now),
        Intent::MarkOut(intent) => layout::mark_out(app, intent, now),
        Intent::Check(intent) => layout::check(app, intent, now),
        Intent::Fit(event) => fit::event(app, *event, now),
        Intent::Walk(said) => walk::handle(app, said, now),
        Intent::Fill(asked) => fit::fill(app, asked, now),
        Intent::CameAgain(why) => visits::came_again(app, why, now),
        Intent::Workshop(intent) => workshop::handle(app, intent, now),
        Intent::Kits(intent) => kits::handle(app, intent, now),
        Intent::Again(intent) => again::handle(app, intent, now),
        Intent::TapeOn => work::tape_on(app, now),
        Intent::Undo => work::undo(app, now),
        Intent::Redo => work::redo(app, now),
        Intent::IssueSheet => work::issue_sheet(app, now),
        Intent::ChoosePaper(paper) => paper::choose(app, paper),
        Intent::CheckLine(typed) => paper::check_line(app, typed, now),
        Intent::PrintQuote => work::print_once(app, now),
        Intent::MakeSheets(sheets) => paper::make(app, sheets, now),
        Intent::StopSheets => paper::stop(app),
        Intent::Issue(said) => issues::handle(app, said),
        Intent::Cards(said) => cards::handle(app, said, now),
        Intent::Worked(number, event) => match sight::worked(app, number, &event)
            .or_else(|| guide::worked(app, number, &event))
            .or_else(|| cards::worked(app, number, &event, now))
        {
            Some(actions) => actions,
            None => {
                let mut actions = paper::worked(app, number, event);
                actions.extend(sight::catch_up(app));
                actions
            }
        },
        Intent::Sight(said) => sight::handle(app, said),
        Intent::FileOut(name, outcome) => paper::shared(app, &name, &outcome),
        Intent::StartReading => reading::restart(app),
        Intent::ChooseSpot(spot) => reading::choose(app, spot),
        Intent::ReadAgain(spot) => reading::again(app, spot, now),
        Intent::TakeTyped(facing) => typed_face::take_typed(app, facing, now),
        Intent::OnDevice(device) => {
            app.device = device;
            Vec::new()
        }
        Intent::Measure(said) => measure::handle(app, said, now),
        Intent::Photo(said) => photos::handle(app, said, now),
        Intent::Motion(events) => held::motion(app, &events, now),
        Intent::Tick(at) => {
            let mut actions = held::tick(app, at, now);
            actions.extend(walk::tick(app, at));
            actions
        }
        Intent::WaitOver => alarm::ring(app, now),
        // The screens that show a wait are drawn anew.
        Intent::SecondPassed => Vec::new(),
        Intent::Learn(said) => learn::handle(app, said, now),
        Intent::Seen(visibility) => {
            let mut actions = held::seen(app, visibility);
            actions.extend(learn::seen(app, visibility, now));
            actions
        }
    }
}
