//! Corner angles: a sweep left to right that starts and ends on the centre,
//! or typed figures.

use rakeline_core::estimate::rake::Side;
use rakeline_core::estimate::still::StillReading;
use rakeline_core::estimate::turn::Station;
use rakeline_core::job::{self, Field, JobEvent, MeasuringEvent};
use rakeline_core::order;
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Millimetres;

use super::held::{self, Target};
use super::intent::{Action, Now};
use super::phone;
use super::state::{AppState, Notice};

/// A sweep under way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SweepDraft {
    /// Tape figures of its places, left to right, without the centre.
    pub places: Vec<Millimetres>,
    /// Places read so far, the centre first.
    pub stations: Vec<Station>,
    /// Why the last sweep did not count.
    pub fault: Option<Message>,
}

impl SweepDraft {
    /// The tape figure of a station in the order of going: the centre,
    /// the places, the centre.
    #[must_use]
    pub fn along(&self, station: usize) -> Millimetres {
        station
            .checked_sub(1)
            .and_then(|place| self.places.get(place).copied())
            .unwrap_or(Millimetres(0.0))
    }

    /// Stations in all: the places, and the centre twice.
    #[must_use]
    pub fn count(&self) -> usize {
        self.places.len() + 2
    }
}

/// Where the sweep stops: what is typed, else a place at each mark. Before
/// there are marks, only what is typed.
///
/// # Errors
/// What is wrong with a figure.
pub fn sweep_places(job: &job::JobState) -> Result<Vec<Millimetres>, Message> {
    let mut places = Vec::new();
    for index in 0..job.spots.len() {
        let typed = job.typed(sweep_field(index)).trim();
        let marks = job.marks.as_ref();
        let mark = marks.and_then(|marks| marks.offsets.get(index));
        if !typed.is_empty() {
            places.push(job::read_tape_place(typed)?);
        } else if let Some(offset) = mark {
            places.push(Millimetres(offset.0));
        }
    }
    order::sort_by(&mut places, |a, b| a.0.total_cmp(&b.0));
    Ok(places)
}

/// The field of a place of the sweep.
#[must_use]
pub fn sweep_field(place: usize) -> Field {
    Field::SweepTape(u8::try_from(place).unwrap_or(u8::MAX))
}

/// The field of a spot's typed corner angle.
#[must_use]
pub fn corner_field(spot: usize) -> Field {
    Field::CornerAngle(u8::try_from(spot).unwrap_or(u8::MAX))
}

/// Starts, or starts over, on the centre.
pub(super) fn start(app: &mut AppState) -> Vec<Action> {
    let places = match app.job().map(sweep_places) {
        Some(Ok(places)) if !places.is_empty() => places,
        Some(Err(why)) => return refuse(app, why),
        Some(Ok(_)) => return refuse(app, msg("sweep-no-places")),
        None => return Vec::new(),
    };
    app.drafts.sweep = SweepDraft {
        places,
        ..SweepDraft::default()
    };
    let mut actions = held::start(app, Target::Station(0));
    actions.extend(phone::say(app, msg("sweep-on-centre")));
    actions
}

fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    held::refused()
}

/// What the fitter is asked for at a station.
#[must_use]
pub fn station_words(sweep: &SweepDraft, station: usize) -> Message {
    if station == 0 {
        return msg("sweep-on-centre");
    }
    if station + 1 >= sweep.count() {
        return msg("sweep-centre-again");
    }
    let along = sweep.along(station);
    msg(if along.0 < 0.0 {
        "sweep-at-left"
    } else {
        "sweep-at-right"
    })
    .mm("along", along.abs().0)
}

/// A still window at a station.
pub(super) fn taken(
    app: &mut AppState,
    station: usize,
    still: &StillReading,
    now: &Now,
) -> Result<Vec<Action>, Message> {
    let (phone_now, _) = phone::in_use(app, now);
    let along = app.drafts.sweep.along(station);
    let read = Station::from_still(along, still, Side::Back, &phone_now)?;
    let sweep = &mut app.drafts.sweep;
    sweep.stations.push(read);
    let next = station + 1;
    if next < sweep.count() {
        let words = station_words(sweep, next);
        held::aim(app, Target::Station(next), Some(still));
        let mut actions = held::captured();
        actions.extend(phone::say(app, words));
        return Ok(actions);
    }
    let stations = std::mem::take(&mut sweep.stations);
    let mut actions = held::stop(app);
    let closed = app
        .job()
        .map(|job| rakeline_core::estimate::turn::close_sweep(&stations, &job.ground));
    match closed {
        Some(Err(why)) => {
            app.drafts.sweep.fault = Some(why.clone());
            actions.extend(held::refused());
            actions.extend(phone::say(app, why));
        }
        _ => {
            actions.extend(phone::event(app, MeasuringEvent::Swept(stations), now));
            actions.extend(held::done());
            actions.extend(phone::say(app, msg("say-swept")));
        }
    }
    Ok(actions)
}

/// The typed corner angles count; an empty field takes one out.
pub(super) fn take_typed(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let mut events = Vec::new();
    for spot in 0..job.spots.len() {
        let typed = job.typed(corner_field(spot)).trim().to_owned();
        if !typed.is_empty() {
            match job::read_corner(&typed) {
                Ok(turn) => events.push(MeasuringEvent::TurnTyped { spot, turn }),
                Err(why) => return refuse(app, why),
            }
        } else if job.measuring.typed_turn(spot).is_some() {
            events.push(MeasuringEvent::TurnDropped { spot });
        }
    }
    let mut actions = Vec::new();
    for (index, event) in events.into_iter().enumerate() {
        let back = if index == 0 {
            super::work::Back::Step
        } else {
            super::work::Back::Typing
        };
        actions = super::work::event(app, JobEvent::Measuring(event), back, now);
    }
    actions
}
