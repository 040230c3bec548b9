//! Zeroing: four poses on a wall, two more on a table where the fitter
//! wants them.

use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::still::StillReading;
use rakeline_core::estimate::zero::Zeroing;
use rakeline_core::estimate::zero::poses::{Pose, PoseReading, check_pose};
use rakeline_core::estimate::zero::solve::zero_phone;
use rakeline_core::text::{Message, msg};

use super::held::{self, Target};
use super::intent::{Action, Now};
use super::keeping;
use super::phone;
use super::state::AppState;

/// A zeroing under way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ZeroDraft {
    /// Poses read so far.
    pub poses: Vec<PoseReading>,
    /// Why the poses gave nothing.
    pub fault: Option<Message>,
    /// What was known before this zeroing, for the way back.
    pub before: Option<Option<Zeroing>>,
}

impl ZeroDraft {
    /// Poses of the series under way: four, or six with the table.
    #[must_use]
    pub fn wanted(&self) -> usize {
        if self.poses.len() > Pose::WALL {
            Pose::ALL.len()
        } else {
            Pose::WALL
        }
    }
}

/// Starts, or starts over, on the wall.
pub(super) fn start(app: &mut AppState) -> Vec<Action> {
    app.drafts.zero.poses.clear();
    app.drafts.zero.fault = None;
    ask(app, Pose::BackUpright, None)
}

/// Goes on with the two table poses.
pub(super) fn tables(app: &mut AppState) -> Vec<Action> {
    if app.drafts.zero.poses.len() != Pose::WALL {
        return Vec::new();
    }
    ask(app, Pose::Table, None)
}

fn ask(app: &mut AppState, pose: Pose, after: Option<&StillReading>) -> Vec<Action> {
    let mut actions = Vec::new();
    match after {
        Some(_) => held::aim(app, Target::Pose(pose), after),
        None => actions.extend(held::start(app, Target::Pose(pose))),
    }
    actions.extend(phone::say(app, pose.ask()));
    actions
}

/// A still window in a pose.
pub(super) fn taken(
    app: &mut AppState,
    pose: Pose,
    still: &StillReading,
    now: &Now,
) -> Result<Vec<Action>, Message> {
    let next = PoseReading {
        pose,
        still: *still,
    };
    check_pose(&app.drafts.zero.poses, &next).map_err(|bad| bad.message())?;
    app.drafts.zero.poses.push(next);
    let count = app.drafts.zero.poses.len();
    if count == Pose::WALL || count == Pose::ALL.len() {
        return Ok(finish(app, now));
    }
    let mut actions = held::captured();
    if let Some(pose) = Pose::ALL.get(count) {
        actions.extend(ask(app, *pose, Some(still)));
    }
    Ok(actions)
}

/// Solves the poses and keeps what they give.
fn finish(app: &mut AppState, now: &Now) -> Vec<Action> {
    let mut actions = held::stop(app);
    let poses = &app.drafts.zero.poses;
    let profile = phone::profile(app);
    match zero_phone(poses, profile, Seating::Assumed, phone::epoch(now)) {
        Ok(zeroing) => {
            if app.drafts.zero.before.is_none() {
                app.drafts.zero.before = Some(app.settings.phone.zeroing.take());
            }
            app.settings.phone.zeroing = Some(zeroing);
            app.settings.phone.device.clone_from(&app.device);
            app.drafts.zero.fault = phone::put_into_job(app, now).err();
            actions.extend(keeping::save(app));
            actions.extend(held::done());
            actions.extend(phone::say(app, msg("say-zeroed")));
        }
        Err(fault) => {
            app.drafts.zero.poses.clear();
            let why = fault.message();
            app.drafts.zero.fault = Some(why.clone());
            actions.extend(held::refused());
            actions.extend(phone::say(app, why));
        }
    }
    actions
}

/// Puts back what was known before this zeroing.
pub(super) fn put_back(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(before) = app.drafts.zero.before.take() else {
        return Vec::new();
    };
    app.settings.phone.zeroing = before;
    app.drafts.zero.poses.clear();
    app.drafts.zero.fault = phone::put_into_job(app, now).err();
    keeping::save(app)
}
