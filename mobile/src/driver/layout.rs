//! The mark-out beyond the half widths, and what is checked before drilling.

use rakeline_core::decide::mark_out::{NoDrill, NoDrillReason, PlanKind};
use rakeline_core::job::{
    self, AgreedHow, CheckEvent, Field, JobEvent, Limit, MarkOutEvent, MarksFrom, Row, Taken,
    read_length,
};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::{Millimetres, Offset};

use super::intent::{Action, Now};
use super::state::{AppState, Notice, UndoOf};
use super::work::{self, Back, event};

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
    /// The typed height of the row counts.
    TakeRow,
    /// How the tape lies.
    TakenAs(Taken),
    /// The spot cannot be served here: its mark moves at least so far.
    AwayFrom(usize),
}

/// What the fitter says before drilling.
#[derive(Clone, Debug, PartialEq)]
pub enum CheckIntent {
    /// The typed tape readings count.
    TapeReady,
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
        MarkOutIntent::TakeRow => (typed_row(job).map(MarkOutEvent::RowTyped), &[]),
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
    let solve_again =
        matches!(&what, MarkOutEvent::NoDrillAdded(area) if area.why == NoDrillReason::FaceAngle);
    let before = app.job().cloned();
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
        if solve_again {
            actions.extend(solved_again(app, now));
        }
    }
    actions
}

/// The plan as it was asked for, solved around what is new. Where there is
/// none, the last marks stay and the reason is said.
fn solved_again(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let kind = match job.marks.as_ref().map(|marks| marks.from) {
        Some(MarksFrom::Plan(kind)) => kind,
        _ => PlanKind::Symmetric,
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

/// The reading that a moved mark loses, if there is one.
fn lost_by(app: &AppState, what: &MarkOutEvent) -> Option<Message> {
    let MarkOutEvent::MarkMoved { spot, to } = what else {
        return None;
    };
    let job = app.job()?;
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

fn typed_row(job: &job::JobState) -> Result<Row, Message> {
    let from_line = read_length(job.typed(Field::RowFromLine))?;
    let height = job.typed(Field::RowHeight).trim();
    let above_ground = if height.is_empty() {
        None
    } else {
        Some(read_length(height)?)
    };
    Ok(Row {
        from_line,
        above_ground,
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
