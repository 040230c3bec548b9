//! How the ground lies, how round the face is, what the vehicle carries.

use rakeline_core::estimate::contact::{ABOVE_TO_BELOW, Roundness};
use rakeline_core::estimate::ground::{Ground, MOST_FLAT_TILT};
use rakeline_core::estimate::rake::{Seat, Side, plausible, rake_against_gravity};
use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::still::StillReading;
use rakeline_core::estimate::zero::Phone;
use rakeline_core::job::{self, Field, Load, MeasuringEvent};
use rakeline_core::moment;
use rakeline_core::text::{Message, msg};
use rakeline_core::units::{Degrees, Estimate};

use super::held::{self, Beside, BoardWay, Target};
use super::intent::{Action, Now};
use super::keeping;
use super::phone::{self, Bay};
use super::state::{AppState, Notice};

/// A board being read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BoardDraft {
    /// Finished places, each read both ways round.
    pub pairs: Vec<(StillReading, StillReading)>,
    /// The first reading of the place under way.
    pub first: Option<StillReading>,
}

/// 'Ground looks level' in one tap.
pub(super) fn looks_level(app: &mut AppState, now: &Now) -> Vec<Action> {
    phone::event(app, MeasuringEvent::GroundFound(Ground::looks_level()), now)
}

/// Starts the board at its first place.
pub(super) fn board_start(app: &mut AppState) -> Vec<Action> {
    app.drafts.board = BoardDraft::default();
    board_more(app)
}

/// Reads the board at one more place.
pub(super) fn board_more(app: &mut AppState) -> Vec<Action> {
    app.drafts.board.first = None;
    let mut actions = held::start(app, Target::Board(BoardWay::Forward));
    actions.extend(phone::say(app, msg("board-forward")));
    actions
}

/// A still window on the board.
pub(super) fn board_taken(
    app: &mut AppState,
    way: BoardWay,
    still: &StillReading,
    now: &Now,
) -> Result<Vec<Action>, Message> {
    // Anything that is no board is refused at its first reading.
    let lean = Degrees(90.0) - Degrees::asin(still.up.0[2]);
    if lean > MOST_FLAT_TILT {
        return Err(msg("ground-not-flat").deg("lean", lean.0));
    }
    match (way, app.drafts.board.first) {
        (BoardWay::Forward, _) | (_, None) => {
            app.drafts.board.first = Some(*still);
            held::aim(app, Target::Board(BoardWay::Turned), Some(still));
            let mut actions = held::captured();
            actions.extend(phone::say(app, msg("board-turned")));
            Ok(actions)
        }
        (BoardWay::Turned, Some(first)) => {
            let mut pairs = app.drafts.board.pairs.clone();
            pairs.push((first, *still));
            let ground = Ground::board(&pairs, Seating::Assumed)?;
            app.drafts.board = BoardDraft { pairs, first: None };
            let mut actions = held::stop(app);
            actions.extend(phone::event(app, MeasuringEvent::GroundFound(ground), now));
            actions.extend(held::done());
            actions.extend(phone::say(app, msg("say-ground-read")));
            Ok(actions)
        }
    }
}

/// The typed nose up/down along the sill counts.
pub(super) fn sill_taken(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    match job::read_degrees(job.typed(Field::SillAngle)) {
        Ok(nose_up) if nose_up.abs().0 <= 12.0 => {
            phone::event(app, MeasuringEvent::GroundFound(Ground::sill(nose_up)), now)
        }
        Ok(nose_up) => refuse(
            app,
            msg("ground-too-steep")
                .deg("slope", nose_up.abs().0)
                .deg("limit", 12.0),
        ),
        Err(why) => refuse(app, why),
    }
}

fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    held::refused()
}

/// Saves the ground of the job as a bay by the typed name; the same name is
/// measured anew.
pub(super) fn save_bay(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let name = job.typed(Field::BayName).trim().to_owned();
    if name.is_empty() {
        return refuse(app, msg("bay-no-name"));
    }
    let measured = moment::sorted_date(&now.at);
    let ground = job.ground.clone().saved_as(name.clone(), measured);
    app.settings.bays.retain(|bay| bay.name != name);
    app.settings.bays.insert(
        0,
        Bay {
            name,
            ground: ground.clone(),
            at: now.at,
        },
    );
    phone::event(app, MeasuringEvent::GroundFound(ground), now)
}

/// The job stands in a saved bay.
pub(super) fn use_bay(app: &mut AppState, name: &str, now: &Now) -> Vec<Action> {
    let bay = app.settings.bays.iter().find(|bay| bay.name == name);
    let Some(ground) = bay.map(|bay| bay.ground.clone()) else {
        return Vec::new();
    };
    phone::event(app, MeasuringEvent::GroundFound(ground), now)
}

/// A bay is forgotten; a job that stands in it keeps its figures.
pub(super) fn drop_bay(app: &mut AppState, name: &str) -> Vec<Action> {
    app.settings.bays.retain(|bay| bay.name != name);
    keeping::save(app)
}

/// The fitter's own allowance for load counts.
pub(super) fn own_load(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    match job::read_degrees(job.typed(Field::LoadOwn)) {
        Ok(own) => phone::event(app, MeasuringEvent::LoadSaid(Load::Own(own)), now),
        Err(why) => refuse(app, why),
    }
}

/// Starts the two readings that find how round the face is.
pub(super) fn round_start(app: &mut AppState) -> Vec<Action> {
    app.drafts.above = None;
    let mut actions = held::start(app, Target::Round(Beside::Above));
    actions.extend(phone::say(app, msg("round-above")));
    actions
}

/// A still window above or below the mark.
pub(super) fn beside_taken(
    app: &mut AppState,
    beside: Beside,
    still: &StillReading,
    now: &Now,
) -> Result<Vec<Action>, Message> {
    let angle = angle_of(app, still, now);
    plausible(angle.value)?;
    match (beside, app.drafts.above) {
        (Beside::Above, _) | (_, None) => {
            app.drafts.above = Some(*still);
            held::aim(app, Target::Round(Beside::Below), Some(still));
            let mut actions = held::captured();
            actions.extend(phone::say(app, msg("round-below")));
            Ok(actions)
        }
        (Beside::Below, Some(above)) => {
            let above = angle_of(app, &above, now);
            let found = Roundness::from_readings(above, angle, ABOVE_TO_BELOW);
            app.drafts.above = None;
            let mut actions = held::stop(app);
            actions.extend(phone::event(
                app,
                MeasuringEvent::RoundnessFound(found),
                now,
            ));
            actions.extend(held::done());
            Ok(actions)
        }
    }
}

/// The face angle against gravity; the phone's own error is common to both
/// readings and does not count.
fn angle_of(app: &AppState, still: &StillReading, now: &Now) -> Estimate<Degrees> {
    let plain = || rake_against_gravity(still.up, Side::Back, Seat::default());
    let value = match phone::in_use(app, now).0 {
        Phone::Zeroed(zeroing) => zeroing
            .rake(still, Side::Back)
            .map_or_else(plain, |rake| rake.value),
        Phone::Unzeroed => plain(),
    };
    let u = still.u_noise.0.hypot(Seating::Assumed.u().0);
    Estimate::new(value, Degrees(u))
}
