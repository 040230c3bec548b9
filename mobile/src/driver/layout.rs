//! The mark-out beyond the half widths, and what is checked before drilling.

use rakeline_core::decide::mark_out::{NoDrill, NoDrillReason, PlanKind};
use rakeline_core::job::{
    self, AgreedHow, CentreBy, CheckEvent, Field, JobEvent, Limit, MarkOutEvent, MarksFrom, Row,
    RowLine, Taken, TapeLimit, read_length,
};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::{Millimetres, Offset};

use super::intent::{Action, Now};
use super::state::{AppState, Notice, UndoOf};
use super::work::{self, Back, event};
use crate::route::Step;

/// What the fitter wants of the mark-out.
#[derive(Clone, Debug, PartialEq)]
pub enum MarkOutIntent {
    /// The typed area is to be kept clear.
    AddNoDrill(NoDrillReason),
    /// An area goes, by its place in the list.
    TakeNoDrill(usize),
    /// The typed old hole is used again.
    AddOldHole,
    /// It is not.
    TakeOldHole(usize),
    /// The typed limit holds for this job.
    ChangeLimit(Limit),
    /// A limit gives so that there are marks.
    Loosen(Limit, Millimetres),
    /// All limits are the sheet's again.
    LimitsFromSheet,
    /// A mark goes to a place.
    Move(usize, Offset),
    /// A mark goes to the typed place.
    MoveTyped(usize),
    /// A mark stays.
    Lock(usize),
    /// A mark may move.
    Unlock(usize),
    /// The typed height of the row counts, measured from this line.
    TakeRow(Option<RowLine>),
    /// The height of the row is open again.
    DropRow,
    /// How the tape lies.
    TakenAs(Taken),
    /// How the centre line was found.
    CentreBy(CentreBy),
    /// Both half widths are half of the typed full width.
    HalveWidth,
    /// The typed limit of the check holds for this job.
    ChangeTapeLimit(TapeLimit),
    /// All limits of the check are the app's again.
    TapeLimitsFromApp,
    /// The spot cannot be served here: its mark moves at least so far.
    AwayFrom(usize),
}

/// What the fitter says before drilling.
#[derive(Clone, Debug, PartialEq)]
pub enum CheckIntent {
    /// The typed tape readings count.
    TapeReady,
    /// What the photos measured stands for the tape.
    TakePhotos,
    /// A mark is seen from behind and clear.
    Seen(usize),
    /// It is not.
    NotSeen(usize),
    /// The customer agreed, by the typed name.
    Agree(AgreedHow),
    /// The agreement is taken back.
    NotAgreed,
}

pub(super) fn mark_out(app: &mut AppState, intent: MarkOutIntent, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let away = match intent {
        MarkOutIntent::AwayFrom(spot) => Some(spot),
        _ => None,
    };
    let (what, cleared): (Result<MarkOutEvent, Message>, &[Field]) = match intent {
        MarkOutIntent::AddNoDrill(why) => (
            typed_area(job, why).map(MarkOutEvent::NoDrillAdded),
            &[Field::NoDrillFrom, Field::NoDrillTo, Field::NoDrillWhat],
        ),
        MarkOutIntent::TakeNoDrill(index) => (Ok(MarkOutEvent::NoDrillTaken(index)), &[]),
        MarkOutIntent::AddOldHole => (
            job::typed_offset(job, Field::OldHole).map(MarkOutEvent::OldHoleAdded),
            &[Field::OldHole],
        ),
        MarkOutIntent::TakeOldHole(index) => (Ok(MarkOutEvent::OldHoleTaken(index)), &[]),
        MarkOutIntent::ChangeLimit(limit) => (
            typed_limit(job, limit).map(|value| MarkOutEvent::LimitChanged(limit, value)),
            &[],
        ),
        MarkOutIntent::Loosen(limit, value) => (Ok(MarkOutEvent::LimitChanged(limit, value)), &[]),
        MarkOutIntent::LimitsFromSheet => (Ok(MarkOutEvent::LimitsFromSheet), &[]),
        MarkOutIntent::Move(spot, to) => (Ok(MarkOutEvent::MarkMoved { spot, to }), &[]),
        MarkOutIntent::MoveTyped(spot) => (
            job::typed_offset(job, Field::MoveTo).map(|to| MarkOutEvent::MarkMoved { spot, to }),
            &[Field::MoveTo],
        ),
        MarkOutIntent::Lock(spot) => (Ok(MarkOutEvent::MarkLocked(spot)), &[]),
        MarkOutIntent::Unlock(spot) => (Ok(MarkOutEvent::MarkUnlocked(spot)), &[]),
        MarkOutIntent::TakenAs(taken) => (Ok(MarkOutEvent::TakenAs(taken)), &[]),
        MarkOutIntent::CentreBy(by) => (Ok(MarkOutEvent::CentreFound(by)), &[]),
        MarkOutIntent::HalveWidth => return halve_width(app, now),
        MarkOutIntent::ChangeTapeLimit(limit) => (
            job::read_tape_limit(job.typed(Field::TapeLimit(limit)))
                .map(|value| MarkOutEvent::TapeLimitChanged(limit, value)),
            &[],
        ),
        MarkOutIntent::TapeLimitsFromApp => (
            Ok(MarkOutEvent::TapeLimitsFromApp),
            &[
                Field::TapeLimit(TapeLimit::Mark),
                Field::TapeLimit(TapeLimit::Gap),
                Field::TapeLimit(TapeLimit::Symmetry),
                Field::TapeLimit(TapeLimit::Level),
            ],
        ),
        MarkOutIntent::TakeRow(line) => (typed_row(job, line).map(MarkOutEvent::RowTyped), &[]),
        MarkOutIntent::DropRow => (
            Ok(MarkOutEvent::RowCleared),
            &[Field::RowFromLine, Field::RowHeight, Field::RowLineWhat],
        ),
        MarkOutIntent::AwayFrom(spot) => {
            let area = job::away_from(job, spot).map_err(|refusal| refusal.0);
            (area.map(MarkOutEvent::NoDrillAdded), &[])
        }
    };
    let what = match what {
        Ok(what) => what,
        Err(message) => {
            app.notice = Some(Notice {
                message,
                undo: None,
            });
            return Vec::new();
        }
    };
    let lost = lost_by(app, &what);
    let before = app.job().cloned();
    app.notice = None;
    let mut actions = event(app, JobEvent::MarkOut(what), Back::Step, now);
    if app.job() != before.as_ref() {
        for field in cleared {
            actions.extend(work::typed(app, *field, String::new(), now));
        }
        if let Some(message) = lost {
            app.notice = Some(Notice {
                message,
                undo: Some(UndoOf::Step),
            });
        }
        if let Some(spot) = away {
            let between = app.job().cloned();
            actions.extend(solved_again(app, spot, now));
            one_step(app, between.as_ref());
        }
    }
    actions
}

/// Both half widths from the full width, and that the centre line is its half.
fn halve_width(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let halves = match job::halved(job) {
        Ok(halves) => halves,
        Err(message) => {
            app.notice = Some(Notice {
                message,
                undo: None,
            });
            return Vec::new();
        }
    };
    let by = MarkOutEvent::CentreFound(CentreBy::FullWidth);
    let mut actions = event(app, JobEvent::MarkOut(by), Back::Step, now);
    for (field, text) in halves {
        actions.extend(work::typed(app, field, text, now));
    }
    actions
}

/// The area and the marks that follow from it are taken back together: the
/// job between them is no step.
fn one_step(app: &mut AppState, between: Option<&job::JobState>) {
    let Some(open) = &mut app.open else {
        return;
    };
    if between.is_some() && open.before.last() == between {
        open.before.pop();
    }
}

/// The plan as it was asked for, solved around what is new. Marks that are
/// no plan's stay where the mark in question can go alone. Where there is no
/// place, the last marks stay and the reason is said.
fn solved_again(app: &mut AppState, spot: usize, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let kind = match job.marks.as_ref().map(|marks| marks.from) {
        Some(MarksFrom::Plan(kind)) => kind,
        _ => {
            if let Some(to) = job::moved_alone(job, spot) {
                return moved_alone(app, spot, to, now);
            }
            PlanKind::Symmetric
        }
    };
    match job::plans(job) {
        Some(Err(none)) => {
            let message = job::no_plan_messages(job, &none).into_iter().next();
            app.notice = message.map(|message| Notice {
                message,
                undo: Some(UndoOf::Step),
            });
            Vec::new()
        }
        _ => work::plan_marks(app, kind, now),
    }
}

/// One mark goes where it can, every other stays.
fn moved_alone(app: &mut AppState, spot: usize, to: Offset, now: &Now) -> Vec<Action> {
    let what = MarkOutEvent::MarkMoved { spot, to };
    let lost = lost_by(app, &what);
    let mut actions = event(app, JobEvent::MarkOut(what), Back::Step, now);
    if actions.is_empty() {
        return actions;
    }
    actions.extend(work::go_step(app, Step::Marks));
    if let Some(message) = lost {
        app.notice = Some(Notice {
            message,
            undo: Some(UndoOf::Step),
        });
    }
    actions
}

/// The readings that a moved mark or a moved row loses, if there are any.
fn lost_by(app: &AppState, what: &MarkOutEvent) -> Option<Message> {
    let job = app.job()?;
    let (spot, to) = match what {
        MarkOutEvent::MarkMoved { spot, to } => (spot, to),
        MarkOutEvent::RowTyped(row) => return job::row_voids(job, Some(*row)),
        MarkOutEvent::RowCleared => return job::row_voids(job, None),
        _ => return None,
    };
    let mut offsets = job.marks.as_ref()?.offsets.clone();
    *offsets.get_mut(*spot)? = *to;
    job::readings_lost(job, &offsets)
}

fn typed_area(job: &job::JobState, why: NoDrillReason) -> Result<NoDrill, Message> {
    let from = job::typed_offset(job, Field::NoDrillFrom)?;
    let to = job::typed_offset(job, Field::NoDrillTo)?;
    let why = match why {
        NoDrillReason::Other(_) => {
            NoDrillReason::Other(job.typed(Field::NoDrillWhat).trim().to_owned())
        }
        named => named,
    };
    Ok(NoDrill { from, to, why })
}

fn typed_limit(job: &job::JobState, limit: Limit) -> Result<Millimetres, Message> {
    read_length(job.typed(Field::Limit(limit)))
}

fn typed_row(job: &job::JobState, line: Option<RowLine>) -> Result<Row, Message> {
    let from_line = job::read_from_line(job.typed(Field::RowFromLine))?;
    let height = job.typed(Field::RowHeight).trim();
    let above_ground = if height.is_empty() {
        None
    } else {
        Some(job::read_row_height(height)?)
    };
    Ok(Row {
        from_line,
        above_ground,
        line,
    })
}

pub(super) fn check(app: &mut AppState, intent: CheckIntent, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let what = match intent {
        CheckIntent::TapeReady => match job::check_view(job) {
            Some(view) => {
                let readings: Result<Vec<_>, Message> = view.readings.into_iter().collect();
                readings.map(CheckEvent::TapeReady)
            }
            None => Err(msg("refused-no-marks")),
        },
        CheckIntent::TakePhotos => return take_photos(app, now),
        CheckIntent::Seen(spot) => Ok(CheckEvent::SeenFromBehind(spot)),
        CheckIntent::NotSeen(spot) => Ok(CheckEvent::NotSeenFromBehind(spot)),
        CheckIntent::Agree(how) => Ok(CheckEvent::Agreed {
            name: job.typed(Field::AgreedName).to_owned(),
            how,
        }),
        CheckIntent::NotAgreed => Ok(CheckEvent::NotAgreed),
    };
    match what {
        Ok(what) => event(app, JobEvent::Check(what), Back::Step, now),
        Err(message) => {
            app.notice = Some(Notice {
                message,
                undo: None,
            });
            Vec::new()
        }
    }
}

/// Fills the tape's fields from the photos; what they do not know well
/// enough is said.
fn take_photos(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let (fields, said) = match job::tape_by_photos(job) {
        Ok(taken) => (taken.fields, taken.left),
        Err(why) => (Vec::new(), Some(why)),
    };
    let mut actions = Vec::new();
    for (field, text) in fields {
        actions.extend(work::typed(app, field, text, now));
    }
    if let Some(message) = said {
        app.notice = Some(Notice {
            message,
            undo: None,
        });
    }
    actions
}
